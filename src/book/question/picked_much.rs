//! Harvests far above anything that logs were ever seen to give.

use std::collections::BTreeMap;

use super::{Odd, ever, picked};
use crate::book::lay::Pile;
use crate::book::{Batch, Book, Harvest};
use crate::quantity::{Mass, Units};
use crate::record::Kind;
use crate::record::evidence::Way;
use crate::record::mushroom::Over;

/// All pickings of a batch are odd above so many times the most that a log is said to give: by its green weight, a heavy log
/// may give about twice what sources count by the log.
const FAR: f64 = 2.0;

/// Asks of each batch of logs of which one day gave more than they give in a whole life by the highest published yield, or
/// all days together far more.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let ever = ever(book);
    let mut batches: BTreeMap<&str, (&Batch, Vec<&Harvest>)> = BTreeMap::new();
    for (batch, harvest) in picked(book) {
        batches.entry(&batch.id).or_insert((batch, Vec::new())).1.push(harvest);
    }
    let of_logs = batches.into_values().filter(|(batch, _)| matches!(batch.record.way, Way::Log | Way::BuriedLog));
    let odd = of_logs.filter_map(|(batch, harvests)| {
        let logs = ever.get(batch.id.as_str()).copied().filter(|logs| *logs > 0)?;
        let what =
            on_a_day(batch, &harvests, logs).or_else(|| in_all(batch, &harvests, logs, book.farm.record.units))?;
        let instead = "look at the weight and its unit, and at the batch";
        Odd::under(pile, Kind::Batch, &batch.id, "inoculated", what, instead)
    });
    odd.collect()
}

/// What is odd about one day, where anything is.
fn on_a_day(batch: &Batch, harvests: &[&Harvest], logs: u32) -> Option<String> {
    let most = most(batch, |_| true)? * f64::from(logs);
    let alone = harvests.iter().filter(|harvest| harvest.batches.len() == 1);
    let much = alone.map(|harvest| &harvest.record).find(|harvest| harvest.weight.base() > most)?;
    Some(format!(
        "{} were picked on {} from {logs} logs, more than they give in their whole life by any published yield",
        much.weight.written(),
        much.date.written()
    ))
}

/// What is odd about all days together, where a source tells of a life; a shared total is parted by the logs of its batches.
fn in_all(batch: &Batch, harvests: &[&Harvest], logs: u32, units: Units) -> Option<String> {
    let most = most(batch, |over| over == Over::Life)? * f64::from(logs);
    let part = |harvest: &&Harvest| {
        let all: u32 = harvest.batches.iter().map(|other| other.logs).sum();
        harvest.record.weight.base() * f64::from(batch.logs) / f64::from(all.max(1))
    };
    let picked: f64 = harvests.iter().map(part).sum();
    (picked > FAR * most).then(|| {
        format!(
            "all pickings of {logs} logs come to {}, far more than they give in their whole life by any published yield",
            Mass::of_kilograms(picked).show(units)
        )
    })
}

/// The most that a log was ever seen to give over some times, in kilograms.
fn most(batch: &Batch, over: impl Fn(Over) -> bool) -> Option<f64> {
    let yields = batch.strain.mushroom.record.log_yields.iter().filter(|of| over(of.over));
    yields.map(|of| of.a_log.high.base()).max_by(f64::total_cmp)
}
