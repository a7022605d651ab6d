//! How many holes?
//!
//! | rule | formula | source |
//! |---|---|---|
//! | by area | N = π D L / (a b) | geometry; spacing from the pattern's source |
//! | rows round a log | n = round(π D / b), at least one | geometry |
//! | by rows | N = round(D in inches) × floor((L − a) / a + 1) | common practice, a row for each inch of diameter |
//! | by weight | N = k W, W in pounds, k = 0.5, 1, 2 or 3 | SAB-DEN |
//! | by diameter | N ≥ 3 to 4 × D in centimetres | HRO09 |
//!
//! | symbol | meaning |
//! |---|---|
//! | D, L | diameter and length of the log |
//! | a, b | spacing along the log and between rows |
//! | W | weight of the log |
//!
//! Results are not rounded here; pages print whole holes.

use std::f64::consts::PI;

use super::beds::face;
use super::formula::Formula;
use crate::quantity::{Length, Mass, Volume};

/// Holes for each pound of log, from fewest to most as it is mostly done (SAB-DEN).
pub const A_POUND: [f64; 2] = [1.0, 2.0];

/// Inches from hole to hole along a row, by the rule of a row for each inch of diameter (common practice).
pub const ROW_INCHES: f64 = 6.0;

/// Holes by area.
pub const HOLES: Formula = Formula {
    name: "Holes",
    math: r#"<math display="block"><mrow><mi>N</mi><mo>=</mo><mfrac><mrow><mi>π</mi><mi>D</mi><mi>L</mi></mrow><mrow><mi>a</mi><mi>b</mi></mrow></mfrac></mrow></math>"#,
    words: "The bark of the log divided by the patch that one hole serves; whole holes are printed.",
    symbols: &[
        ("D, L", "diameter and length of the log"),
        ("a", "from hole to hole along the log"),
        ("b", "from row to row"),
    ],
    sources: &[],
    own: "geometry; the spacing is the pattern's",
};

/// Holes by area: each hole serves a patch of bark `along` × `between`.
///
/// ```
/// use hostwood::{quantity::Length, reckon::holes::by_area};
/// let inches = |n| Length::of_inches(n);
/// let holes = by_area(&inches(5.0), &inches(48.0), &inches(6.0), &inches(3.0));
/// assert!((holes - 41.9).abs() < 0.05); // derived check value for a 5 in × 48 in log
/// ```
pub fn by_area(diameter: &Length, length: &Length, along: &Length, between: &Length) -> f64 {
    girth(diameter).base() * length.base() / (along.base() * between.base())
}

/// Whole rows round a log, as nearly `between` apart as they go round.
///
/// ```
/// use hostwood::{quantity::Length, reckon::holes::rows};
/// let inches = |n| Length::of_inches(n);
/// assert_eq!(rows(&inches(5.0), &inches(3.0)), 5); // 15.7 in round, 3 in apart
/// ```
pub fn rows(diameter: &Length, between: &Length) -> u32 {
    (girth(diameter).base() / between.base()).round().max(1.0) as u32
}

/// What a tape round a log shows.
///
/// ```
/// use hostwood::{quantity::Length, reckon::holes::girth};
/// assert!((girth(&Length::of_inches(5.0)).inches() - 15.71).abs() < 0.005); // WE-08: 5 in across is about 16 in around
/// ```
pub fn girth(diameter: &Length) -> Length {
    Length::of_metres(PI * diameter.base())
}

/// Holes by rows: a row for each inch of diameter, the first hole half a spacing from the end.
///
/// ```
/// use hostwood::{quantity::Length, reckon::holes::by_rows};
/// let inches = |n| Length::of_inches(n);
/// assert_eq!(by_rows(&inches(5.0), &inches(48.0), &inches(6.0)), 40.0); // MD-11 prints 35–40
/// ```
pub fn by_rows(diameter: &Length, length: &Length, along: &Length) -> f64 {
    let per_row = ((length.base() - along.base()) / along.base() + 1.0 + 1e-9).floor();
    diameter.inches().round() * per_row.max(0.0)
}

/// Holes by weight: `factor` holes for each pound of log.
///
/// ```
/// use hostwood::{quantity::Mass, reckon::holes::by_weight};
/// assert!((by_weight(&Mass::of_pounds(15.0), 3.0) - 45.0).abs() < 1e-9); // SAB-DEN: a 15 lb log, factor 3
/// ```
pub fn by_weight(log: &Mass, factor: f64) -> f64 {
    log.pounds() * factor
}

/// The fewest holes by diameter, from a factor of 3 to one of 4.
///
/// ```
/// use hostwood::{quantity::Length, reckon::holes::by_diameter};
/// let [low, high] = by_diameter(&Length::of_metres(0.10));
/// assert!((low - 30.0).abs() < 1e-9 && (high - 40.0).abs() < 1e-9); // HRO09: 30–40 for 10 cm
/// ```
pub fn by_diameter(diameter: &Length) -> [f64; 2] {
    [3.0, 4.0].map(|factor| factor * diameter.base() * 100.0)
}

/// Volume of one hole.
///
/// ```
/// use hostwood::{quantity::Length, reckon::holes::volume};
/// let millimetres = |n: f64| Length::of_metres(n / 1000.0);
/// let held = volume(&millimetres(12.0), &millimetres(25.0)).get::<uom::si::volume::cubic_centimeter>();
/// assert!((held - 2.83).abs() < 0.005);
/// ```
pub fn volume(diameter: &Length, depth: &Length) -> Volume {
    face(diameter) * depth.si()
}
