//! A handout: one paper for a workshop, a work day or a pocket, made of the guide's own parts and the farm's words.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Id, Kind, Record, caution::Task, method::Method, mushroom::Mushroom, wood::Wood};
use crate::quantity::Date;

/// A handout, as a farm writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Handout {
    /// Its title.
    pub title: String,
    /// The day for which it is made.
    pub date: Option<Date>,
    /// For whom it is.
    pub readers: Option<String>,
    /// The printed sides that it may fill.
    #[schemars(range(min = 1, max = 40), extend("examples" = [2]))]
    pub sheets: u32,
    /// Its paper; left out, that of the guide.
    pub paper: Option<Paper>,
    /// The mushrooms that it shows; left out, those that the farm grows.
    #[serde(default)]
    pub mushrooms: Vec<Id<Mushroom>>,
    /// The woods that it shows; left out, those that the farm has.
    #[serde(default)]
    pub woods: Vec<Id<Wood>>,
    /// The logs for which its amounts are reckoned.
    #[schemars(range(min = 1, max = 10_000), extend("examples" = [10]))]
    pub logs: Option<u32>,
    /// A few sentences under the title (Markdown).
    pub about: Option<String>,
    /// Its parts, in their order.
    #[schemars(length(min = 1))]
    pub sections: Vec<Section>,
}

/// The paper on which something is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Paper {
    /// ISO A4.
    A4,
    /// US Letter.
    Letter,
}

/// A part of a handout.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Section {
    /// What it shows.
    pub shows: Shows,
    /// Its heading; left out, that of what it shows.
    pub title: Option<String>,
    /// The farm's own words under the heading (Markdown).
    pub says: Option<String>,
    /// The mushrooms that this part shows; left out, those of the handout.
    #[serde(default)]
    pub mushrooms: Vec<Id<Mushroom>>,
    /// The method whose steps are shown.
    pub method: Option<Id<Method>>,
    /// The tasks whose steps or cautions are shown; left out, all of them.
    #[serde(default)]
    pub tasks: Vec<Task>,
    /// The stations of the day.
    #[serde(default)]
    pub stations: Vec<Station>,
    /// Whom to ask.
    #[serde(default)]
    pub ask: Vec<Ask>,
    /// A picture that lies beside the handout's file.
    pub picture: Option<Picture>,
}

/// What a part of a handout shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Shows {
    /// What grows on what.
    Pairings,
    /// When to fell, to inoculate and to look for mushrooms.
    Year,
    /// Holes, spawn and weights for the handout's logs.
    Amounts,
    /// The steps of a method, with their cautions.
    Steps,
    /// The cautions of some tasks.
    Cautions,
    /// When each mushroom is ripe.
    Picking,
    /// What may be taken for each mushroom, and how it is told apart.
    LookAlikes,
    /// The run of the day.
    Stations,
    /// Protective gear counted by heads, and tools, from the stations of the whole handout.
    Kit,
    /// Whom to ask.
    Ask,
    /// The farm's own words alone.
    Words,
}

impl Shows {
    /// The heading where the farm gives none.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Pairings => "What grows on what",
            Self::Year => "The year",
            Self::Amounts => "How much",
            Self::Steps => "Step by step",
            Self::Cautions => "Before you start",
            Self::Picking => "When to pick",
            Self::LookAlikes => "What it is not",
            Self::Stations => "The run of the day",
            Self::Kit => "What to lay out",
            Self::Ask => "Whom to ask",
            Self::Words => "A word from us",
        }
    }
}

/// A station of a work day.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Station {
    /// When it begins, as the farm writes times.
    pub at: String,
    /// Its name.
    pub name: String,
    /// What is done there.
    pub does: String,
    /// How many people work there.
    #[schemars(range(min = 0, max = 500), extend("examples" = [4]))]
    pub heads: u32,
    /// Protective gear that each of them wears.
    #[serde(default)]
    pub wears: Vec<String>,
    /// Tools that stand there.
    #[serde(default)]
    pub tools: Vec<String>,
}

/// Somebody to ask.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Ask {
    /// What about.
    pub about: String,
    /// Who, and how to reach them.
    pub whom: String,
}

/// A picture beside the handout's file.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Picture {
    /// The name of its file in the folder of handouts: PNG, JPEG or WebP.
    pub file: String,
    /// What it shows, for who cannot see it.
    pub shows: String,
}

impl Record for Handout {
    const KIND: Kind = Kind::Handout;
}
