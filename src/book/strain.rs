//! A strain, linked to its mushroom.

use std::sync::Arc;

use super::{Listed, Mushroom, Origin, Register};
use crate::record;

/// A strain, linked.
#[derive(Debug)]
pub struct Strain {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::strain::Strain,
    /// The mushroom it belongs to.
    pub mushroom: Arc<Mushroom>,
}

/// Links strains.
#[must_use]
pub fn link(records: Vec<Listed<record::strain::Strain>>, mushrooms: &Register<Mushroom>) -> Register<Strain> {
    records
        .into_iter()
        .filter_map(|Listed { id, origin, record }| {
            let mushroom = Arc::clone(mushrooms.get(record.mushroom.as_str())?);
            Some((id.clone(), Arc::new(Strain { id, origin, record, mushroom })))
        })
        .collect()
}
