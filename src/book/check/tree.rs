//! A tree without a thickness, or with two.

use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::read::node::Tree;
use crate::record::Kind;

/// Checks every tree.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let rows = pile.nodes(Kind::Tree).filter(|tree| matches!(tree.value, Tree::Map(_)));
    let trees = rows.filter_map(|tree| match (tree.get("dbh"), tree.get("girth")) {
        (None, None) => {
            let fault = Fault::new("missing-key", "how thick this tree is at breast height is not said");
            Some(
                fault
                    .instead("write its `dbh`, such as `7.5 in`, or its `girth`, as a tape gives it")
                    .at(tree.place.clone()),
            )
        }
        (Some(_), Some(girth)) => {
            let fault = Fault::new("key-twice", "a girth stands here, and a diameter beside it");
            Some(fault.instead("keep `dbh` or `girth`, and empty the other").at(girth.place.clone()))
        }
        _ => None,
    });
    trees.collect()
}
