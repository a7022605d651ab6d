//! Work beside drilled logs.

use crate::page::Context;
use crate::quantity::count;
use crate::reckon::findings::day::{Made, OtherWork};

/// Work beside drilled logs, in words.
pub fn words(work: &OtherWork, context: &Context<'_>) -> String {
    let units = context.units();
    let spawn = work.spawn.as_ref().and_then(|found| Some(format!(", {} of spawn", found.as_ref().ok()?.show(units))));
    let spawn = spawn.unwrap_or_default();
    match &work.made {
        Made::Totems(totems, wood, layers) => format!(
            "{} of {}: {} of wood, {layers} layers of spawn{spawn}",
            count(totems.number, "totem", "totems"),
            totems.diameter.show(units),
            units.volume_words(*wood)
        ),
        Made::Stumps(stumps) => format!(
            "{} of {}: {}",
            count(stumps.number, "stump", "stumps"),
            stumps.diameter.show(units),
            count(work.holes, "hole", "holes")
        ),
        Made::Bed(bed, chips) => format!(
            "a bed of {}, {} deep: {} of chips{spawn}",
            bed.area.show(units),
            bed.depth.show(units),
            units.volume_words(*chips)
        ),
    }
}
