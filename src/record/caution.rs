//! A caution: one danger, the tasks at which it threatens, and one plain sentence against it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Id, Kind, Record, mushroom::Mushroom, said::Mark, source::Source, wood::Wood};

/// A caution, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Caution {
    /// What can happen.
    pub hazard: String,
    /// The tasks at which it threatens.
    #[schemars(length(min = 1))]
    pub tasks: Vec<Task>,
    /// The woods with which it comes; none means any wood.
    #[serde(default)]
    pub woods: Vec<Id<Wood>>,
    /// The mushrooms with which it comes; none means any mushroom.
    #[serde(default)]
    pub mushrooms: Vec<Id<Mushroom>>,
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

/// How bad a danger can be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// Can kill or maim, or do harm that cannot be undone.
    Grave,
    /// Needs care by a doctor or vet, or does lasting damage.
    Harm,
    /// Minor; handled on the spot.
    Watch,
}

impl Severity {
    /// The severity as it is printed.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Grave => "Stop",
            Self::Harm => "Take care",
            Self::Watch => "Bear in mind",
        }
    }
}

/// A task of the year's work, at which cautions are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Task {
    /// Walking the woods and marking trees.
    Survey,
    /// Bringing trees down.
    Felling,
    /// Limbing and cutting to length.
    Bucking,
    /// Moving logs.
    Hauling,
    /// Drilling holes.
    Drilling,
    /// Sealing with hot wax.
    Waxing,
    /// Piling and racking logs.
    Stacking,
    /// Soaking logs in water.
    Soaking,
    /// Picking.
    Harvest,
    /// Cooking and eating.
    Eating,
    /// Packing and selling.
    Selling,
}

impl Task {
    /// Every task, in the order of the work.
    pub const ALL: [Self; 11] = [
        Self::Survey,
        Self::Felling,
        Self::Bucking,
        Self::Hauling,
        Self::Drilling,
        Self::Waxing,
        Self::Stacking,
        Self::Soaking,
        Self::Harvest,
        Self::Eating,
        Self::Selling,
    ];

    /// The task as a reader meets it on a page.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Survey => "walking the woods",
            Self::Felling => "felling",
            Self::Bucking => "limbing and bucking",
            Self::Hauling => "hauling",
            Self::Drilling => "drilling",
            Self::Waxing => "waxing",
            Self::Stacking => "stacking",
            Self::Soaking => "soaking",
            Self::Harvest => "picking",
            Self::Eating => "eating",
            Self::Selling => "selling",
        }
    }

    /// The task as records and anchors write it.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Survey => "survey",
            Self::Felling => "felling",
            Self::Bucking => "bucking",
            Self::Hauling => "hauling",
            Self::Drilling => "drilling",
            Self::Waxing => "waxing",
            Self::Stacking => "stacking",
            Self::Soaking => "soaking",
            Self::Harvest => "harvest",
            Self::Eating => "eating",
            Self::Selling => "selling",
        }
    }
}

impl Record for Caution {
    const KIND: Kind = Kind::Caution;
}
