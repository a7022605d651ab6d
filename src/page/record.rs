//! A record that is too long for the page that it stands behind, on a page of its own.

use serde::Serialize;

use super::{
    Context,
    part::{
        Anchor,
        sheet::{self, Sheet},
    },
};
use crate::{
    book::{Book, Origin},
    record::{Kind, Link},
};

/// A record.
#[derive(Debug, Serialize)]
pub struct View {
    of: Anchor,
    sheet: Sheet,
}

/// The kinds of which a record may be long, each with its records.
fn records(book: &Book) -> Vec<(Kind, &str, &Origin)> {
    let mut records: Vec<(Kind, &str, &Origin)> = Vec::new();
    records.extend(book.mushrooms.values().map(|found| (Kind::Mushroom, found.id.as_str(), &found.origin)));
    records.extend(book.woods.values().map(|found| (Kind::Wood, found.id.as_str(), &found.origin)));
    records.extend(book.strains.values().map(|found| (Kind::Strain, found.id.as_str(), &found.origin)));
    records.extend(book.methods.values().map(|found| (Kind::Method, found.id.as_str(), &found.origin)));
    records
}

/// The records that have a page of their own.
#[must_use]
pub fn long(book: &Book) -> Vec<(Kind, String)> {
    let long = records(book).into_iter().filter(|(.., origin)| sheet::is_long(origin));
    long.map(|(kind, id, _)| (kind, id.to_owned())).collect()
}

/// The view of a record; `None` where there is none.
#[must_use]
pub fn view(kind: Kind, id: &str, context: &Context<'_>) -> Option<View> {
    let (.., origin) = records(context.book).into_iter().find(|(of, name, _)| *of == kind && *name == id)?;
    let link = Link { kind, id: id.to_owned() };
    Some(View {
        of: Anchor { href: context.route.link(&link), text: super::note::title(&link, context.book) },
        sheet: Sheet::of(origin),
    })
}
