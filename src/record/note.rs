//! A note: dated Markdown about any records.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Link;
use crate::quantity::Date;

/// The header of a note, as a farm writes it between two lines of three dashes.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Note {
    /// The title.
    pub title: String,
    /// The day it was written.
    pub date: Date,
    /// The records it is about, as `wood:red-oak`.
    #[serde(default)]
    pub about: Vec<Link>,
}
