//! Where the samples of logs are worked.

use std::{collections::BTreeMap, sync::Arc};

use crate::{book::Batch, reckon::Findings};

/// The anchors of the weighings, in the order of the findings.
#[must_use]
pub fn weighings(findings: &Findings) -> Vec<String> {
    anchors("weighed", findings.readings().iter().map(|reading| &reading.batch))
}

/// The anchors of the slices, in the order of the findings.
#[must_use]
pub fn slices(findings: &Findings) -> Vec<String> {
    anchors("slice", findings.slices().iter().map(|reading| &reading.batch))
}

/// Anchors that count on within each batch.
fn anchors<'a>(of: &str, batches: impl Iterator<Item = &'a Arc<Batch>>) -> Vec<String> {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    batches
        .map(|batch| {
            let count = counts.entry(&batch.id).or_default();
            *count += 1;
            format!("{of}-{}.{count}", batch.id)
        })
        .collect()
}
