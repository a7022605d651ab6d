//! A signpost of the finder: everyday words, and where they lead.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Link;
use super::words::words;

/// A signpost, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Signpost {
    /// What a reader may type: everyday words or short phrases, each by itself. A nought stands for any number: `0 logs`.
    #[schemars(length(min = 1))]
    pub words: Vec<String>,
    /// The page of the guide to which they lead.
    pub page: Option<Destination>,
    /// The records to which they lead, the best first; after the page, where both are named.
    #[serde(default)]
    pub to: Vec<Link>,
}

words! {
    /// A page of the guide that is no record's.
    pub enum Destination {
        /// The plan.
        Planning,
        /// Where every log is.
        Ledger,
        /// Which trees come down.
        Felling,
        /// Cutting to length, and what one person may lift.
        Bucking,
        /// What to order.
        Supply,
        /// Inoculation day: tools, hours, and spawn for any number of logs.
        Inoculation,
        /// A tag for each log.
        LogTags,
        /// Cards to fill in by hand.
        Cards,
        /// All batches.
        Batches,
        /// Which logs go into the tank on which day.
        SoakRota,
        /// Where the yard lies.
        Siting,
        /// How wet the logs are.
        Moisture,
        /// Picking and selling.
        Selling,
        /// What was picked.
        Harvests,
        /// What was sold.
        Sales,
        /// What may go wrong.
        Troubles,
        /// When a log is spent.
        Retiring,
        /// All jobs, with their sheets and methods.
        Methods,
        /// Cautions by task, rules, and whom to call.
        Safety,
        /// What holds in other places.
        Elsewhere,
        /// The pocket edition.
        Pocket,
        /// What grows on what.
        Pairings,
        /// The dates of the year.
        Seasons,
        /// Which tree is this, while it is bare?
        KeyWinter,
        /// Which tree is this, in leaf?
        KeySummer,
        /// Which tree is this, by whatever is seen of it?
        KeyWays,
        /// Is this mushroom what was planted?
        KeyMushroom,
        /// All sources.
        Sources,
        /// The words of the trade.
        Terms,
        /// How every figure was reckoned.
        WorkingIndex,
        /// The front page.
        Index,
        /// All mushrooms.
        Mushrooms,
        /// All strains.
        Strains,
        /// All woods.
        Woods,
        /// All notes.
        Notes,
        /// Everything by its name.
        AToZ,
    }
}
