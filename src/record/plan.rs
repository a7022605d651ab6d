//! A plan: this winter's wishes, and the packages on offer.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::evidence::Way;
use super::strain::{SpawnForm, Strain};
use super::words::words;
use crate::quantity::{Area, Date, Duration, Length, Mass, Tally};

/// A plan, as a farm writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Plan {
    /// The name that pages use.
    pub name: String,
    /// The year in which the season begins that it plans.
    #[schemars(range(min = 1900, max = 2200), extend("examples" = [2026]))]
    pub season: i16,
    /// The least pairing that may be used.
    #[serde(default)]
    pub floor: Floor,
    /// What is wished for.
    #[schemars(length(min = 1))]
    pub wishes: Vec<Wish>,
    /// The packages on offer.
    #[serde(default)]
    pub offers: Vec<Offer>,
    /// What is left of spawn and wax; batches use it up from the day on which it was counted, and the next count of the
    /// same bag takes the place of this one.
    #[serde(default)]
    pub stock: Vec<Stock>,
}

words! {
    /// The least pairing that a plan uses; one that fails is never used.
    #[derive(Default)]
    pub enum Floor {
        /// Only what thrives.
        Thrives = "thrives",
        /// What does well or better.
        #[default]
        DoesWell = "does well",
        /// What gets by or better.
        GetsBy = "gets by",
        /// What is mentioned without a rating, too.
        Mentioned = "mentioned",
        /// What nobody has tried, too.
        Untried = "untried",
    }
}

/// One wish: a strain, and how much of it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Wish {
    /// The name by which batches call it, where a plan has two alike.
    pub name: Option<String>,
    /// The way in which its logs are grown; left out, that in which the mushroom's logs usually are.
    pub way: Option<Way>,
    /// The strain.
    pub strain: Id<Strain>,
    /// The form of its spawn.
    pub spawn: SpawnForm,
    /// Drilled logs.
    #[schemars(range(min = 1, max = 100_000))]
    pub logs: Option<u32>,
    /// Fresh mushrooms a week; logs are reckoned back from it by each published yield.
    #[schemars(extend("between" = ["0.1 kg", "1000 kg"]))]
    pub a_week: Option<Mass>,
    /// For how many weeks of the year that weight is wanted.
    #[schemars(range(min = 1, max = 53))]
    pub weeks: Option<u32>,
    /// Guests who each take logs home.
    #[schemars(range(min = 1, max = 10_000))]
    pub guests: Option<u32>,
    /// Logs for each guest; left out, one.
    #[schemars(range(min = 1, max = 100))]
    pub logs_a_guest: Option<u32>,
    /// Totems of stacked rounds.
    pub totems: Option<Totems>,
    /// Stumps to be filled where they stand.
    pub stumps: Option<Stumps>,
    /// A bed of chips.
    pub bed: Option<Bed>,
}

impl Wish {
    /// Whether a batch's `wish: PLAN/NAME` means it.
    pub fn is_called(&self, plan: &str, name: &str) -> bool {
        let parts = name.split_once('/');
        parts.is_some_and(|(of, own)| of.trim() == plan && self.name.as_deref() == Some(own.trim()))
    }

    /// The ways of growing that it asks for, where its logs are grown in one.
    pub fn ways(&self, logs: Way) -> impl Iterator<Item = Way> {
        let drilled = self.logs.is_some() || self.guests.is_some() || self.a_week.is_some();
        let asked = [
            (drilled, logs),
            (self.totems.is_some(), Way::Totem),
            (self.stumps.is_some(), Way::Stump),
            (self.bed.is_some(), Way::ChipBed),
        ];
        asked.into_iter().filter(|(asked, _)| *asked).map(|(_, way)| way)
    }
}

/// Totems of stacked rounds.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Totems {
    /// How many.
    #[schemars(range(min = 1, max = 10_000))]
    pub number: u32,
    /// Diameter of a round.
    #[schemars(extend("between" = ["4 in", "30 in"]))]
    pub diameter: Length,
    /// Length of a round; left out, 24 in.
    #[schemars(extend("between" = ["4 in", "48 in"]))]
    pub round: Option<Length>,
    /// Rounds in a totem; left out, two.
    #[schemars(range(min = 1, max = 6))]
    pub rounds: Option<u32>,
    /// Spawn that one totem takes by the farm's own rule; none is published.
    #[schemars(extend("between" = ["10 g", "20 kg"]))]
    pub spawn_each: Option<Mass>,
}

/// Stumps to be filled where they stand.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Stumps {
    /// How many.
    #[schemars(range(min = 1, max = 10_000))]
    pub number: u32,
    /// Diameter.
    #[schemars(extend("between" = ["4 in", "60 in"]))]
    pub diameter: Length,
    /// Height above the ground.
    #[schemars(extend("between" = ["2 in", "48 in"]))]
    pub height: Length,
}

/// A bed of chips.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Bed {
    /// Its area.
    #[schemars(extend("between" = ["0.1 m2", "1 ha"], "examples" = ["50 ft2"]))]
    pub area: Area,
    /// Depth of the chips.
    #[schemars(extend("between" = ["1 in", "24 in"]))]
    pub depth: Length,
    /// Spawn that the whole bed takes by the farm's own rule; none is published.
    #[schemars(extend("between" = ["10 g", "1000 kg"]))]
    pub spawn: Option<Mass>,
}

/// A package on offer.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Offer {
    /// What is in it.
    pub item: Item,
    /// The strains that it is to be had of; left out, any.
    #[serde(default)]
    pub strains: Vec<Id<Strain>>,
    /// The weight of spawn or wax in it.
    #[schemars(extend("between" = ["10 g", "1000 kg"]))]
    pub weight: Option<Mass>,
    /// The plugs or thimbles in it.
    #[schemars(range(min = 1, max = 1_000_000))]
    pub pieces: Option<u32>,
    /// What it costs, in the farm's own money.
    #[schemars(range(min = 0.0, max = 100_000.0))]
    pub price: Option<f64>,
    /// From order to delivery.
    #[schemars(extend("between" = ["0 days", "1 year"]))]
    pub lead: Option<Duration>,
    /// How long it keeps from delivery.
    #[schemars(extend("between" = ["1 day", "3 years"]))]
    pub keeps: Option<Duration>,
}

/// Spawn or wax that is ordered or in hand.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Stock {
    /// What it is.
    pub item: Item,
    /// Its strain, where it is spawn.
    pub strain: Option<Id<Strain>>,
    /// How heavy it is.
    #[schemars(extend("between" = ["1 g", "1000 kg"]))]
    pub weight: Option<Mass>,
    /// How many plugs or thimbles there are.
    #[schemars(range(min = 0, max = 1_000_000))]
    pub pieces: Option<Tally>,
    /// The day on which it was ordered; until it has arrived it is neither in hand nor ordered again.
    pub ordered: Option<Date>,
    /// The day on which it arrived.
    pub arrived: Option<Date>,
    /// Where it is kept.
    pub kept: Option<String>,
    /// The day on which it was counted; left out, that on which it arrived.
    pub counted: Option<Date>,
    /// The day on which the bag was opened.
    pub opened: Option<Date>,
    /// The number that the maker gave it, by which bags of one strain are told apart.
    pub lot_number: Option<String>,
    /// In what state it is.
    #[serde(default)]
    pub state: State,
}

impl Stock {
    /// The day from which it is in hand; `None` where it is only ordered.
    pub fn since(&self) -> Option<Date> {
        self.counted.or(self.arrived)
    }
}

words! {
    /// In what state spawn is.
    #[derive(Default)]
    pub enum State {
        /// Fit to fill.
        #[default]
        Good = "good",
        /// Nobody knows; try a few logs.
        Doubtful = "doubtful",
        /// Dead or green: it is not used.
        Spoilt = "dead or green",
    }
}

words! {
    /// What is in a package.
    pub enum Item {
        /// Loose colonised sawdust.
        Sawdust = "sawdust spawn",
        /// Wooden dowels.
        Plug = "plugs",
        /// Sawdust pressed into a cone with a foam cap.
        Thimble = "thimbles",
        /// Colonised grain.
        Grain = "grain spawn",
        /// Sealing wax.
        Wax = "wax",
    }
}

impl Item {
    /// The item that a form of spawn is.
    pub const fn of(form: SpawnForm) -> Self {
        match form {
            SpawnForm::Sawdust => Self::Sawdust,
            SpawnForm::Plug => Self::Plug,
            SpawnForm::Thimble => Self::Thimble,
            SpawnForm::Grain => Self::Grain,
        }
    }
}
