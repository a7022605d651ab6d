//! A caution with its word and band.

use std::sync::Arc;

use serde::Serialize;

use super::cite::Cite;
use crate::book::{Caution as Found, Mushroom, Wood};
use crate::page::Context;
use crate::record::caution::{Caution as Record, Severity, Task};

/// A caution as pages show it.
#[derive(Debug, Clone, Serialize)]
pub struct Caution {
    /// Its id.
    pub id: String,
    /// The style of the band: `stop`, `care` or `mind`.
    pub class: &'static str,
    /// The word: Stop, Take care, Bear in mind.
    pub word: &'static str,
    /// What can happen.
    pub hazard: String,
    /// The caution.
    pub says: String,
    /// Whom it protects.
    pub protects: String,
    /// Whom the reader must turn to.
    pub defer: Option<&'static str>,
    /// Who says so.
    pub cites: Vec<Cite>,
}

impl Caution {
    /// A caution seen from a page.
    pub fn of(caution: &Found, context: &Context<'_>) -> Self {
        let record = &caution.record;
        Self {
            id: caution.id.clone(),
            class: match record.severity {
                Severity::Grave => "stop",
                Severity::Harm => "care",
                Severity::Watch => "mind",
            },
            word: record.severity.words(),
            hazard: record.hazard.clone(),
            says: record.says.clone(),
            protects: record.protects.join(", "),
            defer: whom(record),
            cites: Cite::all(&record.sources, record.mark, context),
        }
    }
}

/// Whom a reader turns to: someone trained in mushrooms at the table, local code or a trained person elsewhere.
fn whom(record: &Record) -> Option<&'static str> {
    let at_table = record.tasks.iter().all(|task| matches!(task, Task::Harvest | Task::Eating));
    match (record.defer, at_table) {
        (false, _) => None,
        (true, true) => Some("Ask someone trained in it."),
        (true, false) => Some("Ask local code or a trained person."),
    }
}

/// The cautions of some tasks that hold for a page, the gravest first; each once.
pub fn for_tasks(tasks: &[Task], holds: impl Fn(&Found) -> bool, context: &Context<'_>) -> Vec<Caution> {
    let of_task = |found: &&Arc<Found>| found.record.tasks.iter().any(|task| tasks.contains(task));
    let mut found: Vec<_> = context.book.cautions.values().filter(of_task).filter(|found| holds(found)).collect();
    found.sort_by_key(|found| (found.record.severity, found.id.clone()));
    found.into_iter().map(|found| Caution::of(found, context)).collect()
}

/// The cautions of some tasks that hold for trees of some woods, those that come with a wood among them.
pub fn for_woods<'a>(
    tasks: &[Task],
    woods: impl Iterator<Item = &'a Arc<Wood>>,
    context: &Context<'_>,
) -> Vec<Caution> {
    let mut woods: Vec<&Arc<Wood>> = woods.collect();
    woods.sort_by(|a, b| a.id.cmp(&b.id));
    woods.dedup_by(|a, b| a.id == b.id);
    let holds = |found: &Found| {
        found.mushrooms.is_empty() && (found.woods.is_empty() || woods.iter().any(|wood| found.speaks_of_wood(wood)))
    };
    for_tasks(tasks, holds, context)
}

/// The woods of the trees that come down this winter.
pub fn felled_woods<'a>(context: &Context<'a>) -> impl Iterator<Item = &'a Arc<Wood>> {
    context.findings.felled().map(|tree| &tree.tree.wood)
}

/// The grave cautions that come with one mushroom in particular.
pub fn of_mushroom(mushroom: &Mushroom, context: &Context<'_>) -> Vec<Caution> {
    let particular = |found: &Found| !found.mushrooms.is_empty() && found.speaks_of_mushroom(mushroom);
    for_tasks(&Task::ALL, |found| particular(found) && found.record.severity == Severity::Grave, context)
}

/// Whether a caution comes with no wood in particular and no mushroom in particular.
pub fn is_general(found: &Found) -> bool {
    found.woods.is_empty() && found.mushrooms.is_empty()
}

/// Whether a caution is grave and comes with no wood in particular and no mushroom in particular.
pub fn is_grave(found: &Found) -> bool {
    is_general(found) && found.record.severity == Severity::Grave
}
