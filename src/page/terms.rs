//! The terms of the trade.

use serde::Serialize;

use super::Context;
use super::part::Anchor;
use super::part::cite::Cite;
use crate::record::Kind;
use crate::record::said::Mark;
use crate::record::term::Term;

/// Terms in the order of the alphabet.
#[derive(Debug, Serialize)]
pub struct View {
    terms: Vec<Entry>,
}

/// A term under its id, with the terms to which it leads.
#[derive(Debug, Serialize)]
struct Entry {
    id: String,
    #[serde(flatten)]
    record: Term,
    leads_to: Vec<Anchor>,
    cite: Option<Cite>,
}

/// The view of the terms.
pub fn view(context: &Context<'_>) -> View {
    let mut terms: Vec<_> = context.book.terms.values().collect();
    terms.sort_by_key(|term| term.record.term.to_lowercase());
    View {
        terms: terms
            .into_iter()
            .map(|term| Entry {
                id: term.id.clone(),
                record: term.record.clone(),
                leads_to: term.record.see.iter().map(|id| Anchor::record(Kind::Term, id.as_str(), context)).collect(),
                cite: term.record.source.as_ref().map(|source| Cite::of(source, Mark::Read, context)),
            })
            .collect(),
    }
}
