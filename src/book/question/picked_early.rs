//! A harvest sooner than the shortest published spawn run.

use super::{Odd, picked};
use crate::book::lay::Pile;
use crate::book::{Batch, Book};
use crate::quantity::Duration;
use crate::record::Kind;

/// Asks of each batch that was picked sooner after inoculation than the shortest spawn run that a source gives of its strain or
/// mushroom; sooner than half of it is a fault.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let early = picked(book).filter(|(batch, harvest)| {
        let days = harvest.record.date.since(batch.record.inoculated);
        shortest(batch).is_some_and(|run| f64::from(days) < run.days())
    });
    let odd = early.filter_map(|(batch, harvest)| {
        let what = format!(
            "mushrooms were picked on {}, {} days after inoculation, sooner than any published spawn run",
            harvest.record.date.written(),
            harvest.record.date.since(batch.record.inoculated)
        );
        let instead = "look at the day, and whether another batch was meant";
        Odd::under(pile, Kind::Batch, &batch.id, "inoculated", what, instead)
    });
    odd.collect()
}

fn shortest(batch: &Batch) -> Option<Duration> {
    let own = &batch.strain.record.spawn_run;
    let runs = if own.is_empty() { &batch.strain.mushroom.record.spawn_run } else { own };
    let runs = runs.iter().map(|span| &span.range.low);
    runs.min_by(|a, b| a.days().total_cmp(&b.days())).cloned()
}
