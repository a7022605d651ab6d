//! Where the farm lies, in words.

use crate::page::Context;

/// The place of the farm in words.
pub fn words(context: &Context<'_>) -> String {
    let place = &context.book.farm.record.place;
    let side = |value: f64, plus: &str, minus: &str| {
        let word = if value < 0.0 { minus } else { plus };
        format!("{:.1}° {word}", value.abs())
    };
    let mut words = vec![side(place.latitude, "N", "S"), side(place.longitude, "E", "W")];
    if let Some(name) = &place.name {
        words.insert(0, name.clone());
    }
    if let Some(elevation) = &place.elevation {
        words.push(format!("{} above the sea", elevation.show(context.units())));
    }
    words.join(", ")
}
