//! Two sources that a reader cannot tell apart.

use std::collections::BTreeMap;

use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::record::Kind;

/// Checks that no two sources have the same short form.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let mut shorts = BTreeMap::new();
    let mut faults = Vec::new();
    for (id, laid) in pile.of(Kind::Source) {
        let Some(node) = laid.node.get("short") else { continue };
        let Some(short) = node.text() else { continue };
        if let Some((earlier, other)) = shorts.insert(short, (id, node)) {
            let fault =
                Fault::new("short-twice", format!("the sources `{earlier}` and `{id}` are both `{short}` for short"));
            let fault = fault.instead("give one of them another short form, so that a reader can tell them apart");
            let mine = [node, other].into_iter().find(|node| !node.place.file.handbook).unwrap_or(node);
            faults.push(fault.at(mine.place.clone()));
        }
    }
    faults
}
