//! A farm that does not say in which country it lies.

use super::Odd;
use crate::book::Book;
use crate::book::lay::Pile;

/// Asks where the farm has no `where`; coordinates tell no country, so none is guessed from them.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let unsaid = pile.farm().filter(|_| book.here.code.is_none());
    let odd = unsaid.map(|farm| {
        Odd::of_farm(
            farm.key_place("place"),
            "`place` does not say in which country the farm lies, so the guide shows only what holds everywhere",
            "add the ISO 3166 code of the state or province, or else of the country, such as `where: US-VT`",
        )
    });
    odd.into_iter().collect()
}
