//! What every kind of record shares: who says a thing, and how far the words were checked.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Id, source::Source};
use crate::quantity::{Duration, Range, Temperature};

/// How a value came to stand in a record.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Mark {
    /// Read in the source itself, or in the part of it that could be reached.
    #[default]
    Read,
    /// Read in somebody's copy of the source.
    Copy,
    /// Read in a page that reports the source.
    SecondHand,
    /// Known, but not read again: check it before relying on it.
    Memory,
    /// Worked out from values that were read.
    Derived,
    /// A choice or wording of this project.
    Ours,
}

impl Mark {
    /// The mark as a reader meets it on a page.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Read => "read in the source",
            Self::Copy => "read in a copy",
            Self::SecondHand => "read second-hand",
            Self::Memory => "from memory",
            Self::Derived => "worked out from read values",
            Self::Ours => "our own choice",
        }
    }
}

/// One thing that one source says.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Said {
    /// What is said, in our own words (Markdown).
    pub says: String,
    /// Who says it.
    pub source: Id<Source>,
    /// How the words came here.
    #[serde(default)]
    pub mark: Mark,
    /// What a reader should know about this row.
    pub note: Option<String>,
}

/// What a band of temperature is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// The spawn grows through the wood.
    SpawnRun,
    /// The first knots of mushrooms form.
    Pinning,
    /// Mushrooms grow to picking size.
    Fruiting,
    /// The weather in which logs are drilled and filled.
    Inoculation,
}

impl Stage {
    /// The stage as a reader meets it on a page.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::SpawnRun => "spawn run",
            Self::Pinning => "first pins",
            Self::Fruiting => "fruiting",
            Self::Inoculation => "inoculation weather",
        }
    }
}

/// A band of temperature that one source gives.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Band {
    /// What the band is for.
    pub stage: Stage,
    /// From the lowest to the highest temperature.
    #[schemars(extend("between" = ["-20 C", "50 C"]))]
    pub range: Range<Temperature>,
    /// True for a figure from growing rooms, which is no more than a hint outdoors.
    #[serde(default)]
    pub indoors: bool,
    /// Who gives it.
    pub source: Id<Source>,
    /// How the figure came here.
    #[serde(default)]
    pub mark: Mark,
    /// What a reader should know about this row.
    pub note: Option<String>,
}

/// A span of time that one source gives.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Span {
    /// From the shortest to the longest time.
    #[schemars(extend("between" = ["0 days", "30 years"]))]
    pub range: Range<Duration>,
    /// Who gives it.
    pub source: Id<Source>,
    /// How the figure came here.
    #[serde(default)]
    pub mark: Mark,
    /// What a reader should know about this row.
    pub note: Option<String>,
}

/// How long one source lets wood rest between felling and inoculation.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("rising" = ["least", "best", "most"]))]
pub struct Rest {
    /// The shortest rest that the source allows.
    #[schemars(extend("between" = ["0 days", "2 years"]))]
    pub least: Option<Duration>,
    /// The rest that it calls best, where it says so in figures.
    #[schemars(extend("between" = ["0 days", "2 years"]))]
    pub best: Option<Range<Duration>>,
    /// The longest rest that the source allows.
    #[schemars(extend("between" = ["0 days", "2 years"]))]
    pub most: Option<Duration>,
    /// The reason it gives, in our own words.
    pub says: String,
    /// Who says it.
    pub source: Id<Source>,
    /// How the figure came here.
    #[serde(default)]
    pub mark: Mark,
}
