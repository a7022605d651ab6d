//! Which tree that stays gains room when others come out?
//!
//! Two crowns touch where the stems stand closer than half the sum of their crown widths; an open-grown hardwood's crown is
//! about 1.5 to 2 ft wide for each inch of diameter (from memory; the middle, 1.75, is used here). Round a tree that stays lie
//! four sides, each a quarter of the circle about north, east, south and west; a side is open where no touching crown lies
//! in it. Three to four open sides release a young tree well (Smith, Miller & Lamson 1994; from memory for the number).
//! Only tagged trees are known, so an untagged neighbour may still close a side.
//!
//! Hegyi's competition index Σ (dⱼ / dᵢ) / distance (Hegyi 1974) says how hard the neighbours press, within 8 m.

use super::formula::Formula;
use crate::record::said::Mark;

/// Crown width in feet for each inch of diameter.
const CROWN: f64 = 1.75;

/// How far Hegyi's index looks, in feet.
const REACH: f64 = 8.0 / 0.3048;

/// Room and competition.
pub const RELEASE: Formula = Formula {
    name: "Room and competition",
    math: r#"<math display="block"><mrow><mi>touch</mi><mo>:</mo><mi>r</mi><mo>&lt;</mo><mn>1.75</mn><mfrac><mrow><msub><mi>D</mi><mrow><mi>i</mi></mrow></msub><mo>+</mo><msub><mi>D</mi><mrow><mi>j</mi></mrow></msub></mrow><mrow><mn>2</mn></mrow></mfrac><mspace width="2em"/><mi>C</mi><mo>=</mo><mo>∑</mo><mfrac><mrow><msub><mi>D</mi><mrow><mi>j</mi></mrow></msub><mo>/</mo><msub><mi>D</mi><mrow><mi>i</mi></mrow></msub></mrow><mrow><mi>r</mi></mrow></mfrac></mrow></math>"#,
    words: "Two crowns touch where the stems stand closer than half the sum of their widths, 1.75 ft for each inch of diameter (from memory). A side is open where no touching crown lies in its quarter. C is the press of all tagged trees within 8 m.",
    symbols: &[
        ("r", "distance between two stems: ft for the touch, m for C"),
        ("D", "diameters at breast height, inches"),
    ],
    sources: &[("hegyi-1974", Mark::SecondHand), ("common-practice", Mark::Memory)],
    own: "the width of crowns is the rule of the trade",
};

/// A tree on a map, in feet east and north, with its diameter in inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// Feet east of the corner post.
    pub east: f64,
    /// Feet north of the corner post.
    pub north: f64,
    /// Diameter in inches.
    pub inches: f64,
}

/// How far the neighbours of a tree that touch it or press on it can stand, in feet, where none is thicker than so many
/// inches.
pub fn reach(tree: &Standing, thickest: f64) -> f64 {
    // A hair more, so that no rounding leaves out who stands just there.
    (CROWN * (tree.inches + thickest) / 2.0).max(REACH) * (1.0 + 1e-9)
}

/// The names of the four sides.
pub const SIDES: [&str; 4] = ["north", "east", "south", "west"];

/// Which of the four sides of a tree are open among its neighbours.
///
/// ```
/// use hostwood::reckon::release::{Standing, open_sides};
/// let at = |east, north| Standing { east, north, inches: 8.0 };
/// assert_eq!(open_sides(&at(0.0, 0.0), &[at(0.0, 10.0), at(30.0, 0.0)]), [false, true, true, true]);
/// ```
pub fn open_sides(tree: &Standing, neighbours: &[Standing]) -> [bool; 4] {
    let mut open = [true; 4];
    for other in neighbours {
        let (east, north) = (other.east - tree.east, other.north - tree.north);
        if east.hypot(north) < CROWN * (tree.inches + other.inches) / 2.0 {
            open[side(east, north)] = false;
        }
    }
    open
}

fn side(east: f64, north: f64) -> usize {
    match (north.abs() >= east.abs(), north >= 0.0, east >= 0.0) {
        (true, true, _) => 0,
        (false, _, true) => 1,
        (true, false, _) => 2,
        (false, _, false) => 3,
    }
}

/// Hegyi's index, by the metre.
///
/// ```
/// use hostwood::reckon::release::{Standing, competition};
/// let centimetres = |d: f64| d / 2.54;
/// let metres = |m: f64| m / 0.3048;
/// let tree = Standing { east: 0.0, north: 0.0, inches: centimetres(20.0) };
/// let near = |d, m| Standing { east: metres(m), north: 0.0, inches: centimetres(d) };
/// let index = competition(&tree, &[near(25.0, 4.0), near(15.0, 3.0), near(30.0, 6.0)]);
/// assert!((index - 0.8125).abs() < 1e-9); // derived example
/// ```
pub fn competition(tree: &Standing, neighbours: &[Standing]) -> f64 {
    let press = |other: &Standing| {
        let distance = (other.east - tree.east).hypot(other.north - tree.north);
        (distance > 0.0 && distance <= REACH).then(|| other.inches / tree.inches / (distance * 0.3048))
    };
    neighbours.iter().filter_map(press).sum()
}
