//! Safety by task.

use std::collections::BTreeSet;

use serde::Serialize;

use super::part::caution::Caution;
use super::part::help::{Help, Rescue};
use super::part::rule::BySubject;
use super::part::{Anchor, caution, help, rule};
use super::{Context, Page};
use crate::record::caution::{Severity, Task};

/// Cautions by task.
#[derive(Debug, Serialize)]
pub struct View {
    tasks: Vec<ByTask>,
    words: Vec<(&'static str, &'static str)>,
    count: usize,
    poison: Help,
    rescue: Rescue,
    place: Option<String>,
    unknown: Vec<String>,
    subjects: Vec<BySubject>,
    elsewhere: Anchor,
}

/// The cautions of one task, the gravest first: those that stand here for the first time on the page, and the others.
#[derive(Debug, Serialize)]
struct ByTask {
    id: &'static str,
    title: &'static str,
    new: Vec<Caution>,
    before: Vec<Caution>,
}

/// The view of safety.
pub fn view(context: &Context<'_>) -> View {
    let mut seen = BTreeSet::new();
    let tasks = Task::ALL.into_iter().map(|task| {
        let all = caution::all_of(task, context).into_iter();
        let (new, before) = all.partition(|caution| seen.insert(caution.id.clone()));
        ByTask { id: task.id(), title: task.words(), new, before }
    });
    View {
        poison: Help::poison(context),
        rescue: help::rescue(context),
        place: context.book.here.name(),
        unknown: rule::unknowns(context),
        subjects: rule::by_subject(&context.book.rules, context),
        elsewhere: Anchor::page(&Page::Elsewhere, context),
        tasks: tasks.collect(),
        count: context.book.cautions.len(),
        words: vec![
            (Severity::Grave.words(), "can kill or maim, or do harm that cannot be undone"),
            (Severity::Harm.words(), "needs a doctor or a vet, or does lasting damage"),
            (Severity::Watch.words(), "minor; handled on the spot"),
        ],
    }
}
