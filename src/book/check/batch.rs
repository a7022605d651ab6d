//! A batch that cannot be: more logs than its lot, a tree that has no such tag, a weight that no log can have, inoculated
//! before it was felled.

use std::collections::BTreeMap;

use serde_json::Value;

use crate::{
    book::lay::{self, Laid, Pile},
    fault::Fault,
    quantity::{Date, Mass},
    read::{Node, node::Tree},
    record::Kind,
};

/// A sample log weighs no less and no more than these parts of its weight at inoculation.
const BELIEVABLE: [f64; 2] = [0.2, 1.6];

/// A slice holds at most so many times its dry weight.
const WETTEST: f64 = 4.0;

/// Checks every batch.
#[must_use]
pub fn check(pile: &Pile) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut taken: BTreeMap<String, u64> = BTreeMap::new();
    for (_, batch) in pile.iter().filter(|((kind, _), _)| *kind == Kind::Batch) {
        faults.extend(too_many(pile, batch, &mut taken));
        faults.extend(items(&batch.node, "trees").iter().filter_map(|tag| no_tree(pile, tag)));
        faults.extend(items(&batch.node, "samples").iter().flat_map(weights));
        faults.extend(items(&batch.node, "slices").iter().filter_map(slice));
        faults.extend(felled_later(&batch.node));
        faults.extend(beyond(pile, &batch.node));
    }
    faults
}

/// The items of a list under a key; none where there is no list.
pub(super) fn items<'a>(node: &'a Node, key: &str) -> &'a [Node] {
    match node.get(key).map(|node| &node.value) {
        Some(Tree::List(items)) => items,
        _ => &[],
    }
}

/// A whole number.
pub(super) fn number(node: Option<&Node>) -> Option<u64> {
    node.map(Node::json).as_ref().and_then(Value::as_u64)
}

fn too_many(pile: &Pile, batch: &Laid, taken: &mut BTreeMap<String, u64>) -> Option<Fault> {
    let lot = batch.node.get("lot")?.text()?;
    let logs = batch.node.get("logs")?;
    let there = number(pile.get(&(Kind::Lot, lot.to_owned()))?.node.get("logs"))?;
    let used = taken.entry(lot.to_owned()).or_default();
    *used += number(Some(logs))?;
    (*used > there).then(|| {
        Fault::new("not-believable", format!("batches take {used} logs of the lot `{lot}`, which has {there}"))
            .instead("look at the numbers of logs in both records")
            .at(logs.place.clone())
    })
}

fn no_tree(pile: &Pile, tag: &Node) -> Option<Fault> {
    let text = match tag.json() {
        Value::String(text) => text,
        other => other.to_string(),
    };
    let known = pile.contains_key(&(Kind::Tree, text.clone()));
    let none = || lay::of_kind(pile, Kind::Tree).next().is_none();
    (!known && !none()).then(|| {
        Fault::new("unknown-id", format!("no tree has the tag `{text}`"))
            .instead("write a tag that stands in the woodlot, or take it away")
            .at(tag.place.clone())
    })
}

fn mass(node: &Node, key: &str) -> Option<Mass> {
    Mass::read(node.get(key)?.text()?).ok()
}

fn weights(sample: &Node) -> Vec<Fault> {
    let Some(then) = mass(sample, "at_inoculation") else { return Vec::new() };
    let wrong = |weighing: &Node| {
        let now = mass(weighing, "weight")?;
        let part = now.base() / then.base();
        (!(BELIEVABLE[0]..=BELIEVABLE[1]).contains(&part)).then(|| {
            let wrong = format!("{} is not believable for a log that weighed {}", now.written(), then.written());
            let place = weighing.get("weight").map_or(&weighing.place, |node| &node.place).clone();
            Fault::new("not-believable", wrong).instead("look at the number and its unit").at(place)
        })
    };
    items(sample, "weighed").iter().filter_map(wrong).collect()
}

fn slice(slice: &Node) -> Option<Fault> {
    let (wet, dry) = (mass(slice, "wet")?, mass(slice, "dry")?);
    (wet.base() > dry.base() * WETTEST).then(|| {
        let wrong = format!("a slice of {} cannot dry to {}", wet.written(), dry.written());
        let place = slice.get("dry").map_or(&slice.place, |node| &node.place).clone();
        Fault::new("not-believable", wrong).instead("look at both numbers and their units").at(place)
    })
}

/// Inoculated far beyond the farm's season.
fn beyond(pile: &Pile, batch: &Node) -> Option<Fault> {
    super::diary::too_late(pile, batch, "inoculated")
}

fn felled_later(batch: &Node) -> Option<Fault> {
    let date = |key: &str| Date::read(batch.get(key)?.text()?).ok();
    let (felled, inoculated) = (date("felled")?, date("inoculated")?);
    (felled > inoculated).then(|| {
        let wrong = format!("this batch was inoculated on {}, before it was felled", inoculated.show());
        let place = batch.get("felled").map_or(&batch.place, |node| &node.place).clone();
        Fault::new("not-believable", wrong).instead("look at both dates").at(place)
    })
}
