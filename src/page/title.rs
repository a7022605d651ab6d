//! What records are called.

use crate::book::Book;
use crate::quantity::capital;
use crate::record::tree::Tag;
use crate::record::{Kind, Link};

/// What a record is called.
pub fn of(link: &Link, book: &Book) -> String {
    let id = link.id.as_str();
    let found = match link.kind {
        Kind::Tree => book.tree(&Tag(id.to_owned())).map(|tree| format!("{id}, {}", tree.wood.name())),
        Kind::Batch => book.batches.get(id).map(|batch| batch.name.clone()),
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

/// A growing year in words: "2027", or "2026–27" where it runs over New Year.
pub fn year_words(year: i16, south: bool) -> String {
    if south { format!("{year}–{:02}", (year + 1).rem_euclid(100)) } else { year.to_string() }
}

/// A winter in words: that of two calendar years in the north, of one in the south.
pub fn of_winter(year: i16, book: &Book) -> String {
    let south = book.farm.record.place.latitude < 0.0;
    if south { format!("The winter of {year}") } else { format!("The winter of {year} to {}", year + 1) }
}

/// What the harvests or the sales of a growing year are called.
pub fn of_year(what: &str, year: i16, book: &Book) -> String {
    format!("{what} of {}", year_words(year, book.farm.record.place.latitude < 0.0))
}
