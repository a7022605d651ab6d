//! The pairing table as one small drawing: woods down, mushrooms across under heads that climb, an end grain and its digit
//! in each cell.

use std::fmt::Write;

use super::ring;
use super::svg::{at, escaped};
use crate::reckon::findings::Word;

/// What is drawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    /// The names of the mushrooms.
    pub columns: Vec<String>,
    /// Each wood with a word for each mushroom.
    pub rows: Vec<(String, Vec<Word>)>,
}

const LEFT: f64 = 130.0;
const COLUMN: f64 = 44.0;
const ROW: f64 = 26.0;
const GLYPH: f64 = 20.0;
/// Room for a letter of a head, and for the lean of the heads.
const LETTER: f64 = 7.4;
const LEAN: f64 = 0.82;

/// Draws the table.
pub fn svg(id: &str, title: &str, table: &Table) -> String {
    let longest = table.columns.iter().map(|name| name.chars().count()).max().unwrap_or(0) as f64;
    let top = longest * LETTER * LEAN + 12.0;
    let width = LEFT + COLUMN * table.columns.len() as f64 + longest * LETTER * (1.0 - LEAN * LEAN).sqrt();
    let height = top + ROW * table.rows.len() as f64 + 6.0;
    let mut out = String::new();
    let _ = write!(
        out,
        r#"<svg class="pairs" viewBox="0 0 {} {}" role="img" aria-labelledby="{id}-title {id}-desc"><title id="{id}-title">{}</title><desc id="{id}-desc">Woods down, mushrooms across. The same ratings stand in words in the lists beside it.</desc>"#,
        at(width),
        at(height),
        escaped(title)
    );
    for (index, name) in table.columns.iter().enumerate() {
        let x = LEFT + COLUMN * (index as f64 + 0.5);
        let _ = write!(
            out,
            r#"<text class="lab" transform="translate({} {}) rotate(-55)">{}</text>"#,
            at(x),
            at(top - 6.0),
            escaped(name)
        );
    }
    for (index, (wood, words)) in table.rows.iter().enumerate() {
        row(&mut out, wood, words, top + ROW * index as f64);
    }
    out.push_str("</svg>");
    out
}

fn row(out: &mut String, wood: &str, words: &[Word], top: f64) {
    let right = LEFT + COLUMN * words.len() as f64;
    let _ = write!(
        out,
        r#"<path class="month" d="M0 {0}H{1}"/><text class="lab" x="0" y="{2}">{3}</text>"#,
        at(top),
        at(right),
        at(top + 18.0),
        escaped(wood)
    );
    for (index, word) in words.iter().enumerate() {
        let x = LEFT + COLUMN * index as f64 + 2.0;
        let _ = write!(
            out,
            r##"<use href="#{}" x="{}" y="{}" width="{GLYPH}" height="{GLYPH}"/>"##,
            ring::id(*word),
            at(x),
            at(top + 3.0)
        );
        if let Some(digit) = word.rating() {
            let _ =
                write!(out, r#"<text class="lab" x="{}" y="{}">{digit}</text>"#, at(x + GLYPH + 3.0), at(top + 18.0));
        }
    }
}
