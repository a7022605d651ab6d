//! Length, area, basal area, mass, temperature, time and per cent, each kept as written and computed in SI.

use std::fmt;

use uom::si::area::{hectare, square_foot, square_meter};
use uom::si::f64 as si;
use uom::si::length::{centimeter, foot, inch, meter, millimeter};
use uom::si::mass::{gram, kilogram, ounce, pound};
use uom::si::ratio::{percent, ratio};
use uom::si::temperature_interval::{
    degree_celsius as celsius_step, degree_fahrenheit as fahrenheit_step, kelvin as kelvin_step,
};
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit, kelvin};
use uom::si::time::{day, hour, minute};

use super::{FORMATS, Format, Units, as_text};
use crate::fault::{Fault, suggest};

/// Days in a month and in a year where a source counts in months or years.
const MONTH: f64 = 365.25 / 12.0;
const YEAR: f64 = 365.25;
pub(super) const SQUARE_FEET_AN_ACRE: f64 = 43_560.0;
/// Cubic metres in a cubic foot.
pub const CUBIC_METRES_A_CUBIC_FOOT: f64 = 0.3048 * 0.3048 * 0.3048;
/// Hectares in an acre.
pub const HECTARES_AN_ACRE: f64 = SQUARE_FEET_AN_ACRE * SQUARE_METRES_A_SQUARE_FOOT / 10_000.0;
pub(super) const SQUARE_METRES_A_SQUARE_FOOT: f64 = 0.092_903_04;

/// Makes a quantity: its noun, its format, an example and its base unit; the units that records may use; the units of bare
/// numbers that it is made `from` and turned `to`.
macro_rules! measure {
    ($(#[$doc:meta])* $name:ident: $si:ty, $noun:literal, $format:literal, $example:literal, $base:ident,
     { $($($symbol:literal)|+ => $build:expr;)+ }
     $(from { $($(#[$from_doc:meta])* $from:ident: $from_unit:ident;)+ })?
     $(to { $($(#[$to_doc:meta])* $to:ident: $to_unit:ident;)+ })?) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq)]
        pub struct $name {
            value: $si,
            written: Option<String>,
        }

        impl $name {
            /// The units that records may use, each with its other spellings.
            pub const SYMBOLS: &[&str] = &[$($($symbol),+),+];

            /// Reads a number and a unit, or a larger and a smaller unit with a number each.
            ///
            /// # Errors
            ///
            /// A [`Fault`] without a place: no number, no unit, an unknown unit, or a unit of another kind.
            pub fn read(text: &str) -> Result<Self, Fault> {
                if let Some((first, second)) = in_two(text).filter(|_| matches!($format, "mass" | "length")) {
                    let [larger, smaller] = [Self::read(first)?.base(), Self::read(second)?.base()];
                    if smaller < larger {
                        let value = <$si>::new::<$base>(larger + smaller);
                        return Ok(Self { value, written: Some(text.trim().to_owned()) });
                    }
                }
                let (number, unit) = split(text, $noun, $example)?;
                let value = match unit {
                    $($($symbol)|+ => $build(number),)+
                    other => return Err(unknown_unit(text, other, $noun, Self::SYMBOLS, $example)),
                };
                Ok(Self { value, written: Some(text.trim().to_owned()) })
            }

            /// The size in base units, for comparing.
            pub fn base(&self) -> f64 {
                self.value.get::<$base>()
            }

            $($($(#[$from_doc])*
            pub fn $from(number: f64) -> Self {
                <$si>::new::<$from_unit>(number).into()
            })+)?

            $($($(#[$to_doc])*
            pub fn $to(&self) -> f64 {
                self.value.get::<$to_unit>()
            })+)?

            /// The value as a typed quantity.
            pub const fn si(&self) -> $si {
                self.value
            }

            /// The text as it was written, or as it is printed where it was computed.
            pub fn written(&self) -> String {
                self.written.clone().unwrap_or_else(|| self.show(Units::Metric))
            }
        }

        impl From<$si> for $name {
            fn from(value: $si) -> Self {
                Self { value, written: None }
            }
        }

        as_text!($name: "string", $format, $example, |value| value.base(), $noun, Self::SYMBOLS);
    };
}

measure! {
    /// A length.
    ///
    /// ```
    /// use hostwood::quantity::{Length, Units};
    /// let length = Length::read("5/16 in").unwrap();
    /// assert!((length.millimetres() - 7.94).abs() < 0.005); // worked-example value of 5/16 in
    /// assert_eq!(Length::read("40 in").unwrap().show(Units::Metric), "102 cm");
    /// ```
    Length: si::Length, "length", "length", "4 in", meter, {
        "in" | "inch" | "inches" => si::Length::new::<inch>;
        "ft" | "foot" | "feet" => si::Length::new::<foot>;
        "mm" => si::Length::new::<millimeter>;
        "cm" => si::Length::new::<centimeter>;
        "m" => si::Length::new::<meter>;
    } from {
        /// A length of so many inches.
        of_inches: inch;
        /// A length of so many metres.
        of_metres: meter;
        /// A length of so many feet.
        of_feet: foot;
    } to {
        /// The length in inches.
        inches: inch;
        /// The length in feet.
        feet: foot;
        /// The length in millimetres.
        millimetres: millimeter;
    }
}

measure! {
    /// A weight.
    ///
    /// ```
    /// use hostwood::quantity::Mass;
    /// assert!((Mass::read("5.5 lb").unwrap().grams() - 2495.0).abs() < 0.5);
    /// assert!((Mass::read("5 lb 8 oz").unwrap().grams() - 2495.0).abs() < 0.5);
    /// ```
    Mass: si::Mass, "weight", "mass", "5.5 lb", kilogram, {
        "lb" | "lbs" | "pound" | "pounds" => si::Mass::new::<pound>;
        "oz" | "ounce" | "ounces" => si::Mass::new::<ounce>;
        "g" => si::Mass::new::<gram>;
        "kg" => si::Mass::new::<kilogram>;
    } from {
        /// A weight of so many kilograms.
        of_kilograms: kilogram;
        /// A weight of so many pounds.
        of_pounds: pound;
    } to {
        /// The weight in grams.
        grams: gram;
        /// The weight in pounds.
        pounds: pound;
    }
}

measure! {
    /// A temperature.
    ///
    /// ```
    /// use hostwood::quantity::{Temperature, Units};
    /// assert_eq!(Temperature::read("77 F").unwrap().show(Units::Metric), "25 °C");
    /// ```
    Temperature: si::ThermodynamicTemperature, "temperature", "temperature", "50 F", kelvin, {
        "F" | "°F" => si::ThermodynamicTemperature::new::<degree_fahrenheit>;
        "C" | "°C" => si::ThermodynamicTemperature::new::<degree_celsius>;
    } from {
        /// A temperature of so many degrees Celsius.
        of_celsius: degree_celsius;
    } to {
        /// The temperature in degrees Celsius.
        celsius: degree_celsius;
        /// The temperature in degrees Fahrenheit.
        fahrenheit: degree_fahrenheit;
    }
}

measure! {
    /// A difference of temperatures, such as a standard deviation.
    TemperatureStep: si::TemperatureInterval, "difference of temperatures", "temperature-step", "4 C", kelvin_step, {
        "F" | "°F" => si::TemperatureInterval::new::<fahrenheit_step>;
        "C" | "°C" => si::TemperatureInterval::new::<celsius_step>;
    } from {
        /// A difference of so many degrees C.
        of_celsius: celsius_step;
    } to {
        /// The difference in degrees C.
        celsius: celsius_step;
        /// The difference in degrees F.
        fahrenheit: fahrenheit_step;
    }
}

measure! {
    /// A stretch of time.
    ///
    /// ```
    /// use hostwood::quantity::Duration;
    /// assert_eq!(Duration::read("2 weeks").unwrap().days(), 14.0);
    /// ```
    Duration: si::Time, "time", "span-of-time", "2 weeks", day, {
        "day" | "days" | "d" => si::Time::new::<day>;
        "week" | "weeks" => |weeks: f64| si::Time::new::<day>(weeks * 7.0);
        "month" | "months" => |months: f64| si::Time::new::<day>(months * MONTH);
        "year" | "years" => |years: f64| si::Time::new::<day>(years * YEAR);
        "hour" | "hours" | "h" => |hours: f64| si::Time::new::<day>(hours / 24.0);
    } from {
        /// A time of so many days.
        of_days: day;
        /// A time of so many minutes.
        of_minutes: minute;
    } to {
        /// The time in days.
        days: day;
        /// The time in hours.
        hours: hour;
    }
}

measure! {
    /// A share, in per cent.
    ///
    /// ```
    /// use hostwood::quantity::Percent;
    /// assert_eq!(Percent::read("83.1 %").unwrap().of_one(), 0.831);
    /// ```
    Percent: si::Ratio, "per cent", "percent", "83 %", percent, {
        "%" | "per cent" | "percent" => |number: f64| si::Ratio::new::<ratio>(number / 100.0);
    } from {
        /// So great a part of one.
        of_part: ratio;
    } to {
        /// The share as a part of one.
        of_one: ratio;
    }
}

measure! {
    /// An area of land, or of a bed.
    ///
    /// ```
    /// use hostwood::quantity::Area;
    /// assert!((Area::read("1 acre").unwrap().base() - 4046.86).abs() < 0.01); // square metres
    /// ```
    Area: si::Area, "area", "area", "2.5 acres", square_meter, {
        "acre" | "acres" | "ac" => |acres: f64| si::Area::new::<square_foot>(acres * SQUARE_FEET_AN_ACRE);
        "ha" | "hectare" | "hectares" => si::Area::new::<hectare>;
        "ft2" | "ft²" | "sq ft" => si::Area::new::<square_foot>;
        "m2" | "m²" | "sq m" => si::Area::new::<square_meter>;
    } from {
        /// An area of so many square metres.
        of_square_metres: square_meter;
        /// An area of so many square feet.
        of_square_feet: square_foot;
    } to {
        /// The area in square feet.
        square_feet: square_foot;
    }
}

measure! {
    /// Basal area: the area of stems at breast height over the area of land.
    ///
    /// ```
    /// use hostwood::quantity::BasalArea;
    /// let one = BasalArea::read("1 ft2/ac").unwrap();
    /// assert!((one.base() * 10_000.0 - 0.2296).abs() < 5e-5); // m²/ha
    /// ```
    BasalArea: si::Ratio, "basal area", "basal-area", "70 ft2/ac", ratio, {
        "ft2/ac" | "ft²/ac" | "sq ft/ac" | "ft2/acre" | "ft²/acre" => |feet: f64| si::Ratio::new::<ratio>(feet / SQUARE_FEET_AN_ACRE);
        "m2/ha" | "m²/ha" | "sq m/ha" => |metres: f64| si::Ratio::new::<ratio>(metres / 10_000.0);
    }
}

/// Lets quantities be added up, and taken so many times.
macro_rules! sums {
    ($($name:ident),+) => {
        $(
            impl std::ops::Mul<f64> for &$name {
                type Output = $name;

                fn mul(self, times: f64) -> $name {
                    (self.value * times).into()
                }
            }

            impl std::iter::Sum for $name {
                fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
                    Self { value: all.map(|one| one.value).sum(), written: None }
                }
            }
        )+
    };
}

sums!(Length, Mass, Area, Duration);

impl Length {
    /// The length as a bare number of inches or centimetres, for sums whose unit stands beside them.
    pub fn number(&self, units: Units) -> f64 {
        units.pick(self.inches(), self.value.get::<centimeter>())
    }

    /// The length as it is printed: inches or feet, millimetres, centimetres or metres.
    pub fn show(&self, units: Units) -> String {
        match units {
            Units::Us if self.inches().abs() > 120.0 => format!("{} ft", rounded(self.value.get::<foot>(), 0)),
            Units::Us => format!("{} in", rounded(self.inches(), if self.inches().abs() < 10.0 { 2 } else { 1 })),
            Units::Metric if self.millimetres().abs() < 30.0 => format!("{} mm", rounded(self.millimetres(), 1)),
            Units::Metric if self.millimetres().abs() < 3000.0 => {
                let centimetres = self.value.get::<centimeter>();
                format!("{} cm", rounded(centimetres, usize::from(centimetres.abs() < 20.0)))
            }
            Units::Metric => format!("{} m", rounded(self.base(), 0)),
        }
    }
}

impl Mass {
    /// The weight as it is printed: ounces or pounds, grams or kilograms.
    pub fn show(&self, units: Units) -> String {
        match units {
            Units::Us if self.pounds().abs() < 1.0 => format!("{} oz", rounded(self.value.get::<ounce>(), 1)),
            Units::Us => format!("{} lb", worth(self.pounds(), 100.0)),
            Units::Metric if self.base().abs() < 1.0 => format!("{} g", rounded(self.grams(), 0)),
            Units::Metric => format!("{} kg", worth(self.base(), 100.0)),
        }
    }

    /// The weight as a column of weights prints it, in one unit however little it is.
    ///
    /// ```
    /// use hostwood::quantity::{Mass, Units};
    /// let mass = Mass::read("4 oz").unwrap();
    /// assert_eq!([mass.listed(Units::Us), mass.listed(Units::Metric)], ["0.25 lb", "0.11 kg"]);
    /// ```
    pub fn listed(&self, units: Units) -> String {
        let number = units.pick(self.pounds(), self.base());
        if number.abs() >= 1.0 {
            self.show(units)
        } else {
            format!("{} {}", rounded(number, 2), units.pick("lb", "kg"))
        }
    }

    /// The weight as a kitchen scale gives it, for a sum that turns on it: hundredths of an ounce, tenths of a gram.
    ///
    /// ```
    /// use hostwood::quantity::{Mass, Units};
    /// assert_eq!(Mass::read("256 g").unwrap().finely(Units::Us), "9.03 oz");
    /// ```
    pub fn finely(&self, units: Units) -> String {
        units.pick(rounded(self.value.get::<ounce>(), 2) + " oz", rounded(self.grams(), 1) + " g")
    }
}

impl Duration {
    /// The time as it was written, or in days.
    pub fn show(&self, _: Units) -> String {
        self.written.clone().unwrap_or_else(|| format!("{} days", rounded(self.days(), 0)))
    }
}

impl Percent {
    /// The share as it is printed.
    pub fn show(&self, _: Units) -> String {
        format!("{} %", rounded(self.base(), 1))
    }
}

/// A number with at most so many decimals, without trailing zeros and without a negative zero.
pub fn rounded(number: f64, decimals: usize) -> String {
    let text = format!("{number:.decimals$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// A number with one decimal, or in whole numbers from a size on that no measurement here carries further.
pub(super) fn worth(number: f64, whole_from: f64) -> String {
    rounded(number, usize::from(number.abs() < whole_from))
}

/// The two parts of a measure in two units, such as `1 lb` and `4 oz`.
fn in_two(text: &str) -> Option<(&str, &str)> {
    let text = text.trim();
    let unit = text.find(char::is_alphabetic)?;
    let space = unit + text[unit..].find(' ')?;
    let (first, second) = (text[..space].trim(), text[space..].trim());
    // A third number is no measure; were the rest read in two again, a long line of them would never end.
    let ends = || second.chars().skip_while(|c| !c.is_alphabetic()).all(char::is_alphabetic);
    (second.starts_with(|c: char| c.is_ascii_digit()) && ends()).then_some((first, second))
}

fn split<'a>(text: &'a str, noun: &str, example: &str) -> Result<(f64, &'a str), Fault> {
    let text = text.trim();
    let end = text.find(|c: char| !(c.is_ascii_digit() || "+-./, ".contains(c))).unwrap_or(text.len());
    let (number, unit) = text.split_at(end);
    let value = number_of(number.trim()).ok_or_else(|| {
        let wrong = if number.contains(',') {
            format!("`{text}` has a comma in its number")
        } else {
            format!("`{text}` is not a {noun}: no number can be read at its beginning")
        };
        Fault::new("not-a-quantity", wrong)
            .instead(format!("write a number with a point and a unit, such as `{example}`"))
    })?;
    if unit.is_empty() {
        let fault = Fault::new("no-unit", format!("`{text}` has no unit"));
        return Err(fault.instead(format!("write a {noun} with its unit, such as `{example}`")));
    }
    Ok((value, unit.trim()))
}

/// Reads `4`, `4.5`, `5/16` and `1 1/4`.
pub(super) fn number_of(text: &str) -> Option<f64> {
    let fraction = |text: &str| -> Option<f64> {
        match text.split_once('/') {
            Some((top, bottom)) => {
                let (top, bottom): (f64, f64) = (top.trim().parse().ok()?, bottom.trim().parse().ok()?);
                (bottom > 0.0).then(|| top / bottom)
            }
            None => text.parse().ok(),
        }
    };
    let value = match text.split_once(' ') {
        Some((whole, part)) if part.contains('/') => {
            let whole: f64 = whole.parse().ok()?;
            whole + fraction(part)?.copysign(whole)
        }
        _ => fraction(text)?,
    };
    value.is_finite().then_some(value)
}

fn unknown_unit(text: &str, unit: &str, noun: &str, symbols: &[&str], example: &str) -> Fault {
    let other = FORMATS.iter().find(|other| other.noun != noun && other.symbols.contains(&unit));
    if let Some(Format { noun: other, .. }) = other {
        let fault = Fault::new("wrong-unit", format!("`{text}` is a {other}, but a {noun} is wanted here"));
        return fault.instead(format!("write a {noun}, such as `{example}`"));
    }
    let fault = Fault::new("unknown-unit", format!("`{unit}` is not a unit of {noun} that this guide knows"));
    fault.instead(match suggest::closest(unit, symbols.iter().copied()) {
        Some(meant) => format!("write `{}`, if `{meant}` is meant", text.replace(unit, meant)),
        None => format!("use {}, as in `{example}`", suggest::either(symbols.iter().copied())),
    })
}

impl fmt::Display for Duration {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.show(Units::Metric))
    }
}
