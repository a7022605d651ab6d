//! Spawn and wax in hand: what was counted, less what batches have used since.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::purchase::Amount;
use super::{BatchFinding, Findings};
use crate::book::Plan;
use crate::quantity::{Date, Mass};
use crate::reckon::{beds, spawn};
use crate::record::Id;
use crate::record::diary::What;
use crate::record::evidence::Way;
use crate::record::plan::{Item, State, Stock, Wish};
use crate::record::strain::SpawnForm;

/// Of what: an item, and of spawn its strain.
type Key<'a> = (Item, Option<&'a str>);

/// What was written of a thing on a day, in the order in which the lines of one day hold.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
enum Event<'a> {
    /// So much of it was used.
    Used(u64),
    /// So much was left, of the bag with a number where it has one.
    Counted(Option<&'a str>, u64),
}

/// What is in hand of everything that the plans of the season have in stock; spoilt spawn counts for nothing.
///
/// A batch uses up what was counted before its own day, at the heavier rate, and the next count of the same bag says what is
/// left of it; what is bought is in hand only once a line of the stock says so.
pub fn in_hand(findings: &Findings) -> BTreeMap<(Item, Option<String>), Amount> {
    let plans = findings.winter().plans();
    let mut events: BTreeMap<Key<'_>, Vec<(Date, Event<'_>)>> = BTreeMap::new();
    let mut kinds: BTreeMap<Key<'_>, Amount> = BTreeMap::new();
    for (key, stock, amount) in plans.iter().flat_map(counted) {
        let spoilt = stock.state == State::Spoilt;
        let count = Event::Counted(stock.lot_number.as_deref(), if spoilt { 0 } else { amount.whole() });
        events.entry(key).or_default().push((stock.counted, count));
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
    let in_hand = |(key, events)| {
        let (item, strain): Key<'_> = key;
        Some(((item, strain.map(str::to_owned)), kinds.get(&key)?.of_whole(left(events))))
    };
    events.into_iter().filter_map(in_hand).collect()
}

/// What is left of a thing in all its bags.
fn left(mut events: Vec<(Date, Event<'_>)>) -> u64 {
    events.sort_unstable();
    let mut bags: BTreeMap<Option<&str>, (Date, u64)> = BTreeMap::new();
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
                bags.insert(bag, (day, of_day + amount));
            }
        }
    }
    bags.values().map(|(_, left)| left).sum()
}

fn counted(plan: &Arc<Plan>) -> impl Iterator<Item = (Key<'_>, &Stock, Amount)> {
    plan.record.stock.iter().filter_map(|stock| {
        let pieces = stock.pieces.map(|pieces| Amount::Pieces(pieces.number));
        let amount = stock.weight.clone().map(Amount::Weight).or(pieces)?;
        Some(((stock.item, stock.strain.as_ref().map(Id::as_str)), stock, amount))
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
