//! What do totems, stumps and chip beds take?
//!
//! | quantity | formula | source |
//! |---|---|---|
//! | wood of a totem | rounds × π/4 D² L | geometry; CORN-TOTEM for two rounds of 24 in |
//! | layers of a totem | rounds + 1: under, between and on top | CORN-TOTEM |
//! | holes of a stump | by area of its side and its top | geometry; the pattern's spacing |
//! | chips of a bed | area × depth | geometry |
//!
//! For the spawn of a totem or a bed nothing is published; the farm's own figure is taken, or a gap stands.
//!
//! Lengths in metres, areas in square metres, volumes in cubic metres. Not rounded here.

use std::f64::consts::PI;

use crate::quantity::{Area, Length};

/// Rounds in a totem and their length, where a plan says nothing (CORN-TOTEM).
pub const ROUNDS: u32 = 2;
/// Length of a round in inches (CORN-TOTEM).
pub const ROUND_INCHES: f64 = 24.0;

/// Area of a cut face.
#[must_use]
pub fn face(diameter: &Length) -> f64 {
    PI / 4.0 * diameter.base().powi(2)
}

/// Wood of one totem.
///
/// ```
/// use hostwood::{quantity::Length, reckon::beds::totem_wood};
/// let wood = totem_wood(&Length::of_inches(10.0), &Length::of_inches(24.0), 2);
/// assert!((wood / 0.0283168 - 2.1817).abs() < 5e-4); // geometry: two rounds of 10 × 24 in, in cubic feet
/// ```
#[must_use]
pub fn totem_wood(diameter: &Length, round: &Length, rounds: u32) -> f64 {
    face(diameter) * round.base() * f64::from(rounds)
}

/// Layers of spawn in one totem: under, between and on top.
///
/// ```
/// assert_eq!(hostwood::reckon::beds::layers(2), 3); // CORN-TOTEM
/// ```
#[must_use]
pub const fn layers(rounds: u32) -> u32 {
    rounds + 1
}

/// Holes in one stump, by the patch of bark or face that each serves.
#[must_use]
pub fn stump_holes(diameter: &Length, height: &Length, along: &Length, between: &Length) -> f64 {
    (PI * diameter.base() * height.base() + face(diameter)) / (along.base() * between.base())
}

/// Chips of a bed.
///
/// ```
/// use hostwood::{quantity::{Area, Length}, reckon::beds::chips};
/// let volume = chips(&Area::read("50 ft2").unwrap(), &Length::of_inches(4.0));
/// assert!((volume / 0.0283168 - 16.667).abs() < 5e-3); // geometry, in cubic feet
/// ```
#[must_use]
pub fn chips(area: &Area, depth: &Length) -> f64 {
    area.base() * depth.base()
}
