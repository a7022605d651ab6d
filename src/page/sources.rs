//! Every source, and how much of it was read.

use serde::Serialize;

use super::Context;
use crate::book::Writer;
use crate::record::source::SourceKind;

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

/// A source as pages show it.
#[derive(Debug, Serialize)]
struct Entry {
    id: String,
    short: String,
    authors: String,
    year: Option<i16>,
    title: String,
    number: Option<String>,
    team: Option<String>,
    read: Option<String>,
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
    let entry = |source: &std::sync::Arc<crate::book::Listed<crate::record::source::Source>>| Entry {
        id: source.id.clone(),
        short: source.record.short.clone(),
        authors: source.record.authors.clone(),
        year: source.record.year,
        title: source.record.title.clone(),
        number: source.record.number.clone(),
        team: source.record.team.clone(),
        read: source.record.read.clone(),
        own: source.origin.writer != Writer::Handbook,
    };
    ByKind { title, sources: sources.into_iter().map(entry).collect() }
}
