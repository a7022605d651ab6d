//! A log lot: logs that do not come from tagged trees.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::wood::Wood;
use crate::quantity::{Date, Length, Range};

/// A lot of logs, as a farm writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Lot {
    /// The name that pages use.
    pub name: String,
    /// Their wood.
    pub wood: Id<Wood>,
    /// How many there are.
    #[schemars(range(min = 1, max = 100_000), extend("examples" = [24]))]
    pub logs: u32,
    /// Thinnest and thickest middle diameter, over bark; left out, the farm's log.
    #[schemars(extend("between" = ["1 in", "24 in"]))]
    pub diameter: Option<Range<Length>>,
    /// Length; left out, the farm's log.
    #[schemars(extend("between" = ["6 in", "80 in"]))]
    pub length: Option<Length>,
    /// The day on which they were felled.
    pub felled: Option<Date>,
    /// Where they come from.
    pub from: String,
}
