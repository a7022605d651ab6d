//! What may be taken for a mushroom.

use serde::Serialize;

use super::cite::Cite;
use crate::book::Mushroom;
use crate::page::Context;

/// A look-alike as pages show it.
#[derive(Debug, Serialize)]
pub struct LookAlike {
    name: String,
    scientific: String,
    deadly: bool,
    print: String,
    planted_print: String,
    print_separates: bool,
    apart: String,
    harm: String,
    cites: Vec<Cite>,
}

/// What may be taken for a mushroom, the deadly first.
pub fn all(mushroom: &Mushroom, context: &Context<'_>) -> Vec<LookAlike> {
    let mut rows: Vec<_> = mushroom.record.look_alikes.iter().collect();
    rows.sort_by_key(|row| !row.deadly);
    rows.into_iter()
        .map(|row| LookAlike {
            name: row.name.clone(),
            scientific: row.scientific.clone(),
            deadly: row.deadly,
            print: row.print.clone(),
            planted_print: row.planted_print.clone(),
            print_separates: row.print_separates,
            apart: row.apart.clone(),
            harm: row.harm.clone(),
            cites: Cite::all(&row.sources, row.mark, context),
        })
        .collect()
}
