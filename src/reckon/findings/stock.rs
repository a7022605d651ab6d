//! Spawn and wax in hand: what came or was counted, less what batches have used since, bag by bag.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::purchase::Amount;
use super::{BatchFinding, Findings, grouped};
use crate::book::{Batch, Book, Plan, Strain};
use crate::quantity::{Date, Mass};
use crate::reckon::season::Season;
use crate::reckon::{beds, spawn};
use crate::record::Id;
use crate::record::diary::What;
use crate::record::evidence::Way;
use crate::record::plan::{Item, State, Stock, Wish};
use crate::record::strain::SpawnForm;

/// Of what: an item, and of spawn its strain.
type Key<'a> = (Item, Option<&'a str>);

/// A bag: the number that its maker gave it, or of one without a number the day on which it came, until it is counted.
type Bag<'a> = (Option<&'a str>, Option<Date>);

/// What was written of a thing on a day, in the order in which the lines of one day hold.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
enum Event<'a> {
    /// So much of it was used.
    Used(u64),
    /// So much was left of a bag.
    Counted(Bag<'a>, u64),
}

/// What is left of each bag of a thing, in the kind of amount in which it was counted.
type Left<'a> = BTreeMap<Key<'a>, (Amount, BTreeMap<Bag<'a>, u64>)>;

/// What is in hand or on its way of everything that the plans of the season have in stock; spoilt spawn counts for nothing.
///
/// A batch uses up what came or was counted before its own day, at the heavier rate, and the next count of the same bag says
/// what is left of it; what is on its way nobody uses.
pub fn in_hand(findings: &Findings) -> BTreeMap<(Item, Option<String>), Amount> {
    let plans = findings.winter().plans();
    let mut all: BTreeMap<Key<'_>, (Amount, u64)> = BTreeMap::new();
    for (key, (kind, bags)) in left(findings, &plans) {
        all.insert(key, (kind, bags.values().sum()));
    }
    for (key, stock, amount) in plans.iter().flat_map(counted) {
        if stock.since().is_none() && stock.state != State::Spoilt {
            let whole = amount.whole();
            all.entry(key).or_insert((amount, 0)).1 += whole;
        }
    }
    all.into_iter()
        .map(|((item, strain), (kind, whole))| ((item, strain.map(str::to_owned)), kind.of_whole(whole)))
        .collect()
}

/// What is left of every bag.
fn left<'a>(findings: &'a Findings, plans: &'a [Arc<Plan>]) -> Left<'a> {
    let mut events: BTreeMap<Key<'_>, Vec<(Date, Event<'_>)>> = BTreeMap::new();
    let mut kinds: BTreeMap<Key<'_>, Amount> = BTreeMap::new();
    for (key, stock, amount) in plans.iter().flat_map(counted) {
        let Some(since) = stock.since() else { continue };
        let spoilt = stock.state == State::Spoilt;
        let count = Event::Counted(bag(stock), if spoilt { 0 } else { amount.whole() });
        events.entry(key).or_default().push((since, count));
        if !spoilt {
            kinds.insert(key, amount);
        }
    }
    for found in findings.batches() {
        for (key, day, amount) in used(found, findings) {
            if let Some(events) = events.get_mut(&key) {
                events.push((day, Event::Used(amount.whole())));
            }
        }
    }
    let of = |(key, events): (Key<'a>, _)| Some((key, (kinds.remove(&key)?, bags(events))));
    events.into_iter().filter_map(of).collect()
}

fn bag(stock: &Stock) -> Bag<'_> {
    let came = stock.arrived.filter(|_| stock.lot_number.is_none() && stock.counted.is_none());
    (stock.lot_number.as_deref(), came)
}

/// What is left in each bag of one thing; a count of bags without a number is one of all of them.
fn bags<'a>(mut events: Vec<(Date, Event<'a>)>) -> BTreeMap<Bag<'a>, u64> {
    events.sort_unstable();
    let mut bags: BTreeMap<Bag<'a>, (Date, u64)> = BTreeMap::new();
    for (day, event) in events {
        match event {
            Event::Used(amount) => {
                bags.values_mut().fold(amount, |more, (_, left)| {
                    let part = more.min(*left);
                    *left -= part;
                    more - part
                });
            }
            Event::Counted(bag, amount) => {
                let of_day = bags.get(&bag).filter(|(counted, _)| *counted == day).map_or(0, |(_, left)| *left);
                if bag == (None, None) {
                    bags.retain(|(number, _), _| number.is_some());
                }
                bags.insert(bag, (day, of_day + amount));
            }
        }
    }
    bags.into_iter().map(|(bag, (_, left))| (bag, left)).collect()
}

/// A bag of spawn or a parcel of wax, as the plans of the season tell of it.
#[derive(Debug, Clone)]
pub struct BagFinding {
    /// What it is.
    pub item: Item,
    /// Its strain, where it is spawn.
    pub strain: Option<Arc<Strain>>,
    /// The number that its maker gave it.
    pub lot: Option<String>,
    /// The last line that tells of it, with what earlier ones say besides.
    pub told: Stock,
    /// What is left of it; `None` where it has not come.
    pub left: Option<Amount>,
    /// The batches that were filled from it.
    pub batches: Vec<Arc<Batch>>,
}

impl BagFinding {
    /// The last day of spawn whose bag was opened.
    pub fn use_up(&self) -> Option<Date> {
        let opened = self.told.opened.filter(|_| self.item != Item::Wax);
        opened.map(spawn::use_up)
    }

    /// Whether something of it is left to be used.
    pub fn is_in_hand(&self) -> bool {
        self.left.as_ref().is_some_and(|left| left.whole() > 0)
    }
}

/// Every bag of the season's plans.
pub fn all(findings: &Findings) -> Vec<BagFinding> {
    let plans = findings.winter().plans();
    let left = left(findings, &plans);
    let one = |stock| {
        let (lot, came) = bag(stock);
        ((key(stock), lot, came.or(stock.ordered.filter(|_| lot.is_none()))), stock)
    };
    let told = grouped(plans.iter().flat_map(|plan| &plan.record.stock).map(one));
    let batches: Vec<(&Arc<Batch>, BTreeSet<&str>)> =
        findings.book.batches.values().map(|batch| (batch, spawn_lots(&findings.book, batch))).collect();
    let of = |((key, lot, _), mut lines): ((Key<'_>, Option<&str>, _), Vec<&Stock>)| {
        lines.sort_by_key(|line| line.since());
        let told = lines.iter().copied().cloned().reduce(later)?;
        let (item, strain) = key;
        let of_bag = told
            .since()
            .and(left.get(&key))
            .map(|(kind, bags)| kind.of_whole(bags.get(&bag(&told)).copied().unwrap_or(0)));
        let filled = batches.iter().filter(|(batch, lots)| {
            lot.is_some_and(|lot| lots.contains(lot)) && strain == Some(batch.strain.id.as_str())
        });
        Some(BagFinding {
            item,
            strain: strain.and_then(|strain| findings.book.strains.get(strain)).cloned(),
            lot: lot.map(str::to_owned),
            left: of_bag,
            batches: filled.map(|(batch, _)| Arc::clone(batch)).collect(),
            told,
        })
    };
    told.into_iter().filter_map(of).collect()
}

/// A later line of a bag, with what an earlier one says besides.
fn later(earlier: Stock, line: Stock) -> Stock {
    Stock {
        ordered: line.ordered.or(earlier.ordered),
        arrived: line.arrived.or(earlier.arrived),
        opened: line.opened.or(earlier.opened),
        kept: line.kept.or(earlier.kept),
        ..line
    }
}

/// The lot numbers of the spawn of a batch: its own, or that of the only numbered bag of its strain and form in the plans of
/// its winter.
pub fn spawn_lots<'a>(book: &'a Book, batch: &'a Batch) -> BTreeSet<&'a str> {
    if !batch.record.spawn_lots.is_empty() {
        return batch.record.spawn_lots.iter().map(String::as_str).collect();
    }
    let winter = Season::holding(batch.record.inoculated, book.farm.record.place.latitude < 0.0).year;
    let plans = book.plans.values().filter(|plan| plan.record.season == winter);
    let form = batch.record.spawn.map(Item::of);
    let is_of = |stock: &&Stock| Some(stock.item) == form && stock.strain.as_ref() == Some(&batch.record.strain);
    let bags: BTreeSet<&str> = plans
        .flat_map(|plan| &plan.record.stock)
        .filter(is_of)
        .filter_map(|stock| stock.lot_number.as_deref())
        .collect();
    if bags.len() == 1 { bags } else { BTreeSet::new() }
}

fn key(stock: &Stock) -> Key<'_> {
    (stock.item, stock.strain.as_ref().map(Id::as_str))
}

fn counted(plan: &Arc<Plan>) -> impl Iterator<Item = (Key<'_>, &Stock, Amount)> {
    plan.record.stock.iter().filter_map(|stock| {
        let pieces = stock.pieces.map(|pieces| Amount::Pieces(pieces.number));
        let amount = stock.weight.clone().map(Amount::Weight).or(pieces)?;
        Some((key(stock), stock, amount))
    })
}

/// What a batch used, and when: on the day of its inoculation, and on those on which logs were added.
fn used<'a>(found: &'a BatchFinding, findings: &'a Findings) -> Vec<(Key<'a>, Date, Amount)> {
    let batch = &found.batch;
    let wish = findings.winter().wishes.iter().find(|wish| wish.done.batches.iter().any(|(of, _)| of.id == batch.id));
    let wish = wish.map(|found| &found.wish);
    let form = batch.record.spawn.or_else(|| wish.map(|wish| wish.spawn));
    let added = found.diary.iter().map(|line| &line.record).filter(|line| line.what == What::Added);
    let fillings = added.filter_map(|line| Some((line.date, line.logs?)));
    let mut all = Vec::new();
    for (day, logs) in fillings.chain([(batch.record.inoculated, batch.logs)]) {
        let spawn = form.and_then(|form| Some((form, spawn_of(found, form, logs, wish, findings)?)));
        all.extend(spawn.map(|(form, amount)| ((Item::of(form), Some(batch.strain.id.as_str())), day, amount)));
        let wax = findings.book.farm.record.work.wax_a_log.as_ref();
        let waxed = wax.filter(|_| matches!(batch.record.way, Way::Log | Way::BuriedLog));
        all.extend(waxed.map(|wax| ((Item::Wax, None), day, Amount::Weight(wax * f64::from(logs)))));
    }
    all
}

/// Spawn that so many logs, totems or stumps of a batch took, or its bed.
fn spawn_of(
    found: &BatchFinding,
    form: SpawnForm,
    logs: u32,
    wish: Option<&Wish>,
    findings: &Findings,
) -> Option<Amount> {
    let (pattern, rate) = findings.filling_of(form);
    match found.batch.record.way {
        Way::Log | Way::BuriedLog if matches!(form, SpawnForm::Plug | SpawnForm::Thimble) => {
            let holes = findings.holes_in(&found.diameter, pattern.as_ref()).unwrap_or(0.0);
            Some(Amount::Pieces((holes.round() as u32).saturating_mul(logs)))
        }
        Way::Log | Way::BuriedLog => {
            let each = spawn::need(rate.as_ref()?, &found.diameter, &found.length, logs).most;
            Some(Amount::Weight(&each * f64::from(logs)))
        }
        Way::Totem => Some(Amount::Weight(wish?.totems.as_ref()?.spawn_each.as_ref()? * f64::from(logs))),
        Way::Stump => {
            let (stumps, pattern) = (wish?.stumps.as_ref()?, pattern?);
            let between = pattern.between.as_ref().unwrap_or(&pattern.along);
            let holes = beds::stump_holes(&stumps.diameter, &stumps.height, &pattern.along, between);
            Some(Amount::Pieces((holes.round() as u32).saturating_mul(logs)))
        }
        Way::ChipBed => Some(Amount::Weight(Mass::of_kilograms(wish?.bed.as_ref()?.spawn.as_ref()?.base()))),
    }
}
