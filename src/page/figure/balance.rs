//! A balance: two bars of one length a row, what came in above and where it is below, each in its parts. What waits is
//! hatched, what was lost or is not told is crossed, everything else is solid, with a gap between neighbours.

use super::hatch::FORESEEN;
use super::svg::{Anchor, at, cross, drawing, path, rect, text};

/// How a part is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Look {
    /// Solid: it came, or it was filled, or it stands in the yard.
    Solid,
    /// Hatched: it waits.
    Waiting,
    /// Crossed: it is gone unfilled, or lost.
    Gone,
}

/// A part of a bar.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// How many logs.
    pub logs: u32,
    /// The logs in words.
    pub words: String,
    /// How it is drawn.
    pub look: Look,
}

/// A row: its name, what came, and where it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its name.
    pub name: String,
    /// What came in.
    pub came: Vec<Part>,
    /// Where it is now.
    pub is: Vec<Part>,
}

const WIDTH: f64 = 400.0;
const BAR: f64 = 13.0;
const LINE: f64 = 16.0;
/// Letters that fit into a line.
const LETTERS: usize = 52;

/// Draws the rows on one scale.
pub fn svg(id: &str, title: &str, rows: &[Row]) -> String {
    let sum = |parts: &[Part]| f64::from(parts.iter().map(|part| part.logs).sum::<u32>());
    let most = rows.iter().map(|row| sum(&row.came).max(sum(&row.is))).fold(1e-9, f64::max);
    let scale = (WIDTH - 2.0) / most;
    let mut top = 0.0;
    let mut drawn: Vec<String> = Vec::new();
    for row in rows {
        let words = words(row);
        let line =
            |(place, line): (usize, &String)| text("lab", [0.0, top + 58.0 + LINE * place as f64], Anchor::Start, line);
        drawn.push(
            text("lab strong", [0.0, top + 12.0], Anchor::Start, &row.name)
                + &bar(&row.came, top + 18.0, scale)
                + &bar(&row.is, top + 18.0 + BAR, scale)
                + &words.iter().enumerate().map(line).collect::<String>(),
        );
        top += 62.0 + LINE * words.len() as f64;
    }
    drawing("bars balance", [WIDTH, top], "", [id, title], "The same numbers stand below in words.", drawn.into_iter())
}

/// What came and where it is, in lines that fit.
fn words(row: &Row) -> Vec<String> {
    let said = |parts: &[Part]| parts.iter().map(|part| part.words.as_str()).collect::<Vec<_>>().join(", ");
    let mut lines = vec![String::new()];
    for word in format!("{} → {}", said(&row.came), said(&row.is)).split(' ') {
        let last = lines.len() - 1;
        if lines[last].is_empty() {
            lines[last] += word;
        } else if lines[last].chars().count() + 1 + word.chars().count() <= LETTERS {
            lines[last] += &format!(" {word}");
        } else {
            lines.push(word.to_owned());
        }
    }
    lines
}

fn bar(parts: &[Part], top: f64, scale: f64) -> String {
    let mut left = 1.0;
    let mut out = String::new();
    for part in parts {
        let wide = f64::from(part.logs) * scale;
        let sides = [left, top, (wide - 1.5).max(1.0), BAR - 1.0];
        let fill = match part.look {
            Look::Solid => "currentColor".to_owned(),
            Look::Waiting => format!("url(#{FORESEEN})"),
            Look::Gone => "none".to_owned(),
        };
        out += &rect(&format!(r#"class="bar-edge-filled" fill="{fill}""#), sides);
        if part.look == Look::Gone {
            out += &path("bar-edge-filled", &cross([left, top, left + sides[2], top + sides[3]]));
        }
        left += wide;
    }
    out + &path("bar-edge", &format!("M0.5 {}V{}", at(top - 1.0), at(top + BAR)))
}
