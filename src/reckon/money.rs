//! What does a log cost, and what may it bring?
//!
//! | quantity | formula |
//! |---|---|
//! | cost of a log | its part of the packages + its hours × wage |
//! | return of a log | yield over its life × price |
//! | break-even yield | cost / price |
//! | what a weight was sold for | taken / (sold / that weight) |
//!
//! The farm's own prices are put in; the published budgets stand beside the answer as a check: CORN-4M and MOFGA15 ($4.74 a
//! log, 4–5 lb, $40–80), SAB96 ($6.44 a log, $1,509 net of $2,475 gross a cord), SZY ($4.00–9.00 a pound). Money is a plain
//! number in the farm's currency. Not rounded here.

use super::formula::Formula;
use crate::quantity::Mass;
use crate::record::said::Mark;

/// Cost and return of a log.
pub const COST: Formula = Formula {
    name: "Cost and return of a log",
    math: r#"<math display="block"><mrow><mi>c</mi><mo>=</mo><mfrac><mrow><msub><mi>p</mi><mrow><mi>spawn</mi></mrow></msub></mrow><mrow><mi>m</mi></mrow></mfrac><mo>+</mo><mfrac><mrow><msub><mi>p</mi><mrow><mi>wax</mi></mrow></msub></mrow><mrow><mi>M</mi></mrow></mfrac><mo>+</mo><mi>t</mi><mo>·</mo><mi>h</mi><mspace width="2em"/><mi>r</mi><mo>=</mo><mi>l</mi><mo>·</mo><mi>q</mi><mspace width="2em"/><msub><mi>l</mi><mrow><mn>0</mn></mrow></msub><mo>=</mo><mfrac><mrow><mi>c</mi></mrow><mrow><mi>q</mi></mrow></mfrac></mrow></math>"#,
    words: "What packages cost, shared over the logs, and the hours; the return is a published yield times the farm's price; a log pays for itself at l₀.",
    symbols: &[
        ("p", "cost of the packages"),
        ("m, M", "logs of the strain, logs in all"),
        ("t, h", "hours a log, cost of an hour"),
        ("l, q", "yield over a life, price by weight"),
    ],
    sources: &[],
    own: "the farm's own prices",
};

/// Cost of one log.
///
/// ```
/// assert_eq!(hostwood::reckon::money::cost(2.5, 0.25, 18.0), 7.0); // own arithmetic
/// ```
pub fn cost(packages: f64, hours: f64, an_hour: f64) -> f64 {
    packages + hours * an_hour
}

/// What a weight brings at a price for another weight.
///
/// ```
/// use hostwood::{quantity::Mass, reckon::money::worth};
/// let pounds = |text| Mass::read(text).unwrap();
/// assert!((worth(&pounds("4 lb"), 10.0, &pounds("1 lb")) - 40.0).abs() < 1e-9); // WE-17: 4 lb at $10 is $40
/// assert!((worth(&pounds("2.97 lb"), 4.5, &pounds("1 lb")) - 13.365).abs() < 1e-9); // WE-16
/// ```
pub fn worth(mass: &Mass, price: f64, per: &Mass) -> f64 {
    mass.base() / per.base() * price
}

/// The yield at which a log pays for itself.
///
/// ```
/// use hostwood::{quantity::Mass, reckon::money::break_even};
/// let yielded = break_even(13.365, 4.5, &Mass::read("1 lb").unwrap());
/// assert!((yielded.pounds() - 2.97).abs() < 1e-9); // WE-16: 2.97 lb at $4.50
/// ```
pub fn break_even(cost: f64, price: f64, per: &Mass) -> Mass {
    Mass::of_kilograms(cost / price * per.base())
}

/// What was taken for a weight, of all that was taken for what was sold; `None` where nothing was sold.
///
/// ```
/// use hostwood::{quantity::Mass, reckon::money::sold_for};
/// let pounds = |text| Mass::read(text).unwrap();
/// assert!((sold_for(40.0, &pounds("4 lb"), &pounds("1 lb")).unwrap() - 10.0).abs() < 1e-9); // WE-17, the other way
/// assert_eq!(sold_for(0.0, &pounds("0 lb"), &pounds("1 lb")), None);
/// ```
pub fn sold_for(taken: f64, sold: &Mass, per: &Mass) -> Option<f64> {
    (sold.base() > 0.0).then(|| taken / (sold.base() / per.base()))
}

/// A budget that somebody published, in dollars of its day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Budget {
    /// The id of its source.
    pub source: &'static str,
    /// How it came here.
    pub mark: Mark,
    /// Cost of one log.
    pub cost: Option<f64>,
    /// What one log brings, least and most.
    pub returns: Option<[f64; 2]>,
    /// Yield at which a log pays for itself, in pounds.
    pub break_even_pounds: Option<f64>,
    /// What it says, in our own words.
    pub says: &'static str,
}

/// The published budgets, as worked examples WE-15 to WE-17 give them.
///
/// ```
/// let [_, sab96, _] = hostwood::reckon::money::PUBLISHED;
/// let logs = (2475.0 - 1509.0) / sab96.cost.unwrap();
/// assert!((logs - 150.0).abs() < 1e-9); // WE-15: gross less net is what 150 logs a cord cost
/// assert!((sab96.returns.unwrap()[0] * logs - 2475.0).abs() < 1e-9);
/// ```
pub const PUBLISHED: [Budget; 3] = [
    Budget {
        source: "corn-4m",
        mark: Mark::Read,
        cost: Some(4.74),
        returns: Some([40.0, 80.0]),
        break_even_pounds: None,
        says: "materials and work to inoculate one log; a good log gives 4 to 5 lb over three seasons",
    },
    Budget {
        source: "sab96",
        mark: Mark::Read,
        cost: Some(6.44),
        returns: Some([16.5, 16.5]),
        break_even_pounds: None,
        says: "gross $2,475 and net $1,509 a cord, from which 150 logs a cord follow",
    },
    Budget {
        source: "szy",
        mark: Mark::Copy,
        cost: None,
        returns: None,
        break_even_pounds: Some(2.97),
        says: "500 logs in Kentucky: at $4.50 a pound a log must give more than 2.97 lb",
    },
];
