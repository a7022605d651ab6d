//! The topics of the working: the formulas that belong together, and the figures made by them.

use strum::{EnumIter, IntoStaticStr};

/// A topic of the working.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, EnumIter, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Topic {
    /// When trees may come down and logs be inoculated.
    Seasons,
    /// Green weights and bark.
    Weights,
    /// Holes and spawn.
    Inoculation,
    /// The logs of each tree.
    Trees,
    /// The density of stands and the room of trees.
    Stands,
    /// The limits of lifts.
    Lifting,
    /// How logs are assigned.
    Allocation,
    /// Orders, wishes and money.
    Supply,
    /// The moisture of logs.
    Moisture,
    /// Air and light.
    Climate,
    /// Suitable days.
    Fruiting,
    /// Batches and the soak rota.
    Yard,
    /// The keys of trees.
    TreeKey,
}

impl Topic {
    /// The topic as paths write it.
    pub fn word(self) -> &'static str {
        self.into()
    }

    /// What its formulas reckon, in a few words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Seasons => "dates",
            Self::Weights => "weights",
            Self::Inoculation => "holes and spawn",
            Self::Trees => "trees",
            Self::Stands => "stands",
            Self::Lifting => "lifting",
            Self::Allocation => "who gets which wood",
            Self::Supply => "orders, wishes and money",
            Self::Moisture => "moisture",
            Self::Climate => "air and light",
            Self::Fruiting => "suitable days",
            Self::Yard => "batches and the soak rota",
            Self::TreeKey => "keys of trees",
        }
    }

    /// The question of a grower that it answers.
    pub const fn asks(self) -> &'static str {
        match self {
            Self::Seasons => "When may I fell, when not, and by when inoculate?",
            Self::Weights => "What does a green log weigh, and how thick is its bark?",
            Self::Inoculation => "How many holes, how much spawn?",
            Self::Trees => "How many logs does a tree give?",
            Self::Stands => "How dense is a stand, before and after, and which tree gains room?",
            Self::Lifting => "What may one person lift?",
            Self::Allocation => "Which trees come down, and which log goes to which strain?",
            Self::Supply => "What to order, how many logs does a wish need, what does a log cost?",
            Self::Moisture => "How wet is a log?",
            Self::Climate => "How warm and how light is a day, and when do leaves turn?",
            Self::Fruiting => "When does the air suit a strain?",
            Self::Yard => "When does a log first fruit, what should it give, when is it soaked?",
            Self::TreeKey => "Why does the key of trees ask in this order?",
        }
    }
}
