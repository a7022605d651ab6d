//! Work beside drilled logs.

use crate::{
    page::Context,
    quantity::{Mass, count},
    reckon::{Gap, findings::day::OtherWork},
};

/// Work beside drilled logs, in words.
#[must_use]
pub fn words(work: &OtherWork, context: &Context<'_>) -> String {
    let units = context.units();
    let spawn = |found: &Result<Mass, Gap>| {
        found.as_ref().map_or_else(|_| String::new(), |mass| format!(", {} of spawn", mass.show(units)))
    };
    match work {
        OtherWork::Totems(totems, wood, layers, mass) => format!(
            "{} of {}: {} of wood, {layers} layers of spawn{}",
            count(totems.number, "totem", "totems"),
            totems.diameter.show(units),
            units.volume_words(*wood),
            spawn(mass)
        ),
        OtherWork::Stumps(stumps, holes) => {
            format!(
                "{} of {}: {}",
                count(stumps.number, "stump", "stumps"),
                stumps.diameter.show(units),
                count(*holes, "hole", "holes")
            )
        }
        OtherWork::Bed(bed, chips, mass) => format!(
            "a bed of {}, {} deep: {} of chips{}",
            bed.area.show(units),
            bed.depth.show(units),
            units.volume_words(*chips),
            spawn(mass)
        ),
    }
}
