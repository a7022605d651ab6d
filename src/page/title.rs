//! What records are called.

use crate::{
    book::Book,
    record::{Kind, Link, tree::Tag},
};

/// What a record is called.
#[must_use]
pub fn of(link: &Link, book: &Book) -> String {
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

/// What a record is called where its name stands alone: common names begin with a capital, others stay as they were given.
#[must_use]
pub fn heading(link: &Link, book: &Book) -> String {
    let name = of(link, book);
    match link.kind {
        Kind::Mushroom | Kind::Wood | Kind::Method | Kind::Trouble | Kind::Term => capital(&name),
        _ => name,
    }
}

/// A word with a capital first letter.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().collect::<String>() + letters.as_str())
}
