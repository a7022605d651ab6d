//! Computed tables as CSV, JSON, aligned text and HTML.

use std::fmt::Write;

use serde_json::{Map, json};

use crate::{
    book::Book,
    error::Error,
    fault::unseen::{written_out, written_out_in_json},
    page::{figure::svg::escaped, route::Route, title},
    quantity::Value,
    reckon::table::{self, Grid},
    record::{Kind, Link, table::Table},
};

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
#[must_use]
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
#[must_use]
pub fn text(grid: &Grid) -> String {
    let shown = |cell: &Option<Value>| written_out(&table::text(cell.as_ref())).into_owned();
    let cells: Vec<Vec<String>> = grid.rows.iter().map(|row| row.iter().map(shown).collect()).collect();
    let width = |index: usize| {
        let column = cells.iter().map(|row| row[index].chars().count());
        column.chain([grid.columns[index].chars().count()]).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..grid.columns.len()).map(width).collect();
    let numbers = numbers(grid);
    let line = |cells: &[String]| {
        let mut line = String::new();
        for (index, cell) in cells.iter().enumerate() {
            let pad = " ".repeat(widths[index] - cell.chars().count());
            let _ = if numbers[index] { write!(line, "{pad}{cell}  ") } else { write!(line, "{cell}{pad}  ") };
        }
        line.trim_end().to_owned() + "\n"
    };
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

/// A table as HTML inside a page, ids linked to their pages.
#[must_use]
pub fn html(table: Table, grid: &Grid, caption: &str, route: &Route, book: &Book) -> String {
    let mut out = format!(
        r#"<div class="wide" tabindex="0"><table class="facts"><caption>{}</caption><thead><tr>"#,
        escaped(caption)
    );
    let numbers = numbers(grid);
    let class = |index: usize| if numbers[index] { r#" class="num""# } else { "" };
    for (index, column) in grid.columns.iter().enumerate() {
        let _ = write!(out, r#"<th scope="col"{}>{}</th>"#, class(index), escaped(&column.replace('_', " ")));
    }
    out.push_str("</tr></thead><tbody>");
    for row in grid.rows.iter().take(ROWS_IN_TEXT) {
        out.push_str("<tr>");
        for (index, cell) in row.iter().enumerate() {
            let _ =
                write!(out, "<td{}>{}</td>", class(index), linked(&grid.columns[index], cell.as_ref(), route, book));
        }
        out.push_str("</tr>");
    }
    out.push_str("</tbody></table></div>");
    if grid.rows.is_empty() {
        out.push_str(r#"<p><span class="gap">No row of the table fits.</span></p>"#);
    }
    let name = table.word();
    let file = format!("{}tables/{name}.csv", route.root());
    let _ = write!(
        out,
        r#"<p class="note-line">{} rows; the whole table is <a href="{file}">{name}.csv</a>.</p>"#,
        rows_words(grid)
    );
    out
}

fn rows_words(grid: &Grid) -> String {
    let shown = grid.rows.len().min(ROWS_IN_TEXT);
    if shown == grid.rows.len() { shown.to_string() } else { format!("{shown} of {}", grid.rows.len()) }
}

fn linked(column: &str, cell: Option<&Value>, route: &Route, book: &Book) -> String {
    let text = escaped(&table::text(cell));
    match (Kind::of_word(column), cell) {
        (Some(kind), Some(Value::Text(id))) if !id.contains(' ') => {
            let name = title::of(&Link::to(kind, id), book);
            format!(r#"<a href="{}">{}</a>"#, route.record(kind, id), escaped(&name))
        }
        _ => text,
    }
}
