//! Quantities of the trade: read from text in either unit system, kept as written, computed in SI, printed in either.
//!
//! | file | what it holds |
//! |---|---|
//! | [`measure`] | length, area, basal area, mass, temperature, difference of temperatures, time, per cent |
//! | [`area`] | areas and basal areas, printed |
//! | [`temperature`] | temperatures and their differences, printed |
//! | [`units`] | the two unit systems |
//! | [`part_of_month`] | a month of any year, or its early, middle or late part |
//! | [`range`] | a lowest and a highest value |
//! | [`date`] | calendar dates and dates of the year |
//! | [`days`] | a day, or two with all between them |
//! | [`tally`] | a number of pieces, counted or guessed |
//! | [`code`] | places by their ISO 3166 codes |
//! | [`amount`] | how much stands in a line of the day book: a count, or a quantity with its unit |
//! | [`season_end`] | an end of a season window: a date of the year, an event, a temperature crossing |
//! | [`spoken`] | a quantity inside a sentence, turned for the edition |
//! | [`value`] | a value of any of these kinds, as a cell of a table, a figure of a page and a line of a working hold it |

pub mod amount;
pub mod area;
pub mod code;
pub mod date;
pub mod days;
pub mod measure;
pub mod part_of_month;
pub mod range;
pub mod season_end;
pub mod spoken;
pub mod tally;
pub mod temperature;
pub mod units;
pub mod value;

pub use amount::Amount;
pub use code::Code;
pub use date::{Date, DayOfYear, Month};
pub use days::Days;
pub use measure::{Area, BasalArea, Duration, Length, Mass, Percent, Temperature, TemperatureStep};
pub use part_of_month::PartOfMonth;
pub use range::Range;
pub use season_end::{Event, SeasonEnd};
pub use tally::Tally;
pub use units::Units;
pub use uom::si::f64::Volume;
pub use value::Value;

use crate::fault::Fault;
pub use crate::fault::draw::count;

/// What is known of a text by the name of its JSON Schema `format`.
struct Format {
    name: &'static str,
    noun: &'static str,
    symbols: &'static [&'static str],
    size: fn(&str) -> Result<f64, Fault>,
}

static FORMATS: [Format; 17] = [
    Length::FORMAT,
    Mass::FORMAT,
    Temperature::FORMAT,
    TemperatureStep::FORMAT,
    Duration::FORMAT,
    Percent::FORMAT,
    Area::FORMAT,
    BasalArea::FORMAT,
    Date::FORMAT,
    DayOfYear::FORMAT,
    Month::FORMAT,
    PartOfMonth::FORMAT,
    Code::FORMAT,
    SeasonEnd::FORMAT,
    Amount::FORMAT,
    Days::FORMAT,
    Tally::FORMAT,
];

fn format_of(name: &str) -> Option<&'static Format> {
    FORMATS.iter().find(|format| format.name == name)
}

/// Whether a JSON Schema `format` is one of this project's quantities and dates.
pub fn is_format(name: &str) -> bool {
    format_of(name).is_some()
}

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
pub fn magnitude(format: &str, text: &str) -> Option<Result<f64, Fault>> {
    format_of(format).map(|format| (format.size)(text))
}

/// The units of a quantity, by the name of its JSON Schema `format`; none for what has no unit.
pub fn symbols(format: &str) -> &'static [&'static str] {
    format_of(format).map_or(&[], |format| format.symbols)
}

/// A value as a record writes it: text without its quotes, or a number.
///
/// ```
/// use hostwood::quantity::plain;
/// assert_eq!([plain(&"K-17".into()), plain(&17.into())], ["K-17", "17"]);
/// ```
pub fn plain(value: &serde_json::Value) -> String {
    value.as_str().map_or_else(|| value.to_string(), str::to_owned)
}

/// A word with a capital first letter.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().collect::<String>() + letters.as_str())
}

/// Implements reading from and writing to text for a type with a `read` function and a `written` text, and its row among the
/// formats: how great a value is, and for a quantity its noun and its units.
macro_rules! as_text {
    ($name:ident, $format:literal, $example:literal, $size:expr) => {
        $crate::quantity::as_text!($name: "string", $format, $example, $size, "", &[]);
    };
    ($name:ident: $type:tt, $format:literal, $example:literal, $size:expr, $noun:literal, $symbols:expr) => {
        impl $name {
            pub(super) const FORMAT: $crate::quantity::Format = $crate::quantity::Format {
                name: $format,
                noun: $noun,
                symbols: $symbols,
                size: |text| Self::read(text).map($size),
            };
        }

        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let value = serde_json::Value::deserialize(deserializer)?;
                Self::read(&$crate::quantity::plain(&value)).map_err(|fault| serde::de::Error::custom(fault.wrong))
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(&self.written())
            }
        }

        $crate::quantity::in_place!($name: stringify!($name), _ => {
            "type": $type, "format": $format, "examples": [$example]
        });
    };
}
pub(crate) use as_text;

/// Implements the JSON Schema of a type that stands in place wherever it is used, rather than among the definitions.
macro_rules! in_place {
    ($type:ident$(<$of:ident: $bound:path>)?: $called:expr, $generator:pat => $schema:tt) => {
        impl$(<$of: $bound>)? schemars::JsonSchema for $type$(<$of>)? {
            fn inline_schema() -> bool {
                true
            }

            fn schema_name() -> std::borrow::Cow<'static, str> {
                $called.into()
            }

            fn json_schema($generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!($schema)
            }
        }
    };
}
pub(crate) use in_place;
