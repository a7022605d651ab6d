//! Logs that lay in the tank twice within two days.

use std::collections::BTreeMap;

use super::{Odd, lines};
use crate::book::Book;
use crate::book::lay::Pile;
use crate::quantity::Date;
use crate::record::Kind;
use crate::record::diary::What;

/// Days between two soaks of one log, at least; a log rests for weeks.
const APART: i32 = 2;

/// Asks of each batch of which more logs were soaked within two days than it has.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let mut soaks: BTreeMap<&str, Vec<(Date, u32)>> = BTreeMap::new();
    for (batch, line) in lines(book, What::Soaked) {
        soaks.entry(&batch.id).or_default().push((line.date, line.logs.unwrap_or(batch.logs)));
    }
    let odd = book.batches.values().filter_map(|batch| {
        let (first, again) = twice(soaks.get(batch.id.as_str())?, batch.logs)?;
        let what =
            format!("the same logs of this batch lay in the tank on {} and on {}", first.written(), again.written());
        let instead = "look at the days and the numbers of logs in the day book";
        Odd::under(pile, Kind::Batch, &batch.id, "inoculated", what, instead)
    });
    odd.collect()
}

/// The first two neighbouring soaks within two days that took more logs than there are; soaks stand in the order of days.
fn twice(soaks: &[(Date, u32)], logs: u32) -> Option<(Date, Date)> {
    let pair = soaks.windows(2).find(|pair| pair[1].0.since(pair[0].0) <= APART && pair[0].1 + pair[1].1 > logs)?;
    Some((pair[0].0, pair[1].0))
}
