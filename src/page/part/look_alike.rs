//! What may be taken for a mushroom.

use serde::Serialize;

use super::cite::Cite;
use crate::book::Mushroom;
use crate::page::Context;
use crate::record::mushroom::LookAlike as Record;

/// A look-alike with who says so.
#[derive(Debug, Serialize)]
pub struct LookAlike {
    #[serde(flatten)]
    record: Record,
    cites: Vec<Cite>,
}

/// What may be taken for a mushroom, the deadly first.
pub fn all(mushroom: &Mushroom, context: &Context<'_>) -> Vec<LookAlike> {
    let mut rows: Vec<_> = mushroom.record.look_alikes.iter().collect();
    rows.sort_by_key(|row| !row.deadly);
    let cites = |row: &Record| Cite::all(&row.sources, row.mark, context);
    rows.into_iter().map(|row| LookAlike { record: row.clone(), cites: cites(row) }).collect()
}
