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
//! Without figures for the bark the wood's own density stands for the whole log, and the finding says so. Fresh logs that the
//! farm weighed and measured itself, three or more of a wood, stand in place of the handbook's figures: ρ = W / V.
//!
//! Source: Miles & Smith 2009, Res. Note NRS-38, by way of the FIA species table; Wood Handbook eq. 4-14. Not rounded here.

use std::f64::consts::PI;

use uom::si::f64::{MassDensity, Volume};
use uom::si::mass_density::kilogram_per_cubic_meter;

use super::Gap;
use super::formula::Formula;
use crate::quantity::{Length, Mass};
use crate::record::said::Mark;

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

/// The weight of a green log.
pub const WEIGHT: Formula = Formula {
    name: "Green weight",
    math: r#"<math display="block"><mrow><mi>W</mi><mo>=</mo><mfrac><mi>π</mi><mn>4</mn></mfrac><msup><mi>D</mi><mn>2</mn></msup><mi>L</mi><mo>·</mo><mi>w</mi><mfrac><mrow><mi>G</mi><mo>(</mo><mn>1</mn><mo>+</mo><mi>M</mi><mo>)</mo><mo>+</mo><mi>B</mi><msub><mi>G</mi><mi>b</mi></msub><mo>(</mo><mn>1</mn><mo>+</mo><msub><mi>M</mi><mi>b</mi></msub><mo>)</mo></mrow><mrow><mn>1</mn><mo>+</mo><mi>B</mi></mrow></mfrac></mrow></math>"#,
    words: "Volume over bark times the green density of wood and bark together; without figures for the bark, the wood's own density.",
    symbols: &[
        ("D, L", "diameter over bark at the middle, length"),
        ("w", "water, 62.4 lb/ft³ (999.6 kg/m³)"),
        ("G, M", "basic density of the wood, its moisture as a part of the dry weight"),
        ("B", "volume of bark over volume of wood"),
        ("G_b, M_b", "basic density and moisture of the bark"),
    ],
    sources: &[("fia", Mark::Read), ("wh4", Mark::Read)],
    own: "",
};

/// Fresh logs of a wood that stand in place of the handbook's figures, at the least (this project's choice).
pub const ENOUGH: usize = 3;

/// Days from felling within which a log still counts as fresh (this project's choice: the longest usual rest).
pub const FRESH: i32 = 30;

/// What the farm's own logs weigh for their size.
pub const WEIGHED: Formula = Formula {
    name: "Logs weighed here",
    math: r#"<math display="block"><mrow><mi>ρ</mi><mo>=</mo><mfrac><mi>W</mi><mi>V</mi></mfrac><mspace width="2em"/><mi>k</mi><mo>=</mo><mfrac><mrow><mi>ρ</mi></mrow><mrow><msub><mi>ρ</mi><mi>h</mi></msub></mrow></mfrac></mrow></math>"#,
    words: "A fresh log’s weight over its volume over bark. From three logs of a wood on, their mean stands in place of the handbook’s density, and the lightest and the heaviest of them in place of its least and its most; fewer are only shown beside.",
    symbols: &[
        ("W, V", "weight at inoculation, volume over bark"),
        ("ρ", "green density by the farm’s own logs"),
        ("k", "that density over the one by the handbook, ρ_h"),
    ],
    sources: &[],
    own: "a log is fresh within 30 days of felling; three make a figure",
};

/// Green density over bark.
///
/// # Errors
///
/// A [`Gap`] where density or moisture is not recorded.
pub fn density(green: &Green) -> Result<MassDensity, Gap> {
    let wood = green.density.ok_or(Gap::NotRecorded("the density of the wood"))?;
    let moisture = green.moisture.ok_or(Gap::NotRecorded("the moisture of the green wood"))?;
    let solid = wood * (1.0 + moisture);
    let over_bark = green
        .bark
        .map_or(solid, |bark| (solid + bark.share * bark.density * (1.0 + bark.moisture)) / (1.0 + bark.share));
    Ok(MassDensity::new::<kilogram_per_cubic_meter>(WATER * over_bark))
}

/// Volume of a log over bark, by its middle diameter.
pub fn volume(diameter: &Length, length: &Length) -> Volume {
    PI / 4.0 * diameter.si() * diameter.si() * length.si()
}

/// Weight of so much green stem, over bark.
///
/// # Errors
///
/// A [`Gap`] where density or moisture is not recorded.
///
/// ```
/// use hostwood::{quantity::Length, reckon::weight::{Green, GreenBark, of_volume, volume}};
/// let bark = Some(GreenBark { density: 0.68, moisture: 0.909, share: 0.20 });
/// let red_oak = Green { density: Some(0.56), moisture: Some(0.831), bark };
/// let bolt = volume(&Length::of_inches(6.0), &Length::of_inches(40.0));
/// let weight = of_volume(&red_oak, bolt).unwrap();
/// assert!((weight.pounds() - 43.7).abs() < 0.05); // worked value for a red oak bolt, 6 in × 40 in
/// ```
pub fn of_volume(green: &Green, volume: Volume) -> Result<Mass, Gap> {
    Ok((density(green)? * volume).into())
}

/// Green density over bark of a log that was weighed.
///
/// ```
/// use hostwood::{quantity::{Length, Mass}, reckon::weight::{of_weighed, volume}};
/// let bolt = volume(&Length::of_inches(5.0), &Length::of_inches(40.0));
/// let density = of_weighed(&Mass::of_pounds(28.63), bolt);
/// assert!((density.value / 16.018_463 - 63.0).abs() < 0.01); // 28.6 lb at 63 lb/ft³
/// ```
pub fn of_weighed(weight: &Mass, volume: Volume) -> MassDensity {
    weight.si() / volume
}

/// How much heavier a soaked log is taken to be (this project's assumption; no source gives it).
pub const SOAKED: f64 = 1.10;

/// Weight of a log that has lain in water.
pub fn soaked(green: &Mass) -> Mass {
    Mass::of_kilograms(green.base() * SOAKED)
}
