//! No-cut windows that hold here and that the farm does not name.

use super::Odd;
use crate::book::lay::Pile;
use crate::book::{Book, Window, Wood};
use crate::record::window::WindowKind;

/// Asks once for all windows that hold here by their place, and that speak of every wood or of one that the farm has.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let unnamed: Vec<&Window> =
        book.windows.values().map(AsRef::as_ref).filter(|window| is_due(window, book)).collect();
    let (Some(farm), Some(here), false) = (pile.farm(), book.here.name(), unnamed.is_empty()) else {
        return Vec::new();
    };
    let units = book.farm.record.units;
    let said = |window: &&Window| {
        let (from, to) = (window.record.from.show(units), window.record.to.show(units));
        let part = if window.record.holds.part { ", in parts of it" } else { "" };
        format!("{} (`{}`, {from} to {to}{part})", window.record.name, window.id)
    };
    let said: Vec<String> = unnamed.iter().map(said).collect();
    let named = book.farm.no_cut.iter().map(AsRef::as_ref).chain(unnamed);
    let named: Vec<&str> = named.map(|window| window.id.as_str()).collect();
    let place = if farm.get("no_cut").is_some() { "no_cut" } else { "place" };
    vec![Odd::of_farm(
        farm.key_place(place),
        format!("`no_cut` does not name what holds in {here}: {}", said.join("; ")),
        format!("write `no_cut: [{}]`", named.join(", ")),
    )]
}

/// Whether the farm is to name a window.
fn is_due(window: &Window, book: &Book) -> bool {
    let holds = &window.record.holds;
    window.record.kind == WindowKind::NoCut
        && !holds.holds_in.is_empty()
        && book.here.holds(holds)
        && (window.woods.is_empty() || woods(book).any(|wood| window.speaks_of_wood(wood)))
        && book.farm.no_cut.iter().all(|named| named.id != window.id)
}

/// The woods that the farm names, and those of its trees and lots.
fn woods(book: &Book) -> impl Iterator<Item = &Wood> {
    let standing = book.trees.iter().map(|tree| &tree.wood);
    let lying = book.lots.values().map(|lot| &lot.wood);
    book.farm.woods.iter().chain(standing).chain(lying).map(AsRef::as_ref)
}
