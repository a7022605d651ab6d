//! Parses YAML into nodes that know their places.

use std::collections::BTreeMap;
use std::sync::Arc;
use std::{fmt, iter};

use serde::de::{MapAccess, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer};
use serde_json::Number;
use serde_yaml::options::{DuplicateKeyPolicy, NonFiniteFloatPolicy};
use serde_yaml::{Location, Spanned};

use super::node::{Key, Node, Tree, number};
use crate::fault::{Fault, File, Place};
use crate::record::schema;

/// Parses the YAML of a file, or of a part of it that begins at a line.
///
/// A repeated key is a fault, and the first one counts, so that the rest of the file is still checked.
///
/// # Errors
///
/// The fault at which the parser had to stop: broken YAML, an empty file, or more than any record needs.
pub fn parse(file: &Arc<File>, text: &str, first_line: usize, faults: &mut Vec<Fault>) -> Result<Node, Fault> {
    let whole = Place { file: Arc::clone(file), line: first_line, column: 1 };
    if text.trim().is_empty() || text.lines().all(|line| line.trim().is_empty() || line.trim_start().starts_with('#')) {
        return Err(empty(file).at(whole));
    }
    let options = serde_yaml::options! {
        duplicate_keys: DuplicateKeyPolicy::PassThrough,
        strict_booleans: true,
        non_finite_float_policy: NonFiniteFloatPolicy::AsString,
        budget: serde_yaml::budget! { max_depth: 40, max_aliases: 200, max_nodes: 5_000_000, max_events: 10_000_000, flow_nesting_limit: 40 },
        alias_limits: serde_yaml::alias_limits! { max_total_replayed_events: 20_000 },
    };
    let read: Spanned<Raw> = serde_yaml::from_str_with_options(text, options).map_err(|error| {
        let location = error.location().unwrap_or(Location::UNKNOWN);
        let place = Places { file, first_line }.of(&location);
        unreadable(&error.without_snippet().to_string(), place)
    })?;
    let node = Places { file, first_line }.node(read, faults);
    if matches!(node.value, Tree::Null) {
        return Err(empty(file).at(whole));
    }
    Ok(node)
}

fn empty(file: &File) -> Fault {
    let fault = Fault::new("empty-file", "there is no record in this file");
    match file.name.as_str() {
        "farm.yaml" => {
            fault.instead("write the farm's `name:`, its `place:` (latitude and longitude) and the `season:`")
        }
        _ => fault.instead("write the record, or take the file away"),
    }
}

/// What stopped the parser, in a grower's words.
fn unreadable(message: &str, place: Place) -> Fault {
    let first = message.lines().next().unwrap_or(message);
    let about = first.split(" at line ").next().unwrap_or(first);
    let fault = |rule, wrong: String, instead: &str| Fault::new(rule, wrong).instead(instead).at(place.clone());
    let says = |words: &[&str]| words.iter().any(|word| message.contains(word));
    if says(&["exceeded", "breached", "budget"]) {
        let instead = "write the values out instead of pointing to them with `*`, and nest them less deeply";
        return fault("too-much", "the file unfolds into more than any record needs".to_owned(), instead);
    }
    if says(&["multiple YAML documents"]) {
        let instead = "a file holds one record; put the second into a file of its own";
        let found = fault("not-yaml", "a second record begins here".to_owned(), instead);
        return found.at(Place { line: second_record(&place), column: 1, ..place });
    }
    if says(&["anchor", "alias"]) {
        let instead = "put the text in quotes, since it begins with `*` or `&`";
        return fault("not-yaml", "this is read as a pointer to another value".to_owned(), instead);
    }
    if says(&["tabs"]) {
        let found = fault("not-yaml", "a tab stands here".to_owned(), "write spaces instead of a tab");
        let column = place.file.line(place.line).find('\t').map_or(place.column, |bytes| bytes + 1);
        return found.at(Place { column, ..place });
    }
    if says(&["block mapping", "expected key", "block collection", "indentation"]) {
        let instead =
            "begin the keys of one group in the same column, and look at the line above for an open quote or bracket";
        return fault("not-yaml", "this line begins further in or out than it should".to_owned(), instead);
    }
    if says(&["simple key expected", "mapping values are not allowed"])
        && let Some(bare) = without_colon(&place)
    {
        let found = fault("not-yaml", bare.wrong, "");
        return found.instead(bare.instead).at(Place { line: bare.line, column: bare.column, ..place });
    }
    let about = if says(&["deserialize"]) { String::new() } else { format!(" ({about})") };
    let instead = "look in this line, or just above it, for a missing space after a colon, an open bracket or quote, an empty \
                   key, or text that needs quotes; more may follow below it";
    fault("not-yaml", format!("this is not readable as YAML{about}"), instead)
}

/// A key without a colon, or without the space that follows it.
struct Bare {
    line: usize,
    column: usize,
    wrong: String,
    instead: String,
}

/// The key that lacks its colon, in the line of a place or just above it.
fn without_colon(place: &Place) -> Option<Bare> {
    let lines = [place.line, place.line.saturating_sub(1)];
    let mut keys = lines.into_iter().filter(|line| *line > 0 && !goes_on(&place.file, *line));
    keys.find_map(|line| bare(place.file.line(line), line))
}

/// Whether a line goes on with the text of the line above it.
fn goes_on(file: &File, line: usize) -> bool {
    let indent = |text: &str| text.len() - text.trim_start().len();
    let (above, text) = (file.line(line.saturating_sub(1)), file.line(line));
    let begins = above.trim_end().ends_with(':') || (indent(above) >= indent(text) && above.contains(':'));
    indent(text) > 0 && !begins
}

fn bare(text: &str, line: usize) -> Option<Bare> {
    let inner = text.trim_start().trim_start_matches("- ");
    let column = text.chars().count() - inner.chars().count() + 1;
    let parted = inner.contains(": ") || inner.trim_end().ends_with(':');
    let end = inner.find(|c: char| !(c.is_ascii_lowercase() || c == '_')).unwrap_or(inner.len());
    let (key, rest) = inner.split_at(end);
    if parted || !schema::keys().contains(key) {
        return None;
    }
    let (mark, value) = match rest.strip_prefix(':') {
        Some(value) => ("space stands after the colon of", value),
        None if rest.trim_start().len() == rest.len() && !rest.is_empty() => return None,
        None => ("colon stands after", rest),
    };
    let value = value.trim();
    let instead = if value.is_empty() { format!("write `{key}:`") } else { format!("write `{key}: {value}`") };
    Some(Bare { line, column, wrong: format!("no {mark} `{key}`"), instead })
}

/// The line of dashes that begins a second record.
fn second_record(place: &Place) -> usize {
    let lines = place.file.text.lines().enumerate().take(place.line);
    lines.filter(|(_, line)| line.starts_with("---")).last().map_or(place.line, |(index, _)| index + 1)
}

struct Places<'a> {
    file: &'a Arc<File>,
    first_line: usize,
}

impl Places<'_> {
    fn of(&self, location: &Location) -> Place {
        let line = usize::try_from(location.line()).unwrap_or(1).max(1);
        let column = usize::try_from(location.column()).unwrap_or(1).max(1);
        Place { file: Arc::clone(self.file), line: self.first_line + line - 1, column }
    }

    fn node(&self, read: Spanned<Raw>, faults: &mut Vec<Fault>) -> Node {
        let place = self.of(&read.referenced);
        let value = match read.value {
            Raw::Null => Tree::Null,
            Raw::Bool(value) => Tree::Bool(value),
            Raw::Number(value) => Tree::Number(value),
            Raw::Text(value) => Tree::Text(value),
            Raw::List(items) => Tree::List(items.into_iter().map(|item| self.node(item, faults)).collect()),
            Raw::Map(entries) => Tree::Map(self.entries(entries, faults)),
        };
        Node { value, place }
    }

    fn entries(&self, read: Vec<(Spanned<String>, Spanned<Raw>)>, faults: &mut Vec<Fault>) -> Vec<(Key, Node)> {
        let mut entries: Vec<(Key, Node)> = Vec::with_capacity(read.len());
        let mut lines: BTreeMap<String, usize> = BTreeMap::new();
        for (key, value) in read {
            let key = Key { text: key.value.clone(), place: self.of(&key.referenced) };
            let node = self.node(value, faults);
            if let Some(earlier) = lines.get(&key.text) {
                let wrong = format!("`{}` is written twice, first in line {earlier}", key.text);
                faults.push(Fault::new("key-twice", wrong).instead("keep one of the two").at(key.place));
            } else {
                lines.insert(key.text.clone(), key.place.line);
                entries.push((key, node));
            }
        }
        entries
    }
}

/// A value as the parser hands it over.
enum Raw {
    Null,
    Bool(bool),
    Number(Number),
    Text(String),
    List(Vec<Spanned<Raw>>),
    Map(Vec<(Spanned<String>, Spanned<Raw>)>),
}

impl<'de> Deserialize<'de> for Raw {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(RawVisitor)
    }
}

struct RawVisitor;

impl<'de> Visitor<'de> for RawVisitor {
    type Value = Raw;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }

    fn visit_unit<E>(self) -> Result<Raw, E> {
        Ok(Raw::Null)
    }

    fn visit_bool<E>(self, value: bool) -> Result<Raw, E> {
        Ok(Raw::Bool(value))
    }

    fn visit_i64<E>(self, value: i64) -> Result<Raw, E> {
        Ok(Raw::Number(value.into()))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Raw, E> {
        Ok(Raw::Number(value.into()))
    }

    fn visit_f64<E>(self, value: f64) -> Result<Raw, E> {
        Ok(number(value).map_or(Raw::Null, Raw::Number))
    }

    fn visit_str<E>(self, value: &str) -> Result<Raw, E> {
        Ok(Raw::Text(value.to_owned()))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Raw, A::Error> {
        iter::from_fn(|| items.next_element().transpose()).collect::<Result<_, _>>().map(Raw::List)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Raw, A::Error> {
        iter::from_fn(|| entries.next_entry().transpose()).collect::<Result<_, _>>().map(Raw::Map)
    }
}
