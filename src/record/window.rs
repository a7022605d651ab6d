//! A season window: a named stretch of the year in which a thing may, should or must not be done.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Id, Kind, Record, mushroom::Mushroom, said::Mark, source::Source, wood::Wood};
use crate::quantity::SeasonEnd;

/// A season window, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
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

/// What a season window is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum WindowKind {
    /// Trees may be felled for logs.
    Cut,
    /// Trees must not be cut.
    NoCut,
    /// Logs may be inoculated.
    Inoculate,
    /// Mushrooms come.
    Fruit,
    /// Logs may be soaked.
    Soak,
    /// Anything else.
    Other,
}

impl WindowKind {
    /// The kind as a reader meets it on a page.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Cut => "fell",
            Self::NoCut => "do not cut",
            Self::Inoculate => "inoculate",
            Self::Fruit => "fruit",
            Self::Soak => "soak",
            Self::Other => "other work",
        }
    }
}

impl Record for Window {
    const KIND: Kind = Kind::Window;
}
