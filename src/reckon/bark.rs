//! How thick is the bark?
//!
//! t = (D − a − b D) / 2, in inches, by the line DIB = a + b D that was fitted for the species or its group.
//!
//! Source: Clark, Souter & Schlaegel 1991, Res. Pap. SE-282, and the northern fit in the national volume library.

use crate::quantity::Length;

/// Thickness of the bark on one side.
///
/// ```
/// use hostwood::{quantity::Length, reckon::bark::thickness};
/// let red_oak = thickness(&Length::of_inches(6.0), -0.193, 0.940);
/// assert!((red_oak.inches() - 0.28).abs() < 0.005); // derived value printed for red oak at 6 in
/// ```
#[must_use]
pub fn thickness(diameter: &Length, a: f64, b: f64) -> Length {
    let outside = diameter.inches();
    Length::of_inches((outside - (a + b * outside)).max(0.0) / 2.0)
}
