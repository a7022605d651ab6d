//! The sections of the thumb index.

use strum::{EnumIter, IntoStaticStr};

use super::Page;
use crate::reckon::Topic;

/// A section of the thumb index, in its order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, EnumIter, IntoStaticStr)]
pub enum Section {
    /// The season at a glance.
    Season,
    /// Mushrooms and strains.
    #[strum(serialize = "Mushrooms")]
    Kinds,
    /// Woods.
    #[strum(serialize = "Woods")]
    Hosts,
    /// Pairings.
    Pairs,
    /// The year.
    Year,
    /// Methods and work sheets.
    Work,
    /// Safety.
    Safety,
    /// Notes, sources, terms and working.
    Notes,
}

impl Section {
    /// The section in which the working of a topic stands.
    pub const fn of_topic(topic: Topic) -> Self {
        match topic {
            Topic::Seasons | Topic::Climate | Topic::Fruiting => Self::Year,
            _ => Self::Work,
        }
    }

    /// Its word on the thumb index.
    pub fn word(self) -> &'static str {
        self.into()
    }

    /// The page to which the thumb index leads.
    pub const fn first(self) -> Page {
        match self {
            Self::Season => Page::Index,
            Self::Kinds => Page::Mushrooms,
            Self::Hosts => Page::Woods,
            Self::Pairs => Page::Pairings,
            Self::Year => Page::Seasons,
            Self::Work => Page::Methods,
            Self::Safety => Page::Safety,
            Self::Notes => Page::Notes,
        }
    }
}
