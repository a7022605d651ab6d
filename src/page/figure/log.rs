//! A log with its holes, to scale: from the side, with the rows that one sees, and from the end, with the depth of the holes.

use std::f64::consts::PI;
use std::fmt::Write;

use super::svg::{at, escaped};

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
    let mut out = String::new();
    let _ = write!(
        out,
        r#"<svg class="log" viewBox="0 0 {} {}" role="img" aria-labelledby="{id}-title {id}-desc"><title id="{id}-title">{}</title><desc id="{id}-desc">To scale. Filled holes face you; a ring is a hole of the next row, half a spacing on. The same measures stand in words beside it.</desc>"#,
        at(WIDTH),
        at(height),
        escaped(title)
    );
    side(&mut out, log, scale, middle, radius);
    end(&mut out, log, scale, [WIDTH - EDGE - radius, middle], radius);
    out.push_str("</svg>");
    out
}

/// How far round the log a row stands, from the middle of what one sees.
fn angle(row: u32, rows: u32) -> f64 {
    2.0 * PI * f64::from(row) / f64::from(rows.max(1))
}

/// The log from the side: its outline, and the holes of the rows that face the reader.
fn side(out: &mut String, log: &Log, scale: f64, middle: f64, radius: f64) {
    let length = log.length.0 * scale;
    let _ = write!(
        out,
        r#"<path class="log-edge" d="M{0} {1}H{2}A{3} {4} 0 0 1 {2} {5}H{0}A{3} {4} 0 0 1 {0} {1}Z"/><ellipse class="log-edge" cx="{2}" cy="{6}" rx="{3}" ry="{4}"/>"#,
        at(EDGE + radius * 0.2),
        at(middle - radius),
        at(EDGE + length),
        at(radius * 0.2),
        at(radius),
        at(middle + radius),
        at(middle)
    );
    for row in 0..log.rows {
        let turn = angle(row, log.rows);
        if turn.cos() > 0.12 {
            holes(out, log, scale, row, middle - radius * turn.sin());
        }
    }
    spacing(out, log, scale, middle, radius);
}

/// The holes of one row; those of every other row lie half a spacing on.
fn holes(out: &mut String, log: &Log, scale: f64, row: u32, y: f64) {
    let class = if row.is_multiple_of(2) { "hole" } else { "hole-next" };
    let step = log.along.0;
    let mut place = if row.is_multiple_of(2) { step / 2.0 } else { step };
    while place < log.length.0 - log.hole {
        let _ = write!(
            out,
            r#"<circle class="{class}" cx="{}" cy="{}" r="{}"/>"#,
            at(EDGE + place * scale),
            at(y),
            at((log.hole * scale / 2.0).max(2.0))
        );
        place += step;
    }
}

/// The measures of the pattern: along over the log, the length below it.
fn spacing(out: &mut String, log: &Log, scale: f64, middle: f64, radius: f64) {
    let (from, to) = (EDGE + log.along.0 * scale * 0.5, EDGE + log.along.0 * scale * 1.5);
    let over = middle - radius - 8.0;
    let _ = write!(
        out,
        r#"<path class="north" d="M{0} {1}v-6H{2}v6"/><text class="lab" x="{0}" y="{3}">{4} along the log</text>"#,
        at(from),
        at(over),
        at(to),
        at(over - 11.0),
        escaped(&log.along.1)
    );
    let below = middle + radius + 12.0;
    let _ = write!(
        out,
        r#"<path class="north" d="M{0} {1}v6H{2}v-6"/><text class="lab" x="{0}" y="{3}">{4} long</text>"#,
        at(EDGE),
        at(below),
        at(EDGE + log.length.0 * scale),
        at(below + 22.0),
        escaped(&log.length.1)
    );
}

/// The log from the end: bark, some rings, and each row's hole to its depth.
fn end(out: &mut String, log: &Log, scale: f64, [x, y]: [f64; 2], radius: f64) {
    let _ = write!(out, r#"<circle class="log-edge" cx="{}" cy="{}" r="{}"/>"#, at(x), at(y), at(radius));
    for part in [0.3, 0.55, 0.8] {
        let _ = write!(out, r#"<circle class="ring-hair" cx="{}" cy="{}" r="{}"/>"#, at(x), at(y), at(radius * part));
    }
    for row in 0..log.rows {
        let turn = angle(row, log.rows);
        let (cos, sin) = (turn.cos(), turn.sin());
        let inner = radius - log.deep * scale;
        let class = if row.is_multiple_of(2) { "bore" } else { "bore-next" };
        let _ = write!(
            out,
            r#"<path class="{class}" style="stroke-width:{}" d="M{} {}L{} {}"/>"#,
            at((log.hole * scale).max(3.0)),
            at(x + radius * cos),
            at(y - radius * sin),
            at(x + inner * cos),
            at(y - inner * sin)
        );
    }
    let _ = write!(
        out,
        r#"<text class="lab" x="{}" y="{}" text-anchor="end">{} thick, {} rows {} apart</text>"#,
        at(WIDTH - EDGE),
        at(y + radius + 34.0),
        escaped(&log.diameter.1),
        log.rows,
        escaped(&log.between.1)
    );
}
