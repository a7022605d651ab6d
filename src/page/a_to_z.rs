//! Everything by its name, in the order of the alphabet: what serves where no script runs, and on paper.

use std::collections::BTreeMap;

use serde::Serialize;

use super::Context;
use super::leaf::ROWS;
use super::part::entry::Entry;
use super::part::{Anchor, entry};
use crate::record::Kind;

/// Everything by its name: what begins with one letter, each with what kind of thing it is.
#[derive(Debug, Serialize)]
pub struct View {
    letters: Vec<(String, Vec<(Anchor, &'static str)>)>,
}

/// Kinds of records that a farm has ever more of; where they are many, their own lists have them.
const KEPT: [Kind; 3] = [Kind::Batch, Kind::Lot, Kind::Note];

/// The view of the index; pairs are found under their mushroom and their wood, trees under their stand.
pub fn view(context: &Context<'_>) -> View {
    let mut letters: BTreeMap<String, Vec<Entry>> = BTreeMap::new();
    let all = entry::all(context);
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for entry in &all {
        *counts.entry(entry.kind).or_default() += 1;
    }
    let grows = |kind: &str| KEPT.iter().any(|kept| entry::called(*kept) == kind);
    let lists =
        |kind: &str| [entry::PAIR, entry::called(Kind::Tree)].contains(&kind) || (grows(kind) && counts[kind] > ROWS);
    for entry in all.into_iter().filter(|entry| !lists(entry.kind)) {
        letters.entry(entry::letter(&entry.title)).or_default().push(entry);
    }
    let line = |entry: Entry| (Anchor::to(entry.href, entry.title, context), entry.kind);
    let letters = letters.into_iter().map(|(letter, mut entries)| {
        entries.sort_by_cached_key(|entry| sorted_by(&entry.title));
        (letter, entries.into_iter().map(line).collect())
    });
    View { letters: letters.collect() }
}

/// A name as it is sorted: by its words, without the signs between them.
fn sorted_by(title: &str) -> String {
    let lower = title.to_lowercase();
    let words = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.collect::<Vec<_>>().join(" ")
}
