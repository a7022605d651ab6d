//! A link in Markdown that leads to nothing.

use std::sync::Arc;

use pulldown_cmark::{Event, Options, Parser, Tag};

use super::{Ids, names};
use crate::{
    book::{lay::Laid, link::Target},
    fault::{Fault, File, Place},
    read::{Node, node::Tree},
    record::{Kind, table::Query},
};

/// Checks the links in a note's text and in every text of a record.
#[must_use]
pub fn check(laid: &Laid, ids: &Ids) -> Vec<Fault> {
    let mut faults = Vec::new();
    if let (Some(text), Some(file)) = (&laid.text, laid.origin.files().last()) {
        for (target, offset) in targets(&text.markdown) {
            let place = || Place::of_offset(Arc::clone(file), text.offset + offset);
            faults.extend(wrong(&target, &file.name, ids).map(|fault| fault.at(place())));
        }
    }
    in_texts(&laid.node, ids, &mut faults);
    faults
}

fn in_texts(node: &Node, ids: &Ids, faults: &mut Vec<Fault>) {
    match &node.value {
        Tree::Text(text) if text.contains("](") => {
            for (target, _) in targets(text) {
                let place = || find(&node.place, &target);
                faults.extend(wrong(&target, &node.place.file.name, ids).map(|fault| fault.at(place())));
            }
        }
        Tree::List(items) => items.iter().for_each(|item| in_texts(item, ids, faults)),
        Tree::Map(entries) => entries.iter().for_each(|(_, value)| in_texts(value, ids, faults)),
        Tree::Text(_) | Tree::Null | Tree::Bool(_) | Tree::Number(_) => {}
    }
}

/// The targets of all links and pictures, each with the byte at which it stands.
fn targets(markdown: &str) -> Vec<(String, usize)> {
    Parser::new_ext(markdown, Options::ENABLE_TABLES)
        .into_offset_iter()
        .filter_map(|(event, range)| match event {
            Event::Start(Tag::Link { dest_url, .. } | Tag::Image { dest_url, .. }) => {
                let text = markdown.get(range.clone()).unwrap_or("");
                let offset = text.find(dest_url.as_ref()).unwrap_or(0);
                Some((dest_url.into_string(), range.start + offset))
            }
            _ => None,
        })
        .collect()
}

/// Where a target stands in the file, at or after the place of the text that holds it.
fn find(place: &Place, target: &str) -> Place {
    let file: &Arc<File> = &place.file;
    let start: usize = file.text.split_inclusive('\n').take(place.line - 1).map(str::len).sum();
    file.text.get(start..).and_then(|rest| rest.find(target)).map_or_else(
        || place.clone(),
        |offset| Place::of_offset(Arc::clone(file), start + offset),
    )
}

fn wrong(target: &str, file: &str, ids: &Ids) -> Option<Fault> {
    match Target::read(target, file) {
        Err(fault) => Some(fault),
        Ok(Target::Record(link)) => names::unknown(link.kind, &link.id, ids),
        Ok(Target::Table(query)) => unknown_filter(&query, ids),
        Ok(Target::Outside(_)) => None,
    }
}

fn unknown_filter(query: &Query, ids: &Ids) -> Option<Fault> {
    query.filters.iter().find_map(|(column, value)| {
        let kind = Kind::of_word(column).filter(|kind| matches!(kind, Kind::Mushroom | Kind::Wood))?;
        names::unknown(kind, value, ids)
    })
}
