//! Where a record holds, what binds it there and whom to ask, in words.

use super::{and, capital};
use crate::page::Context;
use crate::record::Id;
use crate::record::holds::{Bond, Holds};
use crate::record::region::Region;
use crate::record::said::Mark;

/// The places in which a record holds, as they stand behind its words; `None` where it holds everywhere.
pub fn places(holds: &Holds, context: &Context<'_>) -> Option<String> {
    let names = |regions: &[Id<Region>]| {
        let names: Vec<String> = regions.iter().map(|region| context.book.here.name_of(region.as_str())).collect();
        and(&names)
    };
    match (holds.holds_in.is_empty(), holds.not_in.is_empty()) {
        (true, true) => None,
        (true, false) => Some(format!("everywhere but in {}", names(&holds.not_in))),
        (false, _) if holds.part => Some(format!("in parts of {}", names(&holds.holds_in))),
        (false, _) => Some(format!("in {}", names(&holds.holds_in))),
    }
}

/// What binds a record, where and as of when: a law that nobody read again is a matter to ask about, never a law.
pub fn standing(holds: &Holds, mark: Mark, context: &Context<'_>) -> Option<String> {
    let place = places(holds, context);
    let read = holds.as_of.map(|month| format!(", as read in {}", month.show())).unwrap_or_default();
    match (holds.bound, place) {
        (Some(Bond::Law), place) if mark == Mark::Memory => place.map(|place| format!("{}: ask", capital(&place))),
        (Some(bond), Some(place)) => Some(format!("{} {place}{read}", bond.words())),
        (Some(bond), None) => Some(format!("{}{read}", bond.words())),
        (None, place) => place.map(|place| capital(&place)),
    }
}

/// Whom one asks what holds today.
pub fn office(holds: &Holds, context: &Context<'_>) -> Option<String> {
    holds.ask.map(|ask| context.book.here.office(ask))
}
