//! The two unit systems.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The units in which a guide is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// Inches, pounds, degrees Fahrenheit.
    #[default]
    Us,
    /// Centimetres, kilograms, degrees Celsius.
    Metric,
}
