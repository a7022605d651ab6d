//! Logs that were laid to a batch long after it was inoculated.

use super::{Odd, lines};
use crate::book::Book;
use crate::book::lay::Pile;
use crate::record::Kind;
use crate::record::diary::What;

/// Days after which later logs fruit so much later that they are a batch of their own.
const LATE: i32 = 14;

/// Asks of each batch to which logs were added more than two weeks after its inoculation.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let added = lines(book, What::Added).filter(|(batch, line)| line.date.since(batch.record.inoculated) > LATE);
    let odd = added.filter_map(|(batch, line)| {
        let what = format!(
            "logs were added to this batch on {}, more than {LATE} days after {}",
            line.date.written(),
            batch.record.inoculated.written()
        );
        Odd::under(pile, Kind::Batch, &batch.id, "inoculated", what, "write a batch of its own for them")
    });
    odd.collect()
}
