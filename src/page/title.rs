//! What records are called.

use crate::book::Book;
use crate::record::tree::Tag;
use crate::record::{Kind, Link};

/// What a record is called.
pub fn of(link: &Link, book: &Book) -> String {
    let id = link.id.as_str();
    let found = match link.kind {
        Kind::Tree => book.tree(&Tag(id.to_owned())).map(|tree| format!("{id}, {}", tree.wood.name())),
        Kind::Batch => book.batches.get(id).map(|batch| {
            format!("{}, {}", batch.strain.record.name, batch.record.inoculated.show(book.farm.record.units))
        }),
        Kind::Caution => book.cautions.get(id).map(|caution| capital(&caution.record.hazard)),
        _ => book.names.get(link).cloned(),
    };
    found.unwrap_or_else(|| id.to_owned())
}

/// What a record is called where its name stands alone: common names begin with a capital, others stay as they were given.
pub fn heading(link: &Link, book: &Book) -> String {
    let name = of(link, book);
    match link.kind {
        Kind::Mushroom | Kind::Wood | Kind::Method | Kind::Trouble | Kind::Term => capital(&name),
        _ => name,
    }
}

/// A word with a capital first letter.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().collect::<String>() + letters.as_str())
}
