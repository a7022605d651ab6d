//! A trouble, linked to the mushrooms that it concerns.

use std::sync::Arc;

use super::{Listed, Mushroom, Origin, Register, all, twins};
use crate::record;

/// A trouble, linked.
#[derive(Debug)]
pub struct Trouble {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::trouble::Trouble,
    /// The mushrooms that it concerns; none means every mushroom.
    pub mushrooms: Vec<Arc<Mushroom>>,
}

/// Links troubles.
pub(super) fn link(
    records: Vec<Listed<record::trouble::Trouble>>,
    mushrooms: &Register<Mushroom>,
) -> Register<Trouble> {
    twins(records, |Listed { id, origin, record }| {
        let mushrooms = all(&record.mushrooms, mushrooms);
        Some(Trouble { id, origin, record, mushrooms })
    })
}
