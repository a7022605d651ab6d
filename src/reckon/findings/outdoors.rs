//! When each mushroom fruits outdoors: what sources say of the farm's region and of others, and what this farm picked.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::Findings;
use crate::book::{Book, Mushroom, Strain};
use crate::quantity::{Date, PartOfMonth};
use crate::reckon::days::{Days, Interval};
use crate::record::mushroom::FruitingSeason;
use crate::record::region::Half;

/// When a mushroom fruits outdoors.
#[derive(Debug, Clone)]
pub struct OutdoorFinding {
    /// The mushroom.
    pub mushroom: Arc<Mushroom>,
    /// The seasons of the place where the farm lies: those of its strains first, then the mushroom's, then its group's.
    pub here: Vec<SeasonFinding>,
    /// The seasons of other places, the nearest first.
    pub elsewhere: Vec<SeasonFinding>,
    /// The days on which this farm picked each strain.
    picked: BTreeMap<String, BTreeSet<Date>>,
}

/// A season that a source gives for a place.
#[derive(Debug, Clone)]
pub struct SeasonFinding {
    /// What the source says.
    pub season: FruitingSeason,
    /// Of whom it speaks.
    pub of: Of,
    /// The half of the globe in which the place lies, where it is not the farm's.
    pub half: Option<Half>,
}

/// Of whom a season speaks, the narrowest first.
#[derive(Debug, Clone)]
pub enum Of {
    /// One strain.
    Strain(Arc<Strain>),
    /// The mushroom.
    Mushroom,
    /// The group to which the mushroom belongs.
    Group(Arc<Mushroom>),
}

/// How often was picked in a month, over all years.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PickedMonth {
    /// The month, 1 to 12.
    pub month: i8,
    /// Days on which was picked.
    pub days: usize,
    /// In how many years.
    pub years: usize,
}

impl FruitingSeason {
    /// Its days; where the source gives no end, those with which it begins.
    pub fn days(&self) -> Days {
        let last = self.to.unwrap_or(self.from);
        Days::of(Interval { from: *self.from.days().start(), to: *last.days().end() })
    }

    /// Whether it is the whole year.
    pub fn is_all_year(&self) -> bool {
        self.days().count() == 365
    }

    /// When it is, in the months of its place: "October to May", "any month".
    pub fn words(&self) -> String {
        let from = self.from.written();
        match self.to {
            _ if self.is_all_year() => "any month".to_owned(),
            None => format!("from {from} on"),
            Some(to) if to == self.from => from,
            Some(to) => format!("{from} to {}", to.written()),
        }
    }
}

impl SeasonFinding {
    /// The season of the year that its months are at its place, where that lies in another half of the globe than the farm.
    pub fn season_there(&self) -> Option<String> {
        let south = match self.half? {
            Half::North => false,
            Half::South => true,
            Half::Tropics => return None,
        };
        let name = |part: PartOfMonth| part.season(south);
        let (from, to) = (name(self.season.from), name(self.season.to.unwrap_or(self.season.from)));
        let words = if from == to { from.to_owned() } else { format!("{from} to {to}") };
        (!self.season.is_all_year()).then_some(words)
    }

    /// Whether it speaks of a strain; what is said of the mushroom speaks of all.
    pub fn is_of(&self, strain: Option<&str>) -> bool {
        match &self.of {
            Of::Strain(speaks) => strain == Some(&speaks.id),
            Of::Mushroom | Of::Group(_) => true,
        }
    }
}

impl Of {
    const fn breadth(&self) -> u8 {
        match self {
            Self::Strain(_) => 0,
            Self::Mushroom => 1,
            Self::Group(_) => 2,
        }
    }
}

impl OutdoorFinding {
    /// The seasons of the farm's region that count for a strain, or for the mushroom itself: its own, or else those of the
    /// mushroom, or else of its group.
    pub fn counting(&self, strain: Option<&str>) -> impl Iterator<Item = &SeasonFinding> {
        let of = move |found: &&SeasonFinding| found.is_of(strain);
        let narrowest = self.here.iter().filter(of).map(|found| found.of.breadth()).min();
        self.here.iter().filter(of).filter(move |found| Some(found.of.breadth()) == narrowest)
    }

    /// The days of those seasons; `None` where there is none.
    pub fn season(&self, strain: Option<&str>) -> Option<Days> {
        self.counting(strain).map(|found| found.season.days()).reduce(|all, one| all.or(&one))
    }

    /// The days on which this farm picked a strain, or any of the mushroom's.
    pub fn picked(&self, strain: Option<&str>) -> BTreeSet<Date> {
        let of = |id: &str| strain.is_none_or(|strain| strain == id);
        self.picked.iter().filter(|(id, _)| of(id)).flat_map(|(_, days)| days).copied().collect()
    }

    /// The months in which this farm picked, from the first of its year.
    pub fn months_picked(&self, strain: Option<&str>, first_month: i8) -> Vec<PickedMonth> {
        let picked = self.picked(strain);
        let of_month = |month: i8| {
            let days = || picked.iter().filter(move |day| day.0.month() == month);
            let years = days().map(|day| day.0.year()).collect::<BTreeSet<i16>>();
            PickedMonth { month, days: days().count(), years: years.len() }
        };
        let months = (0..12).map(|step| of_month((first_month - 1 + step) % 12 + 1));
        months.filter(|month| month.days > 0).collect()
    }
}

impl Findings {
    /// When a mushroom fruits outdoors.
    pub fn outdoors_of(&self, mushroom: &str) -> Option<&OutdoorFinding> {
        let all = self.outdoors();
        all.binary_search_by(|found| found.mushroom.id.as_str().cmp(mushroom)).ok().map(|place| &all[place])
    }
}

/// When every mushroom fruits outdoors, in the order of their ids.
pub(super) fn all(book: &Book) -> Vec<OutdoorFinding> {
    let mut strains: BTreeMap<&str, Vec<&Arc<Strain>>> = BTreeMap::new();
    for strain in book.strains.values() {
        strains.entry(&strain.mushroom.id).or_default().push(strain);
    }
    let mut picked = picked(book);
    let one = |mushroom: &Arc<Mushroom>| {
        let strains = strains.get(mushroom.id.as_str()).map_or(&[][..], Vec::as_slice);
        let (here, elsewhere) = seasons(book, mushroom, strains);
        let picked = picked.remove(mushroom.id.as_str()).unwrap_or_default();
        OutdoorFinding { mushroom: Arc::clone(mushroom), here, elsewhere, picked }
    };
    book.mushrooms.values().map(one).collect()
}

/// The days on which each strain of each mushroom was picked.
fn picked(book: &Book) -> BTreeMap<&str, BTreeMap<String, BTreeSet<Date>>> {
    let mut picked: BTreeMap<&str, BTreeMap<String, BTreeSet<Date>>> = BTreeMap::new();
    for harvest in &book.harvests {
        for batch in &harvest.batches {
            let of_mushroom = picked.entry(&batch.strain.mushroom.id).or_default();
            of_mushroom.entry(batch.strain.id.clone()).or_default().insert(harvest.record.date);
        }
    }
    picked
}

/// The seasons of a mushroom, of its strains and of its groups: those of the farm's place, and the others.
fn seasons(
    book: &Book,
    mushroom: &Arc<Mushroom>,
    strains: &[&Arc<Strain>],
) -> (Vec<SeasonFinding>, Vec<SeasonFinding>) {
    let of_strains = strains
        .iter()
        .flat_map(|strain| strain.record.seasons.iter().map(|season| (season, Of::Strain(Arc::clone(strain)))));
    let own = mushroom.record.seasons.iter().map(|season| (season, Of::Mushroom));
    let groups = std::iter::successors(mushroom.part_of.as_ref(), |group| group.part_of.as_ref());
    let of_groups =
        groups.flat_map(|group| group.record.seasons.iter().map(|season| (season, Of::Group(Arc::clone(group)))));
    let all = of_strains.chain(own).chain(of_groups);
    let (here, mut elsewhere): (Vec<_>, Vec<_>) =
        all.partition(|(season, _)| season.regions.iter().any(|region| book.here.is_in(region.as_str())));
    elsewhere.sort_by_cached_key(|(season, _)| Reverse(nearness(book, season)));
    let found =
        |(season, of): (&FruitingSeason, Of)| SeasonFinding { season: season.clone(), of, half: half(book, season) };
    (here.into_iter().map(found).collect(), elsewhere.into_iter().map(found).collect())
}

fn nearness(book: &Book, season: &FruitingSeason) -> usize {
    season.regions.iter().map(|region| book.here.nearness(region.as_str())).max().unwrap_or(0)
}

fn half(book: &Book, season: &FruitingSeason) -> Option<Half> {
    let half = season.regions.first().and_then(|region| book.here.half_of(region.as_str()));
    half.filter(|half| *half != book.here.half)
}
