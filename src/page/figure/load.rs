//! What logs weigh beside what one person may lift: a row a wood over one scale of weight, a dot a thickness that grows with
//! it, with a tail to its weight from the tank, and the limit as an upright band.

use super::axis::Axis;
use super::svg::{Anchor, at, circle, drawing, path, rect, text};

/// The logs of one wood.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The wood.
    pub name: String,
    /// For each thickness, the thinnest first, the most that it weighs green and from the tank.
    pub logs: Vec<[f64; 2]>,
}

const LEFT: f64 = 8.0;
const RIGHT: f64 = 206.0;
const WIDTH: f64 = 324.0;
const TOP: f64 = 24.0;
const ROW: f64 = 22.0;
/// Letters of a name that stand beside a row.
const LETTERS: usize = 17;
/// Radius of the thinnest log's dot, and by how much the next is larger.
const DOT: f64 = 2.5;
const LARGER: f64 = 1.25;

/// Draws the rows; the band is the limit, from the thickest log to the thinnest.
pub fn svg(id: &str, title: &str, rows: &[Row], limit: Option<[f64; 2]>) -> String {
    let numbers = rows.iter().flat_map(|row| row.logs.iter().flatten()).copied();
    let axis = Axis::over(numbers.chain(limit.into_iter().flatten()).chain([0.0]), [LEFT, RIGHT]);
    let height = TOP + ROW * rows.len() as f64 + 4.0;
    let band = limit.map(|[low, high]| {
        let (left, right) = (axis.x(low), axis.x(high).max(axis.x(low) + 1.5));
        rect(r#"class="limit-band""#, [left, TOP - 4.0, right - left, height - TOP + 4.0])
    });
    let drawn = rows.iter().enumerate().map(|(index, row)| of_row(row, &axis, TOP + ROW * (index as f64 + 0.5)));
    let beside = "The same weights are in words on this page.";
    drawing("spread", [WIDTH, height], "", [id, title], beside, band.into_iter().chain([axis.drawn()]).chain(drawn))
}

fn of_row(row: &Row, axis: &Axis, y: f64) -> String {
    let name: String = row.name.chars().take(LETTERS).collect();
    let dot = |(place, [green, wet]): (usize, &[f64; 2])| {
        let tail = path("span", &format!("M{} {}H{}", at(axis.x(*green)), at(y), at(axis.x(*wet))));
        tail + &circle("dot", axis.x(*green), y, DOT + LARGER * place as f64)
    };
    let dots: String = row.logs.iter().enumerate().map(dot).collect();
    text("said", [RIGHT + 10.0, y + 4.0], Anchor::Start, &name) + &dots
}
