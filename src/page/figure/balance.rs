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
/// From the top of a row to its bars, and from the end of its bars to the first line of words.
const HEAD: f64 = 18.0;
const BELOW: f64 = 14.0;
const LINE: f64 = 15.0;
/// Letters that fit into a line.
const WIDE: usize = 50;

/// Draws the rows on one scale.
pub fn svg(id: &str, title: &str, rows: &[Row]) -> String {
    let sum = |parts: &[Part]| f64::from(parts.iter().map(|part| part.logs).sum::<u32>());
    let most = rows.iter().map(|row| sum(&row.came).max(sum(&row.is))).fold(1e-9, f64::max);
    let scale = (WIDTH - 2.0) / most;
    let mut top = 0.0;
    let mut drawn = Vec::new();
    for row in rows {
        let lines = lines(row);
        let words = lines.iter().enumerate().map(|(at, line)| {
            text("lab", [0.0, top + HEAD + 2.0 * BAR + BELOW + LINE * at as f64], Anchor::Start, line)
        });
        drawn.push(
            text("lab strong", [0.0, top + 12.0], Anchor::Start, &row.name)
                + &bar(&row.came, top + HEAD, scale)
                + &bar(&row.is, top + HEAD + BAR, scale)
                + &words.collect::<String>(),
        );
        top += HEAD + 2.0 * BAR + BELOW + LINE * lines.len() as f64 + 5.0;
    }
    drawing("bars balance", [WIDTH, top], "", [id, title], "The same numbers stand below in words.", drawn)
}

/// The words of a row in lines: what came, an arrow, and where it is.
fn lines(row: &Row) -> Vec<String> {
    let parts = |parts: &[Part]| parts.iter().map(|part| part.words.clone()).collect::<Vec<_>>().join(", ");
    let words = format!("{} → {}", parts(&row.came), parts(&row.is));
    let mut lines = vec![String::new()];
    for word in words.split(' ') {
        let full = lines.last().is_some_and(|line| line.chars().count() + word.chars().count() > WIDE);
        if full {
            lines.push(String::new());
        }
        if let Some(line) = lines.last_mut() {
            let gap = if line.is_empty() { "" } else { " " };
            *line += &[gap, word].concat();
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
