//! Where the farm lies, in words.

use crate::page::Context;
use crate::quantity::Units;

/// The place of the farm in words.
pub fn words(context: &Context<'_>) -> String {
    let place = &context.book.farm.record.place;
    let mut words = degrees(place.latitude, place.longitude, 1).to_vec();
    if let Some(name) = &place.name {
        words.insert(0, name.clone());
    }
    if let Some(elevation) = &place.elevation {
        words.push(format!("{} above sea level", elevation.show(context.units())));
    }
    words.join(", ")
}

/// Decimals of a degree by which a rescuer finds people: to about a hundred metres.
const NEAR: i32 = 3;
/// Decimals of a degree that are printed at most: a metre.
const MOST: usize = 5;

/// A spot as a rescuer types it: as the record writes it, to no more than five decimals.
pub fn spot(latitude: f64, longitude: f64) -> String {
    degrees(latitude, longitude, MOST).join(", ")
}

/// How far off a rescuer may look who has these degrees alone, where the record writes them roughly.
pub fn rough(latitude: f64, longitude: f64, units: Units) -> Option<&'static str> {
    let off = units.pick(["60 miles", "6 miles", "half a mile"], ["100 km", "10 km", "1 km"]);
    let written = |value: f64| {
        let scaled = |decimals: i32| value * 10_f64.powi(decimals);
        (0..NEAR).find(|decimals| (scaled(*decimals) - scaled(*decimals).round()).abs() < 1e-6).unwrap_or(NEAR)
    };
    off.get(written(latitude).max(written(longitude)) as usize).copied()
}

/// The latitude and the longitude to so many decimals at most.
fn degrees(latitude: f64, longitude: f64, decimals: usize) -> [String; 2] {
    let side = |value: f64, plus: &str, minus: &str| {
        let word = if value < 0.0 { minus } else { plus };
        let number = format!("{:.decimals$}", value.abs());
        let (whole, part) = number.split_once('.').unwrap_or((&number, ""));
        let part = part.trim_end_matches('0');
        format!("{whole}.{}° {word}", if part.is_empty() { "0" } else { part })
    };
    [side(latitude, "N", "S"), side(longitude, "E", "W")]
}
