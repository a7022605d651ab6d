//! A harvest, linked to its batches.

use std::sync::Arc;

use super::batch::Names;
use super::{Batch, Listed, Origin, Register};
use crate::record;

/// A harvest, linked.
#[derive(Debug)]
pub struct Harvest {
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::harvest::Harvest,
    /// The batches that were picked together; one in most cases.
    pub batches: Vec<Arc<Batch>>,
}

/// Links harvests, in the order of their dates.
pub(super) fn link(records: Vec<Listed<record::harvest::Harvest>>, batches: &Register<Batch>) -> Vec<Arc<Harvest>> {
    let known = Names::of(batches);
    let link = |Listed { origin, record, .. }: Listed<record::harvest::Harvest>| {
        let names = record.batch.iter().chain(&record.batches);
        let batches = names.filter_map(|name| known.called(name, record.date)).collect();
        Arc::new(Harvest { origin, record, batches })
    };
    let mut harvests: Vec<Arc<Harvest>> = records.into_iter().map(link).collect();
    harvests.sort_by_key(|harvest| harvest.record.date);
    harvests
}
