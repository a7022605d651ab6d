//! The yard's day book: what was done to a batch, or happened to it, on a day.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Id, Kind, Record, batch::Batch, tree::Tag};
use crate::quantity::{Amount, Date};

/// A line of the day book, as a farm writes it, or a row of its sheet.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Diary {
    /// The day.
    pub date: Date,
    /// The batch; left out where the line is about the yard.
    pub batch: Option<Id<Batch>>,
    /// What was done or happened.
    pub what: What,
    /// How many logs of the batch it concerns; left out, all of them, or one log that was lost.
    #[schemars(range(min = 1, max = 100_000))]
    pub logs: Option<u32>,
    /// The label of the sample log that was weighed.
    pub log: Option<Tag>,
    /// How long soaked, how heavy, how much rain, or how many mushrooms a log.
    pub amount: Option<Amount>,
    /// Anything else.
    pub note: Option<String>,
}

/// What was done or happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum What {
    /// Logs lay in the tank.
    Soaked,
    /// A sample log was weighed.
    Weighed,
    /// Rain fell.
    RainedOn,
    /// Other fungi were seen.
    WeedsSeen,
    /// Logs were given up or taken away.
    LogLost,
    /// Mushrooms came without a soak.
    Fruited,
}

impl What {
    /// The word as records write it.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Soaked => "soaked",
            Self::Weighed => "weighed",
            Self::RainedOn => "rained-on",
            Self::WeedsSeen => "weeds-seen",
            Self::LogLost => "log-lost",
            Self::Fruited => "fruited",
        }
    }

    /// The word as a reader meets it on a page.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Soaked => "soaked",
            Self::Weighed => "weighed",
            Self::RainedOn => "rain",
            Self::WeedsSeen => "weeds seen",
            Self::LogLost => "logs lost",
            Self::Fruited => "fruited by itself",
        }
    }
}

impl Record for Diary {
    const KIND: Kind = Kind::Diary;
}
