//! Logs seen at their end, all to one scale, each with what it weighs; and the thickest that one person may lift, dashed.

use super::svg::{Anchor, circle, drawing, text};

/// A log seen at its end.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Its diameter, in any one unit.
    pub across: f64,
    /// What stands beneath it, line by line.
    pub says: [String; 2],
}

const WIDTH: f64 = 324.0;
const GAP: f64 = 10.0;
/// The most units of a drawing for a unit of a diameter, so that few logs are not drawn as giants.
const LARGEST: f64 = 76.0;
const LINE: f64 = 15.0;

/// Draws logs, and the limit where there is one.
pub fn svg(id: &str, title: &str, logs: &[Section], limit: Option<&Section>) -> String {
    let all: Vec<(&Section, bool)> =
        logs.iter().map(|log| (log, false)).chain(limit.map(|limit| (limit, true))).collect();
    let thickest = all.iter().map(|(log, _)| log.across).fold(f64::MIN_POSITIVE, f64::max);
    let cell = (WIDTH - GAP * (all.len().max(1) - 1) as f64) / all.len().max(1) as f64;
    let scale = cell.min(LARGEST) / thickest;
    let base = thickest * scale + 2.0;
    let drawn = all.iter().enumerate().map(|(place, (log, is_limit))| {
        let (middle, radius) = (cell / 2.0 + (cell + GAP) * place as f64, log.across * scale / 2.0);
        let class = if *is_limit { "limit" } else { "section" };
        let pith = if *is_limit { String::new() } else { circle("pith", middle, base - radius, 1.5) };
        let line = |(at, words): (usize, &String)| {
            text("says", [middle, base + LINE * (at as f64 + 1.0)], Anchor::Middle, words)
        };
        circle(class, middle, base - radius, radius)
            + &pith
            + &log.says.iter().enumerate().map(line).collect::<String>()
    });
    let beside = "The same weights are in words on this page.";
    drawing("sections", [WIDTH, base + 2.0 * LINE + 5.0], "", [id, title], beside, drawn)
}
