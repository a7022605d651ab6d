//! Money in words.

use crate::page::Context;
use crate::reckon::findings::outlook::amount;

/// Money in the farm's currency.
pub fn money(number: f64, context: &Context<'_>) -> String {
    amount(number, context.book.farm.record.money.as_ref().map_or("", |money| &money.currency))
}
