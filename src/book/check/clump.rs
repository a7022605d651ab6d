//! Stems of one stump of which some are to stay and some to come down.

use std::collections::BTreeMap;

use crate::{book::lay::Pile, fault::Fault, read::Node, record::Kind};

/// Checks that the stems of a clump share one decision.
#[must_use]
pub fn check(pile: &Pile) -> Vec<Fault> {
    let mut first: BTreeMap<(String, String), (&str, String)> = BTreeMap::new();
    let mut faults = Vec::new();
    for (_, laid) in pile.iter().filter(|((kind, _), _)| *kind == Kind::Tree) {
        let text =
            |key: &str| laid.node.get(key).map(Node::json).map(|value| value.to_string().trim_matches('"').to_owned());
        let (Some(clump), Some(decision)) = (text("clump"), laid.node.get("decision").and_then(Node::text)) else {
            continue;
        };
        let file = laid.origin.files().last().map_or("", |file| file.name.as_str());
        let stand = text("stand").unwrap_or_else(|| file.to_owned());
        let wood = text("wood").unwrap_or_default();
        let (earlier, of) = first.entry((stand, clump.clone())).or_insert_with(|| (decision, wood.clone())).clone();
        if of != wood {
            let place = laid.node.get("wood").map_or(&laid.node.place, |node| &node.place).clone();
            let wrong = format!("the stems of clump `{clump}` share a stump, but one is `{of}` and this one `{wood}`");
            faults.push(Fault::new("clump-divided", wrong).instead("write one wood for all of them").at(place));
        }
        if earlier != decision {
            let wrong = format!(
                "the stems of clump `{clump}` share a stump, but one says `{earlier}` and this one `{decision}`"
            );
            let place = laid.node.get("decision").map_or(&laid.node.place, |node| &node.place).clone();
            faults.push(
                Fault::new("clump-divided", wrong)
                    .instead("write `keep` for all of them, or `fell` for all; or take the clump away")
                    .at(place),
            );
        }
    }
    faults
}
