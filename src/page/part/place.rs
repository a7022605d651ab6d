//! Where the farm lies, in words.

use crate::page::Context;

/// The place of the farm in words.
pub fn words(context: &Context<'_>) -> String {
    let place = &context.book.farm.record.place;
    let mut words = degrees(context, 1);
    if let Some(name) = &place.name {
        words.insert(0, name.clone());
    }
    if let Some(elevation) = &place.elevation {
        words.push(format!("{} above the sea", elevation.show(context.units())));
    }
    words.join(", ")
}

/// The degrees of the farm as a rescuer types them: as the record writes them, to no more than five decimals.
pub fn exact(context: &Context<'_>) -> String {
    degrees(context, 5).join(", ")
}

/// The latitude and the longitude to so many decimals at most.
fn degrees(context: &Context<'_>, decimals: usize) -> Vec<String> {
    let place = &context.book.farm.record.place;
    let side = |value: f64, plus: &str, minus: &str| {
        let word = if value < 0.0 { minus } else { plus };
        let number = format!("{:.decimals$}", value.abs());
        let (whole, part) = number.split_once('.').unwrap_or((&number, ""));
        let part = part.trim_end_matches('0');
        format!("{whole}.{}° {word}", if part.is_empty() { "0" } else { part })
    };
    vec![side(place.latitude, "N", "S"), side(place.longitude, "E", "W")]
}
