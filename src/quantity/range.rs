//! A lowest and a highest value, written as a list of two.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::in_place;

/// A lowest and a highest value.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize)]
#[serde(from = "[T; 2]", into = "[T; 2]")]
#[serde(bound(deserialize = "T: Deserialize<'de>", serialize = "T: Serialize + Clone"))]
pub struct Range<T> {
    /// The lowest value.
    pub low: T,
    /// The highest value.
    pub high: T,
}

impl<T> From<[T; 2]> for Range<T> {
    fn from([low, high]: [T; 2]) -> Self {
        Self { low, high }
    }
}

impl<T> From<Range<T>> for [T; 2] {
    fn from(range: Range<T>) -> Self {
        [range.low, range.high]
    }
}

impl Range<super::Length> {
    /// The middle of the two.
    pub fn middle(&self) -> super::Length {
        ((self.low.si() + self.high.si()) / 2.0).into()
    }
}

in_place!(Range<T: JsonSchema>: format!("Range_of_{}", T::schema_name()), generator => {
    "type": "array",
    "items": generator.subschema_for::<T>(),
    "minItems": 2,
    "maxItems": 2,
    "ordered": true,
});
