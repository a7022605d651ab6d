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
//! Not rounded here.

use std::f64::consts::PI;

use uom::si::f64 as si;

use crate::quantity::{Area, Length, Volume};

/// Rounds in a totem and their length, where a plan says nothing (CORN-TOTEM).
pub const ROUNDS: u32 = 2;
/// Length of a round in inches, likewise.
pub const ROUND_INCHES: f64 = 24.0;

/// Area of a cut face.
pub fn face(diameter: &Length) -> si::Area {
    diameter.si() * diameter.si() * (PI / 4.0)
}

/// Wood of one totem.
///
/// ```
/// use hostwood::{quantity::Length, reckon::beds::totem_wood};
/// let wood = totem_wood(&Length::of_inches(10.0), &Length::of_inches(24.0), 2).get::<uom::si::volume::cubic_foot>();
/// assert!((wood - 2.1817).abs() < 5e-4); // geometry: two rounds of 10 × 24 in
/// ```
pub fn totem_wood(diameter: &Length, round: &Length, rounds: u32) -> Volume {
    face(diameter) * round.si() * f64::from(rounds)
}

/// Layers of spawn in one totem: under, between and on top.
///
/// ```
/// assert_eq!(hostwood::reckon::beds::layers(2), 3); // CORN-TOTEM
/// ```
pub const fn layers(rounds: u32) -> u32 {
    rounds + 1
}

/// Holes in one stump, by the patch of bark or face that each serves.
pub fn stump_holes(diameter: &Length, height: &Length, along: &Length, between: &Length) -> f64 {
    ((diameter.si() * height.si() * PI + face(diameter)) / (along.si() * between.si())).value
}

/// Chips of a bed.
///
/// ```
/// use hostwood::{quantity::{Area, Length}, reckon::beds::chips};
/// let volume = chips(&Area::read("50 ft2").unwrap(), &Length::of_inches(4.0)).get::<uom::si::volume::cubic_foot>();
/// assert!((volume - 16.667).abs() < 5e-3); // geometry
/// ```
pub fn chips(area: &Area, depth: &Length) -> Volume {
    area.si() * depth.si()
}
