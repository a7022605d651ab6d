//! A tagged tree: what it is, how thick and high, whether it stays, and why.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Deserializer, Serialize};

use super::Id;
use super::stand::Stand;
use super::wood::Wood;
use super::words::words;
use crate::quantity::{Date, Length, in_place, plain};

/// A tagged tree, as a farm writes it in a row.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Tree {
    /// What its tag says.
    pub tag: Tag,
    /// The stand in which it grows; left out, that of the file's name.
    pub stand: Option<Id<Stand>>,
    /// Its wood.
    pub wood: Id<Wood>,
    /// True where its wood is not sure: it is neither felled nor placed until a second character of it agrees.
    #[serde(default)]
    pub doubtful: bool,
    /// Its diameter over bark at breast height, 4.5 ft (1.3 m) above the ground on the uphill side; or its girth.
    #[schemars(extend("between" = ["0.5 in", "60 in"], "examples" = ["7.5 in"]))]
    pub dbh: Option<Length>,
    /// Its girth at breast height, as a tape gives it.
    #[schemars(extend("between" = ["1.5 in", "190 in"], "examples" = ["24 in"]))]
    pub girth: Option<Length>,
    /// Its height.
    #[schemars(extend("between" = ["6 ft", "150 ft"], "examples" = ["52 ft"]))]
    pub height: Option<Length>,
    /// The logs of the farm's size that one sees in the stem; stands in where none can be reckoned from its own height.
    #[schemars(range(min = 0, max = 60))]
    pub logs: Option<u32>,
    /// The logs of the farm's size in its limbs, by eye.
    #[schemars(range(min = 0, max = 60))]
    pub limb_logs: Option<u32>,
    /// The height at which the stem forks; nothing above it is counted.
    #[schemars(extend("between" = ["1 ft", "120 ft"]))]
    pub fork: Option<Length>,
    /// Its condition.
    #[serde(default)]
    pub condition: Condition,
    /// Whether it stays.
    pub decision: Decision,
    /// Why.
    pub why: Option<String>,
    /// The stump that it shares with other stems; those that are marked come down together.
    pub clump: Option<Tag>,
    /// True where the stump is a coppice stool, all of whose stems are cut at once.
    #[serde(default)]
    pub stool: bool,
    /// Its place in the walk from tree to tree.
    #[schemars(range(min = 1, max = 100_000))]
    pub order: Option<u32>,
    /// How far east of the stand's corner post it stands; west is negative.
    #[schemars(extend("between" = ["-3000 m", "3000 m"], "examples" = ["40 ft"]))]
    pub east: Option<Length>,
    /// How far north of the stand's corner post it stands; south is negative.
    #[schemars(extend("between" = ["-3000 m", "3000 m"], "examples" = ["120 ft"]))]
    pub north: Option<Length>,
    /// The day on which it came down, or was found down.
    pub felled: Option<Date>,
    /// The logs fit to fill that were cut from it; none is an answer.
    #[schemars(range(min = 0, max = 200))]
    pub logs_cut: Option<u32>,
    /// What became of it, where it did not come down for logs.
    pub gone: Option<Gone>,
}

impl Tree {
    /// Its diameter over bark at breast height: its own, or that of its girth.
    pub fn dbh(&self) -> Length {
        let of_girth = || self.girth.as_ref().map(|girth| (girth.si() / std::f64::consts::PI).into());
        self.dbh.clone().or_else(of_girth).unwrap_or_else(|| Length::of_inches(0.0))
    }
}

words! {
    /// What became of a tree.
    pub enum Gone {
        /// It was felled for logs.
        Felled = "felled",
        /// It was sold or sawn as timber.
        Timber = "taken as timber",
        /// It was burnt.
        Firewood = "taken as firewood",
        /// The wind threw it.
        BlewDown = "blown down",
        /// It died and still stands.
        Died = "dead, still standing",
        /// Somebody else took it.
        ByOthers = "taken by others",
    }
}

impl Gone {
    /// Whether logs for the yard are cut from such a tree as a rule.
    pub const fn gives_logs(self) -> bool {
        matches!(self, Self::Felled)
    }
}

/// What a tag says: text, or a bare number.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct Tag(pub String);

impl Tag {
    /// The order in which people look for tags: by the numbers in them, then as text.
    pub fn rank(&self) -> (&str, u64, &str) {
        let start = self.0.find(|c: char| c.is_ascii_digit()).unwrap_or(self.0.len());
        let (head, rest) = self.0.split_at(start);
        let end = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
        (head, rest[..end].parse().unwrap_or(0), &rest[end..])
    }
}

impl Ord for Tag {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.rank().cmp(&other.rank()).then_with(|| self.0.cmp(&other.0))
    }
}

impl PartialOrd for Tag {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Display for Tag {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl<'de> Deserialize<'de> for Tag {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        serde_json::Value::deserialize(deserializer).map(|value| Self(plain(&value)))
    }
}

in_place!(Tag: "Tag", _ => {
    "type": ["string", "integer"], "pattern": "^[^\\s].{0,19}$", "examples": ["K-17"]
});

words! {
    /// The condition of a tree.
    #[derive(Default)]
    pub enum Condition {
        /// Whole bark and no rot to be seen.
        #[default]
        Sound = "sound",
        /// Two or more stems from one height.
        Forked = "forked",
        /// Bent or swept.
        Crooked = "crooked",
        /// Out of the upright.
        Leaning = "leaning",
        /// Bark torn or top broken.
        Damaged = "damaged",
        /// Rot, shelves or conks to be seen.
        Decayed = "decayed",
        /// Dead.
        Dead = "dead",
    }
}

words! {
    /// Whether a tree stays.
    pub enum Decision {
        /// It stays.
        Keep,
        /// It may come down.
        Fell,
    }
}
