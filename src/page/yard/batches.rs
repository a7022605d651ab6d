//! The living batches, and all batches of a year.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::page::leaf::{Leaf, ROWS};
use crate::page::part::batch::{Leaves, Row};
use crate::page::part::{Anchor, and};
use crate::page::{Context, Page};
use crate::quantity::count;
use crate::reckon::Topic;
use crate::reckon::findings::BatchFinding;
use crate::reckon::findings::batches::Stage;
use crate::record::caution::Task;
use crate::record::evidence::Way;

/// The living batches: one by one, or by their years where they are too many for a page.
#[derive(Debug, Serialize)]
pub struct View {
    living: Vec<Row>,
    says: String,
    years: Vec<(Anchor, String)>,
    safety: String,
    troubles: String,
    moisture: String,
    rota: String,
    harvests: String,
    retiring: String,
    ledger: String,
    working: String,
}

/// Batches of one year.
#[derive(Debug, Serialize)]
pub struct OfYear {
    says: String,
    rows: Vec<Row>,
    leaves: Leaves,
    batches: String,
}

/// Whether anything of it is left to be tended.
fn lives(found: &BatchFinding) -> bool {
    found.stage != Stage::Gone && found.batch.record.ended.is_none()
}

/// Batches in the order in which a grower counts them: by the day of inoculation, the number and the id.
fn in_order(mut batches: Vec<&BatchFinding>) -> Vec<&BatchFinding> {
    batches.sort_by_key(|found| (found.batch.record.inoculated, found.batch.record.number, &found.batch.id));
    batches
}

/// The view of the living batches, the youngest first.
pub fn view(context: &Context<'_>) -> View {
    let route = &context.route;
    let all = context.findings.batches();
    let living = in_order(all.iter().filter(|found| lives(found)).collect());
    let rows = living.iter().rev().filter(|_| living.len() <= ROWS).map(|found| Row::of(found, context));
    let mut years: BTreeMap<i16, Vec<&BatchFinding>> = BTreeMap::new();
    for found in all {
        years.entry(found.batch.year).or_default().push(found);
    }
    let year = |(year, batches): (i16, Vec<&BatchFinding>)| {
        (Anchor::to(route.to(&Page::BatchesOf(Leaf::first(year))), year.to_string(), context), sum(&batches))
    };
    View {
        living: rows.collect(),
        says: sum(&all.iter().collect::<Vec<_>>()),
        years: years.into_iter().rev().map(year).collect(),
        safety: route.at(&Page::Safety, Task::Harvest.id()),
        troubles: route.to(&Page::Troubles),
        moisture: route.to(&Page::Moisture),
        rota: route.to(&Page::SoakRota),
        harvests: route.to(&Page::Harvests),
        retiring: route.to(&Page::Retiring),
        ledger: route.to(&Page::Ledger),
        working: route.to(&Page::Working(Topic::Yard)),
    }
}

/// How many of some batches live, with how many logs, and how many have ended.
fn sum(batches: &[&BatchFinding]) -> String {
    let living: Vec<_> = batches.iter().filter(|found| lives(found)).collect();
    let pieces = [Way::Log, Way::Totem, Way::Stump].map(Way::pieces).into_iter().filter_map(|[one, many]| {
        let of = living.iter().filter(|found| found.batch.record.way.pieces()[0] == one);
        let left: u32 = of.map(|found| found.left()).sum();
        (left > 0).then(|| count(left, one, many))
    });
    let with: Vec<String> = pieces.collect();
    let with = if with.is_empty() { String::new() } else { format!(" with {}", and(&with)) };
    let ended = batches.len() - living.len();
    let said = [
        (!living.is_empty()).then(|| format!("{}{with}", count(living.len(), "living batch", "living batches"))),
        (ended > 0).then(|| format!("{ended} ended")),
    ];
    said.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// The view of a leaf of the batches of a year, the living first.
pub fn of_year(leaf: Leaf, context: &Context<'_>) -> OfYear {
    let all = context.findings.batches().iter().filter(|found| found.batch.year == leaf.year);
    let mut batches = in_order(all.collect());
    batches.sort_by_key(|found| !lives(found));
    OfYear {
        says: sum(&batches),
        rows: leaf.rows(&batches).iter().map(|found| Row::of(found, context)).collect(),
        leaves: Leaves::of(leaf, batches.len(), Page::BatchesOf, context),
        batches: context.route.to(&Page::Batches),
    }
}
