//! A batch, linked to its strain, its wood and its lot.

use std::sync::Arc;

use super::{Listed, Lot, Origin, Register, Strain, Wood};
use crate::record::{self, Id};

/// A batch, linked.
#[derive(Debug)]
pub struct Batch {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::batch::Batch,
    /// Its strain.
    pub strain: Arc<Strain>,
    /// Its wood: its own, or that of its lot.
    pub wood: Option<Arc<Wood>>,
    /// The lot that its logs come from.
    pub lot: Option<Arc<Lot>>,
}

/// Links batches.
#[must_use]
pub fn link(
    records: Vec<Listed<record::batch::Batch>>,
    strains: &Register<Strain>,
    woods: &Register<Wood>,
    lots: &Register<Lot>,
) -> Register<Batch> {
    records
        .into_iter()
        .filter_map(|Listed { id, origin, record }| {
            let strain = Arc::clone(strains.get(record.strain.as_str())?);
            let lot = record.lot.as_ref().and_then(|lot| lots.get(lot.as_str())).cloned();
            let own = record.wood.as_ref().map(Id::as_str).and_then(|wood| woods.get(wood)).cloned();
            let wood = own.or_else(|| lot.as_ref().map(|lot| Arc::clone(&lot.wood)));
            Some((id.clone(), Arc::new(Batch { id, origin, record, strain, wood, lot })))
        })
        .collect()
}
