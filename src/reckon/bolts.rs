//! How many logs does a tree give, and how thick is each?
//!
//! From a stump of 0.5 ft upwards the stem is cut into logs of one length, with 0.02 ft (a quarter inch) lost to each cut,
//! as long as the small end is no thinner than the thinnest log and the cut stays below the tip and below a fork. A piece
//! whose middle is thicker than the thickest log is oversize: it is set aside for totems, timber or firewood. What is left
//! above the last cut is top. All diameters are over bark.
//!
//! Source: the stem model of [`taper`](super::taper); the walk up the stem is this project's own, and its table of counts by
//! diameter and height is a test. A count turns on a tenth of an inch, so the count of a stem 5 % thinner stands beside it.

use uom::si::f64::Volume;
use uom::si::volume::cubic_meter;

use super::taper::{SQUARE_FEET, Stem};
use super::volume;
use crate::quantity::Length;
use crate::quantity::measure::CUBIC_METRES_A_CUBIC_FOOT;

/// Height of the stump and width of a cut, in feet.
pub const STUMP: f64 = 0.5;
/// Width of a cut, in feet.
pub const KERF: f64 = 0.02;

/// By how much thinner a stem is taken for the careful count.
pub const THINNER: f64 = 0.95;

/// Height of a fork over the height of the tree, where a tree forks and nobody wrote how high (this project's assumption).
pub const FORK: f64 = 0.6;

/// The logs sought.
#[derive(Debug, Clone, PartialEq)]
pub struct Sought {
    /// Length.
    pub length: Length,
    /// Thinnest small end, over bark.
    pub thinnest: Length,
    /// Thickest middle, over bark.
    pub thickest: Length,
}

/// One piece of a stem.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Height at which it begins.
    pub from: Length,
    /// Diameter at the lower end.
    pub large: Length,
    /// Diameter at the middle.
    pub middle: Length,
    /// Diameter at the upper end.
    pub small: Length,
    /// Volume over bark by Newton's rule.
    pub volume: Volume,
    /// Whether it is too thick for a log.
    pub oversize: bool,
}

/// A stem cut up.
#[derive(Debug, Clone, PartialEq)]
pub struct Pieces {
    /// The pieces from the stump upwards.
    pub pieces: Vec<Piece>,
    /// Where the last cut lies; above it is top.
    pub last_cut: Length,
}

impl Pieces {
    /// Pieces that are no thicker than a log may be.
    pub fn fitting(&self) -> impl Iterator<Item = &Piece> {
        self.pieces.iter().filter(|piece| !piece.oversize)
    }

    /// Pieces that are logs.
    pub fn logs(&self) -> u32 {
        self.fitting().count() as u32
    }

    /// Pieces that are too thick.
    pub fn oversize(&self) -> u32 {
        self.pieces.len() as u32 - self.logs()
    }
}

/// Cuts a stem up, to the tip or to a fork at so many feet.
///
/// ```
/// use hostwood::{quantity::Length, reckon::{bolts::{Sought, cut}, taper::Stem}};
/// let sought = Sought {
///     length: Length::of_inches(40.0), thinnest: Length::of_inches(3.0), thickest: Length::of_inches(8.0),
/// };
/// let stem = Stem::of(&Length::of_inches(7.0), &Length::of_feet(53.0), None).unwrap();
/// assert_eq!(cut(&stem, &sought, None).logs(), 10); // derived table of counts, 7 in and 53 ft, by the fallback
/// ```
pub fn cut(stem: &Stem, sought: &Sought, fork: Option<f64>) -> Pieces {
    let length = sought.length.feet();
    let end = stem.height().min(fork.unwrap_or(f64::INFINITY));
    let mut pieces = Vec::new();
    let (mut from, mut last_cut) = (STUMP, STUMP);
    while length > 0.0 && from + length <= end {
        let [large, middle, small] = [from, from + length / 2.0, from + length].map(|at| stem.outside(at));
        if small < sought.thinnest.inches() {
            break;
        }
        let [butt, half, top] = [large, middle, small].map(|inches| SQUARE_FEET * inches.powi(2));
        let oversize = middle > sought.thickest.inches();
        let [large, middle, small] = [large, middle, small].map(Length::of_inches);
        let cubic_feet = volume::newton(butt, half, top, length);
        let volume = Volume::new::<cubic_meter>(cubic_feet * CUBIC_METRES_A_CUBIC_FOOT);
        pieces.push(Piece { from: Length::of_feet(from), large, middle, small, volume, oversize });
        last_cut = from + length;
        from += length + KERF;
    }
    Pieces { pieces, last_cut: Length::of_feet(last_cut) }
}
