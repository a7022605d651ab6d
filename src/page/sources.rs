//! Every source, and how much of it was read.

use std::sync::Arc;

use serde::Serialize;

use super::Context;
use crate::book::{Listed, Writer};
use crate::record::source::{Source, SourceKind};

/// Sources by kind.
#[derive(Debug, Serialize)]
pub struct View {
    kinds: Vec<ByKind>,
    count: usize,
}

/// Sources of one kind.
#[derive(Debug, Serialize)]
struct ByKind {
    title: &'static str,
    sources: Vec<Entry>,
}

/// A source under its id, and whether this farm had a hand in it.
#[derive(Debug, Serialize)]
struct Entry {
    id: String,
    #[serde(flatten)]
    record: Source,
    own: bool,
}

/// The view of the sources.
pub fn view(context: &Context<'_>) -> View {
    let kinds = [
        (SourceKind::ThisFarm, "This farm"),
        (SourceKind::Trial, "Trials"),
        (SourceKind::Bulletin, "Bulletins and extension pages"),
        (SourceKind::Handbook, "Books, reviews and data"),
        (SourceKind::Standard, "Laws, rules and standards"),
        (SourceKind::CommonPractice, "Common practice and our own choices"),
    ];
    View {
        kinds: kinds.into_iter().map(|(kind, title)| by_kind(kind, title, context)).collect(),
        count: context.book.sources.len(),
    }
}

fn by_kind(kind: SourceKind, title: &'static str, context: &Context<'_>) -> ByKind {
    let mut sources: Vec<_> = context.book.sources.values().filter(|source| source.record.kind == kind).collect();
    sources.sort_by_key(|source| source.record.short.to_lowercase());
    let entry = |source: &Arc<Listed<Source>>| Entry {
        id: source.id.clone(),
        record: source.record.clone(),
        own: source.origin.writer != Writer::Handbook,
    };
    ByKind { title, sources: sources.into_iter().map(entry).collect() }
}
