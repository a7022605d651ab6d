//! Asks a book every question of [`reckon`](super) and keeps the answers with their inputs.

pub mod agenda;
pub mod batches;
pub mod day;
pub mod fruiting;
pub mod inoculation;
pub mod lifts;
pub mod logs;
pub mod outlook;
pub mod pairing;
pub mod purchase;
pub mod rota;
pub mod season;
pub mod stands;
pub mod title;
pub mod trees;
pub mod wetness;
pub mod winter;

use std::{
    collections::BTreeMap,
    sync::{Arc, OnceLock},
};

use crate::{
    book::{Book, Mushroom, Wood},
    quantity::{Date, Units},
};

pub use agenda::Work;
pub use batches::BatchFinding;
pub use day::Day;
pub use fruiting::FruitingFinding;
pub use inoculation::{Inoculation, RestLine};
pub use lifts::{LimitFinding, TaskFinding};
pub use logs::{Filling, LogWeight, WoodWeight};
pub use outlook::{MoneyFinding, PlanningFinding};
pub use pairing::{Pairing, Role, Row, Word};
pub use purchase::PurchaseFinding;
pub use rota::RotaFinding;
pub use season::{Felling, WindowFinding};
pub use stands::{Measured, StandFinding};
pub use trees::TreeFinding;
pub use wetness::{Lightness, Reading, SliceReading};
pub use winter::Winter;

use super::season::{Known, Season, of_day};

/// What the reader of a guide chose for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Choice {
    /// The year in which the season's dormant period begins.
    pub season: i16,
    /// The units in which figures are printed.
    pub units: Units,
    /// The date of this edition.
    pub edition: Option<Date>,
}

impl Choice {
    /// The farm's own choice.
    #[must_use]
    pub const fn of(book: &Book) -> Self {
        let record = &book.farm.record;
        Self { season: record.season, units: record.units, edition: record.edition }
    }
}

/// All answers, each reckoned when it is first asked for.
#[derive(Debug)]
pub struct Findings {
    /// What was chosen.
    pub choice: Choice,
    /// The season.
    pub season: Season,
    book: Arc<Book>,
    kept: Kept,
}

/// The answers that somebody has asked for.
#[derive(Debug, Default)]
struct Kept {
    front: OnceLock<Front>,
    pairings: OnceLock<Vec<Pairing>>,
    known: OnceLock<Known>,
    windows: OnceLock<Vec<WindowFinding>>,
    fellings: OnceLock<Vec<Felling>>,
    inoculations: OnceLock<Vec<Inoculation>>,
    weights: OnceLock<Vec<WoodWeight>>,
    fillings: OnceLock<Vec<Filling>>,
    trees: OnceLock<Vec<TreeFinding>>,
    left: OnceLock<BTreeMap<String, u32>>,
    measured: OnceLock<Vec<Measured>>,
    winter: OnceLock<Winter>,
    stands: OnceLock<Vec<StandFinding>>,
    days: OnceLock<Vec<Day>>,
    purchases: OnceLock<Vec<PurchaseFinding>>,
    lifts: OnceLock<Vec<TaskFinding>>,
    readings: OnceLock<Vec<Reading>>,
    slices: OnceLock<Vec<SliceReading>>,
    lightness: OnceLock<Vec<Lightness>>,
    fruiting: OnceLock<Vec<FruitingFinding>>,
    batches: OnceLock<Vec<BatchFinding>>,
    rotas: OnceLock<Vec<RotaFinding>>,
    agenda: OnceLock<Vec<Work>>,
    planning: OnceLock<Vec<PlanningFinding>>,
    money: OnceLock<Vec<MoneyFinding>>,
}

/// What the front pages show.
#[derive(Debug)]
struct Front {
    mushrooms: Vec<Arc<Mushroom>>,
    woods: Vec<Arc<Wood>>,
}

impl Findings {
    /// The answers that a book gives.
    #[must_use]
    pub fn of(book: &Arc<Book>, choice: Choice) -> Self {
        let season = Season { year: choice.season, south: book.farm.record.place.latitude < 0.0 };
        Self { choice, season, book: Arc::clone(book), kept: Kept::default() }
    }

    /// The month in which the year of pages begins: that in which felling may begin, or else the first of the dormant ones.
    #[must_use]
    pub fn first_month(&self) -> i8 {
        first_month(self.fellings(), self.season)
    }

    /// The first day of that year.
    #[must_use]
    pub fn axis(&self) -> Date {
        self.season.axis(self.first_month())
    }

    /// The mushrooms that the front pages show.
    #[must_use]
    pub fn mushrooms(&self) -> &[Arc<Mushroom>] {
        &self.front().mushrooms
    }

    /// The woods that the front pages show.
    #[must_use]
    pub fn woods(&self) -> &[Arc<Wood>] {
        &self.front().woods
    }

    /// Every pair that anyone has spoken of, by mushroom and wood.
    #[must_use]
    pub fn pairings(&self) -> &[Pairing] {
        self.kept.pairings.get_or_init(|| pairing::all(&self.book))
    }

    /// What is known of the year of the farm.
    #[must_use]
    pub fn known(&self) -> &Known {
        self.kept.known.get_or_init(|| season::known(&self.book, self.choice.units))
    }

    /// Every season window, told or not.
    #[must_use]
    pub fn windows(&self) -> &[WindowFinding] {
        self.kept.windows.get_or_init(|| season::windows(&self.book, self.known()))
    }

    /// When trees may come down, woods with the same days together.
    #[must_use]
    pub fn fellings(&self) -> &[Felling] {
        self.kept.fellings.get_or_init(|| season::fellings(&self.book, self.windows(), self.woods(), self.season))
    }

    /// When logs may be inoculated, by mushroom and felling.
    #[must_use]
    pub fn inoculations(&self) -> &[Inoculation] {
        self.kept
            .inoculations
            .get_or_init(|| inoculation::all(&self.book, self.windows(), self.fellings(), self.mushrooms()))
    }

    /// What green logs of each wood weigh, in the order of ids.
    #[must_use]
    pub fn weights(&self) -> &[WoodWeight] {
        self.kept.weights.get_or_init(|| logs::weights(&self.book, self.choice.units))
    }

    /// Holes and spawn.
    #[must_use]
    pub fn fillings(&self) -> &[Filling] {
        self.kept.fillings.get_or_init(|| logs::fillings(&self.book, self.choice.units, &logs::COUNTS))
    }

    /// What every tagged tree gives, in the order of tags.
    #[must_use]
    pub fn trees(&self) -> &[TreeFinding] {
        self.kept.trees.get_or_init(|| trees::all(&self.book))
    }

    /// Logs of each lot that no batch has taken.
    #[must_use]
    pub fn left(&self) -> &BTreeMap<String, u32> {
        self.kept.left.get_or_init(|| winter::left(&self.book))
    }

    /// Every stand as it was measured.
    fn measured(&self) -> &[Measured] {
        self.kept.measured.get_or_init(|| stands::measured(&self.book))
    }

    /// This winter's wishes, and what comes down for them.
    #[must_use]
    pub fn winter(&self) -> &Winter {
        self.kept.winter.get_or_init(|| {
            winter::of(&self.book, self.choice.season, self.pairings(), self.trees(), self.measured(), self.left())
        })
    }

    /// Every stand before and after.
    #[must_use]
    pub fn stands(&self) -> &[StandFinding] {
        self.kept.stands.get_or_init(|| stands::all(self.measured(), self.trees(), self.winter()))
    }

    /// What each wish takes on the day of inoculation.
    #[must_use]
    pub fn days(&self) -> &[Day] {
        self.kept.days.get_or_init(|| {
            day::all(&day::Facts {
                book: &self.book,
                trees: self.trees(),
                winter: self.winter(),
                fellings: self.fellings(),
                inoculations: self.inoculations(),
                season: self.season,
                left: self.left(),
            })
        })
    }

    /// What to order.
    #[must_use]
    pub fn purchases(&self) -> &[PurchaseFinding] {
        self.kept.purchases.get_or_init(|| purchase::all(&self.book, &self.winter().plans(), self.days()))
    }

    /// The lifts that are reckoned for every log.
    #[must_use]
    pub fn lifts(&self) -> &[TaskFinding] {
        self.kept.lifts.get_or_init(|| lifts::tasks(&self.book, self.choice.units))
    }

    /// What green logs of one wood weigh.
    #[must_use]
    pub fn weight(&self, wood: &Wood) -> Option<&WoodWeight> {
        let at = self.weights().binary_search_by(|weight| weight.wood.id.cmp(&wood.id)).ok()?;
        self.weights().get(at)
    }

    /// What green logs of the woods of the front pages weigh.
    pub fn loads(&self) -> impl Iterator<Item = &WoodWeight> {
        self.woods().iter().filter_map(|wood| self.weight(wood))
    }

    /// Every weighing of a sample log.
    #[must_use]
    pub fn readings(&self) -> &[Reading] {
        self.kept.readings.get_or_init(|| wetness::readings(&self.book))
    }

    /// Every slice.
    #[must_use]
    pub fn slices(&self) -> &[SliceReading] {
        self.kept.slices.get_or_init(|| wetness::slices(&self.book))
    }

    /// When a log of each of the woods of the front pages is too light.
    #[must_use]
    pub fn lightness(&self) -> &[Lightness] {
        self.kept.lightness.get_or_init(|| wetness::lightness(self.loads()))
    }

    /// When the air suits each strain.
    #[must_use]
    pub fn fruiting(&self) -> &[FruitingFinding] {
        self.kept.fruiting.get_or_init(|| fruiting::all(&self.book, self.known(), self.mushrooms(), self.axis()))
    }

    /// Where each batch stands in its life.
    #[must_use]
    pub fn batches(&self) -> &[BatchFinding] {
        self.kept.batches.get_or_init(|| batches::all(&self.book, self.season))
    }

    /// Which logs go into the tank each week, strain by strain.
    #[must_use]
    pub fn rotas(&self) -> &[RotaFinding] {
        self.kept
            .rotas
            .get_or_init(|| rota::all(&self.book, self.batches(), self.fruiting(), self.windows(), self.season))
    }

    /// All dated work of the season.
    #[must_use]
    pub fn agenda(&self) -> &[Work] {
        self.kept.agenda.get_or_init(|| agenda::all(&self.book, self))
    }

    /// From wishes back to logs.
    #[must_use]
    pub fn planning(&self) -> &[PlanningFinding] {
        self.kept.planning.get_or_init(|| outlook::planning(&self.book, &self.winter().wishes, self.trees()))
    }

    /// What a log costs and may bring.
    #[must_use]
    pub fn money(&self) -> &[MoneyFinding] {
        self.kept.money.get_or_init(|| outlook::money(&self.book, self.days(), self.purchases()))
    }

    fn front(&self) -> &Front {
        self.kept.front.get_or_init(|| front(&self.book, self.pairings()))
    }

    /// The pairing of a mushroom and a wood, where anyone has spoken of it.
    #[must_use]
    pub fn pairing(&self, mushroom: &str, wood: &str) -> Option<&Pairing> {
        let pairings = self.pairings();
        let at =
            pairings.binary_search_by(|pair| (pair.mushroom.id.as_str(), pair.wood.id.as_str()).cmp(&(mushroom, wood)));
        at.ok().map(|index| &pairings[index])
    }
}

/// The month in which felling may begin, or else the first of the dormant ones.
fn first_month(fellings: &[Felling], season: Season) -> i8 {
    let begins = fellings.iter().find_map(|felling| felling.intervals.first());
    begins.map_or(season.dormant_month(), |interval| of_day(interval.from).month())
}

/// The mushrooms and woods of the front pages: those that the farm names, or else all with a rating of their own; and the
/// woods of tagged trees and lots.
fn front(book: &Book, pairings: &[Pairing]) -> Front {
    let rated = |pair: &&Pairing| pair.consensus.is_some() && pair.mushroom.is_species() && pair.wood.is_species();
    let mut mushrooms = book.farm.grows.clone();
    if mushrooms.is_empty() {
        mushrooms = pairings.iter().filter(rated).map(|pair| Arc::clone(&pair.mushroom)).collect();
        mushrooms.dedup_by(|a, b| a.id == b.id);
    }
    let mut woods = book.farm.woods.clone();
    if woods.is_empty() {
        woods = pairings.iter().filter(rated).map(|pair| Arc::clone(&pair.wood)).collect();
        woods.sort_by(|a, b| a.id.cmp(&b.id));
        woods.dedup_by(|a, b| a.id == b.id);
    }
    let tagged = book.trees.iter().map(|tree| &tree.wood);
    for wood in tagged.chain(book.lots.values().map(|lot| &lot.wood)) {
        if !woods.iter().any(|other| other.id == wood.id) {
            woods.push(Arc::clone(wood));
        }
    }
    Front { mushrooms, woods }
}
