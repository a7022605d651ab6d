//! What is the volume of a log?
//!
//! Newton's rule, V = (B + 4 M + S) L / 6, is exact for a piece of a cone, a paraboloid or a neiloid. B, M and S are the areas
//! of butt, middle and small end and L is the length, in units that go together. Source: University of Idaho, FOR 274; Larsen,
//! Natural Resource Biometrics. Not rounded here.

use super::formula::Formula;
use crate::record::said::Mark;

/// The volume of a log.
pub const NEWTON: Formula = Formula {
    name: "Volume of a log",
    math: r#"<math display="block"><mrow><mi>V</mi><mo>=</mo><mfrac><mrow><msub><mi>A</mi><mrow><mi>b</mi></mrow></msub><mo>+</mo><mn>4</mn><msub><mi>A</mi><mrow><mi>m</mi></mrow></msub><mo>+</mo><msub><mi>A</mi><mrow><mi>s</mi></mrow></msub></mrow><mrow><mn>6</mn></mrow></mfrac><mi>L</mi></mrow></math>"#,
    words: "The areas of butt, middle and small end, the middle counted four times.",
    symbols: &[("A", "π / 576 D², square feet from inches"), ("L", "length, feet")],
    sources: &[("for274", Mark::Read)],
    own: "",
};

/// By both ends and the middle.
///
/// ```
/// use hostwood::reckon::{taper::SQUARE_FEET, volume::newton};
/// let area = |inches: f64| SQUARE_FEET * inches * inches;
/// assert!((newton(area(9.0), area(8.0), area(6.0), 16.0) - 5.4251).abs() < 5e-5); // FOR 274
/// assert!((newton(area(12.0), area(11.0), area(10.0), 16.0) - 10.588).abs() < 5e-4); // Larsen, a cone
/// let (butt, small) = (area(12.0), area(10.0));
/// assert!((newton(butt, f64::midpoint(butt, small), small, 16.0) - 10.647).abs() < 5e-4); // Larsen, a paraboloid
/// let neiloid = f64::midpoint(butt.cbrt(), small.cbrt()).powi(3);
/// assert!((newton(butt, neiloid, small, 16.0) - 10.5689).abs() < 5e-4); // Larsen
/// ```
pub fn newton(butt: f64, middle: f64, small: f64, length: f64) -> f64 {
    (butt + 4.0 * middle + small) / 6.0 * length
}
