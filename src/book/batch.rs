//! A batch, linked to its strain, its wood and its lot.

use std::sync::Arc;

use super::{Listed, Lot, Origin, Register, Strain, Wood, one, twins};
use crate::record;

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
pub(super) fn link(
    records: Vec<Listed<record::batch::Batch>>,
    strains: &Register<Strain>,
    woods: &Register<Wood>,
    lots: &Register<Lot>,
) -> Register<Batch> {
    twins(records, |Listed { id, origin, record }| {
        let strain = one(&record.strain, strains)?;
        let lot = record.lot.as_ref().and_then(|lot| one(lot, lots));
        let own = record.wood.as_ref().and_then(|wood| one(wood, woods));
        let wood = own.or_else(|| lot.as_ref().map(|lot| Arc::clone(&lot.wood)));
        Some(Batch { id, origin, record, strain, wood, lot })
    })
}
