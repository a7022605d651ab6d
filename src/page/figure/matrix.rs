//! The pairing table as one small drawing: woods down, mushrooms across under heads that climb, an end grain, its digit
//! and the letter of its way in each cell.

use super::ring;
use super::svg::{Anchor, at, drawing, escaped, path, text};
use crate::reckon::findings::Word;

/// What is drawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    /// The names of the mushrooms.
    pub columns: Vec<String>,
    /// Each wood with a word for each mushroom, and the letter of the way to which it belongs.
    pub rows: Vec<(String, Vec<(Word, &'static str)>)>,
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
    let heads = table.columns.iter().enumerate().map(|(index, name)| {
        let ([x, y], name) = ([LEFT + COLUMN * (index as f64 + 0.5), top - 6.0].map(at), escaped(name));
        format!(r#"<text class="lab" transform="translate({x} {y}) rotate(-55)">{name}</text>"#)
    });
    let rows = table.rows.iter().enumerate();
    let shows = heads.chain(rows.map(|(index, (wood, words))| row(wood, words, top + ROW * index as f64)));
    let beside = "Woods down, mushrooms across. The same ratings are in words in the lists beside it.";
    drawing("pairs", [width, height], "", [id, title], beside, shows)
}

fn row(wood: &str, words: &[(Word, &str)], top: f64) -> String {
    let [y, right] = [top, LEFT + COLUMN * words.len() as f64].map(at);
    let head = path("month", &format!("M0 {y}H{right}")) + &text("lab", [0.0, top + 18.0], Anchor::Start, wood);
    let pair = |(index, (word, way)): (usize, &(Word, &str))| {
        let left = LEFT + COLUMN * index as f64 + 2.0;
        let (glyph, [x, y]) = (ring::id(*word), [left, top + 3.0].map(at));
        let beside = [left + GLYPH + 3.0, top + 18.0];
        let digit = word.rating().map(|digit| text("lab", beside, Anchor::Start, &format!("{digit} {way}")));
        let digit = digit.unwrap_or_default();
        format!(r##"<use href="#{glyph}" x="{x}" y="{y}" width="{GLYPH}" height="{GLYPH}"/>{digit}"##)
    };
    head + &words.iter().enumerate().map(pair).collect::<String>()
}
