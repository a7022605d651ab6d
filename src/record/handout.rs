//! A handout: one paper for a workshop, a work day or a pocket, made of the guide's own parts and the farm's words.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::caution::Task;
use super::method::Method;
use super::mushroom::Mushroom;
use super::wood::Wood;
use super::words::words;
use crate::quantity::Date;

/// A handout, as a farm writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
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

words! {
    /// The paper on which something is printed.
    #[derive(clap::ValueEnum)]
    pub enum Paper {
        /// ISO A4.
        A4,
        /// US Letter.
        Letter,
    }
}

/// A part of a handout.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
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

words! {
    /// What a part of a handout shows.
    pub enum Shows {
        /// What grows on what.
        Pairings = "What grows on what",
        /// When to fell, to inoculate and to look for mushrooms.
        Year = "The year",
        /// Holes, spawn and weights for the handout's logs.
        Amounts = "How much",
        /// The steps of a method, with their cautions.
        Steps = "Step by step",
        /// The cautions of some tasks.
        Cautions = "Before you start",
        /// When each mushroom is ripe.
        Picking = "When to pick",
        /// What may be taken for each mushroom, and how it is told apart.
        LookAlikes = "What it is not",
        /// The run of the day.
        Stations = "The run of the day",
        /// Protective gear counted by heads, and tools, from the stations of the whole handout.
        Kit = "What to lay out",
        /// Whom to ask.
        Ask = "Whom to ask",
        /// The farm's own words alone.
        Words = "A word from us",
    }
}

/// A station of a work day.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
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
pub struct Ask {
    /// What about.
    pub about: String,
    /// Who, and how to reach them.
    pub whom: String,
}

/// A picture beside the handout's file.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Picture {
    /// The name of its file in the folder of handouts: PNG, JPEG or WebP.
    pub file: String,
    /// What it shows, for who cannot see it.
    pub shows: String,
}
