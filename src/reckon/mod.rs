//! What the trade asks, reckoned: pure functions of plain values, without I/O, clock or globals.
//!
//! | a grower asks | file | source of the formula |
//! |---|---|---|
//! | what grows on what, and do sources agree? | [`pairing`] | weighted median; consensus of Tastle & Wierman 2007 |
//! | when may I fell, when not? | [`season`] | observed dates, dates of the year; circular sets of [`days`] |
//! | how long do logs rest, and by when must they be inoculated? | [`rest`] | the rest rows of each source, carried forward |
//! | how many holes? | [`holes`] | geometry; rules of HRO09 and SAB-DEN |
//! | how much spawn and wax? | [`spawn`] | common practice: logs a package fills, by surface |
//! | what does a green log weigh? | [`weight`] | Miles & Smith 2009 by way of FIA; Wood Handbook eq. 4-14 |
//! | how thick is the bark? | [`bark`] | Clark, Souter & Schlaegel 1991 |
//!
//! [`findings`] asks all of this of a book; [`table`] lays findings out as flat rows; [`gap`] says why a figure is missing.

pub mod bark;
pub mod days;
pub mod findings;
pub mod gap;
pub mod holes;
pub mod pairing;
pub mod rest;
pub mod season;
pub mod spawn;
pub mod table;
pub mod weight;

pub use findings::Findings;
pub use gap::Gap;
