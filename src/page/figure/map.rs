//! The map of a stand: a mark for each tagged tree, its tag beside it, a north arrow and a scale bar.

use std::collections::BTreeMap;

use super::svg::{Anchor, at, circle, cross, drawing, path, text};
use crate::quantity::Units;

/// What becomes of a tree.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fate {
    /// It stays: an open ring.
    Stays,
    /// It comes down this winter: a disc with a cross.
    Falls,
    /// It is marked and not needed: a dashed ring.
    Spared,
    /// It is in doubt, and left until it is known: a triangle.
    Doubtful,
    /// It is dead and still stands: a ring with an upright line.
    Snag,
    /// It is down already: a small square.
    Stump,
}

impl Fate {
    /// All fates, in the order of the legend.
    const ALL: [Self; 6] = [Self::Stays, Self::Falls, Self::Spared, Self::Doubtful, Self::Snag, Self::Stump];

    /// What its mark looks like and means.
    fn words(self) -> &'static str {
        match self {
            Self::Stays => "Ring: stays",
            Self::Falls => "Crossed disc: comes down this winter",
            Self::Spared => "Dashed ring: marked, not needed",
            Self::Doubtful => "Triangle: in doubt",
            Self::Snag => "Ring with an upright line: dead, still standing",
            Self::Stump => "Small square: the stump of a tree that is down",
        }
    }
}

/// What the marks of a map mean, of those alone that stand on it.
pub fn legend(spots: &[Spot]) -> String {
    let drawn = Fate::ALL.into_iter().filter(|fate| spots.iter().any(|spot| spot.fate == *fate));
    let words: Vec<&str> = drawn.map(Fate::words).chain(["The size goes with the diameter"]).collect();
    format!("{}.", words.join(". "))
}

/// A tree on the map, in feet.
#[derive(Debug, Clone, PartialEq)]
pub struct Spot {
    /// Its tag.
    pub tag: String,
    /// Feet east and north of the corner post.
    pub at: [f64; 2],
    /// Diameter in inches.
    pub inches: f64,
    /// What becomes of it.
    pub fate: Fate,
}

const WIDTH: f64 = 640.0;
const EDGE: f64 = 34.0;
const LOWEST: f64 = 160.0;
const HIGHEST: f64 = 900.0;
/// Half the side of the square that stands for a stump.
const STUMP: f64 = 4.0;

/// Draws a map.
pub fn svg(id: &str, title: &str, spots: &[Spot], units: Units) -> String {
    let ends = |axis: usize| {
        let values = || spots.iter().map(|spot| spot.at[axis]);
        (values().fold(f64::INFINITY, f64::min), values().fold(f64::NEG_INFINITY, f64::max))
    };
    let ((west, east), (south, north)) = (ends(0), ends(1));
    let scale = (WIDTH - 2.0 * EDGE) / (east - west).max(1.0);
    let scale = scale.min((HIGHEST - 2.0 * EDGE) / (north - south).max(1.0));
    let height = ((north - south) * scale + 2.0 * EDGE + 40.0).max(LOWEST);
    let discs: Vec<Frame> = spots
        .iter()
        .map(|spot| {
            let (x, y) = (EDGE + (spot.at[0] - west) * scale, EDGE + (north - spot.at[1]) * scale);
            Frame::about(x, y, 2.0 * radius(spot), 2.0 * radius(spot))
        })
        .collect();
    let mut taken = Taken::default();
    for disc in &discs {
        taken.put(*disc);
    }
    let pairs = || spots.iter().zip(&discs);
    let trees = pairs().map(|(spot, disc)| tree(spot, disc));
    let labels = pairs().map(|(spot, disc)| label(spot, disc, &mut taken));
    let shows = trees.chain(labels).chain([arrow(), bar(height, scale, units)]);
    let beside = "North is up. The same trees are in the table below, with their places.";
    drawing("map", [WIDTH, height], "", [id, title], beside, shows)
}

/// A box on the drawing, by its middle and its half width and height.
#[derive(Debug, Clone, Copy)]
struct Frame {
    x: f64,
    y: f64,
    half: [f64; 2],
}

impl Frame {
    fn about(x: f64, y: f64, width: f64, height: f64) -> Self {
        Self { x, y, half: [width / 2.0, height / 2.0] }
    }

    fn meets(&self, other: &Self) -> bool {
        let near = |a: f64, b: f64, axis: usize| (a - b).abs() < self.half[axis] + other.half[axis];
        near(self.x, other.x, 0) && near(self.y, other.y, 1)
    }
}

/// Boxes that are taken, by the cells of the drawing that they lie in.
#[derive(Default)]
struct Taken {
    cells: BTreeMap<[i32; 2], Vec<Frame>>,
}

/// The side of a cell.
const CELL: f64 = 40.0;

impl Taken {
    fn put(&mut self, frame: Frame) {
        for cell in cells(&frame) {
            self.cells.entry(cell).or_default().push(frame);
        }
    }

    /// Whether a box meets none that is taken.
    fn leaves(&self, place: &Frame) -> bool {
        cells(place).filter_map(|cell| self.cells.get(&cell)).flatten().all(|other| !other.meets(place))
    }
}

/// The cells in which a box lies.
fn cells(frame: &Frame) -> impl Iterator<Item = [i32; 2]> + use<> {
    let ends = |middle: f64, half: f64| [middle - half, middle + half].map(|end| (end / CELL).floor() as i32);
    let ([west, east], [north, south]) = (ends(frame.x, frame.half[0]), ends(frame.y, frame.half[1]));
    (west..=east).flat_map(move |x| (north..=south).map(move |y| [x, y]))
}

fn radius(spot: &Spot) -> f64 {
    if spot.fate == Fate::Stump { STUMP } else { 4.0 + spot.inches / 2.0 }
}

/// Writes a tag where it covers nothing, if there is such a place: to the right, to the left, above or below.
fn label(spot: &Spot, disc: &Frame, taken: &mut Taken) -> String {
    let (width, height) = (spot.tag.chars().count() as f64 * 8.0, 14.0);
    let (aside, above) = (disc.half[0] + width / 2.0 + 5.0, disc.half[1] + height / 2.0 + 3.0);
    let sides = [(1.0, 0.0), (-1.0, 0.0), (0.0, -1.0), (0.0, 1.0), (1.0, -1.0), (-1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
    let places = sides.map(|(x, y)| Frame::about(disc.x + x * aside, disc.y + y * above, width, height));
    let inside = |place: &Frame| place.x - width / 2.0 > 0.0 && place.x + width / 2.0 < WIDTH;
    let free = |place: &&Frame| inside(place) && taken.leaves(place);
    let place = *places.iter().find(free).unwrap_or(&places[0]);
    taken.put(place);
    text("lab", [place.x, place.y + 5.0], Anchor::Middle, &spot.tag)
}

fn tree(spot: &Spot, disc: &Frame) -> String {
    let (x, y, radius) = (disc.x, disc.y, radius(spot));
    let class = match spot.fate {
        Fate::Stays => "tree-stays",
        Fate::Falls => "tree-falls",
        Fate::Spared => "tree-spared",
        Fate::Snag => "tree-snag",
        Fate::Stump => {
            let [left, right, top, low] = [x - radius, x + radius, y - radius, y + radius].map(at);
            return path("tree-stump", &format!("M{left} {top}H{right}V{low}H{left}Z"));
        }
        Fate::Doubtful => {
            let [left, middle, right, top, low] = [x - radius, x, x + radius, y - radius, y + radius].map(at);
            return path("tree-doubtful", &format!("M{middle} {top}L{right} {low}H{left}Z"));
        }
    };
    let mut out = circle(class, x, y, radius);
    if spot.fate == Fate::Snag {
        let [middle, top, low] = [x, y - radius, y + radius].map(at);
        out += &path("tree-cut", &format!("M{middle} {top}V{low}"));
    }
    if spot.fate == Fate::Falls {
        let arm = radius + 3.0;
        out += &path("tree-cut", &cross([x - arm, y - arm, x + arm, y + arm]));
    }
    out
}

fn arrow() -> String {
    let x = WIDTH - 14.0;
    let [left, middle, right] = [x - 6.0, x, x + 6.0].map(at);
    path("north", &format!("M{middle} 44V14M{left} 22L{middle} 10L{right} 22"))
        + &text("lab", [x, 60.0], Anchor::Middle, "N")
}

/// A bar of a round length that is at most a third of the map.
fn bar(height: f64, scale: f64, units: Units) -> String {
    let (unit, name) = if units == Units::Us { (1.0, "ft") } else { (1.0 / 0.3048, "m") };
    let fits = |length: &f64| length * unit * scale <= WIDTH / 3.0;
    let length = [200.0, 100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0].into_iter().find(fits).unwrap_or(1.0);
    let (y, end) = (height - 14.0, EDGE + length * unit * scale);
    let [left, top, low, right] = [EDGE, y - 8.0, y, end].map(at);
    path("north", &format!("M{left} {top}V{low}H{right}V{top}"))
        + &text("lab", [end + 8.0, y], Anchor::Start, &format!("{length} {name}"))
}
