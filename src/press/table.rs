//! Computed tables as CSV, JSON, aligned text and HTML.

use serde_json::{Map, json};

use crate::book::Book;
use crate::error::Error;
use crate::fault::unseen::{written_out, written_out_in_json};
use crate::page::figure::svg::escaped;
use crate::page::route::Route;
use crate::page::title;
use crate::quantity::Value;
use crate::reckon::table;
use crate::reckon::table::Grid;
use crate::record::table::Table;
use crate::record::{Kind, Link};

/// Rows that a table inside a note shows at most; the rest is in its file.
const ROWS_IN_TEXT: usize = 40;

/// A table as comma-separated text with a head row.
///
/// # Errors
///
/// An [`Error`] where memory fails.
pub fn csv(grid: &Grid) -> Result<Vec<u8>, Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let failed = |error: csv::Error| Error::because("cannot write a table", error);
    writer.write_record(&grid.columns).map_err(failed)?;
    for row in &grid.rows {
        writer.write_record(row.iter().map(|cell| inert(cell.as_ref()))).map_err(failed)?;
    }
    writer.into_inner().map_err(|error| Error::because("cannot write a table", error.into_error()))
}

/// A cell that no spreadsheet takes for a formula: a text that begins like one gets an apostrophe before it.
fn inert(cell: Option<&Value>) -> String {
    let text = table::text(cell);
    match cell {
        Some(Value::Text(_)) if text.trim_start().starts_with(['=', '+', '-', '@', '＝', '＋', '－', '＠']) => {
            format!("'{text}")
        }
        _ => text,
    }
}

/// A table as an array of flat objects.
pub fn json(grid: &Grid) -> String {
    let object = |row: &Vec<Option<Value>>| -> Map<_, _> {
        grid.columns.iter().cloned().zip(row.iter().map(|cell| value(cell.as_ref()))).collect()
    };
    let rows: serde_json::Value = grid.rows.iter().map(object).collect();
    written_out_in_json(&format!("{rows:#}\n"))
}

fn value(cell: Option<&Value>) -> serde_json::Value {
    let text = table::text(cell);
    match cell {
        Some(Value::Count(_) | Value::Number(_, 0)) => json!(text.parse::<i64>().ok()),
        Some(Value::Number(..)) => json!(text.parse::<f64>().ok()),
        Some(Value::Flag(flag)) => json!(flag),
        Some(_) => json!(text),
        None => serde_json::Value::Null,
    }
}

/// A table as text in columns, numbers to the right, what nobody sees written out.
pub fn text(grid: &Grid) -> String {
    let shown = |cell: &Option<Value>| written_out(&table::text(cell.as_ref())).into_owned();
    let cells: Vec<Vec<String>> = grid.rows.iter().map(|row| row.iter().map(shown).collect()).collect();
    let width = |index: usize| {
        let column = cells.iter().map(|row| row[index].chars().count());
        column.chain([grid.columns[index].chars().count()]).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..grid.columns.len()).map(width).collect();
    let numbers = numbers(grid);
    let padded = |(index, cell): (usize, &String)| {
        let pad = " ".repeat(widths[index] - cell.chars().count());
        if numbers[index] { format!("{pad}{cell}  ") } else { format!("{cell}{pad}  ") }
    };
    let line = |cells: &[String]| cells.iter().enumerate().map(padded).collect::<String>().trim_end().to_owned() + "\n";
    let mut out = line(&grid.columns);
    out.extend(cells.iter().map(|row| line(row)));
    out
}

/// For each column whether there is a number in it.
fn numbers(grid: &Grid) -> Vec<bool> {
    let number = |cell: &Option<Value>| matches!(cell, Some(Value::Count(_) | Value::Number(..)));
    let in_column = |index: usize| grid.rows.iter().any(|row| number(&row[index]));
    (0..grid.columns.len()).map(in_column).collect()
}

/// The columns in which a row has something; all of them where there is no row.
fn filled(grid: &Grid) -> Grid {
    let has = |index: usize| grid.rows.is_empty() || grid.rows.iter().any(|row| row[index].is_some());
    let kept: Vec<usize> = (0..grid.columns.len()).filter(|index| has(*index)).collect();
    Grid {
        columns: kept.iter().map(|index| grid.columns[*index].clone()).collect(),
        rows: grid.rows.iter().map(|row| kept.iter().map(|index| row[*index].clone()).collect()).collect(),
    }
}

/// A table as HTML inside a page, ids linked to their pages, without columns that say nothing in it.
pub fn html(table: Table, grid: &Grid, caption: &str, route: &Route, book: &Book) -> String {
    let grid = &filled(grid);
    let numbers = numbers(grid);
    let class = |index: usize| if numbers[index] { r#" class="num""# } else { "" };
    let head = |(index, column): (usize, &String)| {
        format!(r#"<th scope="col"{}>{}</th>"#, class(index), escaped(&column.replace('_', " ")))
    };
    let cell = |(index, cell): (usize, &Option<Value>)| {
        format!("<td{}>{}</td>", class(index), linked(&grid.columns[index], cell.as_ref(), route, book))
    };
    let row = |row: &Vec<Option<Value>>| format!("<tr>{}</tr>", row.iter().enumerate().map(cell).collect::<String>());
    let heads: String = grid.columns.iter().enumerate().map(head).collect();
    let rows: String = grid.rows.iter().take(ROWS_IN_TEXT).map(row).collect();
    let none = r#"<p><span class="gap">No row of the table fits.</span></p>"#;
    let none = if grid.rows.is_empty() { none } else { "" };
    let shown = match grid.rows.len() {
        all @ ..=ROWS_IN_TEXT => all.to_string(),
        all => format!("{ROWS_IN_TEXT} of {all}"),
    };
    let (name, caption) = (table.word(), escaped(caption));
    let [before, behind] = route.href(format!("{}tables/{name}.csv", route.root())).tags();
    format!(
        "<div class=\"wide\" tabindex=\"0\"><table class=\"facts\"><caption>{caption}</caption>\
         <thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table></div>{none}<p class=\"note-line\">{shown} rows; \
         the whole table is {before}{name}.csv{behind}.</p>"
    )
}

fn linked(column: &str, cell: Option<&Value>, route: &Route, book: &Book) -> String {
    let text = escaped(&table::text(cell));
    match (Kind::of_word(column), cell) {
        (Some(kind), Some(Value::Text(id))) if !id.contains(' ') => {
            let name = title::of(&Link::to(kind, id), book);
            let [before, behind] = route.href(route.record(kind, id)).tags();
            format!("{before}{}{behind}", escaped(&name))
        }
        _ => text,
    }
}
