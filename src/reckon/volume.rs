//! What is the volume of a log?
//!
//! Newton's rule, V = (B + 4 M + S) L / 6, is exact for a piece of a cone, a paraboloid or a neiloid. B, M and S are the areas
//! of butt, middle and small end and L is the length, in units that go together. Source: University of Idaho, FOR 274; Larsen,
//! Natural Resource Biometrics. Not rounded here.

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
#[must_use]
pub fn newton(butt: f64, middle: f64, small: f64, length: f64) -> f64 {
    (butt + 4.0 * middle + small) / 6.0 * length
}
