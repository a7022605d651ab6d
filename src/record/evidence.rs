//! A row of evidence: what one source says of one mushroom on one wood.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Id, Kind, Record, mushroom::Mushroom, said::Mark, source::Source, wood::Wood};

/// A row of evidence, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Evidence {
    /// The mushroom, or the group of mushrooms that the source names.
    pub mushroom: Id<Mushroom>,
    /// The wood, or the group of woods that the source names.
    pub wood: Id<Wood>,
    /// 3 thrives, 2 does well, 1 gets by, 0 fails; left out where the result is not known.
    #[schemars(range(min = 0, max = 3))]
    pub rating: Option<u8>,
    /// The source's own word for it.
    pub says: String,
    /// How it was grown.
    pub grown: Grown,
    /// What kind of word it is.
    pub kind: EvidenceKind,
    /// Who says it.
    pub source: Id<Source>,
    /// How the row came here.
    #[serde(default)]
    pub mark: Mark,
    /// What a reader should know about this row.
    pub note: Option<String>,
}

/// How the mushroom of a row was grown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Grown {
    /// On drilled logs above the ground.
    Log,
    /// On stacked sections with spawn between them.
    Totem,
    /// On stumps in the ground.
    Stump,
    /// On logs set into the ground.
    BuriedLog,
    /// On beds of chips.
    ChipBed,
    /// On sawdust; says little about logs.
    Sawdust,
    /// Found on it in the wild; says little about logs.
    Wild,
}

impl Grown {
    /// The way of growing as a reader meets it on a page.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Log => "log",
            Self::Totem => "totem",
            Self::Stump => "stump",
            Self::BuriedLog => "buried log",
            Self::ChipBed => "chip bed",
            Self::Sawdust => "sawdust",
            Self::Wild => "wild host",
        }
    }

    /// Whether the row speaks of wood as this guide's methods use it.
    #[must_use]
    pub const fn counts(self) -> bool {
        match self {
            Self::Log | Self::Totem | Self::Stump | Self::BuriedLog | Self::ChipBed => true,
            Self::Sawdust | Self::Wild => false,
        }
    }
}

/// What kind of word a row of evidence is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum EvidenceKind {
    /// Compared side by side in a trial.
    Trial,
    /// A judgement by people who grow or teach.
    Advice,
    /// A name on a list without a judgement.
    List,
    /// Seen, without a comparison.
    Observation,
    /// This farm's own experience.
    OwnLogs,
}

impl EvidenceKind {
    /// The kind as a reader meets it on a page.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Trial => "trial",
            Self::Advice => "advice",
            Self::List => "bare list",
            Self::Observation => "observation",
            Self::OwnLogs => "own logs",
        }
    }
}

impl Record for Evidence {
    const KIND: Kind = Kind::Evidence;
}
