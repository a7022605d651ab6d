//! A region: a country, a part of one or a list of these, with the words and the numbers of help that go with it.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::said::cited;
use super::words::words;
use crate::quantity::Code;

/// A region, as a farm or the handbook writes it. One that names neither codes nor a half of the globe holds
/// everywhere.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Region {
    /// What it is called inside a sentence.
    pub name: String,
    /// The countries and parts of countries in it.
    #[serde(default)]
    pub codes: Vec<Code>,
    /// The half of the globe that it is; or in which it lies, where it names codes.
    pub half: Option<Half>,
    /// What words that turn with the place are there: `{forestry}` in a text of the handbook is the word under `forestry`.
    #[serde(default)]
    pub words: BTreeMap<String, String>,
    /// Whom one calls in an emergency.
    pub emergency: Option<Help>,
    /// Whom one calls when somebody has eaten a doubtful mushroom.
    pub poison: Option<Help>,
    /// True where the handbook's look-alikes are those that grow there.
    #[serde(default)]
    pub look_alikes: bool,
}

cited! {
    /// Help that can be called.
    pub struct Help {
        /// The numbers to call, the first one first; none where there is no number for everybody.
        #[serde(default)]
        pub numbers: Vec<String>,
        /// What one should know before calling, or whom one asks instead.
        pub says: Option<String>,
    }
}

words! {
    /// A half of the globe, or the belt between the two.
    pub enum Half {
        /// North of the tropics.
        North,
        /// Between the tropics, where the midday sun stands in the north and in the south in turn.
        Tropics,
        /// South of the tropics.
        South,
    }
}

impl Half {
    /// The half in which a latitude lies, in degrees north of the equator; the tropics reach to 23.4 degrees.
    pub fn of(latitude: f64) -> Self {
        match latitude {
            _ if latitude.abs() < 23.4 => Self::Tropics,
            _ if latitude < 0.0 => Self::South,
            _ => Self::North,
        }
    }
}
