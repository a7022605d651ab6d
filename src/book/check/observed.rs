//! Two dates observed in one season, one in the wrong half of the year, or buds that swell with hardly a winter since leaf
//! colour.

use std::collections::BTreeMap;

use super::unbelievable;
use crate::book::lay::Pile;
use crate::fault::{Fault, Place};
use crate::quantity::Date;
use crate::read::Node;

/// Months in which an event can fall north of the equator; half a year later south of it.
const NORTH: [(&str, &str, std::ops::RangeInclusive<i8>); 2] =
    [("leaf_colour", "leaf colour", 8..=12), ("bud_swell", "bud swell", 1..=6)];

/// Checks that each list of observed dates holds one date a year, in the right half of it.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let mut faults = Vec::new();
    let Some(farm) = pile.farm() else { return faults };
    let latitude = farm.get("place").and_then(|place| place.get("latitude")).map(Node::json);
    let south = latitude.and_then(|latitude| latitude.as_f64()).is_some_and(|latitude| latitude < 0.0);
    let mut seen: BTreeMap<&str, Vec<(Date, Place)>> = BTreeMap::new();
    for (list, words, months) in NORTH {
        let mut years = BTreeMap::new();
        for item in farm.get("observed").map_or(&[][..], |observed| observed.items(list)) {
            let Some(Ok(date)) = item.text().map(Date::read) else { continue };
            let month = if south { (date.0.month() + 5) % 12 + 1 } else { date.0.month() };
            let fault = if months.contains(&month) { twice(&mut years, date) } else { Some(wrong_half(date, words)) };
            match fault {
                Some(fault) => faults.push(fault.at(item.place.clone())),
                None => seen.entry(list).or_default().push((date, item.place.clone())),
            }
        }
    }
    faults.extend(no_winter(&seen));
    faults
}

/// Buds that swell within so many days of leaf colour had no winter.
const NO_WINTER: i32 = 45;

/// Buds that swell too soon after the leaves coloured.
fn no_winter(dates: &BTreeMap<&str, Vec<(Date, Place)>>) -> Vec<Fault> {
    let of = |list: &str| dates.get(list).map_or(&[][..], Vec::as_slice);
    let soon = |(swell, place): &(Date, Place)| {
        let days = |colour: Date| (swell.0 - colour.0).get_days();
        let (colour, _) = of("leaf_colour").iter().find(|(colour, _)| (0..NO_WINTER).contains(&days(*colour)))?;
        let wrong = format!(
            "buds that swell on {}, {} days after the leaves coloured, had no winter",
            swell.written(),
            days(*colour)
        );
        Some(unbelievable(wrong, "look at both dates again", place.clone()))
    };
    of("bud_swell").iter().filter_map(soon).collect()
}

fn twice(years: &mut BTreeMap<i16, Date>, date: Date) -> Option<Fault> {
    let year = date.0.year();
    let earlier = years.insert(year, date)?;
    let wrong = format!("{} and {} are both observed in {year}", earlier.written(), date.written());
    Some(Fault::new("observed-twice", wrong).instead("keep one date a year"))
}

fn wrong_half(date: Date, words: &str) -> Fault {
    Fault::new("not-believable", format!("{} is not believable for {words} at this latitude", date.written()))
        .instead("write year, month and day in this order, and look at the month again")
}
