//! What the weights of a wood rest on.

use crate::book::Wood;

/// What the weights of a wood rest on.
pub fn weight_note(wood: &Wood) -> &'static str {
    if wood.record.bark.is_some() { "wood and bark, green" } else { "wood alone, green; no figures for the bark" }
}
