//! All notes, and one of them.

use serde::Serialize;

use super::{
    Context,
    part::{Anchor, capital, sheet::Sheet},
};
use crate::{
    book::{Book, Note},
    record::{Kind, Link, tree::Tag},
};

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
    title: String,
    date: String,
    about: Vec<Anchor>,
    text: String,
    file: String,
    earlier: Option<Anchor>,
    later: Option<Anchor>,
    sheet: Sheet,
}

/// The view of the list of notes.
#[must_use]
pub fn index(context: &Context<'_>) -> Index {
    let notes = context.book.notes_by_date.iter().rev();
    Index {
        notes: notes
            .map(|note| Entry {
                link: Anchor::note(note, context),
                date: note.record.date.show(),
                about: about(note, context),
            })
            .collect(),
    }
}

fn about(note: &Note, context: &Context<'_>) -> Vec<Anchor> {
    let links = note.record.about.iter();
    links.map(|link| Anchor { href: context.route.link(link), text: title(link, context.book) }).collect()
}

/// What a record is called.
#[must_use]
pub fn title(link: &Link, book: &Book) -> String {
    let id = link.id.as_str();
    let found = match link.kind {
        Kind::Farm => Some(book.farm.record.name.clone()),
        Kind::Mushroom => book.mushrooms.get(id).map(|mushroom| mushroom.name().to_owned()),
        Kind::Wood => book.woods.get(id).map(|wood| wood.name().to_owned()),
        Kind::Strain => book.strains.get(id).map(|strain| strain.record.name.clone()),
        Kind::Method => book.methods.get(id).map(|method| method.record.name.clone()),
        Kind::Tree => book.tree(&Tag(id.to_owned())).map(|tree| format!("{id}, {}", tree.wood.name())),
        Kind::Stand => book.stands.get(id).map(|stand| stand.record.name.clone()),
        Kind::Lot => book.lots.get(id).map(|lot| lot.record.name.clone()),
        Kind::Plan => book.plans.get(id).map(|plan| plan.record.name.clone()),
        Kind::Batch => book
            .batches
            .get(id)
            .map(|batch| format!("{}, {}", batch.strain.record.name, batch.record.inoculated.show())),
        Kind::Evidence | Kind::Diary | Kind::Harvest => None,
        Kind::Trouble => book.troubles.get(id).map(|trouble| trouble.record.name.clone()),
        Kind::Window => book.windows.get(id).map(|window| window.record.name.clone()),
        Kind::Caution => book.cautions.get(id).map(|caution| capital(&caution.record.hazard)),
        Kind::Source => book.sources.get(id).map(|source| source.record.short.clone()),
        Kind::Term => book.terms.get(id).map(|term| term.record.term.clone()),
        Kind::Note => book.notes.get(id).map(|note| note.record.title.clone()),
        Kind::Handout => book.handouts.get(id).map(|handout| handout.record.title.clone()),
    };
    found.unwrap_or_else(|| id.to_owned())
}

/// The view of one note.
#[must_use]
pub fn view(note: &Note, context: &Context<'_>) -> View {
    let notes = &context.book.notes_by_date;
    let place = |note: &Note| (note.record.date, note.id.clone());
    let at = notes.binary_search_by_key(&place(note), |other| place(other)).ok();
    let near = |index: Option<usize>| notes.get(index?).map(|note| Anchor::note(note, context));
    View {
        title: note.record.title.clone(),
        date: note.record.date.show(),
        about: about(note, context),
        text: note.text.markdown.clone(),
        file: note.origin.files().last().map_or_else(String::new, |file| file.name.clone()),
        earlier: near(at.and_then(|at| at.checked_sub(1))),
        later: near(at.map(|at| at + 1)),
        sheet: Sheet::of(&note.origin),
    }
}
