//! The computed tables, by the names that commands, notes and published files use.

/// A computed table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Table {
    /// Every mushroom.
    Mushrooms,
    /// Every wood.
    Woods,
    /// What grows on what.
    Pairings,
    /// The windows of the year.
    Seasons,
    /// Every strain.
    Strains,
    /// Green weight of a log.
    Weights,
    /// Holes and spawn for a log and for many.
    Inoculation,
    /// Every tagged tree.
    Trees,
    /// Every piece of every stem.
    Bolts,
    /// The limit of each lift for each log.
    Lifting,
    /// Sample logs and slices.
    Moisture,
    /// What to order.
    Supply,
    /// Which wood goes to which strain.
    Allocation,
    /// From wishes back to logs.
    Planning,
    /// Every stand before and after.
    Thinning,
    /// What a log costs and may bring.
    Money,
    /// Warmth, light and scatter, day by day.
    Climate,
    /// Suitable days, week by week.
    Fruiting,
    /// All dated work of the season.
    Calendar,
    /// Which logs go into the tank on which day.
    SoakRota,
    /// Where each batch stands.
    Batches,
    /// What was picked.
    Harvests,
    /// What each batch should give and gave.
    Yields,
    /// Every trouble.
    Troubles,
    /// Every caution.
    Cautions,
    /// Every source.
    Sources,
}

impl Table {
    /// Every table.
    pub const ALL: [Self; 26] = [
        Self::Mushrooms,
        Self::Woods,
        Self::Pairings,
        Self::Seasons,
        Self::Strains,
        Self::Weights,
        Self::Inoculation,
        Self::Trees,
        Self::Bolts,
        Self::Lifting,
        Self::Moisture,
        Self::Supply,
        Self::Allocation,
        Self::Planning,
        Self::Thinning,
        Self::Money,
        Self::Climate,
        Self::Fruiting,
        Self::Calendar,
        Self::SoakRota,
        Self::Batches,
        Self::Harvests,
        Self::Yields,
        Self::Troubles,
        Self::Cautions,
        Self::Sources,
    ];

    /// The name of the table.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Mushrooms => "mushrooms",
            Self::Woods => "woods",
            Self::Pairings => "pairings",
            Self::Seasons => "seasons",
            Self::Strains => "strains",
            Self::Weights => "weights",
            Self::Inoculation => "inoculation",
            Self::Trees => "trees",
            Self::Bolts => "bolts",
            Self::Lifting => "lifting",
            Self::Moisture => "moisture",
            Self::Supply => "supply",
            Self::Allocation => "allocation",
            Self::Planning => "planning",
            Self::Thinning => "thinning",
            Self::Money => "money",
            Self::Climate => "climate",
            Self::Fruiting => "fruiting",
            Self::Calendar => "calendar",
            Self::SoakRota => "soak-rota",
            Self::Batches => "batches",
            Self::Harvests => "harvests",
            Self::Yields => "yields",
            Self::Troubles => "troubles",
            Self::Cautions => "cautions",
            Self::Sources => "sources",
        }
    }

    /// What the table answers, in one line.
    #[must_use]
    pub const fn about(self) -> &'static str {
        match self {
            Self::Mushrooms => "every mushroom, its methods and whether it answers to soaking",
            Self::Woods => "every wood, its density, moisture and bark",
            Self::Pairings => "what grows on what, how well, and how far sources agree",
            Self::Seasons => "when to fell, when not to cut, when to inoculate",
            Self::Strains => "every strain and the temperatures it fruits at",
            Self::Weights => "what a green log weighs, by wood and diameter",
            Self::Inoculation => "holes and spawn for one log and for many",
            Self::Trees => "what each tagged tree gives, and whether it comes down",
            Self::Bolts => "every piece of every stem, from the stump up",
            Self::Lifting => "the weight limit of each lift, and each log's weight beside it",
            Self::Moisture => "sample logs and slices: how dry each batch is",
            Self::Supply => "which packages to order, and what is left over",
            Self::Allocation => "which wood goes to which strain, and what is short",
            Self::Planning => "from a weight a week or a number of guests back to logs",
            Self::Thinning => "every stand before and after the winter",
            Self::Money => "what a log costs and may bring, with published budgets",
            Self::Climate => "the usual warmth and light of every day of the year",
            Self::Fruiting => "on how many days of each week the air suits each strain",
            Self::Calendar => "all dated work of the season, as it stands in calendar.ics",
            Self::SoakRota => "which logs go into the tank on which day",
            Self::Batches => "where each batch stands in its life this season",
            Self::Harvests => "what was picked, day by day",
            Self::Yields => "what each batch should give and gave, year by year",
            Self::Troubles => "every trouble, where it shows, and its causes",
            Self::Cautions => "every caution, by task and severity",
            Self::Sources => "every source and how much of it was read",
        }
    }

    /// The table that a name means.
    #[must_use]
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|table| table.word() == word)
    }

    /// The columns by which a note may pick rows.
    #[must_use]
    pub const fn filters(self) -> &'static [&'static str] {
        match self {
            Self::Pairings => &["mushroom", "wood", "word"],
            Self::Seasons => &["kind", "window"],
            Self::Strains => &["mushroom"],
            Self::Weights | Self::Bolts | Self::Lifting => &["wood"],
            Self::Trees => &["stand", "wood", "decision"],
            Self::Moisture | Self::Harvests => &["batch"],
            Self::Supply | Self::Planning | Self::Money | Self::SoakRota => &["strain"],
            Self::Allocation => &["strain", "wood"],
            Self::Thinning => &["stand"],
            Self::Inoculation => &["spawn"],
            Self::Fruiting => &["strain", "week"],
            Self::Calendar => &["kind"],
            Self::Batches => &["batch", "strain", "wood"],
            Self::Yields => &["batch", "strain"],
            Self::Troubles => &["when"],
            Self::Cautions => &["severity", "task"],
            Self::Mushrooms | Self::Woods | Self::Climate | Self::Sources => &[],
        }
    }
}

impl Table {
    /// The words that a column can hold, where they are few and fixed.
    #[must_use]
    pub fn values(column: &str) -> &'static [&'static str] {
        match column {
            "word" => &["thrives", "does-well", "gets-by", "fails", "mentioned", "untried"],
            "kind" => &["cut", "no-cut", "inoculate", "fruit", "soak", "other", "fell", "order", "first-fruit"],
            "when" => &["resting", "inoculation", "spawn-run", "fruiting", "soaking", "storing"],
            "spawn" => &["sawdust", "plug", "thimble", "grain"],
            "severity" => &["grave", "harm", "watch"],
            "decision" => &["keep", "fell"],
            "task" => &[
                "survey", "felling", "bucking", "hauling", "drilling", "waxing", "stacking", "soaking", "harvest",
                "eating", "selling",
            ],
            _ => &[],
        }
    }
}

/// A table and the rows picked from it, written as `table:pairings?wood=american-beech`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Query {
    /// The table.
    pub table: Table,
    /// Columns and the values their rows must have.
    pub filters: Vec<(String, String)>,
}
