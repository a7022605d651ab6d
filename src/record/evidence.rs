//! A row of evidence: what one source says of one mushroom on one wood.

use super::Id;
use super::mushroom::Mushroom;
use super::said::cited;
use super::source::Source;
use super::wood::Wood;
use super::words::words;

cited! {
    /// A row of evidence, as a farm or the handbook writes it.
    pub struct Evidence with note {
        /// The mushroom, or the group of mushrooms that the source names.
        pub mushroom: Id<Mushroom>,
        /// The wood, or the group of woods that the source names.
        pub wood: Id<Wood>,
        /// Other woods that the source's one word for it means as well, as "ironwood" does.
        #[serde(default)]
        pub or: Vec<Id<Wood>>,
        /// The woods that did better in the same trial: an order, which grades against a reference wood alone.
        #[serde(default)]
        pub below: Vec<Id<Wood>>,
        /// 3 thrives, 2 does well, 1 gets by, 0 fails, by the source's own figure or word of fitness; left out where it
        /// gives none. Words of the wild and of sawdust are given none.
        #[schemars(range(min = 0, max = 3))]
        pub rating: Option<u8>,
        /// The source's own word for it.
        pub says: String,
        /// How it was grown.
        pub grown: Grown,
        /// What kind of word it is.
        pub kind: EvidenceKind,
        /// The source that this one only repeats: its team then speaks, not that of `source`.
        pub repeats: Option<Id<Source>>,
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
    /// The way of growing of which the row speaks; `None` where it says little about any.
    pub const fn way(self) -> Option<Way> {
        match self {
            Self::Log => Some(Way::Log),
            Self::Totem => Some(Way::Totem),
            Self::BuriedLog => Some(Way::BuriedLog),
            Self::Stump => Some(Way::Stump),
            Self::ChipBed => Some(Way::ChipBed),
            Self::Sawdust | Self::Wild => None,
        }
    }
}

words! {
    /// A way of growing on wood; a verdict belongs to one.
    #[derive(Default)]
    pub enum Way {
        /// Drilled logs above the ground.
        #[default]
        Log = "logs",
        /// Stacked sections with spawn between them.
        Totem = "totems",
        /// Logs set into the ground.
        BuriedLog = "buried logs",
        /// Stumps in the ground.
        Stump = "stumps",
        /// Beds of chips.
        ChipBed = "beds of chips",
    }
}

impl Way {
    /// What one piece of it and several are called.
    pub const fn pieces(self) -> [&'static str; 2] {
        match self {
            Self::Log | Self::BuriedLog => ["log", "logs"],
            Self::Totem => ["totem", "totems"],
            Self::Stump => ["stump", "stumps"],
            Self::ChipBed => ["bed", "beds"],
        }
    }

    /// Its letter in the pairing table.
    pub const fn letter(self) -> &'static str {
        match self {
            Self::Log => "L",
            Self::Totem => "T",
            Self::BuriedLog => "B",
            Self::Stump => "S",
            Self::ChipBed => "C",
        }
    }

    /// It in words that follow a verdict: "thrives, buried".
    pub const fn how(self) -> &'static str {
        match self {
            Self::Log => "on logs",
            Self::Totem => "by totems",
            Self::BuriedLog => "buried",
            Self::Stump => "on stumps",
            Self::ChipBed => "on chips",
        }
    }

    /// The way itself, and those that may stand in for it, the nearest first: never a stump for a log or a totem, and
    /// nothing for a bed.
    ///
    /// ```
    /// use hostwood::record::evidence::Way;
    /// assert_eq!(Way::Log.nearest(), [Way::Log, Way::Totem, Way::BuriedLog]);
    /// ```
    pub const fn nearest(self) -> &'static [Self] {
        match self {
            Self::Log => &[Self::Log, Self::Totem, Self::BuriedLog],
            Self::Totem => &[Self::Totem, Self::Log, Self::BuriedLog],
            Self::BuriedLog => &[Self::BuriedLog, Self::Log, Self::Totem],
            Self::Stump => &[Self::Stump, Self::BuriedLog, Self::Totem, Self::Log],
            Self::ChipBed => &[Self::ChipBed],
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
        /// Known from bare lists, from words too wide to rate, or in a way that says nothing of the one asked for.
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
