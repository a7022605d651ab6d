//! A strain: one mushroom's cultivated line, or a class of lines by the temperature at which they fruit.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{
    Id, Kind, Record,
    mushroom::Mushroom,
    said::{Band, Said, Span},
};

/// A strain, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
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

/// The class of a strain by the temperature at which it fruits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Class {
    /// Fruits in cool weather.
    Cold,
    /// Fruits over a wide band.
    WideRange,
    /// Fruits in warm weather.
    Warm,
}

impl Class {
    /// The class as a reader meets it on a page.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Cold => "cold-weather",
            Self::WideRange => "wide-range",
            Self::Warm => "warm-weather",
        }
    }
}

/// The form in which spawn is put into wood.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SpawnForm {
    /// Loose colonised sawdust.
    Sawdust,
    /// Wooden dowels.
    Plug,
    /// Sawdust pressed into a cone with a foam cap.
    Thimble,
    /// Colonised grain, for totems and beds.
    Grain,
}

impl SpawnForm {
    /// The form as records and tables write it.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Sawdust => "sawdust",
            Self::Plug => "plug",
            Self::Thimble => "thimble",
            Self::Grain => "grain",
        }
    }

    /// The form as a reader meets it on a page.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Sawdust => "sawdust",
            Self::Plug => "plugs",
            Self::Thimble => "thimbles",
            Self::Grain => "grain",
        }
    }
}

impl Record for Strain {
    const KIND: Kind = Kind::Strain;
}
