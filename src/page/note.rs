//! All notes, and one of them.

use std::sync::Arc;

use serde::Serialize;

use super::leaf::Leaf;
use super::part::Anchor;
use super::part::batch::Leaves;
use super::part::sheet::Sheet;
use super::{Context, Page};
use crate::book::{Book, Note};
use crate::reckon::Findings;

/// Notes on the first page of them.
const NEWEST: usize = 40;

/// The list of notes, the newest first.
#[derive(Debug, Serialize)]
pub struct Index {
    notes: Vec<Entry>,
    years: Vec<Anchor>,
}

/// Notes of a year, the newest first.
#[derive(Debug, Serialize)]
pub struct OfYear {
    notes: Vec<Entry>,
    leaves: Leaves,
    all: String,
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

/// The view of the list of notes: all, or where they are many the newest, and the years of the others.
pub fn index(context: &Context<'_>) -> Index {
    let notes = &context.book.notes_by_date;
    let mut years: Vec<i16> = notes.iter().rev().map(|note| note.record.date.0.year()).collect();
    years.dedup();
    let year = |year: i16| Anchor::to(context.route.to(&Page::NotesOf(Leaf::first(year))), year.to_string(), context);
    let many = notes.len() > NEWEST;
    Index {
        notes: notes.iter().rev().take(NEWEST).map(|note| entry(note, context)).collect(),
        years: years.into_iter().filter(|_| many).map(year).collect(),
    }
}

/// The leaves of the years of notes, where they are too many for one page.
pub fn leaves(book: &Book, _: &Findings) -> Vec<Leaf> {
    let notes = book.notes_by_date.iter().filter(|_| book.notes.len() > NEWEST);
    Leaf::all(notes.map(|note| note.record.date.0.year()))
}

/// The view of a leaf of the notes of a year.
pub fn of_year(leaf: Leaf, context: &Context<'_>) -> OfYear {
    let notes = context.book.notes_by_date.iter().rev();
    let notes: Vec<&Arc<Note>> = notes.filter(|note| note.record.date.0.year() == leaf.year).collect();
    OfYear {
        notes: leaf.rows(&notes).iter().map(|note| entry(note, context)).collect(),
        leaves: Leaves::of(leaf, notes.len(), Page::NotesOf, context),
        all: context.route.to(&Page::Notes),
    }
}

fn entry(note: &Note, context: &Context<'_>) -> Entry {
    Entry {
        link: Anchor::note(note, context),
        date: note.record.date.show(context.units()),
        about: about(note, context),
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
