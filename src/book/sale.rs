//! A sale, linked to its batch and its strain.

use std::sync::Arc;

use super::batch::Names;
use super::{Batch, Listed, Origin, Register, Strain, one};
use crate::record;

/// A sale, linked.
#[derive(Debug)]
pub struct Sale {
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::sale::Sale,
    /// The batch that was sold of, where it is told.
    pub batch: Option<Arc<Batch>>,
    /// Its strain: that of its batch, or its own.
    pub strain: Arc<Strain>,
}

/// Links sales, in the order of their dates.
pub(super) fn link(
    records: Vec<Listed<record::sale::Sale>>,
    batches: &Register<Batch>,
    strains: &Register<Strain>,
) -> Vec<Arc<Sale>> {
    let known = Names::of(batches);
    let link = |Listed { origin, record, .. }: Listed<record::sale::Sale>| {
        let batch = record.batch.as_ref().and_then(|name| known.called(name, record.date));
        let of_batch = batch.as_ref().map(|batch| Arc::clone(&batch.strain));
        let strain = of_batch.or_else(|| one(record.strain.as_ref()?, strains))?;
        Some(Arc::new(Sale { origin, record, batch, strain }))
    };
    let mut sales: Vec<Arc<Sale>> = records.into_iter().filter_map(link).collect();
    sales.sort_by_key(|sale| sale.record.date);
    sales
}
