//! A caution with its word and band.

use serde::Serialize;

use super::cite::Cite;
use crate::{
    book::Listed,
    page::{Context, figure::saw},
    record::caution::{Caution as Record, Severity, Task},
};

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
    /// Whether the reader must turn to local code or a trained person.
    pub defer: bool,
    /// Who says so.
    pub cites: Vec<Cite>,
    /// The band.
    pub svg: String,
}

impl Caution {
    /// A caution seen from a page.
    #[must_use]
    pub fn of(caution: &Listed<Record>, context: &Context<'_>) -> Self {
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
            defer: record.defer,
            cites: record.sources.iter().map(|source| Cite::of(source, record.mark, context)).collect(),
            svg: saw::svg(record.severity),
        }
    }
}

/// The cautions of some tasks, the gravest first; each once.
#[must_use]
pub fn for_tasks(tasks: &[Task], context: &Context<'_>) -> Vec<Caution> {
    let mut cautions: Vec<_> = context
        .book
        .cautions
        .values()
        .filter(|caution| caution.record.tasks.iter().any(|task| tasks.contains(task)))
        .collect();
    cautions.sort_by_key(|caution| (caution.record.severity, caution.id.clone()));
    cautions.into_iter().map(|caution| Caution::of(caution, context)).collect()
}
