//! A batch, linked to its strain, its wood and its lots.

use std::sync::Arc;

use super::{Listed, Lot, Origin, Register, Strain, Tree, Wood, one, twins};
use crate::quantity::{Days, Length, Range};
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
    /// Its wood: its own, that of its lots, or that of its trees.
    pub wood: Option<Arc<Wood>>,
    /// The lots that its logs come from, with how many of each.
    pub lots: Vec<(Arc<Lot>, u32)>,
    /// How many logs, totems or stumps it began with: its own number, or those of its lots.
    pub logs: u32,
}

impl Batch {
    /// The days on which its trees were felled: its own, or those of its first lot.
    pub fn felled(&self) -> Option<Days> {
        let own = self.record.felled.map(|day| Days { from: day, to: day });
        own.or_else(|| self.lots.first()?.0.felled)
    }

    /// Thinnest and thickest middle diameter, where they are recorded: its own, or those of its first lot.
    pub fn diameter(&self) -> Option<&Range<Length>> {
        self.record.diameter.as_ref().or_else(|| self.lots.first()?.0.record.diameter.as_ref())
    }

    /// The length of its logs, where it is recorded: its own, or that of its first lot.
    pub fn length(&self) -> Option<&Length> {
        self.record.length.as_ref().or_else(|| self.lots.first()?.0.record.length.as_ref())
    }
}

/// Links batches.
pub(super) fn link(
    records: Vec<Listed<record::batch::Batch>>,
    strains: &Register<Strain>,
    woods: &Register<Wood>,
    lots: &Register<Lot>,
    trees: &[Arc<Tree>],
) -> Register<Batch> {
    twins(records, |Listed { id, origin, record }| {
        let strain = one(&record.strain, strains)?;
        let several = record.lots.iter().filter_map(|take| Some((one(&take.lot, lots)?, take.logs)));
        let single = record.lot.as_ref().and_then(|lot| one(lot, lots));
        let single = single.map(|lot| {
            let logs = record.logs.unwrap_or(lot.logs);
            (lot, logs)
        });
        let lots: Vec<(Arc<Lot>, u32)> = several.chain(single).collect();
        let own = record.wood.as_ref().and_then(|wood| one(wood, woods));
        let of_lot = || lots.first().map(|(lot, _)| Arc::clone(&lot.wood));
        let of_tree = || {
            let tag = record.trees.first()?;
            trees.iter().find(|tree| tree.tag() == tag).map(|tree| Arc::clone(&tree.wood))
        };
        let wood = own.or_else(of_lot).or_else(of_tree);
        let logs = record.logs.unwrap_or_else(|| lots.iter().map(|(_, logs)| logs).sum());
        Some(Batch { id, origin, record, strain, wood, lots, logs })
    })
}
