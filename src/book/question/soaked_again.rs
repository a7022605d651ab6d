//! Logs that lay in the tank twice within two days.

use std::collections::BTreeMap;

use super::{Odd, ever, lines};
use crate::book::Book;
use crate::book::lay::Pile;
use crate::quantity::Date;
use crate::record::Kind;
use crate::record::diary::What;

/// Days between two soaks of one log, at least; a log rests for weeks.
const APART: i32 = 2;

/// Asks of each batch of which more logs were soaked within two days than it ever had.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let ever = ever(book);
    let mut soaks: BTreeMap<&str, Vec<(Date, u32)>> = BTreeMap::new();
    for (batch, line) in lines(book, What::Soaked) {
        soaks.entry(&batch.id).or_default().push((line.date, line.logs.unwrap_or(batch.logs)));
    }
    let odd = soaks.into_iter().filter_map(|(id, soaks)| {
        let (first, again) = twice(&soaks, *ever.get(id)?)?;
        let what =
            format!("the same logs of this batch lay in the tank on {} and on {}", first.written(), again.written());
        let instead = "look at the days and the numbers of logs in the day book";
        Odd::under(pile, Kind::Batch, id, "inoculated", what, instead)
    });
    odd.collect()
}

/// The first soak and the last of those within two days of it, where they took more logs than there are; soaks stand in the
/// order of days.
fn twice(soaks: &[(Date, u32)], logs: u32) -> Option<(Date, Date)> {
    soaks.iter().enumerate().find_map(|(at, (first, _))| {
        let near = soaks[at..].iter().take_while(|(day, _)| day.since(*first) <= APART);
        let together: u32 = near.clone().map(|(_, logs)| *logs).sum();
        let (last, _) = near.last().filter(|_| together > logs)?;
        (soaks[at..].len() > 1).then_some((*first, *last))
    })
}
