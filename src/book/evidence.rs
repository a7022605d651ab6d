//! A row of evidence, linked to its mushroom, its wood and its source.

use std::sync::Arc;

use super::{Listed, Mushroom, Origin, Register, Wood, one};
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
    /// Who says it.
    pub source: Arc<Listed<Source>>,
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
            Some(Evidence { id, origin, record, mushroom, wood, source })
        })
        .collect();
    rows.sort_by(|a, b| a.origin.places.cmp(&b.origin.places));
    rows
}
