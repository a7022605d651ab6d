//! A photograph of the farm's own, as a record names it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::Date;

/// A photograph that the page of a record shows.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Photo {
    /// The name of its file in the folder `photos`: JPEG, PNG or WebP.
    #[schemars(extend("examples" = ["stack.jpg"]))]
    pub file: String,
    /// What is to be seen on it, in a few words, for who cannot see it as well.
    #[schemars(extend("examples" = ["A stack of oak under the hemlocks"]))]
    pub shows: String,
    /// The day on which it was taken.
    pub date: Option<Date>,
}
