//! What is ticked off at a piece of work, in a few words each; the whole words stand in the cautions that they name.

use crate::page::Context;

/// A line to tick, and the cautions that it stands for.
pub type Row = (&'static str, &'static [&'static str]);

/// Before the first tree.
pub const FELLING: &[Row] = &[
    ("saw gear on", &["saw-ppe"]),
    ("trained feller", &["fell-trained-only"]),
    ("wind and light", &["fell-wind-weather"]),
    ("second person in sight", &["fell-not-alone"]),
    ("looked up", &["look-up"]),
    ("no wire within two tree lengths", &["fell-powerline"]),
    ("kit, phone, place written down", &["first-aid-cpr", "where-we-are"]),
];

/// Before the first cut to length.
pub const BUCKING: &[Row] = &[
    ("saw gear on", &["saw-ppe"]),
    ("pressed side and pulled side told", &["fell-spring-pole"]),
    ("no metal in it", &["metal-in-wood"]),
    ("fuel stands apart", &["saw-fuel"]),
];

/// Before the first hole.
pub const INOCULATION: &[Row] = &[
    ("log clamped", &["hold-the-log"]),
    ("bit fitted with the power off", &["drill-grinder-adapter", "drill-wrap-around"]),
    ("glasses and shield on", &["drill-eye-face"]),
    ("wax outdoors, lid at hand, never water", &["wax-fire"]),
];

/// Before one leaves the tank.
pub const SOAKING: &[Row] = &[("lid on and locked", &["soak-drowning"]), ("way out for animals", &["soak-drowning"])];

/// Of each mushroom, before it goes into the basket.
pub const PICKING: &[Row] =
    &[("looked at by itself", &["uninvited-fungus"]), ("fits its kind in every character", &["id-every-character"])];

/// The lines of which a caution holds here.
pub fn of(rows: &[Row], context: &Context<'_>) -> Vec<&'static str> {
    let holds = |ids: &[&str]| ids.iter().any(|id| context.book.cautions.contains_key(*id));
    rows.iter().filter(|(_, ids)| holds(ids)).map(|(words, _)| *words).collect()
}
