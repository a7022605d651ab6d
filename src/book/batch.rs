//! A batch, linked to its strain, its wood and its lots.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Listed, Lot, Origin, Register, Strain, Tree, Wood, lot, one, twins};
use crate::quantity::{Date, Days, Length, capital};
use crate::record;
use crate::record::batch::{Called, End};
use crate::record::evidence::Way;

/// A batch, linked.
#[derive(Debug)]
pub struct Batch {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it is called, the same everywhere and no other batch so: wood, strain, year and the number on its tags.
    pub name: String,
    /// The year in which the winter of its inoculation ends, or in the south that in which this lies.
    pub year: i16,
    /// What it says.
    pub record: record::batch::Batch,
    /// Its strain.
    pub strain: Arc<Strain>,
    /// Its wood: its own, that of its lots, or that of its trees.
    pub wood: Option<Arc<Wood>>,
    /// The lots that its logs come from, with how many of each.
    pub lots: Vec<(Arc<Lot>, u32)>,
    /// The trees that its logs come from, where it names them and no lot.
    pub trees: Vec<Arc<Tree>>,
    /// How many logs, totems or stumps it began with: its own number, those of its lots, or what its trees gave.
    pub logs: u32,
}

impl Batch {
    /// Whether its logs are counted: beds and stumps stay where they are and have none.
    pub const fn is_counted(&self) -> bool {
        !matches!(self.record.way, Way::ChipBed | Way::Stump)
    }

    /// Whether its spawn never took.
    pub fn has_failed(&self) -> bool {
        self.record.ended.as_ref().is_some_and(|ended| ended.how == End::SpawnFailed)
    }

    /// The days on which its trees were felled: its own, those of its first lot, or those of its trees.
    pub fn felled(&self) -> Option<Days> {
        let own = self.record.felled.map(|day| Days { from: day, to: day });
        let of_lot = || self.lots.first().map_or_else(|| lot::days_of(&self.trees), |(lot, _)| lot.felled);
        own.or_else(of_lot)
    }

    /// The length of its logs, where it is recorded: its own, or that of its first lot.
    pub fn length(&self) -> Option<&Length> {
        self.record.length.as_ref().or_else(|| self.lots.first()?.0.record.length.as_ref())
    }
}

/// Batches by the names that the day book gives them.
pub(super) struct Names<'a> {
    batches: &'a Register<Batch>,
    numbered: BTreeMap<String, Vec<&'a Arc<Batch>>>,
}

impl<'a> Names<'a> {
    /// The names of all batches.
    pub(super) fn of(batches: &'a Register<Batch>) -> Self {
        let mut numbered: BTreeMap<String, Vec<&Arc<Batch>>> = BTreeMap::new();
        for batch in batches.values() {
            if let Some(number) = batch.record.number {
                numbered.entry(number.to_string()).or_default().push(batch);
            }
        }
        Self { batches, numbered }
    }

    /// The batch that a name means on a day: that of the id, or else of those with the number the one that was alive.
    pub(super) fn called(&self, name: &Called, day: Date) -> Option<Arc<Batch>> {
        let ended = |batch: &Batch| batch.record.ended.as_ref().is_some_and(|ended| ended.date < day);
        let alive = |batch: &Arc<Batch>| (batch.record.inoculated <= day && !ended(batch), batch.record.inoculated);
        let numbered = || self.numbered.get(&name.0)?.iter().copied().max_by_key(|batch| alive(batch));
        self.batches.get(&name.0).or_else(numbered).cloned()
    }
}

/// Links batches.
pub(super) fn link(
    records: Vec<Listed<record::batch::Batch>>,
    strains: &Register<Strain>,
    woods: &Register<Wood>,
    lots: &Register<Lot>,
    trees: &[Arc<Tree>],
    south: bool,
) -> Register<Batch> {
    let mut batches = linked(records, strains, woods, lots, trees, south);
    let mut called: BTreeMap<String, u32> = BTreeMap::new();
    for batch in batches.values() {
        *called.entry(batch.name.clone()).or_default() += 1;
    }
    for batch in batches.values_mut().filter_map(Arc::get_mut).filter(|batch| called.get(&batch.name) > Some(&1)) {
        batch.name = format!("{} · {}", batch.name, batch.id);
    }
    batches
}

/// What a batch is called, where no other is called so.
fn name(record: &record::batch::Batch, strain: &Strain, wood: Option<&Wood>, year: i16) -> String {
    let wood = wood.map(|wood| capital(wood.name()));
    let number = record.number.map(|number| format!("no {number}"));
    let parts = [wood, Some(strain.record.name.clone()), Some(year.to_string()), number];
    parts.into_iter().flatten().collect::<Vec<_>>().join(" · ")
}

fn linked(
    records: Vec<Listed<record::batch::Batch>>,
    strains: &Register<Strain>,
    woods: &Register<Wood>,
    lots: &Register<Lot>,
    trees: &[Arc<Tree>],
    south: bool,
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
        let trees = lot::trees_of(&record.trees, trees);
        let of_tree = || trees.first().map(|tree| Arc::clone(&tree.wood));
        let wood = own.or_else(of_lot).or_else(of_tree);
        let given = || trees.iter().filter_map(|tree| tree.record.logs_cut).sum();
        let drawn = || if lots.is_empty() { given() } else { lots.iter().map(|(_, logs)| logs).sum() };
        let logs = record.logs.unwrap_or_else(drawn);
        let year = record.inoculated.winter(south) + i16::from(!south);
        let name = name(&record, &strain, wood.as_deref(), year);
        Some(Batch { id, origin, name, year, record, strain, wood, lots, trees, logs })
    })
}
