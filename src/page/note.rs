//! All notes, and one of them.

use serde::Serialize;

use super::Context;
use super::part::Anchor;
use super::part::sheet::Sheet;
use crate::book::Note;

/// The list of notes, the newest first.
#[derive(Debug, Serialize)]
pub struct Index {
    notes: Vec<Entry>,
}

/// A note in a list.
#[derive(Debug, Serialize)]
struct Entry {
    link: Anchor,
    date: String,
    about: Vec<Anchor>,
}

/// One note.
#[derive(Debug, Serialize)]
pub struct View {
    date: String,
    about: Vec<Anchor>,
    text: String,
    file: String,
    earlier: Option<Anchor>,
    later: Option<Anchor>,
    sheet: Sheet,
}

/// The view of the list of notes.
pub fn index(context: &Context<'_>) -> Index {
    let notes = context.book.notes_by_date.iter().rev();
    Index {
        notes: notes
            .map(|note| Entry {
                link: Anchor::note(note, context),
                date: note.record.date.show(context.units()),
                about: about(note, context),
            })
            .collect(),
    }
}

fn about(note: &Note, context: &Context<'_>) -> Vec<Anchor> {
    note.record.about.iter().map(|link| Anchor::link(link, context)).collect()
}

/// The view of one note.
pub fn view(note: &Note, context: &Context<'_>) -> View {
    let notes = &context.book.notes_by_date;
    let place = |note: &Note| (note.record.date, note.id.clone());
    let at = notes.binary_search_by_key(&place(note), |other| place(other)).ok();
    let near = |index: Option<usize>| notes.get(index?).map(|note| Anchor::note(note, context));
    View {
        date: note.record.date.show(context.units()),
        about: about(note, context),
        text: note.text.markdown.clone(),
        file: note.origin.files().last().map_or_else(String::new, |file| file.name.clone()),
        earlier: near(at.and_then(|at| at.checked_sub(1))),
        later: near(at.map(|at| at + 1)),
        sheet: Sheet::of(&note.origin),
    }
}
