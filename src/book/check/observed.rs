//! Two dates observed in one season.

use std::collections::BTreeMap;

use crate::{book::lay::Pile, fault::Fault, quantity::Date, read::node::Tree, record::Kind};

/// Checks that each list of observed dates holds one date a year.
#[must_use]
pub fn check(pile: &Pile) -> Vec<Fault> {
    let mut faults = Vec::new();
    let Some(farm) = pile.get(&(Kind::Farm, "farm".to_owned())) else { return faults };
    for list in ["leaf_colour", "bud_swell"] {
        let node = farm.node.get("observed").and_then(|observed| observed.get(list));
        let Some(Tree::List(items)) = node.map(|node| &node.value) else { continue };
        let mut years = BTreeMap::new();
        for item in items {
            let Some(Ok(date)) = item.text().map(Date::read) else { continue };
            if let Some(earlier) = years.insert(date.0.year(), date) {
                let wrong =
                    format!("{} and {} are both observed in {}", earlier.written(), date.written(), date.0.year());
                let fault = Fault::new("observed-twice", wrong).instead("keep one date a year");
                faults.push(fault.at(item.place.clone()));
            }
        }
    }
    faults
}
