//! An id that names no record, a source that is cited but not listed.

use serde_json::{Map, Value};

use super::Ids;
use crate::{
    fault::{Fault, suggest},
    read::Node,
    record::{Kind, Link},
};

/// Checks a value that the schema says names a record.
#[must_use]
pub fn check(schema: &Map<String, Value>, node: &Node, ids: &Ids) -> Option<Fault> {
    let kind = schema.get("names").and_then(Value::as_str)?;
    let text = node.text()?;
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

/// The fault of an id that names no record of a kind; `None` where it names one.
#[must_use]
pub fn unknown(kind: Kind, id: &str, ids: &Ids) -> Option<Fault> {
    missing(kind, id, ids, std::borrow::ToOwned::to_owned)
}

/// The fault of a link that names no record; `None` where it names one.
#[must_use]
pub fn unknown_link(link: &Link, ids: &Ids) -> Option<Fault> {
    missing(link.kind, &link.id, ids, |meant| format!("{}:{meant}", link.kind.word()))
}

fn missing(kind: Kind, id: &str, ids: &Ids, written: impl Fn(&str) -> String) -> Option<Fault> {
    if ids.has(kind, id) {
        return None;
    }
    let fault = match kind {
        Kind::Source => Fault::new("source-not-listed", format!("the source `{id}` is cited but not listed")),
        _ => Fault::new("unknown-id", format!("there is no {} `{id}`", kind.word())),
    };
    Some(match (suggest::closest(id, ids.of(kind)), kind) {
        (Some(meant), _) => fault.instead(format!("write `{}`, if that is meant", written(meant))),
        (None, Kind::Source) => fault.instead(format!("add `{id}:` with its author and title to `sources.yaml`")),
        (None, _) => fault.instead(format!("look at the names of the files, or write a {} record `{id}`", kind.word())),
    })
}
