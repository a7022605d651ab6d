//! Which packages cover a need most cheaply?
//!
//! An unbounded integer choice, solved exactly: f(0) = 0, f(n) = min over packages of f(n − size) + price, where n − size
//! below nought is nought. Of equally cheap sets the one that leaves less over, then the one of fewer packages, then the one
//! of the package named earlier stands. Where no package has a price, the set that leaves least over stands, and costs are a
//! gap; where some have one, only those are weighed.
//!
//! Sizes and needs are whole numbers of any one small unit, prices whole hundredths. Source: dynamic programming, as in any textbook;
//! checked against exhaustive search.

use super::Gap;
use super::formula::Formula;

/// Needs above this are not weighed package by package.
const LARGEST: u64 = 5_000_000;

/// A package: how much is in it, and what it costs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Package {
    /// How much is in it, in the unit of the need.
    pub size: u64,
    /// Price in hundredths.
    pub price: Option<u64>,
}

/// A set of packages.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Purchase {
    /// How many of each package, in the order in which they were offered.
    pub counts: Vec<u32>,
    /// What they cost together, where they have prices.
    pub cost: Option<u64>,
    /// What they hold beyond the need.
    pub left_over: u64,
}

/// The cheapest packages.
pub const PACKAGES: Formula = Formula {
    name: "Cheapest packages",
    math: r#"<math display="block"><mrow><mi>f</mi><mo>(</mo><mi>n</mi><mo>)</mo><mo>=</mo><munder><mi>min</mi><mi>p</mi></munder><mo>(</mo><mi>f</mi><mo>(</mo><mi>n</mi><mo>−</mo><msub><mi>s</mi><mrow><mi>p</mi></mrow></msub><mo>)</mo><mo>+</mo><msub><mi>c</mi><mrow><mi>p</mi></mrow></msub><mo>)</mo></mrow></math>"#,
    words: "The cheapest way to cover a need ends with some package; before it, what is left is covered most cheaply too. Of equally cheap sets the one that leaves less over stands, then the one of fewer packages.",
    symbols: &[("n", "need, whole grams or pieces"), ("s, c", "what a package holds and costs")],
    sources: &[],
    own: "dynamic programming, as in any textbook; checked against exhaustive search",
};

/// The cheapest set of packages that covers a need.
///
/// # Errors
///
/// A [`Gap`] where nothing is on offer, or the need is beyond five million times what all packages are multiples of.
///
/// ```
/// use hostwood::reckon::supply::{Package, cheapest};
/// let offers = [Package { size: 100, price: Some(1200) }, Package { size: 300, price: Some(3000) }];
/// let bought = cheapest(410, &offers).unwrap();
/// assert_eq!((bought.counts, bought.cost, bought.left_over), (vec![2, 1], Some(5400), 90)); // by hand: 5400 beats 6000
/// ```
pub fn cheapest(need: u64, offers: &[Package]) -> Result<Purchase, Gap> {
    let priced = offers.iter().any(|offer| offer.size > 0 && offer.price.is_some());
    let usable = |offer: &Package| offer.size > 0 && offer.price.is_some() == priced;
    if !offers.iter().any(usable) {
        return Err(Gap::NotRecorded("a package on offer that holds it (`offers` in the plan)"));
    }
    let unit = offers.iter().filter(|offer| usable(offer)).fold(0, |unit, offer| divisor(unit, offer.size));
    let units = need.div_ceil(unit);
    if units > LARGEST {
        return Err(Gap::Outside("so much is beyond what is weighed package by package; ask for a price by the load"));
    }
    let mut best: Vec<Step> = vec![Step::default(); units as usize + 1];
    for n in 1..=units {
        let step = |(index, offer): (usize, &Package)| {
            let before = best[n.saturating_sub(offer.size / unit) as usize];
            let price = before.price + offer.price.unwrap_or(0);
            Step { price, size: before.size + offer.size, packages: before.packages + 1, offer: index }
        };
        let steps = offers.iter().enumerate().filter(|(_, offer)| usable(offer)).map(step);
        best[n as usize] = steps.min().unwrap_or_default();
    }
    let mut counts = vec![0; offers.len()];
    let mut n = units;
    while n > 0 {
        let offer = best[n as usize].offer;
        counts[offer] += 1;
        n = n.saturating_sub(offers[offer].size / unit);
    }
    let last = best[units as usize];
    Ok(Purchase { counts, cost: priced.then_some(last.price), left_over: last.size - need })
}

/// The best way to cover a need: compared by price, then size, then packages, then the package that it ends with.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
struct Step {
    price: u64,
    size: u64,
    packages: u32,
    offer: usize,
}

fn divisor(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { divisor(b, a % b) }
}
