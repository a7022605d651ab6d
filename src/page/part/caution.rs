//! A caution with its word and band, and the cautions of a piece of work: those above it, and those after it.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use serde::Serialize;

use super::cite::Cite;
use super::rule::Rule;
use super::{Anchor, rule};
pub use crate::book::Subject;
use crate::book::{Caution as Found, Mushroom, Wood};
use crate::page::{Context, Page};
use crate::reckon::Findings;
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

/// Whom a reader turns to, by the trade that knows the task.
fn whom(record: &Record) -> Option<&'static str> {
    let all = |of: fn(&Task) -> bool| record.tasks.iter().all(of);
    let at_table = all(|task| matches!(task, Task::Harvest | Task::Eating));
    let in_woods = all(|task| matches!(task, Task::Survey | Task::Felling | Task::Hauling | Task::Bucking));
    match (record.defer, at_table, in_woods) {
        (false, ..) => None,
        (true, true, _) => Some("Ask a mycologist."),
        (true, _, true) => Some("Ask local code and a trained feller."),
        (true, ..) => Some("Ask local code or a trained person."),
    }
}

/// The mushrooms that the farm grows, and whether some of its logs lie indoors.
pub fn grown<'a>(context: &Context<'a>) -> Subject<'a> {
    grown_by(context.findings)
}

/// The same by the findings alone.
pub fn grown_by(findings: &Findings) -> Subject<'_> {
    let mushrooms = findings.mushrooms().iter().map(AsRef::as_ref).collect();
    let indoors = findings.batches().iter().any(|found| found.left() > 0 && found.is_indoors());
    Subject { mushrooms, indoors, ..Subject::default() }
}

/// The cautions and rules of a piece of work.
#[derive(Debug, Default, Serialize)]
pub struct Cautions {
    /// The task, as anchors write it.
    pub task: &'static str,
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
        let found = context.book.cautions_at(task, subject);
        let all = |found: &[&Arc<Found>]| found.iter().map(|found| Caution::of(found, context)).collect();
        let rules = rule::of_task(task, subject, context);
        Self {
            task: task.id(),
            leads: all(&found.leads),
            others: all(&found.others),
            unknown: rule::subject_of(task).and_then(|subject| rule::unknown(subject, context)),
            ask: rule::ask(&rules),
            rules,
            safety: Some(Anchor::to(context.route.at(&Page::Safety, task.id()), task.words(), context)),
        }
    }

    /// The cautions alone, for a page on which nothing is decided.
    pub fn without_rules(self) -> Self {
        Self { rules: Vec::new(), unknown: None, ask: None, ..self }
    }

    /// Takes a caution out of those after the work, to stand at a place of its own.
    pub fn take(&mut self, id: &str) -> Option<Caution> {
        let place = self.others.iter().position(|caution| caution.id == id)?;
        Some(self.others.remove(place))
    }
}

/// The cautions of several tasks on one page, each caution and each rule once: where it leads, or else at its first task.
#[derive(Debug, Default)]
pub struct Along {
    of: BTreeMap<Task, Cautions>,
}

impl Along {
    /// The cautions of tasks in the order in which the page has them.
    pub fn new(tasks: impl IntoIterator<Item = Task>, subject: &Subject<'_>, context: &Context<'_>) -> Self {
        let mut met = BTreeSet::new();
        let tasks = tasks.into_iter().filter(|task| met.insert(*task));
        let mut all: Vec<(Task, Cautions)> = tasks.map(|task| (task, Cautions::of(task, subject, context))).collect();
        let (mut shown, mut ruled, mut unknown) = (BTreeSet::new(), BTreeSet::new(), BTreeSet::new());
        for (_, cautions) in &mut all {
            cautions.leads.retain(|caution| shown.insert(caution.id.clone()));
        }
        for (_, cautions) in &mut all {
            cautions.others.retain(|caution| shown.insert(caution.id.clone()));
            cautions.rules.retain(|rule| ruled.insert(rule.id.clone()));
            cautions.unknown = cautions.unknown.filter(|words| unknown.insert(*words));
            cautions.ask = None;
        }
        let rules = all.iter().flat_map(|(_, cautions)| &cautions.rules);
        let ask = rule::ask(rules);
        if let Some((_, last)) = all.iter_mut().rev().find(|(_, cautions)| !cautions.rules.is_empty()) {
            last.ask = ask;
        }
        Self { of: all.into_iter().collect() }
    }

    /// The cautions of a task, the first time that they are asked for; none after that.
    pub fn take(&mut self, task: Task) -> Cautions {
        self.of.remove(&task).unwrap_or_default()
    }
}

/// All cautions of a task, with whatever wood, mushroom or tool they come, the gravest first.
pub fn all_of(task: Task, context: &Context<'_>) -> Vec<Caution> {
    some(|found| found.record.tasks.contains(&task), context)
}

/// The cautions of which something is true, the gravest first.
pub fn some(is: impl Fn(&Found) -> bool, context: &Context<'_>) -> Vec<Caution> {
    let mut found: Vec<_> = context.book.cautions.values().filter(|found| is(found)).collect();
    found.sort_by_key(|found| (found.record.severity, &found.id));
    found.into_iter().map(|found| Caution::of(found, context)).collect()
}

/// What hurts whoever takes a leaf or a twig in the hand to see what a tree is.
pub const BY_HAND: [&str; 1] = ["poison-ivy"];

/// The cautions of some ids, in their order, that hold here.
pub fn named(ids: &[&str], context: &Context<'_>) -> Vec<Caution> {
    ids.iter().filter_map(|id| Some(Caution::of(context.book.cautions.get(*id)?, context))).collect()
}

/// The cautions that come with a wood in particular.
pub fn of_wood(wood: &Wood, context: &Context<'_>) -> Vec<Caution> {
    some(|found| !found.woods.is_empty() && found.speaks_of_wood(wood), context)
}

/// The cautions that come with a mushroom in particular.
pub fn of_mushroom(mushroom: &Mushroom, context: &Context<'_>) -> Vec<Caution> {
    some(|found| !found.mushrooms.is_empty() && found.speaks_of_mushroom(mushroom), context)
}

/// The woods of the trees that come down this winter.
pub fn felled_woods<'a>(context: &Context<'a>) -> impl Iterator<Item = &'a Arc<Wood>> {
    context.findings.felled().map(|tree| &tree.tree.wood)
}
