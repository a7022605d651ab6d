//! Records that are bound to woods, mushrooms and places: season windows, cautions and rules.

use std::sync::Arc;

use super::here::Here;
use super::{Listed, Mushroom, Origin, Register, Wood, Writer, all, twins};
use crate::record;
use crate::record::Id;
use crate::record::holds::Holding;

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

/// A rule, linked.
pub type Rule = Bound<record::rule::Rule>;

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

/// Parts records into those that hold at the farm and those that hold elsewhere; what the farm names or has written itself
/// holds at the farm.
pub(super) fn part<T: Holding>(
    records: Register<Bound<T>>,
    here: &Here,
    named: impl Fn(&str) -> bool,
) -> (Register<Bound<T>>, Register<Bound<T>>) {
    let holds = |record: &Bound<T>| {
        here.holds(record.record.holds()) || record.origin.writer == Writer::Farm || named(&record.id)
    };
    records.into_iter().partition(|(_, record)| holds(record))
}
