//! A mushroom, linked to its group and its methods.

use std::sync::Arc;

use super::{Listed, Origin, Register, Wood, all, link_groups};
use crate::record;
use crate::record::Id;
use crate::record::evidence::Way;
use crate::record::method::Method;
use crate::record::mushroom::LogYield;
use crate::record::said::Span;
use crate::record::wood::Rank;

/// A mushroom, linked.
#[derive(Debug)]
pub struct Mushroom {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::mushroom::Mushroom,
    /// The wider group whose evidence it inherits.
    pub part_of: Option<Arc<Mushroom>>,
    /// The methods by which it is grown.
    pub methods: Vec<Arc<Listed<Method>>>,
}

impl Mushroom {
    /// The name that pages use.
    pub fn name(&self) -> &str {
        self.record.names.first().map_or(&self.id, |name| name)
    }

    /// The mushroom and every group above it, the narrowest first.
    fn chain(&self) -> impl Iterator<Item = &Self> {
        std::iter::successors(Some(self), |mushroom| mushroom.part_of.as_deref())
    }

    /// Whether it, or a group above it, is among those named; so it is where none is.
    pub fn is_among(&self, named: &[Arc<Self>]) -> bool {
        named.is_empty() || self.line().any(|id| named.iter().any(|named| named.id == id))
    }

    /// The ids of the mushroom and of every group above it, the narrowest first.
    pub fn line(&self) -> impl Iterator<Item = &str> {
        self.chain().map(|mushroom| mushroom.id.as_str())
    }

    /// What sources say of the mushroom itself, or else of the narrowest group above it of which any speaks.
    pub fn said<T>(&self, rows: impl Fn(&record::mushroom::Mushroom) -> &[T]) -> &[T] {
        self.chain().map(|mushroom| rows(&mushroom.record)).find(|rows| !rows.is_empty()).unwrap_or_default()
    }

    /// What sources say of the time from inoculation to the first mushrooms.
    pub fn spawn_runs(&self) -> &[Span] {
        self.said(|record| &record.spawn_run)
    }

    /// What sources say in figures that a log gives.
    pub fn log_yields(&self) -> &[LogYield] {
        self.said(|record| &record.log_yields)
    }

    /// Whether a wood thrives with it by convention, so that trials grade others by it.
    pub fn refers_to(&self, wood: &Wood) -> bool {
        let reference = self.said(|record| &record.reference);
        wood.line().any(|id| reference.iter().any(|named| named.as_str() == id))
    }

    /// The ways in which it is grown, the most usual first.
    pub fn ways(&self) -> impl Iterator<Item = Way> {
        let methods = self.chain().map(|mushroom| &mushroom.methods).find(|methods| !methods.is_empty());
        methods.into_iter().flatten().filter_map(|method| method.record.way)
    }

    /// The way in which it is most usually grown.
    pub fn usual_way(&self) -> Way {
        self.ways().next().unwrap_or(Way::Log)
    }

    /// The way of its logs: above the ground, unless it is more usual to bury them.
    pub fn way_of_logs(&self) -> Way {
        self.ways().find(|way| matches!(way, Way::Log | Way::BuriedLog)).unwrap_or(Way::Log)
    }

    /// Whether it is a species rather than a group.
    pub fn is_species(&self) -> bool {
        self.record.rank == Rank::Species
    }
}

/// Links mushrooms.
pub(super) fn link(
    records: Vec<Listed<record::mushroom::Mushroom>>,
    methods: &Register<Listed<Method>>,
) -> Register<Mushroom> {
    link_groups(
        records,
        |record| record.part_of.as_ref().map(Id::as_str),
        |Listed { id, origin, record }, part_of| {
            let methods = all(&record.methods, methods);
            Mushroom { id, origin, record, part_of, methods }
        },
    )
}
