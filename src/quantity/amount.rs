//! An amount in the day book: a count, or a quantity with its unit.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};

use super::{Duration, Length, Mass, Units, measure::rounded, plain};
use crate::fault::Fault;

/// How much: a bare count, or a weight, a length or a time that its unit tells apart.
#[derive(Debug, Clone, PartialEq)]
pub enum Amount {
    /// So many.
    Count(f64),
    /// So heavy.
    Mass(Mass),
    /// So deep.
    Length(Length),
    /// So long.
    Time(Duration),
}

impl Amount {
    /// Reads an amount.
    ///
    /// # Errors
    ///
    /// A [`Fault`] without a place, where the text is neither a count nor a quantity that a day book holds.
    ///
    /// ```
    /// use hostwood::quantity::Amount;
    /// assert_eq!(Amount::read("8").unwrap(), Amount::Count(8.0));
    /// assert!(matches!(Amount::read("12 hours").unwrap(), Amount::Time(time) if time.days() == 0.5));
    /// assert!(Amount::read("a good many").is_err());
    /// ```
    pub fn read(text: &str) -> Result<Self, Fault> {
        let text = text.trim();
        if let Ok(count) = text.parse::<f64>() {
            return if count >= 0.0 && count.is_finite() { Ok(Self::Count(count)) } else { Err(Self::unknown(text)) };
        }
        let unit = text.trim_start_matches(|c: char| c.is_ascii_digit() || ". /".contains(c));
        match unit {
            unit if Mass::SYMBOLS.contains(&unit) => Mass::read(text).map(Self::Mass),
            unit if Length::SYMBOLS.contains(&unit) => Length::read(text).map(Self::Length),
            unit if Duration::SYMBOLS.contains(&unit) => Duration::read(text).map(Self::Time),
            _ => Err(Self::unknown(text)),
        }
    }

    fn unknown(text: &str) -> Fault {
        Fault::new("not-an-amount", format!("how much `{text}` is cannot be told"))
            .instead("write a count (`8`), or a number with a unit: `12 hours`, `26.8 lb`, `25 mm`")
    }

    /// The amount as records write it.
    #[must_use]
    pub fn written(&self) -> String {
        match self {
            Self::Count(count) => rounded(*count, 2),
            Self::Mass(mass) => mass.written(),
            Self::Length(length) => length.written(),
            Self::Time(time) => time.written(),
        }
    }

    /// The amount as it is printed.
    #[must_use]
    pub fn show(&self, units: Units) -> String {
        match self {
            Self::Count(count) => rounded(*count, 2),
            Self::Mass(mass) => mass.show(units),
            Self::Length(length) => length.show(units),
            Self::Time(time) => time.show(units),
        }
    }
}

impl<'de> Deserialize<'de> for Amount {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::read(&plain(&serde_json::Value::deserialize(deserializer)?))
            .map_err(|fault| D::Error::custom(fault.wrong))
    }
}

impl Serialize for Amount {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.written())
    }
}

impl JsonSchema for Amount {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Amount".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": ["string", "number"], "format": "amount", "examples": ["12 hours"] })
    }
}
