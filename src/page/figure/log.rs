//! A log with its holes, to scale: from the side, with the rows that one sees, and from the end, with the depth of the holes.

use std::f64::consts::PI;

use super::svg::{Anchor, at, circle, drawing, path, text};

/// What is drawn; every measure in inches, with its words.
#[derive(Debug, Clone, PartialEq)]
pub struct Log {
    /// Diameter.
    pub diameter: (f64, String),
    /// Length.
    pub length: (f64, String),
    /// From hole to hole along a row.
    pub along: (f64, String),
    /// From row to row.
    pub between: (f64, String),
    /// Diameter of a hole.
    pub hole: f64,
    /// Depth of a hole.
    pub deep: f64,
    /// Rows round the log.
    pub rows: u32,
}

const WIDTH: f64 = 680.0;
const EDGE: f64 = 8.0;
const GAP: f64 = 70.0;
const TOP: f64 = 34.0;

/// Draws a log.
pub fn svg(id: &str, title: &str, log: &Log) -> String {
    let scale = (WIDTH - 2.0 * EDGE - GAP) / (log.length.0 + log.diameter.0);
    let radius = log.diameter.0 * scale / 2.0;
    let middle = TOP + radius;
    let height = TOP + 2.0 * radius + 44.0;
    let shows = [side(log, scale, middle, radius), end(log, scale, [WIDTH - EDGE - radius, middle], radius)];
    let beside = "To scale. Filled holes face you; a ring is a hole of the next row, half a spacing on. The same measures \
                  stand in words beside it.";
    drawing("log", [WIDTH, height], "", [id, title], beside, shows)
}

/// How far round the log a row stands, from the middle of what one sees.
fn angle(row: u32, rows: u32) -> f64 {
    2.0 * PI * f64::from(row) / f64::from(rows.max(1))
}

/// The log from the side: its outline, and the holes of the rows that face the reader.
fn side(log: &Log, scale: f64, middle: f64, radius: f64) -> String {
    let [left, right, y] = [EDGE + radius * 0.2, EDGE + log.length.0 * scale, middle].map(at);
    let [top, low, rx, ry] = [middle - radius, middle + radius, radius * 0.2, radius].map(at);
    let outline = format!("M{left} {top}H{right}A{rx} {ry} 0 0 1 {right} {low}H{left}A{rx} {ry} 0 0 1 {left} {top}Z");
    let face = format!(r#"<ellipse class="log-edge" cx="{right}" cy="{y}" rx="{rx}" ry="{ry}"/>"#);
    let mut out = path("log-edge", &outline) + &face;
    for row in 0..log.rows {
        let turn = angle(row, log.rows);
        if turn.cos() > 0.12 {
            out += &holes(log, scale, row, middle - radius * turn.sin());
        }
    }
    out + &spacing(log, scale, middle, radius)
}

/// The holes of one row; those of every other row lie half a spacing on.
fn holes(log: &Log, scale: f64, row: u32, y: f64) -> String {
    let step = log.along.0;
    let (class, first) = if row.is_multiple_of(2) { ("hole", step / 2.0) } else { ("hole-next", step) };
    let places = std::iter::successors(Some(first), |place| Some(place + step));
    let holes = places.take_while(|place| *place < log.length.0 - log.hole);
    holes.map(|place| circle(class, EDGE + place * scale, y, (log.hole * scale / 2.0).max(2.0))).collect()
}

/// The measures of the pattern: along over the log, the length below it.
fn spacing(log: &Log, scale: f64, middle: f64, radius: f64) -> String {
    let measure = |[from, to]: [f64; 2], y: f64, tick: f64, words_at: f64, words: String| {
        let [left, right, top] = [from, to, y].map(at);
        path("north", &format!("M{left} {top}v{}H{right}v{tick}", -tick))
            + &text("lab", [from, words_at], Anchor::Start, &words)
    };
    let (over, below) = (middle - radius - 8.0, middle + radius + 12.0);
    let along = [EDGE + log.along.0 * scale * 0.5, EDGE + log.along.0 * scale * 1.5];
    measure(along, over, 6.0, over - 11.0, format!("{} along the log", log.along.1))
        + &measure([EDGE, EDGE + log.length.0 * scale], below, -6.0, below + 22.0, format!("{} long", log.length.1))
}

/// The log from the end: bark, some rings, and each row's hole to its depth.
fn end(log: &Log, scale: f64, [x, y]: [f64; 2], radius: f64) -> String {
    let mut out = circle("log-edge", x, y, radius);
    out.extend([0.3, 0.55, 0.8].map(|part| circle("ring-hair", x, y, radius * part)));
    for row in 0..log.rows {
        let (sin, cos) = angle(row, log.rows).sin_cos();
        let inner = radius - log.deep * scale;
        let class = if row.is_multiple_of(2) { "bore" } else { "bore-next" };
        let [left, top, right, low] = [x + radius * cos, y - radius * sin, x + inner * cos, y - inner * sin].map(at);
        let width = at((log.hole * scale).max(3.0));
        let bore = format!(r#"<path class="{class}" stroke-width="{width}" d="M{left} {top}L{right} {low}"/>"#);
        out += &bore;
    }
    let words = format!("{} thick, {} rows {} apart", log.diameter.1, log.rows, log.between.1);
    out + &text("lab", [WIDTH - EDGE, y + radius + 34.0], Anchor::End, &words)
}
