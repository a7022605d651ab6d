//! A wood, linked to its group.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::{Listed, Origin, Register, link_groups};
use crate::record;
use crate::record::Id;
use crate::record::wood::{Leaf, Rank, Use, Whom, Worth};

/// A wood, linked.
#[derive(Debug)]
pub struct Wood {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::wood::Wood,
    /// The wider group whose evidence it inherits.
    pub part_of: Option<Arc<Wood>>,
}

impl Wood {
    /// The name that pages use.
    pub fn name(&self) -> &str {
        self.record.names.first().map_or(&self.id, |name| name)
    }

    /// Its genus, the first word of its scientific name.
    pub fn genus(&self) -> &str {
        self.record.scientific.split_whitespace().next().unwrap_or_default()
    }

    /// Whether it is a species rather than a group.
    pub fn is_species(&self) -> bool {
        self.record.rank == Rank::Species
    }

    /// Whether it is a conifer.
    pub fn is_conifer(&self) -> bool {
        self.record.leaf == Leaf::Needle
    }

    /// The ids of the wood and of every group above it, the narrowest first.
    pub fn line(&self) -> impl Iterator<Item = &str> {
        std::iter::successors(Some(self), |wood| wood.part_of.as_deref()).map(|wood| wood.id.as_str())
    }

    /// What a standing tree of it is worth: its own rows, and of the groups above it those on a use that it has none on.
    pub fn worth(&self) -> Vec<&Worth> {
        let mut rows: Vec<&Worth> = Vec::new();
        for wood in std::iter::successors(Some(self), |wood| wood.part_of.as_deref()) {
            let told: Vec<Use> = rows.iter().map(|row| row.good_for).collect();
            rows.extend(wood.record.worth.iter().filter(|row| !told.contains(&row.good_for)));
        }
        rows
    }

    /// Whom it hurts, each once.
    pub fn hurts(&self) -> Vec<&'static str> {
        let whom: BTreeSet<Whom> = self.record.hazards.iter().map(|hazard| hazard.whom).collect();
        whom.into_iter().map(Whom::id).collect()
    }

    /// Whether a standing tree of it is good for something.
    pub fn is_good_for(&self, what: Use) -> bool {
        self.worth().iter().any(|row| row.good_for == what && !row.warns)
    }

    /// Whether it, or a group above it, is among those named; so it is where none is.
    pub fn is_among(&self, named: &[Arc<Self>]) -> bool {
        named.is_empty() || self.line().any(|id| named.iter().any(|named| named.id == id))
    }
}

/// Links woods.
pub(super) fn link(records: Vec<Listed<record::wood::Wood>>) -> Register<Wood> {
    link_groups(
        records,
        |record| record.part_of.as_ref().map(Id::as_str),
        |Listed { id, origin, record }, part_of| Wood { id, origin, record, part_of },
    )
}
