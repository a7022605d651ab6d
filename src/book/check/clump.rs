//! Stems of one stump of two woods, and a coppice stool of which some stems are to stay and some to come down.

use std::collections::BTreeMap;

use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::read::Node;
use crate::read::node::Tree;
use crate::record::Kind;

/// Checks that the stems of a clump share one wood, and those of a stool one decision.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let mut first: BTreeMap<(String, String), (&str, String, bool)> = BTreeMap::new();
    let mut faults = Vec::new();
    for tree in pile.nodes(Kind::Tree) {
        let text = |key: &str| tree.get(key).map(Node::plain);
        let (Some(clump), Some(decision)) = (text("clump"), tree.word("decision")) else { continue };
        let stand = text("stand").unwrap_or_else(|| tree.place.file.name.clone());
        let wood = text("wood").unwrap_or_default();
        let stool = matches!(tree.get("stool").map(|node| &node.value), Some(Tree::Bool(true)));
        let (earlier, of, is_stool) =
            first.entry((stand, clump.clone())).or_insert_with(|| (decision, wood.clone(), stool)).clone();
        let divided = |wrong: String, instead: &str, key: &str| {
            let wrong = format!("the stems of clump `{clump}` share a stump, but {wrong}");
            Fault::new("clump-divided", wrong).instead(instead).at(tree.place_of(key))
        };
        if of != wood {
            let wrong = format!("one is `{of}` and this one `{wood}`");
            faults.push(divided(wrong, "write one wood for all of them", "wood"));
        }
        if earlier != decision && (stool || is_stool) {
            let wrong = format!("a stool is cut whole, and one says `{earlier}` and this one `{decision}`");
            let instead =
                "write `keep` for all of them, or `fell` for all; or leave `stool` away, where one stem may go alone";
            faults.push(divided(wrong, instead, "decision"));
        }
    }
    faults
}
