//! The yard's day book: what was done to a batch, or happened to it, on a day.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::batch::Called;
use super::tree::Tag;
use super::trouble::Trouble;
use super::words::words;
use crate::quantity::{Amount, Date};

/// A line of the day book, as a farm writes it, or a row of its sheet.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Diary {
    /// The day.
    pub date: Date,
    /// The batch, by its id or its number; left out where the line is about the yard.
    pub batch: Option<Called>,
    /// The batches, where the line is about several.
    #[serde(default)]
    pub batches: Vec<Called>,
    /// What was done or happened; in a sheet the trouble that was seen may follow it, as `weeds-seen: green-dust`.
    pub what: What,
    /// How many logs of the batch it concerns; left out, all of them, or one log that was lost. None can only be counted.
    #[schemars(range(min = 0, max = 100_000))]
    pub logs: Option<u32>,
    /// The label of the sample log that was weighed.
    pub log: Option<Tag>,
    /// How long soaked, how heavy, how much rain, or how many mushrooms a log.
    pub amount: Option<Amount>,
    /// The trouble that was seen.
    pub trouble: Option<Id<Trouble>>,
    /// The yard to which logs were moved.
    pub to: Option<String>,
    /// Anything else.
    pub note: Option<String>,
}

words! {
    /// What was done or happened.
    pub enum What {
        /// Logs lay in the tank.
        Soaked = "soaked",
        /// A sample log was weighed.
        Weighed = "weighed",
        /// Rain fell.
        RainedOn = "rain",
        /// Other fungi were seen.
        WeedsSeen = "weeds seen",
        /// Logs were given up or taken away.
        LogLost = "logs lost",
        /// Mushrooms came without a soak.
        Fruited = "fruited by itself",
        /// Spent logs were taken out of the yard.
        Retired = "retired",
        /// Logs were sold.
        Sold = "sold",
        /// Logs were given away.
        Given = "given away",
        /// Logs were inoculated later and laid to the batch.
        Added = "added",
        /// Logs were moved to another yard or stacked anew.
        Moved = "moved",
        /// Logs were counted: so many are in the yard.
        Counted = "counted",
    }
}
