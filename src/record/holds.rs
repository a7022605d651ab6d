//! Where a record holds, what binds it there, and as of when.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::region::Region;
use super::words::words;
use crate::quantity::Month;

/// Where a record holds: everywhere, where it says nothing.
#[derive(Debug, Clone, Default, Deserialize, Serialize, JsonSchema)]
pub struct Holds {
    /// The places in which it holds, by ISO 3166 code or by the id of a region; none means everywhere.
    #[serde(default)]
    pub holds_in: Vec<Id<Region>>,
    /// The places in which it does not hold, though it holds elsewhere.
    #[serde(default)]
    pub not_in: Vec<Id<Region>>,
    /// True where it holds in parts of these places only, such as some counties.
    #[serde(default)]
    pub part: bool,
    /// What binds it.
    pub bound: Option<Bond>,
    /// When the newest text of it that was read was written.
    pub as_of: Option<Month>,
    /// Whom a reader asks what holds today.
    pub ask: Option<Ask>,
}

impl Holds {
    /// Whether it holds everywhere.
    pub const fn is_everywhere(&self) -> bool {
        self.holds_in.is_empty() && self.not_in.is_empty()
    }
}

/// A record that says where it holds.
pub trait Holding {
    /// Where it holds.
    fn holds(&self) -> &Holds;
}

words! {
    /// What binds a record where it holds.
    pub enum Bond {
        /// A law or an order of an office.
        Law = "Law",
        /// What an office or a bulletin advises.
        Advice = "Advice",
        /// What a trial or a survey saw.
        Finding = "Finding",
    }
}

words! {
    /// Whom a reader asks; a region's words say who that is in a place.
    pub enum Ask {
        /// Whoever gives leave to fell.
        Forestry,
        /// Whoever watches pests, the moving of wood and spawn from abroad.
        PlantHealth,
        /// Whoever watches birds, bats and wild kinds.
        Wildlife,
        /// Whoever watches the selling of food.
        Food,
    }
}
