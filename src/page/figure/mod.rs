//! The drawings, as SVG from plain values.
//!
//! | figure | file |
//! |---|---|
//! | the end grain of a rating | [`ring`] |
//! | the band of a caution | [`saw`] |
//! | what came in and where it is | [`balance`] |
//! | bars before and after | [`bars`] |
//! | the hatches of every drawing | [`hatch`] |
//! | the life of a batch | [`life`] |
//! | a log with its holes, to scale | [`log`] |
//! | the map of a stand | [`map`] |
//! | the pairing table in small | [`matrix`] |
//! | logs seen at their end, with their weights | [`sections`] |
//! | what several sources say of one quantity | [`spread`] |
//! | the strip of the year | [`strip`] |
//! | the parts of SVG | [`svg`] |
//! | how sources rate a pair | [`tally`] |

pub mod balance;
pub mod bars;
pub mod hatch;
pub mod life;
pub mod log;
pub mod map;
pub mod matrix;
pub mod ring;
pub mod saw;
pub mod sections;
pub mod spread;
pub mod strip;
pub mod svg;
pub mod tally;

/// What drawings share, to stand once on every page of a guide: they show it by its ids.
pub fn defs(first_month: i8) -> String {
    ring::defs() + &saw::defs() + &hatch::defs() + &strip::defs(first_month) + &tally::defs()
}
