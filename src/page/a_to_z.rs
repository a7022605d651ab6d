//! Everything by its name, in the order of the alphabet: what serves where no script runs, and on paper.

use std::collections::BTreeMap;

use serde::Serialize;

use super::Context;
use super::part::entry::Entry;
use super::part::{Anchor, entry};

/// Everything by its name.
#[derive(Debug, Serialize)]
pub struct View {
    letters: Vec<Letter>,
}

/// What begins with one letter.
#[derive(Debug, Serialize)]
struct Letter {
    letter: String,
    lines: Vec<Line>,
}

/// A line of the index.
#[derive(Debug, Serialize)]
struct Line {
    link: Anchor,
    kind: &'static str,
}

/// The view of the index; pairs are found under their mushroom and their wood, trees under their stand.
pub fn view(context: &Context<'_>) -> View {
    let mut letters: BTreeMap<String, Vec<(String, Line)>> = BTreeMap::new();
    for entry in entry::all(context).into_iter().filter(|entry| ![entry::PAIR, entry::TREE].contains(&entry.kind)) {
        letters.entry(letter(&entry.title)).or_default().push((sorted_by(&entry.title), line(entry, context)));
    }
    let letters = letters.into_iter().map(|(letter, mut lines)| {
        lines.sort_by(|a, b| a.0.cmp(&b.0));
        Letter { letter, lines: lines.into_iter().map(|(_, line)| line).collect() }
    });
    View { letters: letters.collect() }
}

fn line(entry: Entry, context: &Context<'_>) -> Line {
    Line { link: Anchor::to(entry.href, entry.title, context), kind: entry.kind }
}

/// A name as it is sorted: by its words, without the signs between them.
fn sorted_by(title: &str) -> String {
    let lower = title.to_lowercase();
    let words = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.collect::<Vec<_>>().join(" ")
}

/// The letter under which a name stands; digits and signs stand together before the letters.
fn letter(title: &str) -> String {
    let first = title.chars().next().filter(|first| first.is_alphabetic());
    first.map_or_else(|| "0–9".to_owned(), |first| first.to_uppercase().collect())
}
