//! The life of a batch: a column for each growing year, what it should give hatched from the least to the most, what was
//! picked solid beside it, and the spawn run before the first crop.

use std::fmt::Write;

use super::hatch;
use super::hatch::RUN;
use super::strip::Family;
use super::svg::{at, escaped};

/// One growing year.
#[derive(Debug, Clone, PartialEq)]
pub struct Year {
    /// Its name.
    pub name: String,
    /// What it should give, least and most.
    pub expected: Option<[f64; 2]>,
    /// What was picked.
    pub picked: Option<f64>,
    /// What was picked, in words.
    pub words: String,
    /// Whether the spawn still runs.
    pub spawn_run: bool,
    /// Whether it is this season's.
    pub now: bool,
}

const LEFT: f64 = 12.0;
const WIDTH: f64 = 540.0;
const TOP: f64 = 20.0;
const TALL: f64 = 130.0;
const BELOW: f64 = 26.0;

/// Draws the years of a batch on one scale.
pub fn svg(id: &str, title: &str, years: &[Year]) -> String {
    let values = years.iter().flat_map(|year| year.expected.map(|[_, most]| most).into_iter().chain(year.picked));
    let scale = TALL / values.fold(1e-9, f64::max);
    let column = (WIDTH / years.len().max(1) as f64).min(110.0);
    let base = TOP + TALL;
    let mut out = String::new();
    let _ = write!(
        out,
        r#"<svg class="life" viewBox="0 0 {} {}" role="img" aria-labelledby="{id}-title {id}-desc"><title id="{id}-title">{}</title><desc id="{id}-desc">The same figures stand in the table beside it.</desc><path class="month" d="M{LEFT} {base}H{}"/>"#,
        at(LEFT * 2.0 + WIDTH),
        at(base + BELOW),
        escaped(title),
        at(LEFT + column * years.len() as f64),
    );
    for (index, year) in years.iter().enumerate() {
        column_of(&mut out, year, LEFT + column * index as f64, column, base, scale);
    }
    out.push_str("</svg>");
    out
}

fn column_of(out: &mut String, year: &Year, left: f64, width: f64, base: f64, scale: f64) {
    let part = width / 3.0;
    if year.now {
        let _ = write!(
            out,
            r#"<path class="bar only" d="M{0} {1}V{2}H{3}V{1}"/>"#,
            at(left + 1.0),
            at(base),
            at(TOP - 16.0),
            at(left + width - 1.0)
        );
    }
    if year.spawn_run {
        let _ = write!(
            out,
            r#"<rect class="bar possible f-rest" fill="url(#{RUN})" x="{0}" y="{1}" width="{2}" height="10"/>"#,
            at(left + 4.0),
            at(base - 10.0),
            at(width - 8.0)
        );
    }
    if let Some([least, most]) = year.expected {
        let _ = write!(
            out,
            r#"<rect class="bar possible f-fruit" fill="url(#{4})" x="{0}" y="{1}" width="{2}" height="{3}"/>"#,
            at(left + part * 0.4),
            at(base - most * scale),
            at(part),
            at(((most - least) * scale).max(1.0)),
            hatch::id(Family::Fruit)
        );
    }
    if let Some(picked) = year.picked {
        let tall = (picked * scale).max(1.5);
        let _ = write!(
            out,
            r#"<rect class="bar best f-fruit" x="{0}" y="{1}" width="{2}" height="{3}"/><text class="date" x="{4}" y="{5}" text-anchor="middle">{6}</text>"#,
            at(left + part * 1.6),
            at(base - tall),
            at(part),
            at(tall),
            at(left + part * 2.1),
            at(base - tall - 5.0),
            escaped(&year.words)
        );
    }
    let _ = write!(
        out,
        r#"<text class="lab" x="{}" y="{}" text-anchor="middle">{}</text>"#,
        at(left + width / 2.0),
        at(base + 18.0),
        escaped(&year.name)
    );
}
