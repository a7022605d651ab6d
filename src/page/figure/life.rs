//! The life of a batch: a column for each growing year, what it should give hatched from the least to the most, what was
//! picked solid beside it, and the spawn run before the first crop.

use super::hatch;
use super::hatch::RUN;
use super::strip::Family;
use super::svg::{Anchor, at, drawing, path, rect, text};

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
    let right = at(LEFT + column * years.len() as f64);
    let ground = path("month", &format!("M{LEFT} {base}H{right}"));
    let columns = years.iter().enumerate().map(|(index, year)| {
        let left = LEFT + column * index as f64;
        column_of(year, left, column, base, scale)
    });
    let size = [LEFT * 2.0 + WIDTH, base + BELOW];
    let beside = "The same figures are in the table beside it.";
    drawing("life", size, "", [id, title], beside, std::iter::once(ground).chain(columns))
}

fn column_of(year: &Year, left: f64, width: f64, base: f64, scale: f64) -> String {
    let part = width / 3.0;
    let mut out = String::new();
    if year.now {
        let [left, base, top, right] = [left + 1.0, base, TOP - 16.0, left + width - 1.0].map(at);
        out += &path("bar only", &format!("M{left} {base}V{top}H{right}V{base}"));
    }
    if year.spawn_run {
        let class = format!(r#"class="bar possible f-rest" fill="url(#{RUN})""#);
        out += &rect(&class, [left + 4.0, base - 10.0, width - 8.0, 10.0]);
    }
    if let Some([least, most]) = year.expected {
        let class = format!(r#"class="bar possible f-fruit" fill="url(#{})""#, hatch::id(Family::Fruit));
        out += &rect(&class, [left + part * 0.4, base - most * scale, part, ((most - least) * scale).max(1.0)]);
    }
    if let Some(picked) = year.picked {
        let tall = (picked * scale).max(1.5);
        out += &rect(r#"class="bar best f-fruit""#, [left + part * 1.6, base - tall, part, tall]);
        out += &text("date", [left + part * 2.1, base - tall - 5.0], Anchor::Middle, &year.words);
    }
    out + &text("lab", [left + width / 2.0, base + 18.0], Anchor::Middle, &year.name)
}
