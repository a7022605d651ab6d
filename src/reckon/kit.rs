//! How much protective gear does a work day take?
//!
//! | question | formula | source |
//! |---|---|---|
//! | pieces of one kind of gear | the most, over the times at which stations begin, of the sum of the heads that wear it then | counting; people change stations, so what begins at one time is worn at one time |

use std::collections::BTreeMap;

/// A station: when it begins, how many people work there, and what each of them wears.
#[derive(Debug, Clone, Copy)]
pub struct Worn<'a> {
    /// When it begins.
    pub at: &'a str,
    /// How many people work there.
    pub heads: u32,
    /// What each of them wears.
    pub wears: &'a [String],
}

/// The pieces of each kind of gear that a day takes, by name.
///
/// ```
/// use hostwood::reckon::kit::{Worn, pieces};
/// let [eyes, gloves] = ["eye protection", "gloves"].map(str::to_owned);
/// let day = [
///     Worn { at: "10:00", heads: 4, wears: &[eyes.clone()] },
///     Worn { at: "10:00", heads: 3, wears: &[eyes.clone(), gloves.clone()] },
///     Worn { at: "13:00", heads: 5, wears: &[eyes.clone()] },
/// ];
/// let needed = pieces(&day);
/// assert_eq!((needed[&eyes], needed[&gloves]), (7, 3));
/// ```
pub fn pieces(stations: &[Worn<'_>]) -> BTreeMap<String, u32> {
    let mut by_time: BTreeMap<(&str, &str), u32> = BTreeMap::new();
    for station in stations {
        for gear in station.wears {
            *by_time.entry((gear, station.at)).or_default() += station.heads;
        }
    }
    let mut most: BTreeMap<String, u32> = BTreeMap::new();
    for ((gear, _), heads) in by_time {
        let known = most.entry(gear.to_owned()).or_default();
        *known = heads.max(*known);
    }
    most
}
