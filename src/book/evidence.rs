//! A row of evidence, linked to its mushroom, its wood and its source.

use std::sync::Arc;

use super::{Listed, Mushroom, Origin, Register, Wood, all, one};
use crate::record;
use crate::record::source::Source;

/// A row of evidence, linked.
#[derive(Debug)]
pub struct Evidence {
    /// File stem and row.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::evidence::Evidence,
    /// The mushroom it speaks of.
    pub mushroom: Arc<Mushroom>,
    /// The wood it speaks of.
    pub wood: Arc<Wood>,
    /// Other woods that its one word means as well.
    pub or: Vec<Arc<Wood>>,
    /// The woods that did better in the same trial.
    pub below: Vec<Arc<Wood>>,
    /// Who says it.
    pub source: Arc<Listed<Source>>,
    /// Who says it first, where the source only repeats another.
    pub repeats: Option<Arc<Listed<Source>>>,
}

impl Evidence {
    /// The woods it speaks of.
    pub fn woods(&self) -> impl Iterator<Item = &Wood> {
        std::iter::once(&self.wood).chain(&self.or).map(Arc::as_ref)
    }

    /// Whether it speaks of a wood by its own name.
    pub fn names(&self, wood: &str) -> bool {
        self.woods().any(|named| named.id == wood)
    }

    /// Who speaks: the team of its source, or the source itself; of a source that repeats another, that one's.
    pub fn team(&self) -> &str {
        let source = self.repeats.as_ref().unwrap_or(&self.source);
        source.record.team.as_deref().unwrap_or(&source.id)
    }

    /// Whether another row is of the same trial.
    pub fn is_beside(&self, other: &Self) -> bool {
        self.source.id == other.source.id
            && self.mushroom.id == other.mushroom.id
            && self.record.grown == other.record.grown
    }

    /// Whether another row of the same trial puts its wood below this one's.
    pub fn is_above(&self, other: &Self) -> bool {
        self.is_beside(other) && other.below.iter().any(|wood| self.names(&wood.id))
    }
}

/// Links rows of evidence, in the order of files and rows.
pub(super) fn link(
    records: Vec<Listed<record::evidence::Evidence>>,
    mushrooms: &Register<Mushroom>,
    woods: &Register<Wood>,
    sources: &Register<Listed<Source>>,
) -> Vec<Evidence> {
    let mut rows: Vec<Evidence> = records
        .into_iter()
        .filter_map(|Listed { id, origin, record }| {
            let (mushroom, wood) = (one(&record.mushroom, mushrooms)?, one(&record.wood, woods)?);
            let source = one(&record.source, sources)?;
            let (or, below) = (all(&record.or, woods), all(&record.below, woods));
            let repeats = record.repeats.as_ref().and_then(|source| one(source, sources));
            Some(Evidence { id, origin, record, mushroom, wood, or, below, source, repeats })
        })
        .collect();
    rows.sort_by(|a, b| a.origin.places.cmp(&b.origin.places));
    rows
}
