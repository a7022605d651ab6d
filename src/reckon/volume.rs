//! What is the volume of a log?
//!
//! | rule | formula | exact for |
//! |---|---|---|
//! | Huber | V = M L | a paraboloid |
//! | Smalian | V = (B + S) L / 2 | a paraboloid |
//! | Newton | V = (B + 4 M + S) L / 6 | cone, paraboloid and neiloid |
//! | cone | V = (S + √(S B) + B) L / 3 | a cone |
//! | neiloid | V = (S + ∛(S² B) + ∛(S B²) + B) L / 4 | a neiloid |
//!
//! B, M and S are the areas of butt, middle and small end and L is the length, in units that go together. Source:
//! University of Idaho, FOR 274; Larsen, Natural Resource Biometrics. Not rounded here.

/// By the middle alone.
///
/// ```
/// use hostwood::reckon::{taper::SQUARE_FEET, volume::huber};
/// assert!((huber(SQUARE_FEET * 8.0 * 8.0, 16.0) - 5.5851).abs() < 5e-5); // FOR 274: 6, 8 and 9 in, 16 ft
/// ```
#[must_use]
pub fn huber(middle: f64, length: f64) -> f64 {
    middle * length
}

/// By both ends.
///
/// ```
/// use hostwood::reckon::{taper::SQUARE_FEET, volume::smalian};
/// let area = |inches: f64| SQUARE_FEET * inches * inches;
/// assert!((smalian(area(12.0), area(10.0), 16.0) - 10.647).abs() < 5e-4); // Larsen: 10 and 12 in, 16 ft
/// ```
#[must_use]
pub fn smalian(butt: f64, small: f64, length: f64) -> f64 {
    f64::midpoint(butt, small) * length
}

/// By both ends and the middle.
///
/// ```
/// use hostwood::reckon::{taper::SQUARE_FEET, volume::newton};
/// let area = |inches: f64| SQUARE_FEET * inches * inches;
/// assert!((newton(area(9.0), area(8.0), area(6.0), 16.0) - 5.4251).abs() < 5e-5); // FOR 274
/// ```
#[must_use]
pub fn newton(butt: f64, middle: f64, small: f64, length: f64) -> f64 {
    (butt + 4.0 * middle + small) / 6.0 * length
}

/// Of a piece of a cone.
///
/// ```
/// use hostwood::reckon::{taper::SQUARE_FEET, volume::cone};
/// let area = |inches: f64| SQUARE_FEET * inches * inches;
/// assert!((cone(area(12.0), area(10.0), 16.0) - 10.588).abs() < 5e-4); // Larsen
/// ```
#[must_use]
pub fn cone(butt: f64, small: f64, length: f64) -> f64 {
    (small + (small * butt).sqrt() + butt) / 3.0 * length
}

/// Of a piece of a neiloid.
///
/// ```
/// use hostwood::reckon::{taper::SQUARE_FEET, volume::neiloid};
/// let area = |inches: f64| SQUARE_FEET * inches * inches;
/// assert!((neiloid(area(12.0), area(10.0), 16.0) - 10.5689).abs() < 5e-4); // Larsen
/// ```
#[must_use]
pub fn neiloid(butt: f64, small: f64, length: f64) -> f64 {
    (small + (small * small * butt).cbrt() + (small * butt * butt).cbrt() + butt) / 4.0 * length
}
