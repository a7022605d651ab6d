//! Stems of one stump of which some are to stay and some to come down.

use std::collections::BTreeMap;

use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::read::Node;
use crate::record::Kind;

/// Checks that the stems of a clump share one decision.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let mut first: BTreeMap<(String, String), (&str, String)> = BTreeMap::new();
    let mut faults = Vec::new();
    for tree in pile.nodes(Kind::Tree) {
        let text = |key: &str| tree.get(key).map(Node::plain);
        let (Some(clump), Some(decision)) = (text("clump"), tree.word("decision")) else { continue };
        let stand = text("stand").unwrap_or_else(|| tree.place.file.name.clone());
        let wood = text("wood").unwrap_or_default();
        let (earlier, of) = first.entry((stand, clump.clone())).or_insert_with(|| (decision, wood.clone())).clone();
        let divided = |wrong: String, instead: &str, key: &str| {
            let wrong = format!("the stems of clump `{clump}` share a stump, but {wrong}");
            Fault::new("clump-divided", wrong).instead(instead).at(tree.place_of(key))
        };
        if of != wood {
            let wrong = format!("one is `{of}` and this one `{wood}`");
            faults.push(divided(wrong, "write one wood for all of them", "wood"));
        }
        if earlier != decision {
            let wrong = format!("one says `{earlier}` and this one `{decision}`");
            let instead = "write `keep` for all of them, or `fell` for all; or take the clump away";
            faults.push(divided(wrong, instead, "decision"));
        }
    }
    faults
}
