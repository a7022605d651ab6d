//! A source: who wrote down what the guide repeats.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::words::words;

/// A source, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
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

words! {
    /// What kind of source it is.
    pub enum SourceKind {
        /// A trial with figures.
        Trial = "trial",
        /// An extension bulletin or web page.
        Bulletin = "bulletin",
        /// A book, review or data collection.
        Handbook = "handbook",
        /// A law, rule or standard.
        Standard = "standard",
        /// A trade rule without a source.
        CommonPractice = "common practice",
        /// This farm's own experience.
        ThisFarm = "this farm",
    }
}
