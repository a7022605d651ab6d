//! A sale: what was brought to sell on a day, what was taken for it, and what came home unsold.

use schemars::JsonSchema;
use serde::de::IgnoredAny;
use serde::{Deserialize, Deserializer, Serialize};

use super::Id;
use super::batch::Called;
use super::strain::Strain;
use crate::quantity::{Date, Mass, in_place};

/// A sale of mushrooms, as a farm writes it, or a row of its sheet of sales.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Sale {
    /// The day.
    pub date: Date,
    /// The batch that was sold of, by its id or its number.
    pub batch: Option<Called>,
    /// The strain, where nobody can tell the batch.
    pub strain: Option<Id<Strain>>,
    /// Fresh weight that was brought to sell.
    #[schemars(extend("between" = ["1 g", "2000 kg"], "examples" = ["2.4 lb"]))]
    pub weight: Mass,
    /// What was taken for it, in the farm's money.
    #[schemars(range(min = 0.0, max = 1_000_000.0), extend("examples" = [31.5]))]
    pub taken: f64,
    /// What came home unsold of that weight; left out, nothing.
    #[schemars(extend("between" = ["0 g", "2000 kg"], "examples" = ["0.5 lb"]))]
    pub unsold: Option<Mass>,
    /// Who bought; it stays in the farm's own file, and nothing prints it.
    #[serde(default)]
    pub buyer: Unread,
    /// Anything else; pages print it.
    pub note: Option<String>,
}

impl Sale {
    /// What was sold of the weight that was brought.
    pub fn sold(&self) -> Mass {
        Mass::of_kilograms(self.weight.base() - self.unsold.as_ref().map_or(0.0, Mass::base))
    }
}

/// A text that a farm keeps for itself: it is forgotten where it is read, so that nothing can print it.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
pub struct Unread;

impl<'de> Deserialize<'de> for Unread {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        IgnoredAny::deserialize(deserializer).map(|_| Self)
    }
}

in_place!(Unread: "Unread", _ => { "type": "string" });
