//! A strain: one mushroom's cultivated line, or a class of lines by the temperature at which they fruit.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::mushroom::{FruitingSeason, Mushroom};
use super::said::{Band, Said, Span};
use super::words::words;

/// A strain, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Strain {
    /// The name that pages use.
    pub name: String,
    /// The mushroom it belongs to.
    pub mushroom: Id<Mushroom>,
    /// The class by fruiting temperature, where it has one.
    pub class: Option<Class>,
    /// A few sentences for the grower (Markdown).
    pub about: Option<String>,
    /// Whether soaking a log brings on a flush, where it differs from the mushroom's own record.
    pub answers_to_soaking: Option<bool>,
    /// Bands of temperature.
    #[serde(default)]
    pub temperatures: Vec<Band>,
    /// When it fruits outdoors, place by place.
    #[serde(default)]
    pub seasons: Vec<FruitingSeason>,
    /// From inoculation to the first mushrooms.
    #[serde(default)]
    pub spawn_run: Vec<Span>,
    /// The forms in which its spawn is to be had.
    #[serde(default)]
    pub spawn: Vec<SpawnForm>,
    /// What sources say of it.
    #[serde(default)]
    pub remarks: Vec<Said>,
}

words! {
    /// The class of a strain by the temperature at which it fruits.
    pub enum Class {
        /// Fruits in cool weather.
        Cold = "cold-weather",
        /// Fruits over a wide band.
        WideRange = "wide-range",
        /// Fruits in warm weather.
        Warm = "warm-weather",
    }
}

words! {
    /// The form in which spawn is put into wood.
    pub enum SpawnForm {
        /// Loose colonised sawdust.
        Sawdust = "sawdust",
        /// Wooden dowels.
        Plug = "plugs",
        /// Sawdust pressed into a cone with a foam cap.
        Thimble = "thimbles",
        /// Colonised grain, for totems and beds.
        Grain = "grain",
    }
}
