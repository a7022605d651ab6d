//! The terms of the trade.

use serde::Serialize;

use super::Context;
use super::part::Anchor;
use super::part::cite::Cite;
use crate::record::Kind;
use crate::record::said::Mark;

/// Terms in the order of the alphabet.
#[derive(Debug, Serialize)]
pub struct View {
    terms: Vec<Entry>,
}

/// A term as pages show it.
#[derive(Debug, Serialize)]
struct Entry {
    id: String,
    term: String,
    also: Vec<String>,
    says: String,
    see: Vec<Anchor>,
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
                term: term.record.term.clone(),
                also: term.record.also.clone(),
                says: term.record.says.clone(),
                see: term.record.see.iter().map(|id| Anchor::record(Kind::Term, id.as_str(), context)).collect(),
                cite: term.record.source.as_ref().map(|source| Cite::of(source, Mark::Read, context)),
            })
            .collect(),
    }
}
