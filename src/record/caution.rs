//! A caution: one danger, the tasks at which it threatens, and one plain sentence against it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::holds::{Holding, Holds};
use super::mushroom::Mushroom;
use super::said::Mark;
use super::source::Source;
use super::wood::Wood;
use super::words::words;

/// How many cautions stand above a piece of work at most.
pub const LEADING: usize = 3;

/// A caution, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Caution {
    /// What can happen.
    pub hazard: String,
    /// The tasks at which it threatens.
    #[schemars(length(min = 1))]
    pub tasks: Vec<Task>,
    /// The tasks above whose work it stands, where it is one of the three that matter most there.
    #[serde(default)]
    pub leads: Vec<Task>,
    /// The tasks above whose work it stands first where logs lie indoors.
    #[serde(default)]
    pub leads_indoors: Vec<Task>,
    /// Its place among those that lead, the lower first.
    #[schemars(range(min = 1, max = 9))]
    pub turn: Option<u8>,
    /// The tool with which it comes; none means whatever tool is used.
    pub with: Option<Tool>,
    /// The woods with which it comes; none means any wood.
    #[serde(default)]
    pub woods: Vec<Id<Wood>>,
    /// The mushrooms with which it comes; none means any mushroom.
    #[serde(default)]
    pub mushrooms: Vec<Id<Mushroom>>,
    /// Where it holds.
    #[serde(flatten)]
    pub holds: Holds,
    /// How bad it can be.
    pub severity: Severity,
    /// Whom it protects.
    #[schemars(length(min = 1))]
    pub protects: Vec<String>,
    /// True where the reader must turn to local code or to a trained or licensed person.
    #[serde(default)]
    pub defer: bool,
    /// The caution, in one plain sentence.
    pub says: String,
    /// Who says so.
    #[schemars(length(min = 1))]
    pub sources: Vec<Id<Source>>,
    /// How it came here.
    #[serde(default)]
    pub mark: Mark,
}

impl Holding for Caution {
    fn holds(&self) -> &Holds {
        &self.holds
    }
}

words! {
    /// A tool that brings a danger of its own.
    pub enum Tool {
        /// An angle grinder with a drilling bit.
        Grinder = "an angle grinder",
        /// A drill, a pump or a heater on a cord.
        Corded = "a tool on a cord",
        /// A winch.
        Winch = "a winch",
        /// A gas burner, or a generator.
        Burner = "a gas burner",
        /// A chipper.
        Chipper = "a chipper",
        /// A pump in the tank.
        Pump = "a pump",
    }
}

words! {
    /// How bad a danger can be.
    pub enum Severity {
        /// Can kill or maim, or do harm that cannot be undone.
        Grave = "Stop",
        /// Needs care by a doctor or vet, or does lasting damage.
        Harm = "Take care",
        /// Minor; handled on the spot.
        Watch = "Bear in mind",
    }
}

words! {
    /// A task of the year's work, at which cautions are shown.
    pub enum Task {
        /// Walking the woods and marking trees.
        Survey = "walking the woods",
        /// Bringing trees down.
        Felling = "felling",
        /// Limbing and cutting to length.
        Bucking = "limbing and bucking",
        /// Chipping branches.
        Chipping = "chipping",
        /// Moving logs.
        Hauling = "hauling",
        /// Drilling holes.
        Drilling = "drilling",
        /// Sealing with hot wax.
        Waxing = "waxing",
        /// Drilling, filling and waxing on one day.
        Inoculation = "the day of inoculation",
        /// Boiling short logs in a drum.
        Boiling = "boiling short logs",
        /// Piling and racking logs.
        Stacking = "stacking",
        /// Soaking logs in water.
        Soaking = "soaking",
        /// Picking.
        Harvest = "picking",
        /// Cooking and eating.
        Eating = "eating",
        /// Packing and selling.
        Selling = "selling",
    }
}
