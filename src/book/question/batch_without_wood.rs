//! A batch of logs of which nobody wrote the wood.

use super::Odd;
use crate::book::Book;
use crate::book::lay::Pile;
use crate::record::Kind;

/// Asks of each batch with logs that has no wood, neither its own nor that of its lots or trees.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let blank = book.batches.values().filter(|batch| batch.is_counted() && batch.wood.is_none());
    let odd = blank.filter_map(|batch| {
        let what = "of which wood this batch is, is not said, so it teaches nothing about a wood";
        let instead = "write its `wood`, or the `lots` that its logs come from";
        Odd::under(pile, Kind::Batch, &batch.id, "strain", what, instead)
    });
    odd.collect()
}
