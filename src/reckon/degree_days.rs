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

/// Degree-days by the average of the day's highest and lowest.
///
/// ```
/// use hostwood::reckon::degree_days::average;
/// assert_eq!(average(95.0, 51.0, 60.0), 13.0); // Western Regional Climate Center, °F
/// ```
#[must_use]
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
#[must_use]
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
