//! A month of any year, or its early, middle or late part: how people tell when a mushroom comes.

use std::ops::RangeInclusive;

use strum::{EnumString, IntoStaticStr, VariantNames};

use super::date::month_name;
use super::{DayOfYear, as_text};
use crate::fault::{Fault, suggest};

/// A third of a month.
#[derive(Debug, Clone, Copy, PartialEq, Eq, EnumString, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "lowercase")]
pub enum Third {
    /// The 1st to the 10th.
    Early,
    /// The 11th to the 20th.
    Mid,
    /// From the 21st on.
    Late,
}

/// A month of any year, or a third of one, written as `October` or `late September`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PartOfMonth {
    month: i8,
    third: Option<Third>,
}

impl PartOfMonth {
    /// Reads a month or a third of one.
    ///
    /// # Errors
    ///
    /// A [`Fault`] without a place, where the text names no month; it suggests the one that is meant.
    ///
    /// ```
    /// use hostwood::quantity::PartOfMonth;
    /// for part in ["October", "late September"] {
    ///     assert_eq!(PartOfMonth::read(part).unwrap().written(), part);
    /// }
    /// assert_eq!(PartOfMonth::read("Sept").unwrap_err().instead.unwrap(), "write `September`, if that is meant");
    /// assert_eq!(PartOfMonth::read("end of 9").unwrap_err().instead.unwrap(), "write `late September`, if that is meant");
    /// assert!(PartOfMonth::read("autumn").is_err());
    /// ```
    pub fn read(text: &str) -> Result<Self, Fault> {
        let (third, name) = match text.trim().split_once(' ') {
            Some((third, name)) => (third.parse().ok().map(Some), name.trim()),
            None => (Some(None), text.trim()),
        };
        let month = (1..=12).find(|month| month_name(*month) == name);
        third.zip(month).map(|(third, month)| Self { month, third }).ok_or_else(|| unknown(text))
    }

    /// The part as records and pages write it.
    pub fn written(&self) -> String {
        let month = month_name(self.month);
        self.third.map_or_else(|| month.to_owned(), |third| format!("{} {month}", <&str>::from(third)))
    }

    /// The month, 1 to 12.
    pub const fn month(&self) -> i8 {
        self.month
    }

    /// Whether it is the whole month.
    pub const fn is_whole(&self) -> bool {
        self.third.is_none()
    }

    /// Its days, as numbers in a year of 365 days.
    ///
    /// ```
    /// use hostwood::quantity::PartOfMonth;
    /// assert_eq!(PartOfMonth::read("late February").unwrap().days(), 52..=59);
    /// ```
    pub fn days(&self) -> RangeInclusive<u16> {
        let (first, last) = DayOfYear::days_of(self.month).into_inner();
        match self.third {
            None => first..=last,
            Some(Third::Early) => first..=first + 9,
            Some(Third::Mid) => first + 10..=first + 19,
            Some(Third::Late) => first + 20..=last,
        }
    }

    /// The season of the year in which the month falls, in whole months, on the southern half of the globe or else on the
    /// northern.
    ///
    /// ```
    /// use hostwood::quantity::PartOfMonth;
    /// let april = PartOfMonth::read("April").unwrap();
    /// assert_eq!([april.season(false), april.season(true)], ["spring", "autumn"]);
    /// ```
    pub const fn season(&self, south: bool) -> &'static str {
        match (self.month + if south { 6 } else { 0 }) % 12 {
            3..=5 => "spring",
            6..=8 => "summer",
            9..=11 => "autumn",
            _ => "winter",
        }
    }
}

fn unknown(text: &str) -> Fault {
    let fault = Fault::new("not-a-part-of-month", format!("`{text}` is not a month or a part of one"));
    fault.instead(match meant(text) {
        Some(meant) => format!("write `{}`, if that is meant", meant.written()),
        None => "write a month, or its early, mid or late part, such as `October` or `late September`".to_owned(),
    })
}

/// The part of a month that a text means: by a number, a shortened or a misspelt name.
fn meant(text: &str) -> Option<PartOfMonth> {
    let text = text.to_lowercase();
    let words = || text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    let third = words().find_map(|word| match word {
        "begin" | "beginning" | "start" | "first" => Some(Third::Early),
        "middle" | "half" => Some(Third::Mid),
        "end" | "last" => Some(Third::Late),
        _ => word.parse().ok(),
    });
    let names: Vec<String> = (1..=12).map(|month| month_name(month).to_lowercase()).collect();
    let month = words().find_map(|word| {
        let number = word.parse().ok().filter(|number| (1..=12).contains(number));
        let short = || names.iter().position(|name| word.len() > 2 && name.starts_with(word));
        let close = || suggest::closest(word, names.iter().map(String::as_str));
        let place = || short().or_else(|| names.iter().position(|name| close() == Some(name.as_str())));
        number.or_else(|| i8::try_from(place()? + 1).ok())
    });
    Some(PartOfMonth { month: month?, third })
}

as_text!(PartOfMonth, "part-of-month", "late September", |part| f64::from(*part.days().start()));
