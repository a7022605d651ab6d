//! A lot of logs: where they come from, how many still wait, and which batches were filled from it.

use std::sync::Arc;

use serde::Serialize;

use crate::book;
use crate::page::part::table::{Cell, cell, list};
use crate::page::part::{Anchor, logs_words, range};
use crate::page::{Context, Page};
use crate::record::Kind;

/// One lot.
#[derive(Debug, Serialize)]
pub struct View {
    facts: Vec<(&'static str, Cell)>,
    ledger: Anchor,
}

/// The view of one lot.
pub fn view(lot: &book::Lot, context: &Context<'_>) -> View {
    let units = context.units();
    let waiting = context.findings.ledger().waiting(lot);
    let trees = lot
        .record
        .trees
        .iter()
        .map(|tag| cell![Anchor::to(context.route.record(Kind::Tree, &tag.0), tag.to_string(), context)]);
    let took = |batch: &&Arc<book::Batch>| batch.lots.iter().any(|(of, _)| of.id == lot.id);
    let batches: Vec<Anchor> =
        context.book.batches.values().filter(took).map(|batch| Anchor::batch(batch, context)).collect();
    let thick =
        lot.record.diameter.as_ref().map(|of| format!(", {} thick", range(&of.low.show(units), &of.high.show(units))));
    let told = [
        ("Waiting", Some(cell![format!("{waiting} of {}", logs_words(f64::from(lot.logs)))])),
        ("Wood", Some(cell![Anchor::wood(&lot.wood, context), thick])),
        ("Felled", lot.felled.map(|days| cell![days.show(units)])),
        ("From", lot.record.from.clone().map(|from| cell![from])),
        ("Trees", (!lot.record.trees.is_empty()).then(|| list(", ", trees))),
        ("Filled into", (!batches.is_empty()).then(|| list("; ", batches))),
    ];
    View {
        facts: told.into_iter().filter_map(|(head, said)| Some((head, said?))).collect(),
        ledger: Anchor::page(&Page::Ledger, context),
    }
}
