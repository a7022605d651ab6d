//! What does a green log weigh?
//!
//! W = V ρ,  V = π/4 D² L,  ρ = w [G (1 + M) + B Gᵦ (1 + Mᵦ)] / (1 + B)
//!
//! | symbol | meaning | unit | range |
//! |---|---|---|---|
//! | D, L | diameter over bark at the middle, length | m | |
//! | w | water, 62.4 lb/ft³ | kg/m³ | |
//! | G, M | basic density of the wood, its moisture by dry weight | 1 | 0.1–1.3; 0.1–3 |
//! | B | volume of bark over volume of wood | 1 | 0–0.6 |
//! | Gᵦ, Mᵦ | basic density and moisture of the bark | 1 | as the wood's |
//!
//! Without figures for the bark the wood's own density stands for the whole log, and the finding says so.
//!
//! Source: Miles & Smith 2009, Res. Note NRS-38, by way of the FIA species table; Wood Handbook eq. 4-14. Not rounded here.

use std::f64::consts::PI;

use super::Gap;
use crate::quantity::{Length, Mass};

/// Mass of a cubic metre of water as the source counts it: 62.4 lb/ft³.
pub const WATER: f64 = 62.4 * 0.453_592_37 / 0.028_316_846_592;

/// What the weight of a wood rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Green {
    /// Basic density relative to water.
    pub density: Option<f64>,
    /// Moisture, as a part of one of the dry weight.
    pub moisture: Option<f64>,
    /// Bark, where it is recorded.
    pub bark: Option<GreenBark>,
}

/// What the weight of bark rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GreenBark {
    /// Basic density relative to water.
    pub density: f64,
    /// Moisture, as a part of one of the dry weight.
    pub moisture: f64,
    /// Volume of bark over volume of wood.
    pub share: f64,
}

/// Green density over bark, in kilograms per cubic metre.
///
/// # Errors
///
/// A [`Gap`] where density or moisture is not recorded.
pub fn density(green: &Green) -> Result<f64, Gap> {
    let wood = green.density.ok_or(Gap::NotRecorded("the density of the wood"))?;
    let moisture = green.moisture.ok_or(Gap::NotRecorded("the moisture of the green wood"))?;
    let solid = wood * (1.0 + moisture);
    Ok(match green.bark {
        Some(bark) => WATER * (solid + bark.share * bark.density * (1.0 + bark.moisture)) / (1.0 + bark.share),
        None => WATER * solid,
    })
}

/// Volume of a log over bark, in cubic metres, by its middle diameter.
#[must_use]
pub fn volume(diameter: &Length, length: &Length) -> f64 {
    PI / 4.0 * diameter.base().powi(2) * length.base()
}

/// Weight of a green log.
///
/// # Errors
///
/// A [`Gap`] where density or moisture is not recorded.
///
/// ```
/// use hostwood::{quantity::Length, reckon::weight::{Green, GreenBark, log}};
/// let bark = Some(GreenBark { density: 0.68, moisture: 0.909, share: 0.20 });
/// let red_oak = Green { density: Some(0.56), moisture: Some(0.831), bark };
/// let weight = log(&red_oak, &Length::of_inches(6.0), &Length::of_inches(40.0)).unwrap();
/// assert!((weight.pounds() - 43.7).abs() < 0.05); // worked value for a red oak bolt, 6 in × 40 in
/// ```
pub fn log(green: &Green, diameter: &Length, length: &Length) -> Result<Mass, Gap> {
    Ok(Mass::of_kilograms(density(green)? * volume(diameter, length)))
}

/// Weight of so many cubic feet of green stem, over bark.
///
/// # Errors
///
/// A [`Gap`] where density or moisture is not recorded.
///
/// ```
/// use hostwood::reckon::weight::{Green, GreenBark, of_cubic_feet};
/// let bark = Some(GreenBark { density: 0.68, moisture: 0.909, share: 0.20 });
/// let red_oak = Green { density: Some(0.56), moisture: Some(0.831), bark };
/// let weight = of_cubic_feet(&red_oak, 0.6545).unwrap();
/// assert!((weight.pounds() - 43.7).abs() < 0.05); // worked value for a red oak bolt of 0.6545 ft³
/// ```
pub fn of_cubic_feet(green: &Green, cubic_feet: f64) -> Result<Mass, Gap> {
    Ok(Mass::of_kilograms(density(green)? * cubic_feet * 0.3048_f64.powi(3)))
}
