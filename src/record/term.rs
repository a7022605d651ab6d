//! A term of the trade, explained.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::source::Source;

/// A term, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Term {
    /// The word as it is printed.
    pub term: String,
    /// Other words for the same thing.
    #[serde(default)]
    pub also: Vec<String>,
    /// What it means (Markdown).
    pub says: String,
    /// Terms to read next.
    #[serde(default)]
    pub see: Vec<Id<Term>>,
    /// Who says so, where a source defines it.
    pub source: Option<Id<Source>>,
}
