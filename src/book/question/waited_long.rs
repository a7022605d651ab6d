//! Logs that waited more than half a year before they were filled, or wait so long by now.

use std::collections::BTreeMap;

use super::{Odd, ever};
use crate::book::lay::Pile;
use crate::book::{Batch, Book, Lot};
use crate::quantity::Date;
use crate::record::Kind;

/// Days after which a log may have dried out or been taken by another fungus (common practice: six months).
const LONG: i32 = 183;

/// How the logs of a lot are looked at.
const LOOK: &str = "look whether the bark is tight, the ends dry or green and the wood heavy; write the rest under `gone` as `not-used`";

/// Asks of each lot from which logs were filled so late, of each from an earlier winter in which logs still wait, and of each
/// batch whose trees came down so long before.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let ever = ever(book);
    let of_lots = book.lots.values().filter_map(|lot| of_lot(book, lot, &ever, pile));
    let of_batches = book.batches.values().filter_map(|batch| of_batch(batch, pile));
    of_lots.chain(of_batches).collect()
}

fn of_lot(book: &Book, lot: &Lot, ever: &BTreeMap<&str, u32>, pile: &Pile) -> Option<Odd> {
    let felled = lot.felled?.to;
    let filled = of(book, lot).map(|batch| batch.record.inoculated).filter(|day| day.since(felled) > LONG).min();
    let season = book.farm.record.season;
    let left = left(book, lot, ever);
    let what = match filled {
        Some(day) => format!("these logs were felled on {} and filled on {}", felled.written(), day.written()),
        None if felled.winter(book.farm.record.place.is_south()) < season && left > 0 => {
            format!("these logs were felled on {}, and {left} of them wait in the season of {season}", felled.written())
        }
        None => return None,
    };
    Odd::under(pile, Kind::Lot, &lot.id, "felled", what, LOOK)
}

/// A batch without a lot; one with lots is asked about there.
fn of_batch(batch: &Batch, pile: &Pile) -> Option<Odd> {
    let felled = batch.felled().filter(|_| batch.lots.is_empty() && batch.is_counted())?.to;
    let filled: Date = batch.record.inoculated;
    let what = format!("these logs were felled on {} and filled on {}", felled.written(), filled.written());
    let instead = "look at both days; logs that lay so long are rarely sound";
    let odd = || Odd::under(pile, Kind::Batch, &batch.id, "inoculated", what, instead);
    (filled.since(felled) > LONG).then(odd).flatten()
}

/// The batches of a lot.
fn of<'a>(book: &'a Book, lot: &'a Lot) -> impl Iterator<Item = &'a Batch> {
    let of_lot = |batch: &&Batch| batch.lots.iter().any(|(of, _)| of.id == lot.id);
    book.batches.values().map(AsRef::as_ref).filter(of_lot)
}

/// Logs of the lot that neither a batch took nor anything else; what was added to a batch later may come from its lots.
fn left(book: &Book, lot: &Lot, ever: &BTreeMap<&str, u32>) -> u32 {
    let added = |batch: &Batch| ever.get(batch.id.as_str()).map_or(0, |ever| ever.saturating_sub(batch.logs));
    let taken = |batch: &Batch| batch.lots.iter().filter(|(of, _)| of.id == lot.id).map(|(_, logs)| logs).sum::<u32>();
    let took: u32 = of(book, lot).map(|batch| taken(batch) + added(batch)).sum();
    lot.logs.saturating_sub(lot.gone() + took)
}
