//! A row of evidence, linked to its mushroom, its wood and its source.

use std::collections::{BTreeMap, BTreeSet};
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
    /// The woods that did worse in the same trial.
    pub above: Vec<Arc<Wood>>,
    /// Those that did better and have no row of their own in the trial.
    pub unsaid: Vec<Arc<Wood>>,
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
            let (above, unsaid) = (Vec::new(), Vec::new());
            Some(Evidence { id, origin, record, mushroom, wood, or, below, above, unsaid, source, repeats })
        })
        .collect();
    rows.sort_by(|a, b| a.origin.places.cmp(&b.origin.places));
    order(&mut rows);
    rows
}

/// Tells each row of a trial which woods the others put below its own, and which of its betters have no row.
fn order(rows: &mut [Evidence]) {
    let place = |row: &Evidence, wood: &str| {
        (row.source.id.clone(), row.mushroom.id.clone(), row.record.grown, wood.to_owned())
    };
    let mut lower: BTreeMap<_, Vec<Arc<Wood>>> = BTreeMap::new();
    let mut named = BTreeSet::new();
    for row in rows.iter() {
        for wood in &row.below {
            lower.entry(place(row, &wood.id)).or_default().push(Arc::clone(&row.wood));
        }
        named.extend(row.woods().map(|wood| place(row, &wood.id)));
    }
    for row in rows {
        row.above = row.woods().filter_map(|wood| lower.get(&place(row, &wood.id))).flatten().cloned().collect();
        row.unsaid = row.below.iter().filter(|wood| !named.contains(&place(row, &wood.id))).cloned().collect();
    }
}
