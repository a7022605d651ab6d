//! A batch that cannot be: more logs than its lot, a tree that has no such tag, a weight that no log can have, inoculated
//! before it was felled.

use std::collections::BTreeMap;
use std::f64::consts::PI;

use super::{diary, unbelievable};
use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::quantity::{Date, Length, Mass};
use crate::read::Node;
use crate::record::Kind;
use crate::record::farm::LogSize;

/// A sample log weighs no less and no more than these parts of its weight at inoculation.
const BELIEVABLE: [f64; 2] = [0.2, 1.6];

/// A slice holds at most so many times its dry weight.
const WETTEST: f64 = 4.0;

/// A fresh log weighs no less and no more than these parts of as much water.
const OF_WATER: [f64; 2] = [0.3, 1.5];

/// Checks every batch.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut taken: BTreeMap<&str, u64> = BTreeMap::new();
    for batch in pile.nodes(Kind::Batch) {
        faults.extend(too_many(pile, batch, &mut taken));
        faults.extend(batch.items("trees").iter().filter_map(|tag| no_tree(pile, tag)));
        faults.extend(batch.items("samples").iter().flat_map(weights));
        let length = length(pile, batch);
        faults.extend(batch.items("samples").iter().filter_map(|sample| size(sample, &length)));
        faults.extend(batch.items("slices").iter().filter_map(slice));
        faults.extend(felled_later(batch));
        faults.extend(diary::too_late(pile, batch, "inoculated"));
    }
    faults
}

fn too_many<'a>(pile: &Pile, batch: &'a Node, taken: &mut BTreeMap<&'a str, u64>) -> Option<Fault> {
    let lot = batch.word("lot")?;
    let there = pile.node(Kind::Lot, lot)?.number("logs")?;
    let used = taken.entry(lot).or_default();
    *used += batch.number("logs")?;
    (*used > there).then(|| {
        let wrong = format!("batches take {used} logs of the lot `{lot}`, which has {there}");
        unbelievable(wrong, "look at the numbers of logs in both records", batch.place_of("logs"))
    })
}

fn no_tree(pile: &Pile, tag: &Node) -> Option<Fault> {
    let text = tag.plain();
    let known = pile.node(Kind::Tree, &text).is_some() || pile.nodes(Kind::Tree).next().is_none();
    (!known).then(|| {
        Fault::new("unknown-id", format!("no tree has the tag `{text}`"))
            .instead("write a tag that stands in the woodlot, or take it away")
            .at(tag.place.clone())
    })
}

fn weights(sample: &Node) -> Vec<Fault> {
    let wrong = |weighing: &Node| other_log(sample, &weighing.read("weight", Mass::read)?, weighing, "weight");
    sample.items("weighed").iter().filter_map(wrong).collect()
}

/// The length of a batch's logs: its own, that of its lot, or that of the farm's log.
fn length(pile: &Pile, batch: &Node) -> Length {
    let of = |node: &Node| node.read("length", Length::read);
    let lot = || batch.word("lot").and_then(|lot| pile.node(Kind::Lot, lot)).and_then(of);
    let farm = || pile.nodes(Kind::Farm).next().and_then(|farm| farm.get("log")).and_then(of);
    of(batch).or_else(lot).or_else(farm).unwrap_or_else(|| LogSize::default().length)
}

/// A weight that no fresh log of such a size has.
fn size(sample: &Node, length: &Length) -> Option<Fault> {
    let (across, mass) = (sample.read("diameter", Length::read)?, sample.read("at_inoculation", Mass::read)?);
    let litres = PI / 4.0 * across.base().powi(2) * length.base() * 1000.0;
    (!(OF_WATER[0]..=OF_WATER[1]).contains(&(mass.base() / litres))).then(|| {
        let wrong = format!("{} is not believable for a log of its length, {} thick", mass.written(), across.written());
        let look = "look at both and their units; the thickness is that through the middle, not around it";
        unbelievable(wrong, look, sample.place_of("diameter"))
    })
}

/// A weight under a key of a record that a sample log cannot have.
pub(super) fn other_log(sample: &Node, now: &Mass, record: &Node, key: &str) -> Option<Fault> {
    let then = sample.read("at_inoculation", Mass::read)?;
    let part = now.base() / then.base();
    (!(BELIEVABLE[0]..=BELIEVABLE[1]).contains(&part)).then(|| {
        let wrong = format!("{} is not believable for a log that weighed {}", now.written(), then.written());
        unbelievable(wrong, "look at the number and its unit", record.place_of(key))
    })
}

fn slice(slice: &Node) -> Option<Fault> {
    let (wet, dry) = (slice.read("wet", Mass::read)?, slice.read("dry", Mass::read)?);
    (wet.base() > dry.base() * WETTEST).then(|| {
        let wrong = format!("a slice of {} cannot dry to {}", wet.written(), dry.written());
        unbelievable(wrong, "look at both numbers and their units", slice.place_of("dry"))
    })
}

fn felled_later(batch: &Node) -> Option<Fault> {
    let (felled, inoculated) = (batch.read("felled", Date::read)?, batch.read("inoculated", Date::read)?);
    (felled > inoculated).then(|| {
        let wrong = format!("this batch was inoculated on {}, before it was felled", inoculated.written());
        unbelievable(wrong, "look at both dates", batch.place_of("felled"))
    })
}
