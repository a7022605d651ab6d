//! An id that names no record, a source that is cited but not listed.

use std::collections::BTreeSet;

use serde_json::{Map, Value};

use super::Ids;
use crate::book::lay::{Laid, Writer};
use crate::fault::{Fault, suggest};
use crate::read::Node;
use crate::read::node::Tree;
use crate::record::{Kind, Link};

/// Checks a value that the schema says names a record.
pub(super) fn check(schema: &Map<String, Value>, node: &Node, ids: &Ids<'_>) -> Option<Fault> {
    let kind = schema.get("names").and_then(Value::as_str)?;
    let text = &match &node.value {
        Tree::Text(text) => text.clone(),
        // Only where a number may stand does it name a record.
        Tree::Number(_) if schema.get("type").is_some_and(Value::is_array) => node.plain(),
        _ => return None,
    };
    let fault = match Kind::of_word(kind) {
        Some(kind) => unknown(kind, text, ids)?,
        None => match Link::read(text) {
            Some(link) => unknown_link(&link, ids)?,
            None => Fault::new("unknown-record", format!("`{text}` does not say what kind of record it names"))
                .instead("write the kind, a colon and the id, such as `wood:red-oak`"),
        },
    };
    Some(fault.at(node.place.clone()))
}

/// Checks that a list names no record twice.
pub(super) fn twice(schema: &Map<String, Value>, node: &Node) -> Vec<Fault> {
    let (Some(items), Tree::List(nodes)) = (schema.get("items"), &node.value) else { return Vec::new() };
    if items.get("names").is_none() {
        return Vec::new();
    }
    let mut seen = BTreeSet::new();
    let again = nodes.iter().filter(|item| item.text().is_some_and(|text| !seen.insert(text)));
    let fault = |item: &Node| {
        let wrong = format!("`{}` is named twice in this list", item.text().unwrap_or_default());
        Fault::new("named-twice", wrong).instead("keep it once").at(item.place.clone())
    };
    again.map(fault).collect()
}

/// The fault of an id that names no record of a kind; `None` where it names one.
pub(super) fn unknown(kind: Kind, id: &str, ids: &Ids<'_>) -> Option<Fault> {
    missing(kind, id, ids, std::borrow::ToOwned::to_owned)
}

/// The fault of a link that names no record; `None` where it names one.
pub(super) fn unknown_link(link: &Link, ids: &Ids<'_>) -> Option<Fault> {
    missing(link.kind, &link.id, ids, |meant| format!("{}:{meant}", link.kind.word()))
}

fn missing(kind: Kind, id: &str, ids: &Ids<'_>, written: impl Fn(&str) -> String) -> Option<Fault> {
    if ids.has(kind, id) {
        return None;
    }
    let fault = match kind {
        Kind::Source => Fault::new("source-not-listed", format!("the source `{id}` is cited but not listed")),
        _ => Fault::new("unknown-id", format!("there is no {} `{id}`", kind.word())),
    };
    if kind == Kind::Strain && ids.has(Kind::Mushroom, id) {
        let of_mushroom: Vec<&str> = ids.of(Kind::Strain).filter(|strain| strain.starts_with(id)).collect();
        let fault = Fault::new("unknown-id", format!("`{id}` is a mushroom, but a strain is wanted here"));
        return Some(fault.instead(match of_mushroom.as_slice() {
            [] => format!("write a strain record with `name:` and `mushroom: {id}`, and name that"),
            strains => format!("write one of its strains: {}", suggest::either(strains.iter().copied())),
        }));
    }
    Some(fault.instead(match (ids.meant(kind, id), kind) {
        (Some(meant), _) => format!("write `{}`, if that is meant", written(meant)),
        (None, Kind::Source) => format!("add `{id}:` with its author and title to `sources.yaml`"),
        (None, Kind::Mushroom | Kind::Wood | Kind::Strain | Kind::Window | Kind::Caution) => format!(
            "`hostwood reckon {}` lists those there are; or write a {} record of that name",
            kind.at(),
            kind.word()
        ),
        (None, _) => {
            let known: Vec<&str> = ids.of(kind).take(12).collect();
            if known.is_empty() {
                format!("write a {} record of that name", kind.word())
            } else {
                format!("write one that exists, such as {}, or write a record of that name", suggest::either(known))
            }
        }
    }))
}

/// Adds to a missing key that a handbook's record of nearly the same id may be meant; `handbook` lists those of its kind.
pub(super) fn hint(fault: Fault, id: &str, laid: &Laid, handbook: &[&str]) -> Fault {
    if fault.rule != "missing-key" || laid.origin.writer != Writer::Farm {
        return fault;
    }
    match (suggest::closest(id, handbook.iter().copied()), fault.instead.clone()) {
        (Some(meant), Some(instead)) => {
            fault.instead(format!("{instead}; or call the file `{meant}`, if the handbook's record is meant"))
        }
        _ => fault,
    }
}
