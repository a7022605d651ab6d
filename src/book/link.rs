//! Where a link in Markdown leads.

use crate::fault::{Fault, suggest};
use crate::record::table::{Query, Table};
use crate::record::{Kind, Link};

/// Where a link leads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Target {
    /// To a record.
    Record(Link),
    /// To a computed table.
    Table(Query),
    /// Out of the guide; never loaded, only followed by a reader.
    Outside(String),
}

impl Target {
    /// Reads a link's target as it stands in a file of the given name.
    ///
    /// # Errors
    ///
    /// A [`Fault`] without a place, where the target is none of the three.
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
        of_file(target, file).map(Self::Record).ok_or_else(|| nowhere(target))
    }
}

/// How a link to a record is written.
const EXAMPLE: &str = "write the kind and the id of a record, such as `wood:red-oak`";

fn nowhere(target: &str) -> Fault {
    let name = target.to_lowercase();
    if [".png", ".jpg", ".jpeg", ".gif", ".webp"].iter().any(|ending| name.ends_with(ending)) {
        let fault = Fault::new("link-to-nothing", format!("the picture `{target}` is not taken into the guide"));
        return fault.instead("take the link to it away");
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
