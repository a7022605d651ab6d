//! A season window: a named stretch of the year in which a thing may, should or must not be done.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Id, mushroom::Mushroom, said::Mark, source::Source, wood::Wood, words::words};
use crate::quantity::SeasonEnd;

/// A season window, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Window {
    /// The name that pages use.
    pub name: String,
    /// What the window is for.
    pub kind: WindowKind,
    /// Its first day: a date of the year, an event with a shift, or a temperature crossing.
    pub from: SeasonEnd,
    /// Its last day.
    pub to: SeasonEnd,
    /// The woods it speaks of; none means every wood.
    #[serde(default)]
    pub woods: Vec<Id<Wood>>,
    /// The mushrooms it speaks of; none means every mushroom.
    #[serde(default)]
    pub mushrooms: Vec<Id<Mushroom>>,
    /// The region for which the window holds; a regional no-cut window counts only where the farm names it.
    pub region: Option<String>,
    /// What the reader should know (Markdown).
    pub says: String,
    /// Who gives it.
    pub source: Id<Source>,
    /// How it came here.
    #[serde(default)]
    pub mark: Mark,
}

words! {
    /// What a season window is for.
    pub enum WindowKind {
        /// Trees may be felled for logs.
        Cut = "fell",
        /// Trees must not be cut.
        NoCut = "do not cut",
        /// Logs may be inoculated.
        Inoculate = "inoculate",
        /// Mushrooms come.
        Fruit = "fruit",
        /// Logs may be soaked.
        Soak = "soak",
        /// Anything else.
        Other = "other work",
    }
}
