//! A harvest: what was picked on a day, from one batch or from several together.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::batch::Called;
use crate::quantity::{Date, Mass};

/// A harvest, as a farm writes it, or a row of its sheet of harvests.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Harvest {
    /// The day.
    pub date: Date,
    /// The batch.
    pub batch: Option<Called>,
    /// The batches, where a day's total was not weighed apart; in a sheet with ` + ` between them.
    #[serde(default)]
    pub batches: Vec<Called>,
    /// Fresh weight.
    #[schemars(extend("between" = ["1 g", "2000 kg"], "examples" = ["2.4 lb"]))]
    pub weight: Mass,
    /// Anything else.
    pub note: Option<String>,
}
