//! A trouble: something that a grower sees on logs, mushrooms or in the yard, its likely causes and what to do.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::mushroom::Mushroom;
use super::said::{Said, cited};
use super::words::words;

/// A trouble, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Trouble {
    /// The trouble in a few words, as a grower would say it.
    pub name: String,
    /// What is seen, in the grower's words (Markdown).
    pub sees: String,
    /// Where it shows.
    #[schemars(length(min = 1))]
    pub shows: Vec<Part>,
    /// In which stages it comes.
    #[schemars(length(min = 1))]
    pub when: Vec<Stage>,
    /// What may be behind it, the likeliest first.
    #[schemars(length(min = 1))]
    pub causes: Vec<Cause>,
    /// What to do.
    #[serde(rename = "do")]
    #[schemars(length(min = 1))]
    pub remedies: Vec<Said>,
    /// When the log is to be given up, where a source says so.
    pub give_up: Option<Said>,
    /// The mushrooms that it concerns alone.
    #[serde(default)]
    pub mushrooms: Vec<Id<Mushroom>>,
}

cited! {
    /// What may be behind a trouble.
    pub struct Cause with note {
        /// The cause.
        pub cause: String,
        /// How it is told from the others (Markdown).
        pub tell: String,
    }
}

words! {
    /// Where a trouble shows.
    pub enum Part {
        /// On the cut ends.
        Ends = "On the cut ends",
        /// On the bark.
        Bark = "On the bark",
        /// At the holes.
        Holes = "At the holes",
        /// All over or through the log.
        WholeLog = "The whole log",
        /// On the mushrooms.
        Mushrooms = "On the mushrooms",
        /// In the yard.
        Yard = "In the yard",
        /// In the tank.
        Tank = "In the tank",
    }
}

words! {
    /// A stage in the life of a log in which a trouble comes.
    pub enum Stage {
        /// Between felling and inoculation.
        Resting = "while logs rest",
        /// On the day of inoculation.
        Inoculation = "at inoculation",
        /// While the spawn grows through the wood.
        SpawnRun = "during the spawn run",
        /// In the years of mushrooms.
        Fruiting = "in the fruiting years",
        /// In and after the tank.
        Soaking = "at soaking",
        /// After picking.
        Storing = "after picking",
    }
}
