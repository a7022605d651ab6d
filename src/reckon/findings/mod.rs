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
pub mod trees;
pub mod wetness;
pub mod winter;

use std::sync::Arc;

use crate::{
    book::{Book, Mushroom, Wood},
    quantity::{Date, Units},
};

pub use agenda::Work;
pub use batches::BatchFinding;
pub use day::Day;
pub use fruiting::FruitingFinding;
pub use inoculation::{Inoculation, RestLine};
pub use logs::{Filling, Weight};
pub use outlook::{MoneyFinding, PlanningFinding};
pub use pairing::{Pairing, Role, Row, Word};
pub use purchase::PurchaseFinding;
pub use rota::RotaFinding;
pub use season::{Felling, WindowFinding};
pub use stands::StandFinding;
pub use trees::TreeFinding;
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

/// All answers.
#[derive(Debug)]
pub struct Findings {
    /// What was chosen.
    pub choice: Choice,
    /// The season.
    pub season: Season,
    /// The month in which the year of pages begins: that in which felling may begin, or else the first of the dormant ones.
    pub first_month: i8,
    /// The first day of that year.
    pub axis: Date,
    /// The mushrooms that the front pages show.
    pub mushrooms: Vec<Arc<Mushroom>>,
    /// The woods that the front pages show.
    pub woods: Vec<Arc<Wood>>,
    /// Every pair that anyone has spoken of, by mushroom and wood.
    pub pairings: Vec<Pairing>,
    /// What is known of the year of the farm.
    pub known: Known,
    /// Every season window, told or not.
    pub windows: Vec<WindowFinding>,
    /// When trees may come down, woods with the same days together.
    pub fellings: Vec<Felling>,
    /// When logs may be inoculated, by mushroom and felling.
    pub inoculations: Vec<Inoculation>,
    /// Green weights of logs.
    pub weights: Vec<Weight>,
    /// Holes and spawn.
    pub fillings: Vec<Filling>,
    /// What every tagged tree gives, in the order of tags.
    pub trees: Vec<TreeFinding>,
    /// This winter's wishes, and what comes down for them.
    pub winter: Winter,
    /// Every stand before and after.
    pub stands: Vec<StandFinding>,
    /// What each wish takes on the day of inoculation.
    pub days: Vec<Day>,
    /// What to order.
    pub purchases: Vec<PurchaseFinding>,
    /// The lifts that are reckoned for every log.
    pub lifts: Vec<lifts::TaskFinding>,
    /// A log of each wood and thickness.
    pub loads: Vec<lifts::LoadFinding>,
    /// Every weighing of a sample log.
    pub readings: Vec<wetness::Reading>,
    /// Every slice.
    pub slices: Vec<wetness::SliceReading>,
    /// When the air suits each strain.
    pub fruiting: Vec<FruitingFinding>,
    /// Where each batch stands in its life.
    pub batches: Vec<BatchFinding>,
    /// Which logs go into the tank each week, strain by strain.
    pub rotas: Vec<RotaFinding>,
    /// All dated work of the season.
    pub agenda: Vec<Work>,
    /// From wishes back to logs.
    pub planning: Vec<PlanningFinding>,
    /// What a log costs and may bring.
    pub money: Vec<MoneyFinding>,
}

impl Findings {
    /// Asks a book.
    #[must_use]
    pub fn of(book: &Book, choice: Choice) -> Self {
        let season = Season { year: choice.season, south: book.farm.record.place.latitude < 0.0 };
        let pairings = pairing::all(book);
        let (mushrooms, woods) = front(book, &pairings);
        let known = season::known(book, choice.units);
        let windows = season::windows(book, &known);
        let fellings = season::fellings(book, &windows, &woods, season);
        let first_month = first_month(&fellings, season);
        let axis = season.axis(first_month);
        let fruiting = fruiting::all(book, &known, &mushrooms, axis);
        let batches = batches::all(book, season);
        let rotas = rota::all(book, &batches, &fruiting, &windows, season);
        let inoculations = inoculation::all(book, &windows, &fellings, &mushrooms);
        let (weights, fillings) =
            (logs::weights(book, choice.units), logs::fillings(book, choice.units, &logs::COUNTS));
        let trees = trees::all(book);
        let measured = stands::measured(book);
        let winter = winter::of(book, choice.season, &pairings, &trees, &measured);
        let stands = stands::all(measured, &trees, &winter);
        let facts = day::Facts {
            book,
            trees: &trees,
            winter: &winter,
            fellings: &fellings,
            inoculations: &inoculations,
            season,
        };
        let days = day::all(&facts);
        let purchases = purchase::all(book, &winter.plans(), &days);
        let mut findings = Self {
            choice,
            season,
            first_month,
            axis,
            fruiting,
            batches,
            rotas,
            agenda: Vec::new(),
            weights,
            fillings,
            lifts: lifts::tasks(book, choice.units),
            loads: lifts::loads(book, &woods, choice.units),
            readings: wetness::readings(book),
            slices: wetness::slices(book),
            planning: outlook::planning(book, &winter.wishes, &trees),
            money: outlook::money(book, &days, &purchases),
            mushrooms,
            woods,
            pairings,
            known,
            windows,
            fellings,
            inoculations,
            trees,
            winter,
            stands,
            days,
            purchases,
        };
        findings.agenda = agenda::all(book, &findings);
        findings
    }

    /// The pairing of a mushroom and a wood, where anyone has spoken of it.
    #[must_use]
    pub fn pairing(&self, mushroom: &str, wood: &str) -> Option<&Pairing> {
        let at = self
            .pairings
            .binary_search_by(|pair| (pair.mushroom.id.as_str(), pair.wood.id.as_str()).cmp(&(mushroom, wood)));
        at.ok().map(|index| &self.pairings[index])
    }
}

/// The month in which felling may begin, or else the first of the dormant ones.
fn first_month(fellings: &[Felling], season: Season) -> i8 {
    let begins = fellings.iter().find_map(|felling| felling.intervals.first());
    let dormant = if season.south { 5 } else { 11 };
    begins.map_or(dormant, |interval| of_day(interval.from).month())
}

/// The mushrooms and woods of the front pages: those that the farm names, or else all with a rating of their own; and the
/// woods of tagged trees and lots.
fn front(book: &Book, pairings: &[Pairing]) -> (Vec<Arc<Mushroom>>, Vec<Arc<Wood>>) {
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
    (mushrooms, woods)
}
