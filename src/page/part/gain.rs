//! What this farm gets of the logs that are reckoned of its trees, in words.

use super::Figure;
use crate::page::Context;
use crate::quantity::count;
use crate::quantity::measure::rounded;
use crate::reckon::Topic;
use crate::reckon::formula::Place;

/// The block of its working.
pub const BLOCK: &str = "gain";

/// What this farm gets, with its count: "this farm gets 0.85 of the reckoned (85 of 100 logs, 20 trees in 2 winters)".
pub fn words(context: &Context<'_>) -> Option<Figure> {
    let gain = context.findings.gain()?;
    let trees = count(gain.trees, "tree", "trees");
    let winters = count(gain.winters, "winter", "winters");
    let (part, got, reckoned) = (rounded(gain.part(), 2), gain.got, count(gain.reckoned, "log", "logs"));
    let words = format!("This farm gets {part} of the reckoned ({got} of {reckoned}, {trees} in {winters})");
    Some(Figure::worked(words, &Place::new(Topic::Trees, BLOCK), context))
}
