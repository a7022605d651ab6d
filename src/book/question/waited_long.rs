//! Logs that waited more than half a year before they were filled, or wait so long by now.

use super::Odd;
use crate::book::lay::Pile;
use crate::book::{Book, Lot};
use crate::quantity::Date;
use crate::record::Kind;

/// Days after which a log may have dried out or been taken by another fungus (common practice: six months).
const LONG: i32 = 183;

/// Asks of each lot from which logs were filled so late, and of each from an earlier winter in which logs still wait.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    book.lots.values().filter_map(|lot| odd(book, lot, pile)).collect()
}

fn odd(book: &Book, lot: &Lot, pile: &Pile) -> Option<Odd> {
    let felled = lot.felled?.to;
    let instead = "look whether the bark is tight, the ends dry or green and the wood heavy; write the rest under `gone` as `not-used`";
    let filled = late(book, lot, felled);
    let waits = felled.winter(book.farm.record.place.is_south()) < book.farm.record.season && left(book, lot) > 0;
    let what = match filled {
        Some(day) => format!("these logs were felled on {} and filled on {}", felled.written(), day.written()),
        None if waits => format!(
            "these logs were felled on {}, and {} of them wait in the season of {}",
            felled.written(),
            left(book, lot),
            book.farm.record.season
        ),
        None => return None,
    };
    Odd::under(pile, Kind::Lot, &lot.id, "felled", what, instead)
}

/// The first day on which logs of the lot were filled too late.
fn late(book: &Book, lot: &Lot, felled: Date) -> Option<Date> {
    let of_lot = book.batches.values().filter(|batch| batch.lots.iter().any(|(of, _)| of.id == lot.id));
    of_lot.map(|batch| batch.record.inoculated).filter(|day| day.since(felled) > LONG).min()
}

/// Logs of the lot that neither a batch took nor anything else.
fn left(book: &Book, lot: &Lot) -> u32 {
    let takes = book.batches.values().flat_map(|batch| &batch.lots).filter(|(of, _)| of.id == lot.id);
    lot.logs.saturating_sub(lot.gone() + takes.map(|(_, logs)| logs).sum::<u32>())
}
