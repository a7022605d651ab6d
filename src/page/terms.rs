//! The terms of the trade.

use std::collections::BTreeMap;

use serde::Serialize;

use super::Context;
use super::part::Anchor;
use super::part::cite::Cite;
use super::part::entry::letter;
use crate::record::Kind;
use crate::record::said::Mark;
use crate::record::term::Term;

/// Terms in the order of the alphabet, letter by letter.
#[derive(Debug, Serialize)]
pub struct View {
    letters: Vec<(String, Vec<Entry>)>,
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
    let mut letters: BTreeMap<String, Vec<Entry>> = BTreeMap::new();
    for term in terms {
        let record = term.record.clone();
        letters.entry(letter(&record.term)).or_default().push(Entry {
            id: term.id.clone(),
            leads_to: record.see.iter().map(|id| Anchor::record(Kind::Term, id.as_str(), context)).collect(),
            cite: record.source.as_ref().map(|source| Cite::of(source, Mark::Read, context)),
            record,
        });
    }
    View { letters: letters.into_iter().collect() }
}
