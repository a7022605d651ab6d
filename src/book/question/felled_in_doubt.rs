//! A tree that was felled, or of which logs were cut, while its wood was in doubt.

use std::collections::BTreeSet;

use super::Odd;
use crate::book::lay::Pile;
use crate::book::{Book, Tree};
use crate::record::Kind;
use crate::record::tree::{Gone, Tag};

/// Asks of each tree in doubt that came down for logs; one that became timber or firewood teaches nothing about a wood.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let of_lots = book.lots.values().flat_map(|lot| &lot.trees);
    let cut: BTreeSet<&Tag> =
        of_lots.chain(book.batches.values().flat_map(|batch| &batch.trees)).map(|tree| tree.tag()).collect();
    let doubtful = book.trees.iter().filter(|tree| tree.record.doubtful);
    doubtful.filter(|tree| cut.contains(tree.tag()) || is_felled(tree)).filter_map(|tree| odd(tree, pile)).collect()
}

/// Whether its own row says that it came down for logs.
fn is_felled(tree: &Tree) -> bool {
    let record = &tree.record;
    let for_logs = record.gone.is_none_or(Gone::gives_logs) && (record.felled.is_some() || record.gone.is_some());
    for_logs || record.logs_cut.is_some_and(|logs| logs > 0)
}

fn odd(tree: &Tree, pile: &Pile) -> Option<Odd> {
    let tag = tree.tag();
    let what = format!("{tag} was felled while its wood was in doubt");
    let instead = "say what it is: look at the bark and the end grain of its logs, write its `wood`, in its lot too, and take \
                   `doubtful` away";
    Odd::under(pile, Kind::Tree, &tag.0, "doubtful", what, instead)
}
