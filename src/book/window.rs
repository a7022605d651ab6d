//! A season window, linked to its woods and mushrooms.

use std::sync::Arc;

use super::{Listed, Mushroom, Origin, Register, Wood, all, twins};
use crate::record;

/// A season window, linked.
#[derive(Debug)]
pub struct Window {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::window::Window,
    /// The woods it speaks of; none means every wood.
    pub woods: Vec<Arc<Wood>>,
    /// The mushrooms it speaks of; none means every mushroom.
    pub mushrooms: Vec<Arc<Mushroom>>,
}

impl Window {
    /// Whether the window speaks of a wood, by name or through its group.
    pub fn speaks_of_wood(&self, wood: &Wood) -> bool {
        wood.is_among(&self.woods)
    }

    /// Whether the window speaks of a mushroom.
    pub fn speaks_of_mushroom(&self, mushroom: &Mushroom) -> bool {
        mushroom.is_among(&self.mushrooms)
    }
}

/// Links season windows.
pub(super) fn link(
    records: Vec<Listed<record::window::Window>>,
    mushrooms: &Register<Mushroom>,
    woods: &Register<Wood>,
) -> Register<Window> {
    twins(records, |Listed { id, origin, record }| {
        let (woods, mushrooms) = (all(&record.woods, woods), all(&record.mushrooms, mushrooms));
        Some(Window { id, origin, record, woods, mushrooms })
    })
}
