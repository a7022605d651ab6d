//! The two unit systems.

use clap::ValueEnum;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uom::si::f64 as si;
use uom::si::mass_density::{kilogram_per_cubic_meter, pound_per_cubic_foot};
use uom::si::volume::{cubic_centimeter, cubic_foot, cubic_inch, cubic_meter, liter};

use super::measure::{HECTARES_AN_ACRE, rounded, worth};

/// Below so many cubic metres a volume is printed in the smaller unit.
const THIMBLE: f64 = 1e-4;

/// The units in which a guide is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize, Serialize, JsonSchema, ValueEnum)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// Inches, pounds, degrees Fahrenheit.
    #[default]
    Us,
    /// Centimetres, kilograms, degrees Celsius.
    Metric,
}

impl Units {
    /// The one of two that goes with these units.
    ///
    /// ```
    /// assert_eq!(hostwood::quantity::Units::Metric.pick("lb", "kg"), "kg");
    /// ```
    pub fn pick<T>(self, us: T, metric: T) -> T {
        match self {
            Self::Us => us,
            Self::Metric => metric,
        }
    }

    /// The unit in which thicknesses are summed.
    pub fn length(self) -> &'static str {
        self.pick("in", "cm")
    }

    /// The piece of land for which trees are counted.
    pub fn land(self) -> &'static str {
        self.pick("an acre", "a hectare")
    }

    /// A number for an acre, for the piece of land of these units.
    ///
    /// ```
    /// use hostwood::quantity::Units;
    /// assert!((Units::Metric.on_land(100.0) - 247.1).abs() < 0.01); // trees a hectare
    /// ```
    pub fn on_land(self, an_acre: f64) -> f64 {
        self.pick(an_acre, an_acre / HECTARES_AN_ACRE)
    }

    /// A volume in cubic metres as it is printed: cubic feet or litres, of what a thimble holds cubic inches or centimetres.
    ///
    /// ```
    /// use hostwood::quantity::Units;
    /// assert_eq!(Units::Us.volume(1.0), "35.3147 ft³");
    /// assert_eq!(Units::Metric.volume(0.0129), "12.9 L");
    /// assert_eq!([Units::Us.volume(2.8e-6), Units::Metric.volume(2.8e-6)], ["0.17 in³", "2.8 cm³"]);
    /// ```
    pub fn volume(self, cubic_metres: f64) -> String {
        let volume = si::Volume::new::<cubic_meter>(cubic_metres);
        match self {
            Self::Us if cubic_metres < THIMBLE => format!("{} in³", rounded(volume.get::<cubic_inch>(), 2)),
            Self::Us => format!("{} ft³", rounded(volume.get::<cubic_foot>(), 4)),
            Self::Metric if cubic_metres < THIMBLE => format!("{} cm³", rounded(volume.get::<cubic_centimeter>(), 1)),
            Self::Metric => format!("{} L", rounded(volume.get::<liter>(), 1)),
        }
    }

    /// A volume as people speak of a tank or a heap: whole cubic feet, litres or cubic metres.
    pub fn volume_words(self, volume: si::Volume) -> String {
        let cubic_metres = volume.get::<cubic_meter>();
        match self {
            Self::Us => format!("{} ft³", worth(volume.get::<cubic_foot>(), 10.0)),
            Self::Metric if cubic_metres < 2.0 => format!("{} L", rounded(volume.get::<liter>(), 0)),
            Self::Metric => format!("{} m³", rounded(cubic_metres, 1)),
        }
    }

    /// A density as it is printed: by the cubic foot or by the cubic metre.
    ///
    /// ```
    /// use hostwood::{quantity::Units, reckon::weight::{Green, density}};
    /// let water = Green { density: Some(1.0), moisture: Some(0.0), bark: None };
    /// assert_eq!(Units::Us.density(density(&water).unwrap()), "62.4 lb/ft³"); // as the source of the weights counts it
    /// ```
    pub fn density(self, density: si::MassDensity) -> String {
        match self {
            Self::Us => format!("{} lb/ft³", rounded(density.get::<pound_per_cubic_foot>(), 1)),
            Self::Metric => format!("{} kg/m³", rounded(density.get::<kilogram_per_cubic_meter>(), 0)),
        }
    }
}
