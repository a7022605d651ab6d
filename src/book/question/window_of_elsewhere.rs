//! A no-cut window that the farm names and that holds elsewhere.

use super::Odd;
use crate::book::Book;
use crate::book::lay::Pile;

/// Asks about each window under `no_cut` that does not hold where the farm says that it lies.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let Some(farm) = pile.farm() else { return Vec::new() };
    let odd = farm.items("no_cut").iter().filter_map(|item| {
        let id = item.text()?;
        let window = book.farm.no_cut.iter().find(|window| window.id == id)?;
        let holds = &window.record.holds;
        if book.here.holds(holds) {
            return None;
        }
        let places: Vec<String> = holds.holds_in.iter().map(|region| book.here.name_of(region.as_str())).collect();
        let places = if places.is_empty() { "other places".to_owned() } else { places.join(", ") };
        let (what, instead) = match book.here.name() {
            Some(here) => (
                format!("`{id}` does not hold in {here}, but in {places}"),
                format!("take `{id}` away, or name the window that holds here"),
            ),
            None => (
                format!("`{id}` holds in {places}, and `place` does not say that the farm lies there"),
                format!("take `{id}` away, or say by `where:` under `place` that the farm lies there"),
            ),
        };
        Some(Odd::of_farm(item.place.clone(), what, instead))
    });
    odd.collect()
}
