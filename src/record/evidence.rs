//! A row of evidence: what one source says of one mushroom on one wood.

use super::Id;
use super::mushroom::Mushroom;
use super::said::cited;
use super::wood::Wood;
use super::words::words;

cited! {
    /// A row of evidence, as a farm or the handbook writes it.
    pub struct Evidence with note {
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
    }
}

words! {
    /// How the mushroom of a row was grown.
    pub enum Grown {
        /// On drilled logs above the ground.
        Log = "log",
        /// On stacked sections with spawn between them.
        Totem = "totem",
        /// On stumps in the ground.
        Stump = "stump",
        /// On logs set into the ground.
        BuriedLog = "buried log",
        /// On beds of chips.
        ChipBed = "chip bed",
        /// On sawdust; says little about logs.
        Sawdust = "sawdust",
        /// Found on it in the wild; says little about logs.
        Wild = "wild host",
    }
}

impl Grown {
    /// Whether the row speaks of wood as this guide's methods use it.
    pub const fn counts(self) -> bool {
        match self {
            Self::Log | Self::Totem | Self::Stump | Self::BuriedLog | Self::ChipBed => true,
            Self::Sawdust | Self::Wild => false,
        }
    }
}

words! {
    /// What kind of word a row of evidence is.
    pub enum EvidenceKind {
        /// Compared side by side in a trial.
        Trial = "trial",
        /// A judgement by people who grow or teach.
        Advice = "advice",
        /// A name on a list without a judgement.
        List = "bare list",
        /// Seen, without a comparison.
        Observation = "observation",
        /// This farm's own experience.
        OwnLogs = "own logs",
    }
}

words! {
    /// The word for how a mushroom does on a wood.
    pub enum Word {
        /// Rating 3.
        Thrives = "thrives",
        /// Rating 2.
        DoesWell = "does well",
        /// Rating 1.
        GetsBy = "gets by",
        /// Rating 0.
        Fails = "fails",
        /// Known from bare lists, or from words too wide to rate.
        Mentioned = "mentioned",
        /// Nobody has spoken of it on logs.
        Untried = "untried",
    }
}

impl Word {
    /// The word of a rating.
    pub const fn of(rating: u8) -> Self {
        match rating {
            3.. => Self::Thrives,
            2 => Self::DoesWell,
            1 => Self::GetsBy,
            0 => Self::Fails,
        }
    }

    /// The rating behind the word, where there is one.
    pub const fn rating(self) -> Option<u8> {
        match self {
            Self::Thrives => Some(3),
            Self::DoesWell => Some(2),
            Self::GetsBy => Some(1),
            Self::Fails => Some(0),
            Self::Mentioned | Self::Untried => None,
        }
    }
}
