//! A log lot, linked to its wood and its trees.

use std::sync::Arc;

use super::{Listed, Origin, Register, Tree, Wood, one, twins};
use crate::quantity::Days;
use crate::record;
use crate::record::tree::Tag;

/// A log lot, linked.
#[derive(Debug)]
pub struct Lot {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::lot::Lot,
    /// Its wood: its own, or that of its trees.
    pub wood: Arc<Wood>,
    /// The tagged trees from which it was cut.
    pub trees: Vec<Arc<Tree>>,
    /// How many logs it began with: its own number, or what its trees gave.
    pub logs: u32,
    /// The days on which it was felled: its own, or those of its trees.
    pub felled: Option<Days>,
}

impl Lot {
    /// The logs that left it otherwise than filled.
    pub fn gone(&self) -> u32 {
        self.record.gone.iter().map(|gone| gone.logs).sum()
    }

    /// Whether its logs were cut from the farm's own trees.
    pub fn is_cut_here(&self) -> bool {
        !self.trees.is_empty()
    }
}

/// Links lots.
pub(super) fn link(
    records: Vec<Listed<record::lot::Lot>>,
    woods: &Register<Wood>,
    trees: &[Arc<Tree>],
) -> Register<Lot> {
    twins(records, |Listed { id, origin, record }| {
        let trees = trees_of(&record.trees, trees);
        let own = record.wood.as_ref().and_then(|wood| one(wood, woods));
        let wood = own.or_else(|| trees.first().map(|tree| Arc::clone(&tree.wood)))?;
        let cut = || trees.iter().filter_map(|tree| tree.record.logs_cut).sum();
        let logs = record.logs.map_or_else(cut, |logs| logs.number);
        let felled = record.felled.or_else(|| days_of(&trees));
        Some(Lot { id, origin, record, wood, trees, logs, felled })
    })
}

/// The trees that tags name; trees stand in the order of their tags.
pub(super) fn trees_of(tags: &[Tag], trees: &[Arc<Tree>]) -> Vec<Arc<Tree>> {
    let tree = |tag| trees.binary_search_by(|tree| tree.tag().cmp(tag)).ok().map(|place| Arc::clone(&trees[place]));
    tags.iter().filter_map(tree).collect()
}

/// The first and the last day on which trees came down.
pub(super) fn days_of(trees: &[Arc<Tree>]) -> Option<Days> {
    let days = || trees.iter().filter_map(|tree| tree.record.felled);
    Some(Days { from: days().min()?, to: days().max()? })
}
