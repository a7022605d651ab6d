//! How thick is the bark?
//!
//! t = (D − a − b D) / 2, in inches, by the line DIB = a + b D that was fitted for the species or its group.
//!
//! Source: Clark, Souter & Schlaegel 1991, Res. Pap. SE-282, and the northern fit in the national volume library.

use super::formula::Formula;
use crate::quantity::Length;
use crate::record::said::Mark;

/// The diameter, in inches, for which the bark of a wood is printed: that of a log.
pub const ACROSS: f64 = 6.0;

/// The thickness of bark.
pub const BARK: Formula = Formula {
    name: "Bark thickness",
    math: r#"<math display="block"><mrow><mi>t</mi><mo>=</mo><mfrac><mrow><mi>D</mi><mo>−</mo><mo>(</mo><mi>a</mi><mo>+</mo><mi>b</mi><mi>D</mi><mo>)</mo></mrow><mn>2</mn></mfrac></mrow></math>"#,
    words: "Half of what the diameter loses when the bark is taken off, by a line fitted to measured trees.",
    symbols: &[("D", "diameter over bark, inches"), ("a, b", "constant, inches, and slope of the fitted line")],
    sources: &[("r9", Mark::Read)],
    own: "",
};

/// Thickness of the bark on one side.
///
/// ```
/// use hostwood::{quantity::Length, reckon::bark::thickness};
/// let red_oak = thickness(&Length::of_inches(6.0), -0.193, 0.940);
/// assert!((red_oak.inches() - 0.28).abs() < 0.005); // derived value printed for red oak at 6 in
/// ```
pub fn thickness(diameter: &Length, a: f64, b: f64) -> Length {
    let outside = diameter.inches();
    Length::of_inches((outside - (a + b * outside)).max(0.0) / 2.0)
}
