//! A caution, linked to the woods and mushrooms with which its danger comes.

use std::sync::Arc;

use super::{Listed, Mushroom, Origin, Register, Wood, all, twins};
use crate::record;

/// A caution, linked.
#[derive(Debug)]
pub struct Caution {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::caution::Caution,
    /// The woods with which it comes; none means any wood.
    pub woods: Vec<Arc<Wood>>,
    /// The mushrooms with which it comes; none means any mushroom.
    pub mushrooms: Vec<Arc<Mushroom>>,
}

impl Caution {
    /// Whether the danger comes with a wood, by name or through its group.
    pub fn comes_with_wood(&self, wood: &Wood) -> bool {
        wood.is_among(&self.woods)
    }

    /// Whether the danger comes with a mushroom.
    pub fn comes_with_mushroom(&self, mushroom: &Mushroom) -> bool {
        mushroom.is_among(&self.mushrooms)
    }
}

/// Links cautions.
pub(super) fn link(
    records: Vec<Listed<record::caution::Caution>>,
    mushrooms: &Register<Mushroom>,
    woods: &Register<Wood>,
) -> Register<Caution> {
    twins(records, |Listed { id, origin, record }| {
        let (woods, mushrooms) = (all(&record.woods, woods), all(&record.mushrooms, mushrooms));
        Some(Caution { id, origin, record, woods, mushrooms })
    })
}
