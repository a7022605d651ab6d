//! A season window: a named stretch of the year in which a thing may, should or must not be done.

use super::Id;
use super::holds::{Holding, Holds};
use super::mushroom::Mushroom;
use super::said::cited;
use super::wood::Wood;
use super::words::words;
use crate::quantity::SeasonEnd;

cited! {
    /// A season window, as a farm or the handbook writes it.
    pub struct Window {
        /// The name that pages use.
        pub name: String,
        /// What the window is for.
        pub kind: WindowKind,
        /// Its first day: a date of the year, an event with a shift, or a temperature crossing.
        pub from: SeasonEnd,
        /// Its last day.
        pub to: SeasonEnd,
        /// The woods it speaks of; none means every wood.
        #[serde(default)]
        pub woods: Vec<Id<Wood>>,
        /// The mushrooms it speaks of; none means every mushroom.
        #[serde(default)]
        pub mushrooms: Vec<Id<Mushroom>>,
        /// Where it holds; a no-cut window of a place counts only where the farm names it.
        #[serde(flatten)]
        pub holds: Holds,
        /// What the reader should know (Markdown).
        pub says: String,
    }
}

impl Holding for Window {
    fn holds(&self) -> &Holds {
        &self.holds
    }
}

words! {
    /// What a season window is for.
    pub enum WindowKind {
        /// Trees may be felled for logs.
        Cut = "fell",
        /// Trees must not be cut.
        NoCut = "do not cut",
        /// Logs may be inoculated.
        Inoculate = "inoculate",
        /// Mushrooms come.
        Fruit = "fruit",
        /// Logs may be soaked.
        Soak = "soak",
        /// Anything else.
        Other = "other work",
    }
}
