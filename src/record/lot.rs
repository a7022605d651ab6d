//! A log lot: a pile of logs of one wood, from one or two days of felling, or from elsewhere.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::tree::Tag;
use super::wood::Wood;
use super::words::words;
use crate::quantity::{Date, Days, Length, Range, Tally};

/// A lot of logs, as a farm writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Lot {
    /// The name that pages use.
    pub name: String,
    /// Their wood; left out, that of its trees.
    pub wood: Option<Id<Wood>>,
    /// How many there are, fit to fill; left out, those that its trees gave.
    #[schemars(range(min = 1, max = 100_000), extend("examples" = [24]))]
    pub logs: Option<Tally>,
    /// What kind of pieces they are.
    #[serde(default)]
    pub pieces: Pieces,
    /// Thinnest and thickest middle diameter, over bark; left out, the farm's log.
    #[schemars(extend("between" = ["1 in", "24 in"]))]
    pub diameter: Option<Range<Length>>,
    /// Length; left out, the farm's log.
    #[schemars(extend("between" = ["6 in", "80 in"]))]
    pub length: Option<Length>,
    /// The day on which they were felled, or the first and the last of them; left out, those of its trees.
    pub felled: Option<Days>,
    /// The tags of the farm's own trees from which they were cut.
    #[serde(default)]
    pub trees: Vec<Tag>,
    /// Where they come from, if not from tagged trees.
    pub from: Option<String>,
    /// Logs of it that were used otherwise than filled, or thrown out.
    #[serde(default)]
    pub gone: Vec<LogsGone>,
}

words! {
    /// What kind of pieces a pile holds.
    #[derive(Default)]
    pub enum Pieces {
        /// Logs of the length that is drilled.
        #[default]
        Log = "logs",
        /// Short rounds to be buried.
        ShortRound = "short rounds",
        /// Rounds for totems.
        TotemRound = "totem rounds",
    }
}

/// Logs that left a pile without being filled.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct LogsGone {
    /// The day.
    pub date: Date,
    /// How they left it.
    pub how: How,
    /// How many.
    #[schemars(range(min = 1, max = 100_000))]
    pub logs: u32,
    /// Why, in a few words.
    pub why: Option<String>,
}

words! {
    /// How logs left a pile without being filled.
    pub enum How {
        /// They were sold.
        Sold = "sold",
        /// They were given away.
        Given = "given away",
        /// They were lost.
        Lost = "lost",
        /// They were thrown out: rot, torn bark, dried out.
        NotUsed = "not used",
        /// They were cut into other pieces.
        CutInto = "cut into other pieces",
    }
}
