//! A rule: a law, an advice or a danger of a place, with the woods and mushrooms of which it speaks.

use super::Id;
use super::caution::Task;
use super::holds::{Holding, Holds};
use super::mushroom::Mushroom;
use super::said::cited;
use super::wood::Wood;
use super::words::words;

cited! {
    /// A rule, as a farm or the handbook writes it.
    pub struct Rule with note {
        /// The name that pages use.
        pub name: String,
        /// What it is about.
        pub about: Subject,
        /// The woods it speaks of; none means every wood.
        #[serde(default)]
        pub woods: Vec<Id<Wood>>,
        /// The mushrooms it speaks of; none means every mushroom.
        #[serde(default)]
        pub mushrooms: Vec<Id<Mushroom>>,
        /// The tasks at which it is decided.
        #[serde(default)]
        pub tasks: Vec<Task>,
        /// Where it holds.
        #[serde(flatten)]
        pub holds: Holds,
        /// The rule in plain words (Markdown).
        pub says: String,
    }
}

impl Holding for Rule {
    fn holds(&self) -> &Holds {
        &self.holds
    }
}

words! {
    /// What a rule is about.
    pub enum Subject {
        /// Leave to fell.
        Felling = "Leave to fell",
        /// Times of the year in which nothing is cut.
        ProtectedTime = "Times in which nothing is cut",
        /// Birds and bats.
        Wildlife = "Birds and bats",
        /// Pests, and wood that stays where it is.
        MovingWood = "Pests, and moving wood",
        /// Fungi that are protected or escape.
        Fungi = "Fungi that are protected or escape",
        /// Trees that are unwelcome.
        Trees = "Trees that are unwelcome",
        /// Spawn from abroad.
        Spawn = "Spawn from abroad",
        /// Selling.
        Food = "Selling mushrooms",
    }
}
