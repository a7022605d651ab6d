//! What every kind of record shares: who says a thing, and how far the words were checked.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Id, source::Source, words::words};
use crate::quantity::{Duration, Range, Temperature};

words! {
    /// How a value came to stand in a record.
    #[derive(Default)]
    pub enum Mark {
        /// Read in the source itself, or in the part of it that could be reached.
        #[default]
        Read = "read in the source",
        /// Read in somebody's copy of the source.
        Copy = "read in a copy",
        /// Read in a page that reports the source.
        SecondHand = "read second-hand",
        /// Known, but not read again: check it before relying on it.
        Memory = "from memory",
        /// Worked out from values that were read.
        Derived = "worked out from read values",
        /// A choice or wording of this project.
        Ours = "our own choice",
    }
}

/// One thing that one source says.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
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

words! {
    /// What a band of temperature is for.
    pub enum Stage {
        /// The spawn grows through the wood.
        SpawnRun = "spawn run",
        /// The first knots of mushrooms form.
        Pinning = "first pins",
        /// Mushrooms grow to picking size.
        Fruiting = "fruiting",
        /// The weather in which logs are drilled and filled.
        Inoculation = "inoculation weather",
    }
}

/// A band of temperature that one source gives.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
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
