//! A line of the day book, linked to its batches.

use std::sync::Arc;

use super::batch::Names;
use super::{Batch, Listed, Origin, Register};
use crate::record;

/// A line of the day book, linked.
#[derive(Debug)]
pub struct Diary {
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::diary::Diary,
    /// The batches that it is about, each for itself; none where it is about the yard.
    pub batches: Vec<Arc<Batch>>,
}

/// Links the lines of the day book, in the order of their dates.
pub(super) fn link(records: Vec<Listed<record::diary::Diary>>, batches: &Register<Batch>) -> Vec<Arc<Diary>> {
    let known = Names::of(batches);
    let link = |Listed { origin, record, .. }: Listed<record::diary::Diary>| {
        let names = record.batch.iter().chain(&record.batches);
        let batches = names.filter_map(|name| known.called(name, record.date)).collect();
        Arc::new(Diary { origin, record, batches })
    };
    let mut lines: Vec<Arc<Diary>> = records.into_iter().map(link).collect();
    lines.sort_by_key(|line| line.record.date);
    lines
}
