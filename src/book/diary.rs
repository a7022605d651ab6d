//! A line of the day book, linked to its batch.

use std::sync::Arc;

use super::{Batch, Listed, Origin, Register, one};
use crate::record;

/// A line of the day book, linked.
#[derive(Debug)]
pub struct Diary {
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::diary::Diary,
    /// The batch that it is about.
    pub batch: Option<Arc<Batch>>,
}

/// Links the lines of the day book, in the order of their dates.
pub(super) fn link(records: Vec<Listed<record::diary::Diary>>, batches: &Register<Batch>) -> Vec<Arc<Diary>> {
    let link = |Listed { origin, record, .. }: Listed<record::diary::Diary>| {
        let batch = record.batch.as_ref().and_then(|batch| one(batch, batches));
        Arc::new(Diary { origin, record, batch })
    };
    let mut lines: Vec<Arc<Diary>> = records.into_iter().map(link).collect();
    lines.sort_by_key(|line| line.record.date);
    lines
}
