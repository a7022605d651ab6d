//! A log lot, linked to its wood.

use std::sync::Arc;

use super::{Listed, Origin, Register, Wood, one, twins};
use crate::record;

/// A log lot, linked.
#[derive(Debug)]
pub struct Lot {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::lot::Lot,
    /// Its wood.
    pub wood: Arc<Wood>,
}

/// Links lots.
pub(super) fn link(records: Vec<Listed<record::lot::Lot>>, woods: &Register<Wood>) -> Register<Lot> {
    twins(records, |Listed { id, origin, record }| {
        let wood = one(&record.wood, woods)?;
        Some(Lot { id, origin, record, wood })
    })
}
