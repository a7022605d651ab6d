//! A harvest that cannot be: of no batch, before its batch could fruit, far beyond the season, twice the same, or heavier than its
//! logs can give.

use std::collections::BTreeMap;

use super::{
    batch::{items, number},
    diary,
};
use crate::{
    book::lay::Pile,
    fault::Fault,
    quantity::{Date, Duration, Mass},
    read::Node,
    record::Kind,
};

/// A log gives at most so many kilograms in a day.
const A_LOG: f64 = 5.0;
/// A batch may fruit at the earliest after this part of the shortest spawn run that a source gives.
const SOONEST: f64 = 0.5;

/// Checks every harvest.
#[must_use]
pub fn check(pile: &Pile) -> Vec<Fault> {
    let harvests = || pile.iter().filter(|((kind, _), _)| *kind == Kind::Harvest).map(|(_, harvest)| &harvest.node);
    let mut faults: Vec<Fault> = harvests().flat_map(|node| one(pile, node)).collect();
    let mut seen = BTreeMap::new();
    let mut rows: Vec<&Node> = harvests().collect();
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

fn one(pile: &Pile, node: &Node) -> Vec<Fault> {
    let single = node.get("batch");
    let several = items(node, "batches");
    let place = |key: &str| node.get(key).map_or(&node.place, |node| &node.place).clone();
    match (single, several.is_empty()) {
        (None, true) => {
            let fault = Fault::new("missing-key", "which batch was picked is not said");
            return vec![fault.instead("write its id under `batch`, or several under `batches`").at(place("date"))];
        }
        (Some(single), false) => {
            let fault = Fault::new("key-twice", "a batch stands here, and several beside it");
            return vec![fault.instead("keep `batch` or `batches`, and empty the other").at(single.place.clone())];
        }
        _ => {}
    }
    let mut faults = Vec::new();
    let mut logs = 0;
    for id in single.into_iter().chain(several) {
        let batch = id.text().and_then(|id| pile.get(&(Kind::Batch, id.to_owned())));
        if let Some(batch) = batch {
            logs += number(batch.node.get("logs")).unwrap_or(0);
            faults.extend(too_soon(pile, node, id, &batch.node));
        }
    }
    faults.extend(too_heavy(node, logs));
    faults.extend(diary::too_late(pile, node, "date"));
    faults.extend(diary::number_for_note(node));
    faults
}

fn date(node: &Node, key: &str) -> Option<Date> {
    Date::read(node.get(key)?.text()?).ok()
}

fn too_soon(pile: &Pile, node: &Node, id: &Node, batch: &Node) -> Option<Fault> {
    let (picked, inoculated) = (date(node, "date")?, date(batch, "inoculated")?);
    let shortest = shortest_run(pile, batch).unwrap_or(0.0);
    let days = f64::from((picked.0 - inoculated.0).get_days());
    (days < 0.0 || days < shortest * SOONEST).then(|| {
        let wrong = format!(
            "{} was inoculated on {} and cannot have fruited by {}",
            id.text().unwrap_or("the batch"),
            inoculated.show(),
            picked.show()
        );
        let place = node.get("date").map_or(&node.place, |node| &node.place).clone();
        Fault::new("not-believable", wrong).instead("look at the day and at the batch").at(place)
    })
}

/// The shortest spawn run that a source gives, in days: of the strain, or else of its mushroom or a group above it.
fn shortest_run(pile: &Pile, batch: &Node) -> Option<f64> {
    let strain = &pile.get(&(Kind::Strain, batch.get("strain")?.text()?.to_owned()))?.node;
    let mut next = Some(strain);
    let mut key = "mushroom";
    for _ in 0..pile.len() {
        let node = next?;
        let runs = items(node, "spawn_run").iter().filter_map(|run| {
            let shortest = items(run, "range").first()?;
            Some(Duration::read(shortest.text()?).ok()?.days())
        });
        if let Some(shortest) = runs.min_by(f64::total_cmp) {
            return Some(shortest);
        }
        let above = node.get(key)?.text()?;
        next = pile.get(&(Kind::Mushroom, above.to_owned())).map(|laid| &laid.node);
        key = "part_of";
    }
    None
}

fn too_heavy(node: &Node, logs: u64) -> Option<Fault> {
    let weight = node.get("weight")?;
    let mass = Mass::read(weight.text()?).ok()?;
    (logs > 0 && mass.base() > A_LOG * logs as f64).then(|| {
        let wrong = format!("{} is not believable for one day and {logs} logs", mass.written());
        Fault::new("not-believable", wrong).instead("look at the number and its unit").at(weight.place.clone())
    })
}
