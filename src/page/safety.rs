//! Safety by task.

use serde::Serialize;

use super::{
    Context,
    part::caution::{self, Caution},
};
use crate::record::caution::{Severity, Task};

/// Cautions by task, and all of them by id.
#[derive(Debug, Serialize)]
pub struct View {
    tasks: Vec<ByTask>,
    all: Vec<Caution>,
    words: Vec<(&'static str, &'static str)>,
    count: usize,
}

/// The cautions of one task, by id, the gravest first.
#[derive(Debug, Serialize)]
struct ByTask {
    id: &'static str,
    title: &'static str,
    cautions: Vec<Caution>,
}

/// The view of safety.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let all = caution::for_tasks(&Task::ALL, context);
    View {
        tasks: Task::ALL
            .into_iter()
            .map(|task| ByTask { id: task.id(), title: task.words(), cautions: caution::for_tasks(&[task], context) })
            .collect(),
        count: all.len(),
        all,
        words: vec![
            (Severity::Grave.words(), "can kill or maim, or do harm that cannot be undone"),
            (Severity::Harm.words(), "needs a doctor or a vet, or does lasting damage"),
            (Severity::Watch.words(), "minor; handled on the spot"),
        ],
    }
}
