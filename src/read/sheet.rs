//! Reads a sheet of a spreadsheet (CSV): a head row of keys, and a row a record.
//!
//! A head is forgiving of case, of spaces, and of a unit in brackets, which then stands for every bare number below it:
//! `DBH (in)` is the key `dbh`, and `7.5` under it is `7.5 in`; under `Date (month first)`, `3/4/27` is `2027-03-04`.

use std::collections::BTreeSet;
use std::sync::Arc;

use csv::{ReaderBuilder, StringRecord};
use serde_json::Value;

use super::node::{Key, Node, Tree, number};
use crate::fault::{Fault, File, Place};
use crate::quantity::date::First;
use crate::quantity::{Date, symbols};
use crate::record::{Kind, schema};

/// Marks that part cells: the comma, or what a spreadsheet writes where the comma parts decimals.
const PARTINGS: [char; 3] = [';', '\t', ','];

/// Reads a sheet into a list of records.
///
/// # Errors
///
/// The fault at which reading had to stop: no head row, a column that every record needs and that is not there, or text
/// that is no sheet.
pub fn parse(kind: Kind, file: &Arc<File>, faults: &mut Vec<Fault>) -> Result<Node, Fault> {
    let head_line = file.text.lines().find(|line| !line.trim().is_empty()).unwrap_or("");
    let parting = PARTINGS.into_iter().find(|mark| head_line.contains(*mark)).unwrap_or(',');
    let mut reader = ReaderBuilder::new()
        .delimiter(parting as u8)
        .has_headers(false)
        .flexible(true)
        .from_reader(file.text.as_bytes());
    let schema = schema::of(kind);
    if let Some(place) = open_quote(file, parting) {
        return Err(Fault::new("not-a-sheet", "a quote is opened here and never closed")
            .instead("close it at the end of the cell, or take it away")
            .at(place));
    }
    let mut columns: Option<Vec<Column>> = None;
    let mut rows = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|error| unreadable(&error).at(Place::start(Arc::clone(file))))?;
        let from = record.position().map_or(0, |position| position.byte() as usize);
        let cells = Cells { file, starts: starts(file, from, parting), record };
        if cells.record.iter().all(|cell| cell.trim().is_empty()) {
            continue;
        }
        match &columns {
            None => columns = Some(head(kind, &schema, &cells, faults)?),
            Some(columns) => rows.push(row(kind, columns, &cells, parting, faults)),
        }
    }
    let place = Place::start(Arc::clone(file));
    if columns.is_none() {
        return Err(Fault::new("empty-file", "there is no head row in this sheet")
            .instead("write the names of the columns into the first row")
            .at(place));
    }
    Ok(Node { value: Tree::List(rows), place })
}

/// Where a quote opens that is not closed where its cell ends, so that it swallows the lines below it.
///
/// Cells may hold line breaks; such a cell is well closed where a mark between cells, a line's end or the sheet's follows.
fn open_quote(file: &Arc<File>, parting: char) -> Option<Place> {
    let mut letters = file.text.char_indices().peekable();
    let mut cell_begins = true;
    while let Some((at, c)) = letters.next() {
        if !(cell_begins && c == '"') {
            cell_begins = c == parting || c == '\n' || c == '\r';
            continue;
        }
        let (mut closed, mut broad) = (false, false);
        while let Some((_, c)) = letters.next() {
            broad |= c == '\n';
            if c == '"' && letters.next_if(|(_, next)| *next == '"').is_none() {
                closed = true;
                break;
            }
        }
        let ends = letters.peek().is_none_or(|(_, next)| *next == parting || *next == '\n' || *next == '\r');
        if !closed || (broad && !ends) {
            return Some(Place::of_offset(Arc::clone(file), at));
        }
        cell_begins = false;
    }
    None
}

fn unreadable(error: &csv::Error) -> Fault {
    Fault::new("not-a-sheet", format!("this is not readable as a sheet ({error})"))
        .instead("save it again as CSV in UTF-8")
}

/// The cells of one row and where each begins.
struct Cells<'a> {
    file: &'a Arc<File>,
    record: StringRecord,
    starts: Vec<(usize, usize)>,
}

impl Cells<'_> {
    fn place(&self, index: usize) -> Place {
        let (line, column) = self.starts.get(index).or(self.starts.last()).copied().unwrap_or((1, 1));
        Place { file: Arc::clone(self.file), line, column }
    }
}

/// The line and the column at which each cell of the row after a byte begins.
fn starts(file: &Arc<File>, from: usize, parting: char) -> Vec<(usize, usize)> {
    let rest = file.text.get(from..).unwrap_or("");
    let row = rest.trim_start_matches(['\r', '\n']);
    let Place { mut line, mut column, .. } = Place::of_offset(Arc::clone(file), from + rest.len() - row.len());
    let mut starts = vec![(line, column)];
    let mut quoted = false;
    for c in row.chars() {
        column += 1;
        match c {
            '"' => quoted = !quoted,
            '\n' if !quoted => break,
            '\n' => (line, column) = (line + 1, 1),
            c if c == parting && !quoted => starts.push((line, column)),
            _ => {}
        }
    }
    starts
}

/// A column: its key, the unit of its bare numbers, and what the schema says of its values.
struct Column {
    key: Key,
    again: bool,
    unit: Option<String>,
    property: Value,
    /// Whether the records of the sheet have a key for several batches.
    takes_several: bool,
}

fn head(kind: Kind, schema: &Value, cells: &Cells<'_>, faults: &mut Vec<Fault>) -> Result<Vec<Column>, Fault> {
    let mut columns = Vec::new();
    let mut known = BTreeSet::new();
    for (index, cell) in cells.record.iter().enumerate() {
        let (name, unit) = parts(cell);
        let place = cells.place(index);
        let again = !name.is_empty() && !known.insert(name.clone());
        if again {
            let fault = Fault::new("key-twice", format!("two columns are called `{name}`"));
            faults.push(fault.instead("keep one of the two").at(place.clone()));
        }
        let property = schema["properties"].get(&name).cloned().unwrap_or(Value::Null);
        let target = property["$ref"].as_str().and_then(|target| schema.pointer(target.trim_start_matches('#')));
        let property = target.cloned().unwrap_or(property);
        let unit = unit.map(|unit| spelt(&unit, &property));
        let takes_several = schema["properties"].get("batches").is_some();
        columns.push(Column { key: Key { text: name, place }, again, unit, property, takes_several });
    }
    let required = schema["required"].as_array().into_iter().flatten().filter_map(Value::as_str);
    match required.filter(|key| !known.contains(*key)).collect::<Vec<_>>().as_slice() {
        [] => Ok(columns),
        missing => {
            let found: Vec<&str> = known.iter().map(String::as_str).filter(|name| !name.is_empty()).collect();
            let names = missing.join("`, `");
            let fault =
                Fault::new("missing-key", format!("this sheet of {} records has no column `{names}`", kind.word()));
            let instead =
                format!("the heads here are `{}`; call the right one `{names}`, or add it", found.join("`, `"));
            Err(fault.instead(instead).at(cells.place(0)))
        }
    }
}

/// A unit in the spelling that records use, where it differs in the case of its letters alone.
fn spelt(unit: &str, property: &Value) -> String {
    let symbols = property["format"].as_str().map_or(&[][..], symbols);
    let same = symbols.iter().find(|symbol| symbol.eq_ignore_ascii_case(unit));
    same.map_or_else(|| unit.to_owned(), |symbol| (*symbol).to_owned())
}

/// The key that a head stands for.
///
/// ```
/// assert_eq!(hostwood::read::sheet::key("Logs cut (each)"), "logs_cut");
/// ```
pub fn key(head: &str) -> String {
    parts(head).0
}

/// The key and the unit of a head such as `DBH (in)`.
fn parts(cell: &str) -> (String, Option<String>) {
    let (name, rest) = cell.split_once(['(', '[']).unwrap_or((cell, ""));
    let unit = rest.trim_end().trim_end_matches([')', ']']).trim();
    let name: Vec<String> =
        name.split([' ', '-', '_']).filter(|word| !word.is_empty()).map(str::to_lowercase).collect();
    (name.join("_"), (!unit.is_empty()).then(|| unit.to_owned()))
}

/// What was done or happened, and the trouble that was seen where the day book names it behind a colon.
fn seen<'a>(column: &Column, cell: &'a str) -> (&'a str, Option<&'a str>) {
    match cell.split_once(':').filter(|_| column.key.text == "what") {
        Some((what, trouble)) => (what.trim(), Some(trouble.trim()).filter(|trouble| !trouble.is_empty())),
        None => (cell, None),
    }
}

fn row(kind: Kind, columns: &[Column], cells: &Cells<'_>, parting: char, faults: &mut Vec<Fault>) -> Node {
    let mut entries = Vec::new();
    let over: Vec<&str> = cells.record.iter().skip(columns.len()).map(str::trim).collect();
    if over.iter().any(|cell| !cell.is_empty()) && parting == ',' {
        faults.push(too_many(columns, cells, &over));
    }
    for (index, cell) in cells.record.iter().enumerate() {
        let cell = cell.trim();
        let Some(column) = columns.get(index).filter(|column| !column.key.text.is_empty()) else {
            if !cell.is_empty() && (index < columns.len() || parting != ',') {
                let fault = Fault::new("cell-without-head", format!("`{cell}` stands under no head"));
                faults.push(fault.instead("give its column a head, or empty the cell").at(cells.place(index)));
            }
            continue;
        };
        let (cell, trouble) = if kind == Kind::Diary { seen(column, cell) } else { (cell, None) };
        entries.extend(trouble.map(|trouble| {
            let (place, value) = (cells.place(index), Tree::Text(trouble.to_lowercase()));
            (Key { text: "trouble".to_owned(), place: place.clone() }, Node { value, place })
        }));
        let stands = column.again && entries.iter().any(|(key, _): &(Key, Node)| key.text == column.key.text);
        if !cell.is_empty() && !stands {
            let place = cells.place(index);
            let (key, value) = match several_batches(column, cell) {
                Some(cell) => (Key { text: "batches".to_owned(), ..column.key.clone() }, batches(cell, &place)),
                None => (column.key.clone(), value(column, cell, parting, &place)),
            };
            entries.push((key, Node { value, place }));
        }
    }
    Node { value: Tree::Map(entries), place: cells.place(0) }
}

/// More cells than heads: a comma in a text parts it.
fn too_many(columns: &[Column], cells: &Cells<'_>, over: &[&str]) -> Fault {
    let last = columns.len().saturating_sub(1);
    let text: Vec<&str> = cells.record.iter().skip(last).map(str::trim).collect();
    let text = text.join(", ");
    let wrong = format!("this line has {} cells under {} heads", columns.len() + over.len(), columns.len());
    let instead = format!("put a text with a comma in quotes, such as `\"{}\"`", text.trim_end_matches([',', ' ']));
    Fault::new("cell-without-head", wrong).instead(instead).at(cells.place(columns.len()))
}

fn value(column: &Column, cell: &str, parting: char, place: &Place) -> Tree {
    let pointed = if parting == ',' { cell.to_owned() } else { cell.replace(',', ".") };
    let found = pointed.parse::<f64>().ok().filter(|number| number.is_finite());
    let kind = column.property["type"].as_str();
    match (kind, found, &column.unit) {
        (_, _, Some(unit)) if column.property["format"] == "date" => Tree::Text(date(cell, unit)),
        (Some("integer" | "number"), Some(value), _) => number(value).map_or(Tree::Null, Tree::Number),
        (Some("boolean"), ..) if matches!(cell, "true" | "false") => Tree::Bool(cell == "true"),
        (_, Some(_), Some(unit)) => Tree::Text(format!("{pointed} {unit}")),
        (_, _, None) if column.property["format"].is_string() => Tree::Text(pointed),
        (Some("array"), ..) if column.key.text == "batches" => batches(cell, place),
        (Some("array"), ..) => list(cell.split('+'), place),
        _ if is_batch(column) => Tree::Text(number_of_batch(cell).to_lowercase()),
        _ if column.property.get("names").is_some() => Tree::Text(cell.to_lowercase()),
        _ if has_words(&column.property) => Tree::Text(cell.to_lowercase().replace([' ', '_'], "-")),
        _ => Tree::Text(cell.to_owned()),
    }
}

/// A date, in a column whose head says which number comes first.
fn date(cell: &str, unit: &str) -> String {
    let first = First::of_head(&unit.to_lowercase());
    first.and_then(|first| Date::of_spreadsheet(cell, first)).map_or_else(|| cell.to_owned(), |date| date.written())
}

/// Several texts of one cell.
fn list<'a>(items: impl Iterator<Item = &'a str>, place: &Place) -> Tree {
    let items = items.map(str::trim).filter(|item| !item.is_empty());
    Tree::List(items.map(|item| Node { value: Tree::Text(item.to_lowercase()), place: place.clone() }).collect())
}

/// What parts several batches in one cell.
const BETWEEN: [char; 4] = ['+', ',', ';', '&'];

/// Several batches in one cell, with a plus, a comma or a word between them.
fn batches(cell: &str, place: &Place) -> Tree {
    let cell = cell.replace(" and ", "+");
    list(cell.split(BETWEEN).map(|batch| number_of_batch(batch.trim())), place)
}

fn is_batch(column: &Column) -> bool {
    column.property["names"] == "batch"
}

/// The cell of a column for one batch that names several, where the sheet has a key for them.
fn several_batches<'a>(column: &Column, cell: &'a str) -> Option<&'a str> {
    let several = cell.contains(BETWEEN) || cell.contains(" and ");
    (is_batch(column) && column.key.text == "batch" && column.takes_several && several).then_some(cell)
}

/// The number of a batch as tags write it, `no 9`, without the word.
fn number_of_batch(cell: &str) -> &str {
    let number = cell.trim_start_matches(['#', 'N', 'n']).trim_start_matches(['o', '.', ' ']);
    let is_number = !number.is_empty() && number.chars().all(|c| c.is_ascii_digit());
    if is_number { number } else { cell }
}

/// Whether the schema lists the words that can stand in a cell.
fn has_words(property: &Value) -> bool {
    ["enum", "oneOf"].iter().any(|key| property.get(key).is_some())
}
