//! A soak in a month of frost.

use std::collections::BTreeMap;

use super::{Odd, lines};
use crate::book::lay::Pile;
use crate::book::{Batch, Book};
use crate::quantity::Date;
use crate::record::Kind;
use crate::record::diary::{Diary, What};

/// Asks of each batch that was soaked outdoors in a month whose mean is below freezing.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let Some(climate) = &book.farm.record.climate else { return Vec::new() };
    let freezes = |day: Date| {
        let mean = usize::try_from(day.0.month() - 1).ok().and_then(|month| climate.monthly_means.get(month));
        mean.is_some_and(|mean| mean.celsius() < 0.0)
    };
    let mut moves: BTreeMap<&str, Vec<&Diary>> = BTreeMap::new();
    for (batch, line) in lines(book, What::Moved) {
        moves.entry(&batch.id).or_default().push(line);
    }
    let soaks = lines(book, What::Soaked).filter(|(batch, line)| {
        let moved = moves.get(batch.id.as_str()).map_or(&[][..], Vec::as_slice);
        freezes(line.date) && !is_indoors(book, batch, moved, line.date)
    });
    let odd = soaks.filter_map(|(batch, line)| {
        let what = format!("logs of this batch were soaked on {}, in a month of frost", line.date.written());
        let instead = "look at the day; logs that are indoors are `moved` to a yard with `indoors: true`";
        Odd::under(pile, Kind::Batch, &batch.id, "inoculated", what, instead)
    });
    odd.collect()
}

/// Whether a batch was in a yard under a roof and walls on a day.
fn is_indoors(book: &Book, batch: &Batch, moves: &[&Diary], day: Date) -> bool {
    let to = moves.iter().rev().filter(|line| line.date <= day).find_map(|line| line.to.as_ref());
    let to = to.or(batch.record.yard.as_ref());
    let yards = &book.farm.record.yards;
    to.is_some_and(|name| yards.iter().any(|yard| yard.indoors && yard.name == *name))
}
