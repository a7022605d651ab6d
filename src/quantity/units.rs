//! The two unit systems.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uom::si::{
    f64 as si,
    mass_density::{kilogram_per_cubic_meter, pound_per_cubic_foot},
    volume::{cubic_foot, cubic_meter, liter},
};

use super::measure::rounded;

/// The units in which a guide is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// Inches, pounds, degrees Fahrenheit.
    #[default]
    Us,
    /// Centimetres, kilograms, degrees Celsius.
    Metric,
}

impl Units {
    /// A volume in cubic metres as it is printed: cubic feet or litres.
    ///
    /// ```
    /// use hostwood::quantity::Units;
    /// assert_eq!(Units::Us.volume(1.0), "35.3147 ft³");
    /// assert_eq!(Units::Metric.volume(0.0129), "12.9 L");
    /// ```
    #[must_use]
    pub fn volume(self, cubic_metres: f64) -> String {
        let volume = si::Volume::new::<cubic_meter>(cubic_metres);
        match self {
            Self::Us => format!("{} ft³", rounded(volume.get::<cubic_foot>(), 4)),
            Self::Metric => format!("{} L", rounded(volume.get::<liter>(), 1)),
        }
    }

    /// A volume in cubic metres as people speak of a tank or a heap: whole cubic feet, litres or cubic metres.
    #[must_use]
    pub fn volume_words(self, cubic_metres: f64) -> String {
        let volume = si::Volume::new::<cubic_meter>(cubic_metres);
        match self {
            Self::Us => format!("{} ft³", rounded(volume.get::<cubic_foot>(), 1)),
            Self::Metric if cubic_metres < 2.0 => format!("{} L", rounded(volume.get::<liter>(), 0)),
            Self::Metric => format!("{} m³", rounded(cubic_metres, 1)),
        }
    }

    /// A density in kilograms per cubic metre as it is printed: by the cubic foot or by the cubic metre.
    ///
    /// ```
    /// use hostwood::{quantity::Units, reckon::weight::WATER};
    /// assert_eq!(Units::Us.density(WATER), "62.4 lb/ft³"); // water, as the source of the weights counts it
    /// ```
    #[must_use]
    pub fn density(self, kilograms_per_cubic_metre: f64) -> String {
        let density = si::MassDensity::new::<kilogram_per_cubic_meter>(kilograms_per_cubic_metre);
        match self {
            Self::Us => format!("{} lb/ft³", rounded(density.get::<pound_per_cubic_foot>(), 1)),
            Self::Metric => format!("{} kg/m³", rounded(density.get::<kilogram_per_cubic_meter>(), 0)),
        }
    }
}
