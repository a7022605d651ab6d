//! The sections of the thumb index.

use strum::{EnumIter, IntoStaticStr};

use super::Page;
use crate::reckon::Topic;

/// A section of the thumb index, in its order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, EnumIter, IntoStaticStr)]
pub enum Section {
    /// What the day asks for.
    Today,
    /// When what is done.
    Dates,
    /// Methods and work sheets.
    Jobs,
    /// Mushrooms and strains.
    #[strum(serialize = "Mushrooms")]
    Kinds,
    /// Woods.
    #[strum(serialize = "Woods")]
    Hosts,
    /// Pairings.
    #[strum(serialize = "What grows on what")]
    Pairs,
    /// Safety.
    Safety,
    /// Notes, sources, terms and working.
    Notes,
}

impl Section {
    /// The section in which the working of a topic stands.
    pub const fn of_topic(topic: Topic) -> Self {
        match topic {
            Topic::Seasons | Topic::Climate | Topic::Fruiting => Self::Dates,
            Topic::TreeKey => Self::Hosts,
            _ => Self::Jobs,
        }
    }

    /// Whether a telephone has room for it on its bar; the others are a tap further.
    pub const fn is_on_bar(self) -> bool {
        matches!(self, Self::Today | Self::Dates | Self::Jobs | Self::Kinds)
    }

    /// Its word on the thumb index, which is what its first page is called.
    pub fn word(self) -> &'static str {
        self.into()
    }

    /// The page to which the thumb index leads.
    pub const fn first(self) -> Page {
        match self {
            Self::Today => Page::Index,
            Self::Dates => Page::Seasons,
            Self::Jobs => Page::Methods,
            Self::Kinds => Page::Mushrooms,
            Self::Hosts => Page::Woods,
            Self::Pairs => Page::Pairings,
            Self::Safety => Page::Safety,
            Self::Notes => Page::Notes,
        }
    }
}
