//! The sections of the thumb index.

use super::Page;

/// A section of the thumb index.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Section {
    /// The season at a glance.
    Season,
    /// Mushrooms and strains.
    Kinds,
    /// Woods.
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
    /// The section in which a page stands.
    #[must_use]
    pub const fn of(page: &Page) -> Self {
        match page {
            Page::Index => Self::Season,
            Page::Mushrooms | Page::Mushroom(_) | Page::Strains | Page::Strain(_) => Self::Kinds,
            Page::Woods | Page::Wood(_) => Self::Hosts,
            Page::Pairings | Page::WorkingPairings(_) => Self::Pairs,
            Page::Seasons | Page::WorkingSeasons | Page::WorkingClimate | Page::WorkingFruiting => Self::Year,
            Page::Methods
            | Page::Method(_)
            | Page::Felling
            | Page::Stand(_)
            | Page::Bucking
            | Page::Supply
            | Page::Planning
            | Page::Moisture
            | Page::Batches
            | Page::SoakRota
            | Page::Harvests
            | Page::Selling
            | Page::Troubles
            | Page::Trouble(_)
            | Page::Retiring
            | Page::Siting
            | Page::WorkingYard
            | Page::LogTags
            | Page::Handout(_)
            | Page::Inoculation
            | Page::WorkingTrees
            | Page::WorkingStands
            | Page::WorkingLifting
            | Page::WorkingAllocation
            | Page::WorkingSupply
            | Page::WorkingMoisture
            | Page::WorkingWeights
            | Page::WorkingInoculation => Self::Work,
            Page::Safety => Self::Safety,
            Page::Notes
            | Page::Note(_)
            | Page::Sources
            | Page::Terms
            | Page::Working
            | Page::AToZ
            | Page::Pocket
            | Page::Record(..) => Self::Notes,
        }
    }

    /// Every section, in the order of the thumb index, each with its first page.
    #[must_use]
    pub fn all() -> [(Self, &'static str, Page); 8] {
        [
            (Self::Season, "Season", Page::Index),
            (Self::Kinds, "Mushrooms", Page::Mushrooms),
            (Self::Hosts, "Woods", Page::Woods),
            (Self::Pairs, "Pairs", Page::Pairings),
            (Self::Year, "Year", Page::Seasons),
            (Self::Work, "Work", Page::Methods),
            (Self::Safety, "Safety", Page::Safety),
            (Self::Notes, "Notes", Page::Notes),
        ]
    }
}
