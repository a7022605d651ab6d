//! A strain, linked to its mushroom.

use std::sync::Arc;

use super::{Listed, Mushroom, Origin, Register, one, twins};
use crate::record;
use crate::record::said::Span;
use crate::record::strain::Class;

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

impl Strain {
    /// Whether soaking a log brings on a flush: the strain's own word; else no for a cold-weather class, which waits for
    /// temperature (BRU09); else what its mushroom's record says. `None` where nobody says.
    pub fn answers_to_soaking(&self) -> Option<bool> {
        let cold = (self.record.class == Some(Class::Cold)).then_some(false);
        self.record.answers_to_soaking.or(cold).or(self.mushroom.record.answers_to_soaking)
    }

    /// What sources say of the time from inoculation to the first mushrooms: of the strain itself, or else of its mushroom.
    pub fn spawn_runs(&self) -> &[Span] {
        if self.record.spawn_run.is_empty() { self.mushroom.spawn_runs() } else { &self.record.spawn_run }
    }
}

/// Links strains.
pub(super) fn link(records: Vec<Listed<record::strain::Strain>>, mushrooms: &Register<Mushroom>) -> Register<Strain> {
    twins(records, |Listed { id, origin, record }| {
        let mushroom = one(&record.mushroom, mushrooms)?;
        Some(Strain { id, origin, record, mushroom })
    })
}
