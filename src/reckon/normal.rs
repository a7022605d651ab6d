//! The normal distribution, by which days scatter about their usual temperature.
//!
//! Φ(z) = ½ erfc(−z / √2); φ(z) = exp(−z² / 2) / √(2π). The error function is that of the `libm` crate, so that every
//! machine gives the same figures.

use std::f64::consts::{PI, SQRT_2};

/// The part of days that lie below z deviations from the mean.
///
/// ```
/// use hostwood::reckon::normal::below;
/// assert!((below(1.0) - 0.841_344_746_069).abs() < 1e-12); // scipy 1.17.1
/// assert!((below(-6.0) / 9.865_876_45e-10 - 1.0).abs() < 1e-8);
/// ```
pub fn below(z: f64) -> f64 {
    0.5 * libm::erfc(-z / SQRT_2)
}

/// The density at z deviations from the mean.
pub fn density(z: f64) -> f64 {
    (-z * z / 2.0).exp() / (2.0 * PI).sqrt()
}

/// The chance that a day whose usual mean is `mean`, with a day-to-day deviation, lies from `low` to `high`.
///
/// ```
/// use hostwood::reckon::normal::within;
/// assert!((within(15.0, 4.0, 10.0, 20.0) - 0.788_700_45).abs() < 5e-9); // scipy 1.17.1
/// assert_eq!([within(15.0, 0.0, 10.0, 20.0), within(9.0, 0.0, 10.0, 20.0)], [1.0, 0.0]);
/// ```
pub fn within(mean: f64, deviation: f64, low: f64, high: f64) -> f64 {
    if deviation <= 0.0 {
        return f64::from(u8::from((low..=high).contains(&mean)));
    }
    below((high - mean) / deviation) - below((low - mean) / deviation)
}

/// The mean of what lies above a base, max(0, T − b), over days about a usual mean.
///
/// ```
/// use hostwood::reckon::normal::above;
/// assert!((above(5.0, 4.0, 5.0) - 1.595_769_12).abs() < 5e-9); // standard normal integral
/// assert_eq!(above(12.0, 0.0, 5.0), 7.0);
/// ```
pub fn above(mean: f64, deviation: f64, base: f64) -> f64 {
    if deviation <= 0.0 {
        return (mean - base).max(0.0);
    }
    let z = (mean - base) / deviation;
    deviation * density(z) + (mean - base) * below(z)
}

/// The mean of the square of what lies below a base, max(0, b − T)², over days about a usual mean.
pub fn squared_below(mean: f64, deviation: f64, base: f64) -> f64 {
    let short = base - mean;
    if deviation <= 0.0 {
        return short.max(0.0).powi(2);
    }
    let z = short / deviation;
    (short * short + deviation * deviation) * below(z) + short * deviation * density(z)
}
