//! How much spawn and wax?
//!
//! A package of mass P fills n logs of diameter D₀ and length L₀. A log of another size takes spawn in proportion to its
//! bark, since holes go by the surface:
//!
//! s = (P / n) × (D L) / (D₀ L₀)
//!
//! | symbol | meaning |
//! |---|---|
//! | s | spawn for one log |
//! | P, n | mass of the package, logs that it fills (from fewest to most) |
//! | D, L | diameter and length of the log |
//! | D₀, L₀ | diameter (middle of the stated range) and length for which n holds |
//!
//! Packages for m logs: ceil(m s / P). Source: common practice (5.5 lb does 20–25 logs of 4–6 in × 40 in). For wax and for
//! the time a log takes nothing is published; the farm times and weighs its first five.

use super::formula::Formula;
use crate::quantity::{Date, Length, Mass};
use crate::record::method::SpawnRate;
use crate::record::said::Mark;

/// Months within which an opened bag is used up, and who says so.
pub const OPENED_MONTHS: (i32, &str) = (1, "ext-totem");

/// The last day of a bag of spawn that was opened on a day.
///
/// ```
/// use hostwood::{quantity::Date, reckon::spawn::use_up};
/// assert_eq!(use_up(Date::read("2027-03-31").unwrap()).written(), "2027-04-30"); // by the calendar: within a month
/// ```
pub fn use_up(opened: Date) -> Date {
    Date(opened.0.saturating_add(jiff::Span::new().months(OPENED_MONTHS.0)))
}

/// Spawn for one log and packages for many, from the thriftiest to the most generous filling.
#[derive(Debug, Clone, PartialEq)]
pub struct Need {
    /// How large the log is beside those of the package, as a part of one.
    pub size: f64,
    /// Least spawn for one log.
    pub least: Mass,
    /// Most spawn for one log.
    pub most: Mass,
    /// Packages, least.
    pub packages_least: u32,
    /// Packages, most.
    pub packages_most: u32,
}

/// Spawn for a log.
pub const SPAWN: Formula = Formula {
    name: "Spawn for a log",
    math: r#"<math display="block"><mrow><mi>s</mi><mo>=</mo><mfrac><mi>P</mi><mi>n</mi></mfrac><mo>·</mo><mfrac><mrow><mi>D</mi><mi>L</mi></mrow><mrow><msub><mi>D</mi><mn>0</mn></msub><msub><mi>L</mi><mn>0</mn></msub></mrow></mfrac><mspace width="2em"/><mi>packages</mi><mo>=</mo><mo>⌈</mo><mfrac><mrow><mi>m</mi><mi>s</mi></mrow><mi>P</mi></mfrac><mo>⌉</mo></mrow></math>"#,
    words: "The package divided by the logs it fills, in proportion to the bark of the log; packages are rounded up.",
    symbols: &[
        ("P, n", "weight of the package, logs that it fills"),
        ("D, L", "diameter and length of the log"),
        ("D₀, L₀", "diameter (middle of the stated range) and length for which n holds"),
        ("m", "number of logs"),
    ],
    sources: &[("common-practice", Mark::Memory)],
    own: "the scaling by bark is this handbook's own",
};

/// Spawn for a number of logs of one size.
///
/// ```
/// use hostwood::{quantity::Length, reckon::spawn::need};
/// // Common practice: 5.5 lb does 20 to 25 logs of 4 to 6 in by 40 in, so 108 such logs take 5 to 6 bags.
/// let rate = r#"{"form": "sawdust", "package": "5.5 lb", "logs": [20, 25], "diameter": ["4 in", "6 in"],
///     "length": "40 in", "source": "common-practice"}"#;
/// let rate = serde_json::from_str(rate).unwrap();
/// let need = need(&rate, &Length::of_inches(5.0), &Length::of_inches(40.0), 108);
/// assert_eq!((need.packages_least, need.packages_most), (5, 6));
/// ```
pub fn need(rate: &SpawnRate, diameter: &Length, length: &Length, logs: u32) -> Need {
    let size = diameter.base() * length.base() / (rate.diameter.middle().base() * rate.length.base());
    let [least, most] = [rate.logs.high, rate.logs.low].map(|logs| &rate.package * (size / logs));
    let packages = |each: &Mass| (f64::from(logs) * each.base() / rate.package.base() - 1e-9).ceil().max(0.0) as u32;
    Need { size, packages_least: packages(&least), packages_most: packages(&most), least, most }
}
