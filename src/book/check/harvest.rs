//! A harvest that cannot be: of no batch, before its batch could fruit, far beyond the season, twice the same, or heavier than its
//! logs can give.

use std::collections::BTreeMap;

use super::called::Batches;
use super::{batch, diary, unbelievable};
use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::quantity::{Date, Duration, Mass};
use crate::read::Node;
use crate::record::Kind;

/// A log gives at most so many kilograms in a day.
const A_LOG: f64 = 5.0;
/// A batch may fruit at the earliest after this part of the shortest spawn run that a source gives.
const SOONEST: f64 = 0.5;

/// Checks every harvest.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let batches = Batches::of(pile);
    let mut faults: Vec<Fault> = pile.nodes(Kind::Harvest).flat_map(|node| one(pile, &batches, node)).collect();
    let mut seen = BTreeMap::new();
    let mut rows: Vec<&Node> = pile.nodes(Kind::Harvest).collect();
    rows.sort_by_key(|node| (&node.place.file.name, node.place.line));
    for node in rows {
        if let Some(earlier) = seen.insert(node.json().to_string(), &node.place) {
            let wrong = format!("the same harvest stands in {} line {}", earlier.file.name, earlier.line);
            let fault = Fault::new("row-twice", wrong);
            faults.push(fault.instead("take one away, or tell them apart by a note").at(node.place.clone()));
        }
    }
    faults
}

fn one(pile: &Pile, batches: &Batches<'_>, node: &Node) -> Vec<Fault> {
    let single = node.get("batch");
    let several = node.items("batches");
    match (single, several.is_empty()) {
        (None, true) => {
            let fault = Fault::new("missing-key", "which batch was picked is not said");
            let fault = fault.instead("write its id under `batch`, or several under `batches`");
            return vec![fault.at(node.place_of("date"))];
        }
        (Some(single), false) => {
            let fault = Fault::new("key-twice", "a batch stands here, and several beside it");
            return vec![fault.instead("keep `batch` or `batches`, and empty the other").at(single.place.clone())];
        }
        _ => {}
    }
    let mut faults = Vec::new();
    let mut logs = 0;
    for (id, found) in batches.named(node) {
        logs += batch::logs(pile, found).unwrap_or(0);
        faults.extend(too_soon(pile, node, id, found));
    }
    faults.extend(too_heavy(node, logs));
    faults.extend(diary::too_late(pile, node, "date"));
    faults.extend(diary::number_for_note(node));
    faults
}

fn too_soon(pile: &Pile, node: &Node, id: &str, batch: &Node) -> Option<Fault> {
    let (picked, inoculated) = (node.read("date", Date::read)?, batch.read("inoculated", Date::read)?);
    let shortest = shortest_run(pile, batch).unwrap_or(0.0);
    let days = f64::from((picked.0 - inoculated.0).get_days());
    (days < 0.0 || days < shortest * SOONEST).then(|| {
        let (inoculated, picked) = (inoculated.written(), picked.written());
        let wrong = format!("{id} was inoculated on {inoculated} and cannot have fruited by {picked}");
        unbelievable(wrong, "look at the day and at the batch", node.place_of("date"))
    })
}

/// The shortest spawn run that a source gives, in days: of the strain, or else of its mushroom or a group above it.
fn shortest_run(pile: &Pile, batch: &Node) -> Option<f64> {
    let strain = pile.node(Kind::Strain, batch.word("strain")?)?;
    let above = |node: &&Node| pile.node(Kind::Mushroom, node.word("mushroom").or_else(|| node.word("part_of"))?);
    let mut line = std::iter::successors(Some(strain), above).take(LONGEST_LINE);
    line.find_map(|node| {
        let shortest = |run: &Node| Some(Duration::read(run.items("range").first()?.text()?).ok()?.days());
        node.items("spawn_run").iter().filter_map(shortest).min_by(f64::total_cmp)
    })
}

/// Groups above a mushroom that are looked at; a longer line comes back to itself.
const LONGEST_LINE: usize = 100;

fn too_heavy(node: &Node, logs: u64) -> Option<Fault> {
    let mass = node.read("weight", Mass::read)?;
    (logs > 0 && mass.base() > A_LOG * logs as f64).then(|| {
        let wrong = format!("{} is not believable for one day and {logs} logs", mass.written());
        unbelievable(wrong, "look at the number and its unit", node.place_of("weight"))
    })
}
