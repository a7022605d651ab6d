//! Quantities of the trade: read from text in either unit system, kept as written, computed in SI, printed in either.
//!
//! | file | what it holds |
//! |---|---|
//! | [`measure`] | length, area, basal area, mass, temperature, difference of temperatures, time, per cent |
//! | [`area`] | areas and basal areas, made and printed |
//! | [`temperature`] | temperatures and their differences, made and printed |
//! | [`units`] | the two unit systems |
//! | [`range`] | a lowest and a highest value |
//! | [`date`] | calendar dates and dates of the year |
//! | [`amount`] | how much stands in a line of the day book: a count, or a quantity with its unit |
//! | [`season_end`] | an end of a season window: a date of the year, an event, a temperature crossing |
//! | [`value`] | a value of any of these kinds, as a cell of a table, a figure of a page and a line of a working hold it |

pub mod amount;
pub mod area;
pub mod date;
pub mod measure;
pub mod range;
pub mod season_end;
pub mod temperature;
pub mod units;
pub mod value;

pub use amount::Amount;
pub use date::{Date, DayOfYear};
pub use measure::{Area, BasalArea, Duration, Length, Mass, Percent, Temperature, TemperatureStep};
pub use range::Range;
pub use season_end::{Event, SeasonEnd};
pub use units::Units;
pub use uom::si::f64::Volume;
pub use value::Value;

use crate::fault::Fault;
pub use crate::fault::draw::count;

/// Reads a text by the name of its JSON Schema `format` and gives its size in base units, for comparing.
///
/// Returns `None` for a format that is not a quantity of this project.
///
/// # Errors
///
/// A [`Fault`] without a place, where the text is not such a quantity.
///
/// ```
/// use hostwood::quantity::magnitude;
/// assert_eq!(magnitude("length", "10 cm").unwrap().unwrap(), 0.1);
/// assert!(magnitude("mass", "10 cm").unwrap().is_err());
/// ```
#[must_use]
pub fn magnitude(format: &str, text: &str) -> Option<Result<f64, Fault>> {
    Some(match format {
        "length" => Length::read(text).map(|value| value.base()),
        "area" => Area::read(text).map(|value| value.base()),
        "basal-area" => BasalArea::read(text).map(|value| value.base()),
        "mass" => Mass::read(text).map(|value| value.base()),
        "temperature" => Temperature::read(text).map(|value| value.base()),
        "temperature-step" => TemperatureStep::read(text).map(|value| value.base()),
        "span-of-time" => Duration::read(text).map(|value| value.base()),
        "percent" => Percent::read(text).map(|value| value.base()),
        "date" => Date::read(text).map(|value| f64::from(value.ordinal())),
        "day-of-year" => DayOfYear::read(text).map(|value| f64::from(value.number())),
        "season-end" => SeasonEnd::read(text).map(|_| 0.0),
        "amount" => Amount::read(text).map(|_| 0.0),
        _ => return None,
    })
}

/// The units of a quantity, by the name of its JSON Schema `format`; none for what has no unit.
#[must_use]
pub fn symbols(format: &str) -> &'static [&'static str] {
    match format {
        "length" => Length::SYMBOLS,
        "area" => Area::SYMBOLS,
        "basal-area" => BasalArea::SYMBOLS,
        "mass" => Mass::SYMBOLS,
        "temperature" => Temperature::SYMBOLS,
        "temperature-step" => TemperatureStep::SYMBOLS,
        "span-of-time" => Duration::SYMBOLS,
        "percent" => Percent::SYMBOLS,
        _ => &[],
    }
}

/// A value as a record writes it: text without its quotes, or a number.
///
/// ```
/// use hostwood::quantity::plain;
/// assert_eq!([plain(&"K-17".into()), plain(&17.into())], ["K-17", "17"]);
/// ```
#[must_use]
pub fn plain(value: &serde_json::Value) -> String {
    value.as_str().map_or_else(|| value.to_string(), str::to_owned)
}

/// The formats that [`magnitude`] knows.
pub const FORMATS: [&str; 12] = [
    "length",
    "area",
    "basal-area",
    "mass",
    "temperature",
    "temperature-step",
    "span-of-time",
    "percent",
    "date",
    "day-of-year",
    "season-end",
    "amount",
];

/// Implements reading from and writing to text for a type with a `read` function and a `written` text.
macro_rules! as_text {
    ($name:ident, $format:literal, $example:literal) => {
        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let text = String::deserialize(deserializer)?;
                Self::read(&text).map_err(|fault| serde::de::Error::custom(fault.wrong))
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(&self.written())
            }
        }

        impl schemars::JsonSchema for $name {
            fn inline_schema() -> bool {
                true
            }

            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }

            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({ "type": "string", "format": $format, "examples": [$example] })
            }
        }
    };
}
pub(crate) use as_text;
