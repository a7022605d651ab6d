//! The record behind a page.

use serde::Serialize;

use crate::book::{Book, Origin, Writer};
use crate::page::{Context, Page};
use crate::record::{Kind, Link};

/// Bytes of a record from which it has a page of its own, so that a phone need not load it with every page.
const LONG: usize = 12_000;

/// The files behind a page, each with its text.
#[derive(Debug, Clone, Serialize)]
pub struct Sheet {
    /// Who wrote the record.
    pub writer: &'static str,
    /// Whether this farm had a hand in it.
    pub own: bool,
    /// The files, the handbook's first.
    pub files: Vec<Leaf>,
    /// The page on which they stand, where they are too long for this one.
    pub page: Option<String>,
}

/// A file behind a page.
#[derive(Debug, Clone, Serialize)]
pub struct Leaf {
    /// Its name.
    pub name: String,
    /// Its text.
    pub text: String,
}

impl Sheet {
    /// The record behind a page.
    pub fn of(origin: &Origin) -> Self {
        let files = origin.files().map(|file| Leaf { name: file.name.clone(), text: file.text.clone() }).collect();
        Self { writer: origin.writer.words(), own: origin.writer != Writer::Handbook, files, page: None }
    }

    /// The record behind a page, or where it stands if it is long.
    pub fn behind(kind: Kind, id: &str, origin: &Origin, context: &Context<'_>) -> Self {
        let sheet = Self::of(origin);
        if is_long(origin) {
            let page = context.route.to(&Page::Record(Link::to(kind, id)));
            return Self { files: Vec::new(), page: Some(page), ..sheet };
        }
        sheet
    }
}

/// Whether a record has a page of its own.
fn is_long(origin: &Origin) -> bool {
    origin.files().map(|file| file.text.len()).sum::<usize>() > LONG
}

/// The records that may be long, each with its origin.
pub fn records(book: &Book) -> Vec<(Link, &Origin)> {
    let mut records: Vec<(Link, &Origin)> = Vec::new();
    records.extend(book.mushrooms.values().map(|found| (Link::to(Kind::Mushroom, &found.id), &found.origin)));
    records.extend(book.woods.values().map(|found| (Link::to(Kind::Wood, &found.id), &found.origin)));
    records.extend(book.strains.values().map(|found| (Link::to(Kind::Strain, &found.id), &found.origin)));
    records.extend(book.methods.values().map(|found| (Link::to(Kind::Method, &found.id), &found.origin)));
    records
}

/// The records that have a page of their own.
pub fn long(book: &Book) -> Vec<Link> {
    records(book).into_iter().filter(|(_, origin)| is_long(origin)).map(|(link, _)| link).collect()
}
