//! What several sources say of one quantity: a row a source over one axis, a thin line from its least to its most, a dot or
//! a thick line at what it calls best, its name at the right end, and what the farm chose as an upright band.

use super::axis::Axis;
use super::svg::{Anchor, at, drawing, path, rect, text};

/// What one source says.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its name.
    pub name: String,
    /// The least that it gives; none where it gives only a most.
    pub least: Option<f64>,
    /// The most that it gives; none where it gives only a least.
    pub most: Option<f64>,
    /// What it calls best, from and to.
    pub best: Option<[f64; 2]>,
}

impl Row {
    fn numbers(&self) -> impl Iterator<Item = f64> {
        [self.least, self.most].into_iter().flatten().chain(self.best.into_iter().flatten())
    }
}

const LEFT: f64 = 8.0;
const RIGHT: f64 = 186.0;
const WIDTH: f64 = 324.0;
const TOP: f64 = 24.0;
const ROW: f64 = 20.0;
/// Letters of a name that stand beside a row.
const LETTERS: usize = 19;

/// Draws the rows; the band is what the farm chose.
pub fn svg(id: &str, title: &str, rows: &[Row], band: Option<[f64; 2]>) -> String {
    let numbers = rows.iter().flat_map(Row::numbers).chain(band.into_iter().flatten());
    let axis = Axis::over(numbers, [LEFT, RIGHT]);
    let height = TOP + ROW * rows.len() as f64 + 4.0;
    let choice = band.map(|[low, high]| {
        let (left, right) = (axis.x(low), axis.x(high).max(axis.x(low) + 2.0));
        rect(r#"class="choice""#, [left, TOP - 4.0, right - left, height - TOP + 4.0])
    });
    let drawn = rows.iter().enumerate().map(|(index, row)| line(row, &axis, TOP + ROW * (index as f64 + 0.5)));
    let (names, lines): (Vec<String>, Vec<[String; 2]>) = drawn.unzip();
    let [spans, bests] = [0, 1].map(|kind| lines.iter().map(|ways| ways[kind].as_str()).collect::<String>());
    let shows = choice.into_iter().chain([axis.drawn(), path("span", &spans), path("best", &bests)]).chain(names);
    drawing("spread", [WIDTH, height], "", [id, title], "The same figures are in words on this page.", shows)
}

/// The name of a row, the way of its thin line with its two ends, and that of what it calls best.
fn line(row: &Row, axis: &Axis, y: f64) -> (String, [String; 2]) {
    let [left, right] = [row.least.map_or(LEFT, |least| axis.x(least)), row.most.map_or(RIGHT, |most| axis.x(most))];
    // An end that the source does not give has an arrow head, one that it gives an upright tick.
    let end = |given: Option<f64>, x: f64, out: f64| match given {
        Some(_) => format!("M{} {}v8", at(x), at(y - 4.0)),
        None => format!("M{} {}l{} 4l{} 4", at(x - out), at(y - 4.0), at(out), at(-out)),
    };
    let span = format!("M{} {}H{}", at(left), at(y), at(right));
    // A best of one figure is a line without length, which its round ends make a dot.
    let best = row.best.map(|[low, high]| format!("M{} {}H{}", at(axis.x(low)), at(y), at(axis.x(high))));
    let name = text("said", [RIGHT + 10.0, y + 4.0], Anchor::Start, &cut(&row.name));
    (name, [span + &end(row.least, left, -5.0) + &end(row.most, right, 5.0), best.unwrap_or_default()])
}

/// A name cut to what stands beside a row.
fn cut(name: &str) -> String {
    if name.chars().count() <= LETTERS {
        return name.to_owned();
    }
    name.chars().take(LETTERS - 1).collect::<String>().trim_end().to_owned() + "…"
}
