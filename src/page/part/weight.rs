//! What the weights of a wood rest on.

use crate::book::Wood;

/// Diameter at which bark thickness is shown.
pub const BARK_AT_INCHES: f64 = 6.0;

/// What the weights of a wood rest on.
#[must_use]
pub fn weight_note(wood: &Wood) -> &'static str {
    if wood.record.bark.is_some() { "wood and bark, green" } else { "wood alone, green; no figures for the bark" }
}
