//! Asks a book every question of [`reckon`](super) and keeps the answers with their inputs.

pub mod agenda;
pub mod batches;
pub mod day;
pub mod fruiting;
pub mod growth;
pub mod inoculation;
pub mod ledger;
pub mod lifts;
pub mod logs;
pub mod lying;
pub mod outdoors;
pub mod outlook;
pub mod pairing;
pub mod purchase;
pub mod rota;
pub mod sales;
pub mod season;
pub mod shortage;
pub mod stands;
pub mod stock;
pub mod tank;
pub mod title;
pub mod tree_key;
pub mod trees;
pub mod weighed;
pub mod wetness;
pub mod winter;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, OnceLock};

use crate::book::{Book, Mushroom, Wood};
use crate::quantity::{Date, Mass, Units};
use crate::record::evidence::Way;

pub use agenda::Work;
pub use batches::BatchFinding;
pub use day::Day;
pub use fruiting::FruitingFinding;
pub use growth::GrowthFinding;
pub use inoculation::{Inoculation, RestLine};
pub use ledger::Ledger;
pub use lifts::{LimitFinding, Load, TaskFinding};
pub use logs::{Filling, LogWeight, Water, WoodWeight};
pub use lying::{Fill, Lying};
pub use outdoors::OutdoorFinding;
pub use outlook::{MoneyFinding, PlanningFinding};
pub use pairing::{Kin, Pairing, Role, Row, Word};
pub use purchase::PurchaseFinding;
pub use rota::RotaFinding;
pub use sales::{SalesFinding, TakenFinding, Takings};
pub use season::{Felling, WindowFinding};
pub use stands::{Measured, StandFinding};
pub use stock::BagFinding;
pub use tree_key::{KeyWood, TreeKey};
pub use trees::TreeFinding;
pub use weighed::{Stale, WeighedLog};
pub use wetness::{Lightness, Reading, SliceReading};
pub use winter::Winter;

use super::gain::Gain;
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

impl Findings {
    /// The answers that a book gives.
    pub fn of(book: &Arc<Book>, choice: Choice) -> Self {
        let season = Season { year: choice.season, south: book.farm.record.place.is_south() };
        Self { choice, season, book: Arc::clone(book), kept: Kept::default() }
    }

    /// The month in which the year of pages begins: that in which felling may begin, or else the first of the dormant ones.
    pub fn first_month(&self) -> i8 {
        let begins = self.fellings().iter().find_map(|felling| felling.intervals.first());
        begins.map_or(self.season.dormant_month(), |interval| of_day(interval.from).month())
    }

    /// The first day of that year.
    pub fn axis(&self) -> Date {
        self.season.axis(self.first_month())
    }

    /// What this farm gets of the logs that are reckoned of its trees, where it has felled enough to tell.
    pub fn gain(&self) -> Option<&Gain> {
        self.gains().first()
    }

    /// The trees that come down this winter.
    pub fn felled(&self) -> impl Iterator<Item = &TreeFinding> {
        self.trees().iter().filter(|tree| self.winter().falls(tree.tree.tag()))
    }

    /// Logs of the trees that come down this winter.
    pub fn felled_logs(&self) -> u32 {
        self.felled().map(TreeFinding::logs).sum()
    }

    /// Whether a tree came down this winter already.
    pub fn is_of_this_winter(&self, tree: &TreeFinding) -> bool {
        let day = tree.down.and_then(|down| down.day);
        day.is_some_and(|day| Season::holding(day, self.season.south) == self.season)
    }

    /// What green logs of one wood weigh.
    pub fn weight(&self, wood: &Wood) -> Option<&WoodWeight> {
        let at = self.weights().binary_search_by(|weight| weight.wood.id.cmp(&wood.id)).ok()?;
        self.weights().get(at)
    }

    /// What green logs of the woods of the front pages weigh.
    pub fn loads(&self) -> impl Iterator<Item = &WoodWeight> {
        self.woods().iter().filter_map(|wood| self.weight(wood))
    }

    /// A batch by its id.
    pub fn batch(&self, id: &str) -> Option<&BatchFinding> {
        let at = self.batches().binary_search_by(|found| found.batch.id.as_str().cmp(id)).ok()?;
        self.batches().get(at)
    }

    /// The word for a mushroom on a wood.
    pub fn word(&self, mushroom: &str, wood: &str) -> Word {
        self.pairing(mushroom, wood).map_or(Word::Untried, |pair| pair.word)
    }

    /// The word for a mushroom on a wood, grown in a way.
    pub fn word_in(&self, mushroom: &str, wood: &str, way: Way) -> Word {
        self.pairing(mushroom, wood).map_or(Word::Untried, |pair| pair.word_in(way))
    }

    /// Where nobody has tried a mushroom on a wood: the best of its genus that have a verdict. They grade nothing.
    pub fn kin(&self, mushroom: &str, wood: &Wood) -> &[Kin] {
        if !wood.is_species() || self.word(mushroom, &wood.id) != Word::Untried {
            return &[];
        }
        let kin = self.graded_kin().get(&(mushroom.to_owned(), wood.genus().to_owned()));
        kin.map_or(&[], |kin| &kin[..kin.len().min(Kin::MOST)])
    }

    /// The pairing of a mushroom and a wood, where anyone has spoken of it.
    pub fn pairing(&self, mushroom: &str, wood: &str) -> Option<&Pairing> {
        let pairings = self.pairings();
        let at =
            pairings.binary_search_by(|pair| (pair.mushroom.id.as_str(), pair.wood.id.as_str()).cmp(&(mushroom, wood)));
        at.ok().map(|index| &pairings[index])
    }
}

/// What shares a key, in the order in which it came.
fn grouped<K: Ord, V>(pairs: impl IntoIterator<Item = (K, V)>) -> BTreeMap<K, Vec<V>> {
    let mut groups: BTreeMap<K, Vec<V>> = BTreeMap::new();
    for (key, value) in pairs {
        groups.entry(key).or_default().push(value);
    }
    groups
}

/// Weights from least to most, added up.
fn sums(all: Vec<[Mass; 2]>) -> [Mass; 2] {
    let (least, most): (Vec<Mass>, Vec<Mass>) = all.into_iter().map(Into::into).unzip();
    [least.into_iter().sum(), most.into_iter().sum()]
}

/// Makes the cell that keeps each answer and the function that asks for it: a row an answer.
macro_rules! answers {
    ($($(#[$about:meta])* $seen:vis $name:ident: $answer:ty = |$of:ident| $ask:expr;)+) => {
        /// The answers that somebody has asked for.
        #[derive(Debug, Default)]
        struct Kept {
            $($name: OnceLock<<$answer as ToOwned>::Owned>,)+
        }

        impl Findings {
            $(
                $(#[$about])*
                $seen fn $name(&self) -> &$answer {
                    let $of = self;
                    self.kept.$name.get_or_init(|| $ask)
                }
            )+
        }
    };
}

answers! {
    /// Every pair that anyone has spoken of, by mushroom and wood.
    pub pairings: [Pairing] = |of| pairing::all(&of.book);
    /// By mushroom and genus, the woods with a verdict of their own.
    graded_kin: BTreeMap<(String, String), Vec<Kin>> = |of| pairing::kin(of.pairings());
    /// The mushrooms that the front pages show.
    pub mushrooms: [Arc<Mushroom>] = |of| mushrooms(of);
    /// The woods that the front pages show.
    pub woods: [Arc<Wood>] = |of| woods(of);
    /// What is known of the year of the farm.
    pub known: Known = |of| season::known(&of.book, of.season, of.choice.units);
    /// Every season window, told or not.
    pub windows: [WindowFinding] = |of| season::windows(&of.book, of.known());
    /// When trees may come down, woods with the same days together.
    pub fellings: [Felling] = |of| season::fellings(of);
    /// When logs may be inoculated, by mushroom and felling.
    pub inoculations: [Inoculation] = |of| inoculation::all(of);
    /// By mushroom, the woods at hand whose trees find no day for it.
    without_a_day: BTreeMap<String, BTreeSet<String>> = |of| inoculation::without_a_day(of);
    /// What green logs of each wood weigh, in the order of ids.
    pub weights: [WoodWeight] = |of| logs::weights(&of.book, of.choice.units);
    /// Holes and spawn.
    pub fillings: [Filling] = |of| logs::fillings(&of.book, of.choice.units, &logs::COUNTS);
    /// What every tagged tree gives by its own measures alone, in the order of tags.
    reckoned_trees: [TreeFinding] = |of| trees::reckoned(of);
    /// What this farm gets of the logs reckoned of its trees, where that can be told.
    gains: [Gain] = |of| trees::gain(of).into_iter().collect();
    /// What every tagged tree gives, in the order of tags.
    pub trees: [TreeFinding] = |of| trees::all(of);
    /// Where all logs are, in two balances.
    pub ledger: Ledger = |of| ledger::of(of);
    /// Lots that lie, and their days.
    pub lying: [Lying] = |of| lying::all(of);
    /// The keys of the farm's woods, for bare trees and for trees in leaf.
    pub tree_keys: [TreeKey] = |of| TreeKey::both(of);
    /// Every stand as it was measured.
    measured: [Measured] = |of| stands::measured(of);
    /// This winter's wishes, and what comes down for them.
    pub winter: Winter = |of| winter::of(of);
    /// Every stand before and after.
    pub stands: [StandFinding] = |of| stands::all(of.measured(), of.trees(), of.winter());
    /// How many logs each stand gives for good, in the order of stands.
    pub growth: [GrowthFinding] = |of| growth::all(of);
    /// What each wish takes on the day of inoculation.
    pub days: [Day] = |of| day::all(of);
    /// Every bag of spawn and parcel of wax.
    pub bags: [BagFinding] = |of| stock::all(of);
    /// What to order.
    pub purchases: [PurchaseFinding] = |of| purchase::all(of);
    /// The lifts that are reckoned for every log.
    pub lifts: [TaskFinding] = |of| lifts::tasks(&of.book, of.choice.units);
    /// Every weighing of a sample log.
    pub readings: [Reading] = |of| wetness::readings(&of.book);
    /// Every slice.
    pub slices: [SliceReading] = |of| wetness::slices(&of.book);
    /// When a log of each of the woods of the front pages is too light.
    pub lightness: [Lightness] = |of| wetness::lightness(of.loads());
    /// When every mushroom fruits outdoors, as sources say, and when this farm picked it.
    pub outdoors: [OutdoorFinding] = |of| outdoors::all(&of.book);
    /// When the air suits each strain.
    pub fruiting: [FruitingFinding] = |of| fruiting::all(of);
    /// Where each batch stands in its life.
    pub batches: [BatchFinding] = |of| batches::all(of);
    /// Which logs go into the tank each week, strain by strain.
    pub rotas: [RotaFinding] = |of| rota::all(of);
    /// All dated work of the season.
    pub agenda: [Work] = |of| agenda::all(of);
    /// From wishes back to logs.
    pub planning: [PlanningFinding] = |of| outlook::planning(of);
    /// What was sold, by strain, wood and lot of spawn.
    pub sales: [SalesFinding] = |of| sales::all(of);
    /// What was taken, by strain and wood.
    pub taken: [TakenFinding] = |of| sales::taken(of);
    /// What a log costs and may bring.
    pub money: [MoneyFinding] = |of| outlook::money(of);
}

/// Whether sources have rated a pair of species.
fn is_rated(pair: &Pairing) -> bool {
    pair.consensus().is_some() && pair.mushroom.is_species() && pair.wood.is_species()
}

/// The mushrooms that the farm names, or else all with a rating of their own.
fn mushrooms(findings: &Findings) -> Vec<Arc<Mushroom>> {
    let mut mushrooms = findings.book.farm.grows.clone();
    if mushrooms.is_empty() {
        mushrooms =
            findings.pairings().iter().filter(|pair| is_rated(pair)).map(|pair| Arc::clone(&pair.mushroom)).collect();
        mushrooms.dedup_by(|a, b| a.id == b.id);
    }
    mushrooms
}

/// The woods that the farm names, or else all with a rating of their own; and those of tagged trees and lots.
fn woods(findings: &Findings) -> Vec<Arc<Wood>> {
    let book = &findings.book;
    let mut woods = book.farm.woods.clone();
    if woods.is_empty() {
        woods = findings.pairings().iter().filter(|pair| is_rated(pair)).map(|pair| Arc::clone(&pair.wood)).collect();
        woods.sort_by(|a, b| a.id.cmp(&b.id));
        woods.dedup_by(|a, b| a.id == b.id);
    }
    let tagged = book.trees.iter().map(|tree| &tree.wood);
    for wood in tagged.chain(book.lots.values().map(|lot| &lot.wood)) {
        if !woods.iter().any(|other| other.id == wood.id) {
            woods.push(Arc::clone(wood));
        }
    }
    woods
}
