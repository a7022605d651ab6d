//! A caution with its word and band, and the cautions of a piece of work: those above it, and those after it.

use std::sync::Arc;

use serde::Serialize;

use super::cite::Cite;
use super::rule::Rule;
use super::{Anchor, rule};
use crate::book::{Caution as Found, Mushroom, Wood};
use crate::page::{Context, Page};
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

/// What a page tells of, by which a caution that comes with a wood or a mushroom in particular stands on it.
#[derive(Debug, Default)]
pub struct Subject<'a> {
    /// The woods at hand.
    pub woods: Vec<&'a Wood>,
    /// The mushrooms at hand.
    pub mushrooms: Vec<&'a Mushroom>,
}

impl Subject<'_> {
    /// Whether a caution holds for what the page tells of, with the tools that the farm uses.
    fn meets(&self, found: &Found, context: &Context<'_>) -> bool {
        let tools = &context.book.farm.record.work.tools;
        found.record.with.is_none_or(|tool| tools.contains(&tool))
            && (found.woods.is_empty() || self.woods.iter().any(|wood| found.speaks_of_wood(wood)))
            && (found.mushrooms.is_empty() || self.mushrooms.iter().any(|mushroom| found.speaks_of_mushroom(mushroom)))
    }
}

/// How many cautions stand above a piece of work at most.
pub const LEADING: usize = 3;

/// The cautions and rules of a piece of work.
#[derive(Debug, Default, Serialize)]
pub struct Cautions {
    /// Those above the work, the first one first; three at most.
    pub leads: Vec<Caution>,
    /// The others of the task, a line each, the gravest first.
    pub others: Vec<Caution>,
    /// The rules that are decided at the task.
    pub rules: Vec<Rule>,
    /// What stands where the handbook knows no rule of the place.
    pub unknown: Option<&'static str>,
    /// Whom to ask, once.
    pub ask: Option<String>,
    /// Where it stands whom they protect, whom to ask and who says so.
    pub safety: Option<Anchor>,
}

impl Cautions {
    /// The cautions of a task for what a page tells of.
    pub fn of(task: Task, subject: &Subject<'_>, context: &Context<'_>) -> Self {
        let holds = |found: &&Arc<Found>| found.record.tasks.contains(&task) && subject.meets(found, context);
        let mut found: Vec<&Arc<Found>> = context.book.cautions.values().filter(holds).collect();
        found.sort_by_key(|found| (found.record.severity, &found.id));
        let leads = leading(task, &found);
        let others = found.iter().filter(|found| !leads.iter().any(|lead| lead.id == found.id));
        let rules = rule::of_task(task, &subject.woods, context);
        Self {
            others: others.map(|found| Caution::of(found, context)).collect(),
            leads: leads.into_iter().map(|found| Caution::of(found, context)).collect(),
            unknown: rule::subject_of(task).and_then(|subject| rule::unknown(subject, context)),
            ask: rule::ask(&rules),
            rules,
            safety: Some(Anchor::to(context.route.at(&Page::Safety, task.id()), task.words(), context)),
        }
    }
}

/// The cautions that lead a task, in their turn; one that comes with a tool in use stands in for that of the same turn.
fn leading<'a>(task: Task, found: &[&'a Arc<Found>]) -> Vec<&'a Arc<Found>> {
    let turn = |found: &Found| found.record.turn.unwrap_or(u8::MAX);
    let mut leads: Vec<&Arc<Found>> =
        found.iter().copied().filter(|found| found.record.leads.contains(&task)).collect();
    let with_tool: Vec<u8> =
        leads.iter().filter(|found| found.record.with.is_some()).map(|found| turn(found)).collect();
    leads.retain(|found| found.record.with.is_some() || !with_tool.contains(&turn(found)));
    leads.sort_by_key(|found| turn(found));
    leads.truncate(LEADING);
    leads
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
