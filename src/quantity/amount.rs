//! An amount in the day book: a count, or a quantity with its unit.

use super::measure::rounded;
use super::{Duration, Length, Mass, Units, as_text};
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
    pub fn written(&self) -> String {
        match self {
            Self::Count(count) => rounded(*count, 2),
            Self::Mass(mass) => mass.written(),
            Self::Length(length) => length.written(),
            Self::Time(time) => time.written(),
        }
    }

    /// The amount as it is printed.
    pub fn show(&self, units: Units) -> String {
        match self {
            Self::Count(count) => rounded(*count, 2),
            Self::Mass(mass) => mass.show(units),
            Self::Length(length) => length.show(units),
            Self::Time(time) => time.show(units),
        }
    }
}

as_text!(Amount: ["string", "number"], "amount", "12 hours", |_| 0.0, "", &[]);
