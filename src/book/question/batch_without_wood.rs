//! A batch of logs of which nobody wrote the wood.

use super::Odd;
use crate::book::Book;
use crate::book::lay::Pile;
use crate::record::Kind;

/// The keys that say of which wood a batch is; where one stands and could not be read, its fault is told already.
const SAYS: [&str; 5] = ["wood", "woods", "lot", "lots", "trees"];

/// Asks of each batch with logs that has no wood, neither its own nor that of its lots or trees.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let says = |id: &str| {
        let batch = pile.node(Kind::Batch, id);
        batch.is_some_and(|batch| SAYS.iter().any(|key| batch.get(key).is_some()))
    };
    let blank = book.batches.values().filter(|batch| batch.is_counted() && batch.wood.is_none() && !says(&batch.id));
    let odd = blank.filter_map(|batch| {
        let what = "of which wood this batch is, is not said, so it teaches nothing about a wood";
        let instead = "write its `wood`, or the `lots` that its logs come from";
        Odd::under(pile, Kind::Batch, &batch.id, "strain", what, instead)
    });
    odd.collect()
}
