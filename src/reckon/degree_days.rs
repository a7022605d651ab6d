//! How much warmth has a day, above a base?
//!
//! | method | formula | source |
//! |---|---|---|
//! | [`average`] | max(0, m − b), m = (Tₓ + Tₙ) / 2 | UC IPM; Western Regional Climate Center |
//! | [`single_sine`] | ((m − b)(π/2 − θ) + a cos θ) / π, θ = asin((b − m) / a), a = (Tₓ − Tₙ) / 2 | Baskerville & Emin 1969, from memory, proved by integration |
//!
//! Tₓ and Tₙ are the day's highest and lowest temperature, b the base, all in one unit. Where the lowest is above the base
//! both are m − b; where the highest is below it, nothing.

use std::f64::consts::{FRAC_PI_2, PI};

use super::formula::Formula;
use crate::record::said::Mark;

/// The warmth of a day.
pub const WARMTH: Formula = Formula {
    name: "Degree-days",
    math: r#"<math display="block"><mrow><mi>W</mi><mo>=</mo><mfrac><mrow><mo>(</mo><mi>m</mi><mo>−</mo><mi>b</mi><mo>)</mo><mrow><mo>(</mo><mfrac><mi>π</mi><mn>2</mn></mfrac><mo>−</mo><mi>θ</mi><mo>)</mo></mrow><mo>+</mo><mi>a</mi><mi>cos</mi><mi>θ</mi></mrow><mi>π</mi></mfrac><mspace width="2em"/><mi>θ</mi><mo>=</mo><mi>arcsin</mi><mfrac><mrow><mi>b</mi><mo>−</mo><mi>m</mi></mrow><mi>a</mi></mfrac></mrow></math>"#,
    words: "The part of one sine wave through the day's lowest and highest that lies above the base; by the plain average, what the mean lies above it. The table climate has both, and the mean over days that scatter.",
    symbols: &[("m, a", "the day's mean, half of its range"), ("b", "base, 5 °C")],
    sources: &[("baskerville-emin-1969", Mark::Memory)],
    own: "proved by integration",
};

/// The base above which warmth is counted, in degrees C: that of the models of leaf and bud.
pub const BASE: f64 = 5.0;

/// Degree-days by the average of the day's highest and lowest.
///
/// ```
/// use hostwood::reckon::degree_days::average;
/// assert_eq!(average(95.0, 51.0, 60.0), 13.0); // Western Regional Climate Center, °F
/// ```
pub fn average(highest: f64, lowest: f64, base: f64) -> f64 {
    (f64::midpoint(highest, lowest) - base).max(0.0)
}

/// Degree-days by one sine wave through the day's highest and lowest.
///
/// ```
/// use hostwood::reckon::degree_days::single_sine;
/// assert!((single_sine(72.0, 48.0, 50.0) - 10.247_133_932).abs() < 1e-9); // gddPy 1.0.3
/// assert_eq!(single_sine(50.0, 30.0, 50.0), 0.0);
/// ```
pub fn single_sine(highest: f64, lowest: f64, base: f64) -> f64 {
    let (middle, half) = (f64::midpoint(highest, lowest), (highest - lowest) / 2.0);
    if highest <= base {
        return 0.0;
    }
    if lowest >= base {
        return middle - base;
    }
    let angle = ((base - middle) / half).asin();
    ((middle - base) * (FRAC_PI_2 - angle) + half * angle.cos()) / PI
}
