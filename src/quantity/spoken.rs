//! A quantity inside a sentence, in the units of the edition, with the source's own behind it in brackets.

use uom::si::area::{acre, hectare, square_foot, square_meter};
use uom::si::f64 as si;
use uom::si::length::{centimeter, foot, inch, kilometer, meter, mile, millimeter};
use uom::si::mass::{gram, kilogram, ounce, pound};
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};
use uom::si::volume::{gallon, liter};

use super::Units;
use super::measure::{number_of, rounded};

/// How a sentence turns the numbers of one unit into the other system.
struct Turn {
    symbol: &'static str,
    of: Units,
    /// The number from which on it holds; below it the unit's earlier row does.
    from: f64,
    into: &'static str,
    number: fn(f64) -> f64,
}

/// Makes a row of [`TURNS`]: a unit as records write it, and the unit of the other system that a reader would use.
macro_rules! turn {
    ($of:ident $symbol:literal from $from:literal: $kind:ident $own:ident => $into:literal $other:ident) => {
        Turn {
            symbol: $symbol,
            of: Units::$of,
            from: $from,
            into: $into,
            number: |number| si::$kind::new::<$own>(number).get::<$other>(),
        }
    };
}

static TURNS: [Turn; 25] = [
    turn!(Us "in" from 0.0: Length inch => "mm" millimeter),
    turn!(Us "in" from 1.0: Length inch => "cm" centimeter),
    turn!(Us "ft" from 0.0: Length foot => "cm" centimeter),
    turn!(Us "ft" from 3.0: Length foot => "m" meter),
    turn!(Us "mi" from 0.0: Length mile => "km" kilometer),
    turn!(Us "oz" from 0.0: Mass ounce => "g" gram),
    turn!(Us "lb" from 0.0: Mass pound => "g" gram),
    turn!(Us "lb" from 2.0: Mass pound => "kg" kilogram),
    turn!(Us "F" from -200.0: ThermodynamicTemperature degree_fahrenheit => "C" degree_celsius),
    turn!(Us "gal" from 0.0: Volume gallon => "L" liter),
    turn!(Us "acres" from 0.0: Area acre => "ha" hectare),
    turn!(Us "ft2" from 0.0: Area square_foot => "m2" square_meter),
    turn!(Metric "mm" from 0.0: Length millimeter => "in" inch),
    turn!(Metric "cm" from 0.0: Length centimeter => "in" inch),
    turn!(Metric "m" from 0.0: Length meter => "in" inch),
    turn!(Metric "m" from 1.0: Length meter => "ft" foot),
    turn!(Metric "km" from 0.0: Length kilometer => "mi" mile),
    turn!(Metric "g" from 0.0: Mass gram => "oz" ounce),
    turn!(Metric "g" from 1000.0: Mass gram => "lb" pound),
    turn!(Metric "kg" from 0.0: Mass kilogram => "oz" ounce),
    turn!(Metric "kg" from 0.5: Mass kilogram => "lb" pound),
    turn!(Metric "C" from -200.0: ThermodynamicTemperature degree_celsius => "F" degree_fahrenheit),
    turn!(Metric "L" from 0.0: Volume liter => "gal" gallon),
    turn!(Metric "ha" from 0.0: Area hectare => "acres" acre),
    turn!(Metric "m2" from 0.0: Area square_meter => "ft2" square_foot),
];

/// A quantity or a range of them as a sentence says it; `None` where the text is neither.
///
/// What is turned keeps no more digits than the source gives: of one or two, a single one where that is near enough, else two.
/// A temperature keeps whole degrees.
///
/// ```
/// use hostwood::quantity::{Units, spoken::spoken};
/// assert_eq!(spoken("140 F", Units::Us).unwrap(), "140 °F");
/// assert_eq!(spoken("140 F", Units::Metric).unwrap(), "60 °C (140 °F)");
/// assert_eq!(spoken("4 to 6 in", Units::Metric).unwrap(), "10 to 15 cm (4 to 6 in)");
/// assert_eq!(spoken("1.5 m", Units::Us).unwrap(), "5 ft (1.5 m)");
/// assert_eq!(spoken("the moon", Units::Us), None);
/// ```
pub fn spoken(text: &str, units: Units) -> Option<String> {
    let (numbers, symbol) = text.trim().rsplit_once(' ')?;
    let written: Vec<&str> = numbers.split(" to ").map(str::trim).collect();
    let numbers: Vec<f64> = written.iter().map(|number| number_of(number)).collect::<Option<_>>()?;
    let largest = numbers.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let turn = TURNS.iter().rev().find(|turn| turn.symbol == symbol && (largest >= turn.from || turn.from == 0.0))?;
    let own = format!("{} {}", written.join(" to "), printed(symbol));
    if turn.of == units {
        return Some(own);
    }
    let mut turned: Vec<String> =
        numbers.iter().zip(&written).map(|(number, written)| turned(turn, *number, written)).collect();
    turned.dedup();
    Some(format!("{} {} ({own})", turned.join(" to "), printed(turn.into)))
}

/// A number of one or two digits is turned into one of a single digit where that is off by no more than this.
const COARSE: f64 = 0.05;

/// How many digits stand before the point; fewer than none where noughts follow it.
fn whole_digits(value: f64) -> i32 {
    if value == 0.0 { 0 } else { value.abs().log10().floor() as i32 + 1 }
}

fn to_digits(value: f64, digits: i32) -> f64 {
    let step = 10_f64.powi(whole_digits(value) - digits);
    (value / step).round() * step
}

/// A number in the other system, no finer than it was written.
fn turned(turn: &Turn, number: f64, written: &str) -> String {
    let value = (turn.number)(number);
    if turn.symbol == "F" || turn.symbol == "C" {
        return rounded(value, 0);
    }
    let given = written.chars().filter(char::is_ascii_digit).collect::<String>();
    let digits = if written.contains('.') { given.trim_start_matches('0') } else { given.trim_matches('0') };
    let most = if written.contains('/') { 2 } else { digits.len().max(2) as i32 };
    let coarse = (1..most).find(|digits| most == 2 && (to_digits(value, *digits) / value - 1.0).abs() <= COARSE);
    let digits = coarse.unwrap_or(most);
    rounded(to_digits(value, digits), (digits - whole_digits(value)).max(0) as usize)
}

/// The sign of a unit as pages print it.
fn printed(symbol: &str) -> &str {
    match symbol {
        "F" => "°F",
        "C" => "°C",
        "ft2" => "ft²",
        "m2" => "m²",
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn sentences_keep_the_digits_of_their_source() {
        for (text, metric, us) in [
            ("32 to 35 F", "0 to 2 °C (32 to 35 °F)", "32 to 35 °F"),
            ("40 in", "100 cm (40 in)", "40 in"),
            ("1/2 in", "13 mm (1/2 in)", "1/2 in"),
            ("35 lb", "16 kg (35 lb)", "35 lb"),
            ("12 mm", "12 mm", "0.47 in (12 mm)"),
            ("150 g", "150 g", "5.3 oz (150 g)"),
            ("-5 C", "-5 °C", "23 °F (-5 °C)"),
            ("50 ft2", "4.6 m² (50 ft²)", "50 ft²"),
            ("3 to 4 ft", "0.9 to 1.2 m (3 to 4 ft)", "3 to 4 ft"),
            ("3 to 5 in", "8 to 13 cm (3 to 5 in)", "3 to 5 in"),
            ("33.7 g", "33.7 g", "1.19 oz (33.7 g)"),
        ] {
            assert_eq!(spoken(text, Units::Metric).as_deref(), Some(metric));
            assert_eq!(spoken(text, Units::Us).as_deref(), Some(us));
        }
        for other in ["", "12", "12 parsecs", "in", "a few in", "months: May"] {
            assert_eq!(spoken(other, Units::Us), None);
        }
    }

    proptest! {
        #[test]
        fn every_edition_says_the_source_s_own(number in 0_u32..10_000, row in 0..TURNS.len(), us: bool) {
            let text = format!("{number} {}", TURNS[row].symbol);
            let said = spoken(&text, if us { Units::Us } else { Units::Metric }).unwrap();
            let own = format!("{number} {}", printed(TURNS[row].symbol));
            let behind = format!("({own})");
            prop_assert!(said == own || said.ends_with(&behind));
        }
    }
}
