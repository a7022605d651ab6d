//! A batch: logs that were inoculated together and are tended as one.

use schemars::JsonSchema;
use serde::{Deserialize, Deserializer, Serialize};

use super::Id;
use super::evidence::Way;
use super::lot::Lot;
use super::photo::Photo;
use super::strain::{SpawnForm, Strain};
use super::tree::Tag;
use super::wood::Wood;
use super::words::words;
use crate::quantity::{Date, Length, Mass, Range, in_place, plain};

/// A batch, as a farm writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Batch {
    /// Its strain.
    pub strain: Id<Strain>,
    /// Its wood; left out, that of its lot.
    pub wood: Option<Id<Wood>>,
    /// How many logs it has, or totems or stumps; left out, those of its lots. A bed has none.
    #[schemars(range(min = 1, max = 100_000), extend("examples" = [12]))]
    pub logs: Option<u32>,
    /// How it is grown; left out, on logs.
    #[serde(default)]
    pub way: Way,
    /// The number on its tags and in the day book.
    #[schemars(range(min = 1, max = 100_000))]
    pub number: Option<u32>,
    /// How many tags are printed for it, none where it has them; left out, as many as `tags` of the farm says for a batch of
    /// this winter, and one for an older one.
    #[schemars(range(min = 0, max = 10_000), extend("examples" = [4]))]
    pub tags: Option<u32>,
    /// The day on which it was inoculated.
    pub inoculated: Date,
    /// The day on which its trees were felled; left out, that of its lot.
    pub felled: Option<Date>,
    /// The lot that its logs come from.
    pub lot: Option<Id<Lot>>,
    /// The lots that its logs come from, where there are several, with how many of each.
    #[serde(default)]
    pub lots: Vec<Take>,
    /// The wish that it fulfils, as `PLAN/NAME`; left out, the first open one of its winter with its strain, way and spawn.
    pub wish: Option<String>,
    /// The yard in which it was laid; left out, the farm's first.
    pub yard: Option<String>,
    /// When and how it ended as a whole.
    pub ended: Option<Ended>,
    /// The tags of the trees that its logs come from.
    #[serde(default)]
    pub trees: Vec<Tag>,
    /// Thinnest and thickest middle diameter; left out, that of its lot, or the farm's log.
    #[schemars(extend("between" = ["1 in", "24 in"]))]
    pub diameter: Option<Range<Length>>,
    /// Length; left out, that of its lot, or the farm's log.
    #[schemars(extend("between" = ["6 in", "80 in"]))]
    pub length: Option<Length>,
    /// The form of its spawn.
    pub spawn: Option<SpawnForm>,
    /// The lot numbers of its spawn, as the maker gave them; left out, that of the one bag of its strain and form in the plans
    /// of its winter.
    #[serde(default)]
    #[schemars(extend("examples" = [["A-4711"]]))]
    pub spawn_lots: Vec<String>,
    /// Logs that are weighed again and again.
    #[serde(default)]
    pub samples: Vec<Sample>,
    /// Slices that were weighed wet, dried in an oven and weighed again.
    #[serde(default)]
    pub slices: Vec<Slice>,
    /// Photographs of it from this farm.
    #[serde(default)]
    pub photos: Vec<Photo>,
    /// A few sentences (Markdown).
    pub about: Option<String>,
}

/// A batch as people call it: by its id, or by the number on its tags.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Called(pub String);

impl<'de> Deserialize<'de> for Called {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        serde_json::Value::deserialize(deserializer).map(|value| Self(plain(&value)))
    }
}

in_place!(Called: "Called", _ => { "type": ["string", "integer"], "names": "batch", "examples": ["2026-oak"] });

/// So many logs of a lot.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Take {
    /// The lot.
    pub lot: Id<Lot>,
    /// How many of its logs.
    #[schemars(range(min = 1, max = 100_000))]
    pub logs: u32,
}

/// The end of a batch.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Ended {
    /// The day.
    pub date: Date,
    /// How it ended.
    pub how: End,
    /// Why, in a few words.
    pub why: Option<String>,
}

words! {
    /// How a batch ended.
    pub enum End {
        /// Its logs were spent.
        Retired = "retired",
        /// Its logs were sold.
        Sold = "sold",
        /// Its logs were given away.
        Given = "given away",
        /// Its logs were lost.
        Lost = "lost",
        /// The spawn never took.
        SpawnFailed = "the spawn failed",
    }
}

/// A log that is weighed again and again.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Sample {
    /// What is written on its label.
    pub label: Tag,
    /// Its diameter over bark at the middle; told, and weighed fresh, it corrects what the logs of its wood weigh here.
    #[schemars(extend("between" = ["1 in", "24 in"]))]
    pub diameter: Option<Length>,
    /// Its weight when it was inoculated.
    #[schemars(extend("between" = ["0.2 kg", "200 kg"]))]
    pub at_inoculation: Mass,
    /// Its weight on later days.
    #[serde(default)]
    pub weighed: Vec<Weighing>,
}

/// A weight on a day.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Weighing {
    /// The day.
    pub date: Date,
    /// The weight.
    #[schemars(extend("between" = ["0.2 kg", "200 kg"]))]
    pub weight: Mass,
}

/// A slice that was weighed wet, dried in an oven and weighed again.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[schemars(extend("rising" = ["dry", "wet"]))]
pub struct Slice {
    /// The day on which it was cut.
    pub date: Date,
    /// Its weight when it was cut.
    #[schemars(extend("between" = ["1 g", "20 kg"]))]
    pub wet: Mass,
    /// Its weight after the oven.
    #[schemars(extend("between" = ["1 g", "20 kg"]))]
    pub dry: Mass,
    /// The weight, on that day, of a whole log beside it.
    #[schemars(extend("between" = ["0.2 kg", "200 kg"]))]
    pub log: Option<Mass>,
}
