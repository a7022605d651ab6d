//! What is bought: money, amounts and packages in words.

use crate::{
    page::Context,
    quantity::{Units, count},
    reckon::findings::{outlook::amount, purchase::Amount},
    record::plan::Offer,
};

/// Money in the farm's currency.
#[must_use]
pub fn money(number: f64, context: &Context<'_>) -> String {
    amount(number, context.book.farm.record.money.as_ref().map_or("", |money| &money.currency))
}

/// An amount in words.
#[must_use]
pub fn amount_words(amount: &Amount, units: Units) -> String {
    match amount {
        Amount::Weight(mass) => mass.show(units),
        Amount::Pieces(pieces) => count(*pieces, "piece", "pieces"),
    }
}

/// What a package holds, in words.
#[must_use]
pub fn holds(offer: &Offer, units: Units) -> String {
    let weight = offer.weight.as_ref().map(|weight| weight.show(units));
    weight.or(offer.pieces.map(|pieces| count(pieces, "piece", "pieces"))).unwrap_or_default()
}
