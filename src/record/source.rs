//! A source: who wrote down what the guide repeats.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Kind, Record};

/// A source, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// Short form for tables, such as "Frey 2020".
    pub short: String,
    /// The people or the institution.
    pub authors: String,
    /// The year, where one is known.
    #[schemars(range(min = 1500, max = 2100))]
    pub year: Option<i16>,
    /// The title.
    pub title: String,
    /// Journal, series, number, pages.
    pub number: Option<String>,
    /// What kind of source it is.
    pub kind: SourceKind,
    /// People who speak in several sources with one voice; their rows count once.
    pub team: Option<String>,
    /// How much of it was read.
    pub read: Option<String>,
}

/// What kind of source it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SourceKind {
    /// A trial with figures.
    Trial,
    /// An extension bulletin or web page.
    Bulletin,
    /// A book, review or data collection.
    Handbook,
    /// A law, rule or standard.
    Standard,
    /// A trade rule without a source.
    CommonPractice,
    /// This farm's own experience.
    ThisFarm,
}

impl SourceKind {
    /// The kind as a reader meets it on a page.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Trial => "trial",
            Self::Bulletin => "bulletin",
            Self::Handbook => "handbook",
            Self::Standard => "standard",
            Self::CommonPractice => "common practice",
            Self::ThisFarm => "this farm",
        }
    }
}

impl Record for Source {
    const KIND: Kind = Kind::Source;
}
