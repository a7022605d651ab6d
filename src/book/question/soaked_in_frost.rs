//! A soak in a month of frost.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Odd, ever, lines};
use crate::book::lay::Pile;
use crate::book::{Book, Diary};
use crate::quantity::Date;
use crate::record::Kind;
use crate::record::diary::What;

/// Asks of each batch that was soaked in a month whose mean is below freezing, where fewer of its logs lay indoors than were
/// soaked; a line that tells no number may mean any.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let Some(climate) = &book.farm.record.climate else { return Vec::new() };
    let freezes = |day: Date| {
        let mean = usize::try_from(day.0.month() - 1).ok().and_then(|month| climate.monthly_means.get(month));
        mean.is_some_and(|mean| mean.celsius() < 0.0)
    };
    let ever = ever(book);
    let mut moves: BTreeMap<&str, Vec<Arc<Diary>>> = BTreeMap::new();
    for line in book.diary.iter().filter(|line| line.record.what == What::Moved) {
        for batch in &line.batches {
            moves.entry(&batch.id).or_default().push(Arc::clone(line));
        }
    }
    let soaks = lines(book, What::Soaked).filter(|(batch, line)| {
        let moved = moves.get(batch.id.as_str()).map_or(&[][..], Vec::as_slice);
        let logs = ever.get(batch.id.as_str()).copied().unwrap_or(batch.logs);
        let yards = book.farm.yards_of(batch, moved, line.date, logs);
        let indoors: u32 = yards.into_iter().filter(|(yard, _)| yard.indoors).map(|(_, logs)| logs).sum();
        freezes(line.date) && indoors < line.logs.unwrap_or(1)
    });
    let odd = soaks.filter_map(|(batch, line)| {
        let what = format!("logs of this batch were soaked on {}, in a month of frost", line.date.written());
        let instead = "look at the day; logs that are indoors are `moved` to a yard with `indoors: true`";
        Odd::under(pile, Kind::Batch, &batch.id, "inoculated", what, instead)
    });
    odd.collect()
}
