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

/// Records that a fault names.
const KNOWN: usize = 12;

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
    let meant: Vec<String> = ids.meant(kind, id).into_iter().map(written).collect();
    Some(fault.instead(match (meant.is_empty(), kind) {
        (false, _) => format!("write {}, if that is meant", suggest::either(meant.iter().map(String::as_str))),
        (true, Kind::Source) => format!("add `{id}:` with its author and title to `sources.yaml`"),
        (true, Kind::Mushroom | Kind::Wood | Kind::Strain | Kind::Window | Kind::Caution) => format!(
            "`hostwood reckon {}` lists those there are; or write a {} record of that name",
            kind.at(),
            kind.word()
        ),
        (true, _) => {
            // A trouble is called by what is seen, of which its name has a word; all other kinds grow with the farm.
            let like = if kind == Kind::Trouble { ids.sharing_a_word(kind, id) } else { Vec::new() };
            let known: Vec<&str> = if like.is_empty() { ids.of(kind).collect() } else { like };
            let more = match known.len().saturating_sub(KNOWN) {
                0 => String::new(),
                more => format!(" and {more} more"),
            };
            let shown = suggest::either(known.iter().rev().take(KNOWN).rev().copied());
            let number = if kind == Kind::Batch { ids.numbers_in_words() } else { String::new() };
            if known.is_empty() {
                format!("write a {} record of that name", kind.word())
            } else {
                format!("write {number}one that exists, such as {shown}{more}, or write a record of that name")
            }
        }
    }))
}

/// Says of several woods in the place of one that each wants a record of its own.
pub(super) fn two_woods(fault: Fault, kind: Kind, node: &Node, ids: &Ids<'_>) -> Fault {
    let several = |key: &&str| node.get(key).is_some_and(|woods| is_several(woods, ids));
    let is_at = |key: &str| [node.place_of(key), node.key_place(key)].iter().any(|at| fault.place.as_ref() == Some(at));
    if !matches!(kind, Kind::Batch | Kind::Lot) {
        return fault;
    }
    match ["wood", "woods"].into_iter().find(several) {
        Some(key) if is_at(key) => fault.instead(format!("write two {}, a wood each", kind.at())),
        _ => fault,
    }
}

/// Says of a word that the day book does not know how a trouble is written down.
pub(super) fn seen(fault: Fault, kind: Kind, node: &Node) -> Fault {
    let is_what =
        kind == Kind::Diary && fault.rule == "unknown-word" && fault.place.as_ref() == Some(&node.place_of("what"));
    match &fault.instead {
        Some(instead) if is_what => {
            let instead = format!(
                "{instead}; other fungi, beetles and the like are `weeds-seen: green-dust`, with the trouble’s name"
            );
            fault.instead(instead)
        }
        _ => fault,
    }
}

/// Whether a value names several woods, in a list or with a mark or a word between them.
fn is_several(woods: &Node, ids: &Ids<'_>) -> bool {
    if let Tree::List(items) = &woods.value {
        return items.len() > 1;
    }
    let text = woods.text().unwrap_or_default().replace(" and ", ",");
    let mut parts = text.split([',', '+', '&', '/', ';']).map(str::trim);
    parts.clone().count() > 1 && parts.all(|part| ids.means(Kind::Wood, part))
}

/// Tells the keys that a record lacks once, where a handbook's record of nearly the same id may be meant; `handbook` lists
/// those of its kind.
pub(super) fn nearly(found: Vec<Fault>, kind: Kind, id: &str, laid: &Laid, handbook: &[&str]) -> Vec<Fault> {
    let is_missing = |fault: &Fault| fault.rule == "missing-key" && fault.place.as_ref() == Some(&laid.node.place);
    if laid.origin.writer != Writer::Farm || !found.iter().any(is_missing) {
        return found;
    }
    let Some(meant) = suggest::closest(id, handbook.iter().copied()) else { return found };
    let (missing, mut told): (Vec<Fault>, Vec<Fault>) = found.into_iter().partition(is_missing);
    let keys: Vec<&str> = missing.iter().filter_map(|fault| fault.wrong.split('`').nth(1)).collect();
    let lines: Vec<&str> = missing.iter().filter_map(|fault| fault.instead.as_deref()).collect();
    let wrong = format!("this {} record does not say {}", kind.word(), suggest::either(keys).replace(" or ", " and "));
    let instead = format!("call the file `{meant}`, if the handbook's record is meant; else {}", lines.join(", "));
    told.push(Fault::new("missing-key", wrong).instead(instead).at(laid.node.place.clone()));
    told
}
