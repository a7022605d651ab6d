//! Records that are bound to woods and mushrooms: season windows, and cautions, whose danger comes with them.

use std::sync::Arc;

use super::{Listed, Mushroom, Origin, Register, Wood, all, twins};
use crate::record;
use crate::record::Id;

/// A record that speaks of some woods and mushrooms, linked.
#[derive(Debug)]
pub struct Bound<T> {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: T,
    /// The woods it speaks of; none means every wood.
    pub woods: Vec<Arc<Wood>>,
    /// The mushrooms it speaks of; none means every mushroom.
    pub mushrooms: Vec<Arc<Mushroom>>,
}

/// A caution, linked.
pub type Caution = Bound<record::caution::Caution>;

/// A season window, linked.
pub type Window = Bound<record::window::Window>;

impl<T> Bound<T> {
    /// Whether it speaks of a wood, by name or through its group.
    pub fn speaks_of_wood(&self, wood: &Wood) -> bool {
        wood.is_among(&self.woods)
    }

    /// Whether it speaks of a mushroom.
    pub fn speaks_of_mushroom(&self, mushroom: &Mushroom) -> bool {
        mushroom.is_among(&self.mushrooms)
    }
}

/// The woods and the mushrooms that a record names.
type Named<'a> = (&'a [Id<record::wood::Wood>], &'a [Id<record::mushroom::Mushroom>]);

/// Links records to what they name.
pub(super) fn link<T>(
    records: Vec<Listed<T>>,
    named: impl Fn(&T) -> Named<'_>,
    mushrooms: &Register<Mushroom>,
    woods: &Register<Wood>,
) -> Register<Bound<T>> {
    twins(records, |Listed { id, origin, record }| {
        let (of, with) = named(&record);
        let (woods, mushrooms) = (all(of, woods), all(with, mushrooms));
        Some(Bound { id, origin, record, woods, mushrooms })
    })
}
