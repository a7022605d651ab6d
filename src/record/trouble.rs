//! A trouble: something that a grower sees on logs, mushrooms or in the yard, its likely causes and what to do.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{
    Id, Kind, Record,
    mushroom::Mushroom,
    said::{Mark, Said},
    source::Source,
};

/// A trouble, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Trouble {
    /// The trouble in a few words, as a grower would say it.
    pub name: String,
    /// What is seen, in the grower's words (Markdown).
    pub sees: String,
    /// Where it shows.
    #[schemars(length(min = 1))]
    pub shows: Vec<Part>,
    /// In which stages it comes.
    #[schemars(length(min = 1))]
    pub when: Vec<Stage>,
    /// What may be behind it, the likeliest first.
    #[schemars(length(min = 1))]
    pub causes: Vec<Cause>,
    /// What to do.
    #[serde(rename = "do")]
    #[schemars(length(min = 1))]
    pub remedies: Vec<Said>,
    /// When the log is to be given up, where a source says so.
    pub give_up: Option<Said>,
    /// The mushrooms that it concerns alone.
    #[serde(default)]
    pub mushrooms: Vec<Id<Mushroom>>,
}

/// What may be behind a trouble.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Cause {
    /// The cause.
    pub cause: String,
    /// How it is told from the others (Markdown).
    pub tell: String,
    /// Who says so.
    pub source: Id<Source>,
    /// How it came here.
    #[serde(default)]
    pub mark: Mark,
    /// What a reader should know about this row.
    pub note: Option<String>,
}

/// Where a trouble shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Part {
    /// On the cut ends.
    Ends,
    /// On the bark.
    Bark,
    /// At the holes.
    Holes,
    /// On the mushrooms.
    Mushrooms,
    /// All over or through the log.
    WholeLog,
    /// In the yard.
    Yard,
    /// In the tank.
    Tank,
}

impl Part {
    /// Every part, in the order in which pages show them.
    pub const ALL: [Self; 7] =
        [Self::Ends, Self::Bark, Self::Holes, Self::WholeLog, Self::Mushrooms, Self::Yard, Self::Tank];

    /// The part as tables write it.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Ends => "ends",
            Self::Bark => "bark",
            Self::Holes => "holes",
            Self::Mushrooms => "mushrooms",
            Self::WholeLog => "whole-log",
            Self::Yard => "yard",
            Self::Tank => "tank",
        }
    }

    /// The part as a reader meets it on a page.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Ends => "On the cut ends",
            Self::Bark => "On the bark",
            Self::Holes => "At the holes",
            Self::Mushrooms => "On the mushrooms",
            Self::WholeLog => "The whole log",
            Self::Yard => "In the yard",
            Self::Tank => "In the tank",
        }
    }
}

/// A stage in the life of a log in which a trouble comes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// Between felling and inoculation.
    Resting,
    /// On the day of inoculation.
    Inoculation,
    /// While the spawn grows through the wood.
    SpawnRun,
    /// In the years of mushrooms.
    Fruiting,
    /// In and after the tank.
    Soaking,
    /// After picking.
    Storing,
}

impl Stage {
    /// The stage as tables write it.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Resting => "resting",
            Self::Inoculation => "inoculation",
            Self::SpawnRun => "spawn-run",
            Self::Fruiting => "fruiting",
            Self::Soaking => "soaking",
            Self::Storing => "storing",
        }
    }

    /// The stage as a reader meets it on a page.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Resting => "while logs rest",
            Self::Inoculation => "at inoculation",
            Self::SpawnRun => "during the spawn run",
            Self::Fruiting => "in the fruiting years",
            Self::Soaking => "at soaking",
            Self::Storing => "after picking",
        }
    }
}

impl Record for Trouble {
    const KIND: Kind = Kind::Trouble;
}
