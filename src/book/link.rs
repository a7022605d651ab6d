//! Where a link in Markdown leads.

use crate::fault::{Fault, suggest};
use crate::read::picture::{self, PHOTOS};
use crate::record::table::{Query, Table};
use crate::record::{Kind, Link};

/// Where a link leads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Target {
    /// To a record.
    Record(Link),
    /// To a computed table.
    Table(Query),
    /// To a photograph, by its path inside the farm.
    Picture(String),
    /// Out of the guide; never loaded, only followed by a reader.
    Outside(String),
}

impl Target {
    /// Reads a link's target as it stands in a file of the given name.
    ///
    /// # Errors
    ///
    /// A [`Fault`] without a place, where the target is none of these.
    pub fn read(target: &str, file: &str) -> Result<Self, Fault> {
        if let Some(query) = target.strip_prefix("table:") {
            return read_query(query).map(Self::Table);
        }
        if let Some(link) = Link::read(target) {
            return Ok(Self::Record(link));
        }
        if ["https://", "http://", "mailto:", "tel:"].iter().any(|scheme| target.to_lowercase().starts_with(scheme)) {
            return Ok(Self::Outside(target.to_owned()));
        }
        if let Some(path) = of_picture(target) {
            return Ok(Self::Picture(path));
        }
        of_file(target, file).map(Self::Record).ok_or_else(|| nowhere(target))
    }
}

/// How a link to a record is written.
const EXAMPLE: &str = "write the kind and the id of a record, such as `wood:red-oak`";

fn nowhere(target: &str) -> Fault {
    if picture::has_ending(target) || target.to_lowercase().ends_with(".gif") {
        let fault = Fault::new("link-to-nothing", format!("the picture `{target}` is not taken into the guide"));
        return fault.instead("put it as JPEG, PNG or WebP into the folder `photos`, and write `../photos/NAME.jpg`");
    }
    let fault = Fault::new("link-to-nothing", format!("the link `{target}` leads to no record and no table"));
    let Some((word, _)) = target.split_once(':') else { return fault.instead(EXAMPLE) };
    fault.instead(match suggest::closest(word, Kind::ALL.map(Kind::word)) {
        Some(meant) => format!("write `{}`, if that is meant", target.replacen(word, meant, 1)),
        None => format!("{EXAMPLE}; the kinds are {}", suggest::either(Kind::ALL.map(Kind::word))),
    })
}

fn read_query(query: &str) -> Result<Query, Fault> {
    let (name, filters) = query.split_once('?').unwrap_or((query, ""));
    let table = Table::of_word(name).ok_or_else(|| {
        let fault = Fault::new("unknown-table", format!("there is no table `{name}`"));
        fault.instead(match suggest::closest(name, Table::WORDS.iter().copied()) {
            Some(meant) => format!("write `table:{meant}`, if that is meant"),
            None => format!("the tables are {}", suggest::either(Table::WORDS.iter().copied())),
        })
    })?;
    let mut picked = Vec::new();
    for part in filters.split('&').filter(|part| !part.is_empty()) {
        let (column, value) = part.split_once('=').unwrap_or((part, ""));
        if !table.filters().contains(&column) {
            let fault =
                Fault::new("unknown-column", format!("rows of the table {name} cannot be picked by `{column}`"));
            return Err(fault.instead(match table.filters().as_slice() {
                [] => "take the part from the question mark away".to_owned(),
                columns => format!("pick by {}", suggest::either(columns.iter().copied())),
            }));
        }
        picked.push((column.to_owned(), value.to_owned()));
    }
    Ok(Query { table, filters: picked })
}

/// The path of a photograph inside the farm, named relative to a file one folder deep or at the top.
fn of_picture(target: &str) -> Option<String> {
    let path = decoded(target.trim_start_matches("./").trim_start_matches("../"));
    (path.starts_with(PHOTOS) && picture::is_picture(&path)).then_some(path)
}

/// A target without the escapes in which editors write blanks and letters of other scripts.
fn decoded(target: &str) -> String {
    let mut bytes = Vec::with_capacity(target.len());
    let mut rest = target;
    while let Some((before, after)) = rest.split_once('%') {
        bytes.extend(before.bytes());
        let byte = after.get(..2).and_then(|digits| u8::from_str_radix(digits, 16).ok());
        bytes.push(byte.unwrap_or(b'%'));
        rest = if byte.is_some() { &after[2..] } else { after };
    }
    bytes.extend(rest.bytes());
    String::from_utf8(bytes).unwrap_or_else(|_| target.to_owned())
}

/// The record in a file, named relative to another file of the same farm.
fn of_file(target: &str, file: &str) -> Option<Link> {
    let target = target.split('#').next().unwrap_or(target);
    let mut parts: Vec<&str> = file.trim_start_matches("handbook/").split('/').collect();
    parts.pop();
    for step in target.split('/') {
        match step {
            "." | "" => {}
            ".." => {
                parts.pop()?;
            }
            step => parts.push(step),
        }
    }
    let kind = Kind::of_path(&parts.join("/")).filter(|kind| kind.layout().is_file_a_record())?;
    let (stem, _) = parts.last()?.rsplit_once('.')?;
    Some(Link::to(kind, stem))
}
