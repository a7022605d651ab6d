//! Records that are bound to woods, mushrooms and places: season windows, cautions and rules.

use std::cmp::Reverse;
use std::sync::Arc;

use super::here::Here;
use super::{Book, Listed, Mushroom, Origin, Register, Wood, Writer, all, twins};
use crate::record;
use crate::record::Id;
use crate::record::caution::{LEADING, Task};
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

/// What a piece of work is done on, by which a caution that comes with a wood or a mushroom in particular belongs to it.
#[derive(Debug, Clone, Default)]
pub struct Subject<'a> {
    /// The woods at hand.
    pub woods: Vec<&'a Wood>,
    /// The mushrooms at hand.
    pub mushrooms: Vec<&'a Mushroom>,
    /// Whether it is done under a roof and walls.
    pub indoors: bool,
}

impl<'a> Subject<'a> {
    /// Some woods.
    pub fn woods(woods: impl Iterator<Item = &'a Arc<Wood>>) -> Self {
        Self { woods: woods.map(AsRef::as_ref).collect(), ..Self::default() }
    }

    /// Whether a record about woods and mushrooms speaks of it.
    pub fn is_met_by<T>(&self, found: &Bound<T>) -> bool {
        (found.woods.is_empty() || self.woods.iter().any(|wood| found.speaks_of_wood(wood)))
            && (found.mushrooms.is_empty() || self.mushrooms.iter().any(|mushroom| found.speaks_of_mushroom(mushroom)))
    }
}

/// The cautions of a piece of work.
#[derive(Debug, Default)]
pub struct AtWork<'a> {
    /// Those that stand above it, in their turn; three at most.
    pub leads: Vec<&'a Arc<Caution>>,
    /// The others, the gravest first.
    pub others: Vec<&'a Arc<Caution>>,
}

impl Book {
    /// The cautions of a task that hold for what it is done on, with the tools that the farm uses.
    pub fn cautions_at(&self, task: Task, subject: &Subject<'_>) -> AtWork<'_> {
        let tools = &self.farm.record.work.tools;
        let holds = |found: &&Arc<Caution>| {
            let record = &found.record;
            record.tasks.contains(&task)
                && record.with.is_none_or(|tool| tools.contains(&tool))
                && subject.is_met_by(found)
        };
        let mut found: Vec<&Arc<Caution>> = self.cautions.values().filter(holds).collect();
        found.sort_by_key(|found| (found.record.severity, &found.id));
        let leads = leading(task, subject.indoors, &found);
        found.retain(|found| !leads.iter().any(|lead| lead.id == found.id));
        AtWork { leads, others: found }
    }
}

/// The cautions that lead a task, in their turn, before them those that lead it indoors; one that comes with a tool in use
/// stands in for that of the same turn.
fn leading<'a>(task: Task, indoors: bool, found: &[&'a Arc<Caution>]) -> Vec<&'a Arc<Caution>> {
    let turn = |found: &Caution| found.record.turn.unwrap_or(u8::MAX);
    let first = |found: &Caution| indoors && found.record.leads_indoors.contains(&task);
    let leads = |found: &Caution| found.record.leads.contains(&task) || first(found);
    let mut leads: Vec<&Arc<Caution>> = found.iter().copied().filter(|found| leads(found)).collect();
    let with_tool: Vec<u8> =
        leads.iter().filter(|found| found.record.with.is_some()).map(|found| turn(found)).collect();
    leads.retain(|found| found.record.with.is_some() || !with_tool.contains(&turn(found)));
    // Of two that come with mushrooms, the one that holds for more of them.
    leads.sort_by_key(|found| (!first(found), turn(found), Reverse(found.mushrooms.len())));
    leads.truncate(LEADING);
    leads
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
