//! A column of the farm's own that has no name, or that of another.

use std::collections::BTreeSet;

use serde_json::Value;

use crate::book::lay::{Pile, sheets};
use crate::fault::Fault;
use crate::read::{Node, sheet};
use crate::record::Kind;

/// The column that only sales have, and that nothing prints.
const BUYER: &str = "buyer";

/// Checks the heads that `farm.yaml` names under `columns`.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let Some(own) = pile.farm().and_then(|farm| farm.get("columns")) else { return Vec::new() };
    let mut faults = Vec::new();
    for (kind, known) in sheets() {
        let mut seen = BTreeSet::new();
        for node in own.items(kind.at()) {
            let Some(head) = node.text() else { continue };
            let again = !seen.insert(sheet::key(head));
            faults.extend(wrong(head, again, kind, &known).map(|fault| fault.at(node.place.clone())));
        }
    }
    faults
}

fn wrong(head: &str, again: bool, kind: Kind, known: &Value) -> Option<Fault> {
    let key = sheet::key(head);
    let fault = |wrong: String, instead: &str| Some(Fault::new("not-a-column", wrong).instead(instead));
    match key.as_str() {
        "" => fault("a column of the farm's own has no name here".to_owned(), "write the head as the sheet has it"),
        key if known.get(key).is_some() => {
            fault(format!("the sheets of `{}` have a column `{key}` already", kind.at()), "take it out of this list")
        }
        BUYER => fault(
            "a buyer is shown nowhere".to_owned(),
            "take it out of this list; buyers can stand in the sheets of `sales`, where nothing prints them",
        ),
        _ if again => fault(format!("`{head}` is named twice in this list"), "keep it once"),
        _ => None,
    }
}

/// How to name a column that a sheet of a kind has and that no such record knows.
pub(super) fn named(kind: Kind, key: &str, node: &Node) -> Option<String> {
    let is_own = node.place.file.is_sheet() && key != BUYER;
    is_own.then(|| {
        let at = kind.at();
        format!("; or, if it is a column of your own, name it in `farm.yaml`: `columns: {{{at}: [{key}]}}`")
    })
}
