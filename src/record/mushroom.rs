//! A mushroom: its names, how it is grown, what sources say of its temperatures, times, yield and dangers.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::look_alike::{Feature, LookAlike};
use super::method::Method;
use super::photo::Photo;
use super::region::Region;
use super::said::{Band, Rest, Said, Span, cited};
use super::wood::{Rank, Wood};
use super::words::words;
use crate::quantity::{Mass, PartOfMonth, Percent, Range};

/// A mushroom, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Mushroom {
    /// Common names; the first is the one that pages use.
    #[schemars(length(min = 1))]
    pub names: Vec<String>,
    /// The scientific name in current use.
    pub scientific: String,
    /// Scientific names met in older books.
    #[serde(default)]
    pub formerly: Vec<String>,
    /// Whether the record stands for one species or for a wider group that sources name.
    #[serde(default)]
    pub rank: Rank,
    /// The wider group whose evidence this mushroom inherits.
    pub part_of: Option<Id<Mushroom>>,
    /// What it is and whom it suits, in a few sentences (Markdown).
    pub about: String,
    /// The methods by which it is grown.
    #[serde(default)]
    pub methods: Vec<Id<Method>>,
    /// The woods that thrive by convention: a trial that compares with one of them grades the others by it.
    #[serde(default)]
    pub reference: Vec<Id<Wood>>,
    /// Whether soaking a log brings on a flush; left out where no source says.
    pub answers_to_soaking: Option<bool>,
    /// Bands of temperature.
    #[serde(default)]
    pub temperatures: Vec<Band>,
    /// Rest of the wood between felling and inoculation.
    #[serde(default)]
    pub rest: Vec<Rest>,
    /// From inoculation to the first mushrooms.
    #[serde(default)]
    pub spawn_run: Vec<Span>,
    /// When it fruits outdoors, place by place.
    #[serde(default)]
    pub seasons: Vec<FruitingSeason>,
    /// How it fruits.
    #[serde(default)]
    pub fruiting: Vec<Said>,
    /// Soaking and watering.
    #[serde(default)]
    pub soaking: Vec<Said>,
    /// What a log gives, and for how long.
    #[serde(default)]
    pub yields: Vec<Said>,
    /// What one log gives, in figures.
    #[serde(default)]
    pub log_yields: Vec<LogYield>,
    /// What a log gives, as a part of its green weight.
    #[serde(default)]
    pub weight_yields: Vec<WeightYield>,
    /// How the yield of a log is spread over its years.
    pub yield_shares: Option<YieldShares>,
    /// When it is ripe for picking.
    #[serde(default)]
    pub picking: Vec<Said>,
    /// Colour of its spore print.
    pub print: Option<String>,
    /// What it looks like, part by part.
    #[serde(default)]
    pub features: Vec<Feature>,
    /// Mushrooms that may be taken for it.
    #[serde(default)]
    pub look_alikes: Vec<TakenFor>,
    /// Cooking, keeping and selling.
    #[serde(default)]
    pub food: Vec<Said>,
    /// Anything else that sources say.
    #[serde(default)]
    pub remarks: Vec<Said>,
    /// Photographs of it from this farm.
    #[serde(default)]
    pub photos: Vec<Photo>,
}

cited! {
    /// When it fruits outdoors in a place, as one source puts it.
    pub struct FruitingSeason with note {
        /// The places that the source speaks of, by ISO 3166 code or by the id of a region.
        #[schemars(length(min = 1))]
        pub regions: Vec<Id<Region>>,
        /// From when, in the months of that place.
        pub from: PartOfMonth,
        /// Until when; left out where the source gives no end.
        pub to: Option<PartOfMonth>,
        /// True where it speaks of planted logs or beds, and not of wild finds.
        #[serde(default)]
        pub planted: bool,
    }
}

cited! {
    /// What one log gives, as one source puts it in figures.
    pub struct LogYield with note {
        /// Fresh weight of one log, least and most.
        #[schemars(extend("between" = ["1 g", "20 kg"]))]
        pub a_log: Range<Mass>,
        /// What the weight was counted over.
        pub over: Over,
        /// How many years that took, least and most, where it is counted over a life.
        #[schemars(extend("between" = [0.1, 20]))]
        pub years: Option<Range<f64>>,
        /// The wood, where it was counted on one alone.
        pub wood: Option<Id<Wood>>,
    }
}

cited! {
    /// What a log gives over its life as a part of its green weight, as one source puts it.
    pub struct WeightYield with note {
        /// Fresh mushrooms as a part of the green log, least and most.
        #[schemars(extend("between" = ["0 %", "200 %"]))]
        pub of_green_log: Range<Percent>,
        /// The wood, where it was counted on one alone.
        pub wood: Option<Id<Wood>>,
    }
}

cited! {
    /// How the yield of a log is spread over the years in which it crops.
    pub struct YieldShares {
        /// The parts of the years, the first year first, to any scale.
        #[schemars(length(min = 1), extend("between" = [0, 100]))]
        pub shares: Vec<f64>,
    }
}

words! {
    /// What a yield was counted over.
    pub enum Over {
        /// All the years for which the log crops, or for which it was weighed.
        Life = "a life",
        /// The first season.
        FirstSeason = "the first season",
        /// One flush after a soak.
        Flush = "a flush",
    }
}

/// A look-alike as it is held against this mushroom.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct TakenFor {
    /// The look-alike.
    pub kind: Id<LookAlike>,
    /// False where a spore print does not tell the two apart.
    pub print_separates: bool,
    /// What tells these two apart, beside what holds of the look-alike in any company.
    pub apart: Option<String>,
}
