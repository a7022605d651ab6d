//! A group that is part of itself.

use std::collections::BTreeSet;

use crate::book::lay::{Pile, Writer};
use crate::fault::Fault;
use crate::record::Kind;

/// Follows `part_of` upwards and reports a record that comes back to itself.
pub(super) fn check(kind: Kind, id: &str, pile: &Pile) -> Option<Fault> {
    let part_of = |id: &str| pile.node(kind, id)?.get("part_of");
    let start = part_of(id)?;
    let mut seen = BTreeSet::new();
    let mut above = start.text()?.to_owned();
    while seen.insert(above.clone()) {
        let farms = |id: &String| pile.get(kind, id).is_some_and(|laid| laid.origin.writer != Writer::Handbook);
        if above == id {
            if start.place.file.handbook && seen.iter().any(farms) {
                return None;
            }
            return Some(
                Fault::new("part-of-itself", format!("`{id}` is part of itself"))
                    .instead("name a wider group, or take `part_of` away")
                    .at(start.place.clone()),
            );
        }
        match part_of(&above).and_then(|node| node.text()) {
            Some(next) => above = next.to_owned(),
            None => return None,
        }
    }
    None
}
