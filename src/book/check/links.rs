//! A link in Markdown that leads to nothing.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::sync::Arc;

use pulldown_cmark::{Event, LinkType, Tag, TagEnd};

use super::{Ids, names, photo};
use crate::book::lay::Laid;
use crate::book::link::Target;
use crate::fault::{Fault, File, Place, suggest};
use crate::read::Node;
use crate::read::markdown::events;
use crate::read::picture::PHOTOS;
use crate::record::Kind;
use crate::record::table::{Query, Table};

/// Checks the links in a note's text and in every text of a record.
pub(super) fn check(laid: &Laid, ids: &Ids<'_>, photos: &BTreeSet<&str>) -> Vec<Fault> {
    let mut faults = Vec::new();
    if let (Some(text), Some(file)) = (&laid.text, laid.origin.files().last()) {
        for offset in not_links(&text.markdown) {
            faults.push(not_a_link().at(Place::of_offset(Arc::clone(file), text.offset + offset)));
        }
        for (target, offset) in targets(&text.markdown) {
            let place = || Place::of_offset(Arc::clone(file), text.offset + offset);
            faults.extend(wrong(&target, &file.name, ids, photos).map(|fault| fault.at(place())));
        }
        for offset in wordless(&text.markdown) {
            faults.push(photo::without_words().at(Place::of_offset(Arc::clone(file), text.offset + offset)));
        }
    }
    laid.node.texts("", &mut |_, text, node| {
        if text.contains(['[', '<']) {
            in_text(text, node, ids, photos, &mut faults);
        }
    });
    faults
}

fn in_text(text: &str, node: &Node, ids: &Ids<'_>, photos: &BTreeSet<&str>, faults: &mut Vec<Fault>) {
    let mut from = Some(node.place.file.start(node.place.line));
    if !not_links(text).is_empty() {
        faults.push(not_a_link().at(node.place.clone()));
    }
    if !wordless(text).is_empty() {
        faults.push(photo::without_words().at(node.place.clone()));
    }
    for (target, _) in targets(text) {
        let (place, next) = find(&node.place, text, &target, from);
        from = next;
        faults.extend(wrong(&target, &node.place.file.name, ids, photos).map(|fault| fault.at(place)));
    }
}

/// The targets of all links and pictures, each with the byte at which it stands; that of a link by reference stands
/// where the reference is defined.
fn targets(markdown: &str) -> Vec<(String, usize)> {
    let events = events(markdown).into_offset_iter();
    let mut defined: BTreeMap<String, usize> = BTreeMap::new();
    for (_, definition) in events.reference_definitions().iter() {
        let text = markdown.get(definition.span.clone()).unwrap_or("");
        let at = definition.span.start + text.rfind(definition.dest.as_ref()).unwrap_or(0);
        let first = defined.entry(definition.dest.to_string()).or_insert(at);
        *first = at.min(*first);
    }
    let target = |(event, range): (Event<'_>, Range<usize>)| match event {
        Event::Start(Tag::Link { link_type: LinkType::Email, .. }) => None,
        Event::Start(Tag::Link { dest_url, .. } | Tag::Image { dest_url, .. }) => {
            let text = markdown.get(range.clone()).unwrap_or("");
            let offset = text.rfind(dest_url.as_ref()).map(|offset| range.start + offset);
            let offset = offset.or_else(|| defined.get(dest_url.as_ref()).copied());
            Some((dest_url.into_string(), offset.unwrap_or(range.start)))
        }
        _ => None,
    };
    events.filter_map(target).collect()
}

/// Where a picture stands without words.
fn wordless(markdown: &str) -> Vec<usize> {
    let mut open: Option<(usize, bool)> = None;
    let mut found = Vec::new();
    for (event, range) in events(markdown).into_offset_iter() {
        match event {
            Event::Start(Tag::Image { .. }) => open = Some((range.start, false)),
            Event::Text(text) | Event::Code(text) if !text.trim().is_empty() => {
                open = open.map(|(start, _)| (start, true));
            }
            Event::End(TagEnd::Image) => found.extend(open.take().filter(|(_, told)| !told).map(|(start, _)| start)),
            _ => {}
        }
    }
    found
}

/// Where text looks like a link and is none, since there is a space in its target.
fn not_links(markdown: &str) -> Vec<usize> {
    let mut covered: Vec<Range<usize>> = Vec::new();
    for (event, range) in events(markdown).into_offset_iter() {
        let start = matches!(event, Event::Start(Tag::Link { .. } | Tag::Image { .. } | Tag::CodeBlock(_)));
        let plain = matches!(event, Event::Code(_) | Event::Html(_) | Event::InlineHtml(_));
        // What stands inside a link is covered by it already.
        if (start || plain) && covered.last().is_none_or(|last| last.end < range.end) {
            covered.push(range);
        }
    }
    let is_covered = |offset: &usize| {
        let before = covered.partition_point(|range| range.start <= *offset);
        before.checked_sub(1).is_some_and(|last| covered[last].contains(offset))
    };
    let meant = markdown.match_indices("](").filter(|(offset, _)| !markdown[..*offset].ends_with('\\'));
    let meant = meant.map(|(offset, _)| offset + "](".len());
    meant.filter(|offset| !is_covered(offset)).collect()
}

fn not_a_link() -> Fault {
    Fault::new("not-a-link", "this looks like a link, but cannot be read as one")
        .instead("write the target without spaces, such as `(wood:red-oak)`, and close the bracket on the same line")
}

/// Where a target of a text stands in the file after a byte, and the byte behind it; nothing more is found in a text once a
/// target is written in another way than it reads.
fn find(place: &Place, text: &str, target: &str, from: Option<usize>) -> (Place, Option<usize>) {
    let file: &Arc<File> = &place.file;
    // Escapes and indents make a text longer in its file, but not without bound.
    let within = |from: usize| {
        let rest = &file.text[from..];
        let end = (8 * text.len() + 1000..rest.len()).find(|end| rest.is_char_boundary(*end));
        rest[..end.unwrap_or(rest.len())].find(target).map(|offset| from + offset)
    };
    match from.and_then(within) {
        Some(offset) => (Place::of_offset(Arc::clone(file), offset), Some(offset + target.len())),
        None => (place.clone(), None),
    }
}

fn wrong(target: &str, file: &str, ids: &Ids<'_>, photos: &BTreeSet<&str>) -> Option<Fault> {
    match Target::read(target, file) {
        Err(fault) => Some(fault),
        Ok(Target::Record(link)) => names::unknown_link(&link, ids),
        Ok(Target::Table(query)) => unknown_filter(&query, ids),
        Ok(Target::Picture(path)) => photo::missing(path.strip_prefix(PHOTOS)?, photos),
        Ok(Target::Outside(_)) => None,
    }
}

fn unknown_filter(query: &Query, ids: &Ids<'_>) -> Option<Fault> {
    query.filters.iter().find_map(|(column, value)| match Kind::of_word(column) {
        Some(kind) => names::unknown(kind, value, ids),
        None => outside_list(column, value),
    })
}

/// A value that no row of a column can have.
fn outside_list(column: &str, value: &str) -> Option<Fault> {
    let words = Table::values(column);
    if words.contains(&value) {
        return None;
    }
    let fault = Fault::new("unknown-word", format!("`{value}` is no {column} in this table"));
    let known = || words.iter().copied();
    Some(fault.instead(suggest::instead_of(value, known(), || format!("write {}", suggest::either(known())))))
}
