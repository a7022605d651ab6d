//! Calendar dates and dates of the year.

use std::ops::RangeInclusive;

use jiff::civil;

use super::{Duration, Units, as_text};
use crate::fault::{Fault, MONTH_FIRST};

const MONTHS: &str = "January February March April May June July August September October November December";

/// A calendar date, written by ISO 8601 as `2025-10-04`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date(pub civil::Date);

impl Date {
    /// Reads a date.
    ///
    /// # Errors
    ///
    /// A [`Fault`] without a place, where the text is not a date or the day does not exist.
    ///
    /// ```
    /// use hostwood::quantity::Date;
    /// assert!(Date::read("2028-02-29").is_ok());
    /// assert!(Date::read("2026-02-29").unwrap_err().wrong.contains("does not exist"));
    /// ```
    pub fn read(text: &str) -> Result<Self, Fault> {
        let [year, month, day] = digits(text, [4, 2, 2]).ok_or_else(|| {
            month_first(text).unwrap_or_else(|| {
                Fault::new("not-a-date", format!("`{text}` is not a date"))
                    .instead("write year, month and day, such as `2025-10-04`")
            })
        })?;
        civil::Date::new(year, month as i8, day as i8).map(Self).map_err(|_| no_such_day(text, "2025-10-04"))
    }

    /// The date as ISO 8601 writes it.
    pub fn written(&self) -> String {
        self.0.to_string()
    }

    /// The date as an edition prints it: "October 4, 2025" or "4 October 2025".
    pub fn show(&self, units: Units) -> String {
        let (day, month, year) = (self.0.day(), month_name(self.0.month()), self.0.year());
        units.pick(format!("{month} {day}, {year}"), format!("{day} {month} {year}"))
    }

    /// A number that grows with the date, for comparing.
    pub fn ordinal(&self) -> i32 {
        i32::from(self.0.year()) * 366 + i32::from(self.0.day_of_year())
    }

    /// The date of the year, whatever the year.
    pub fn day_of_year(&self) -> DayOfYear {
        DayOfYear { month: self.0.month(), day: self.0.day() }
    }

    /// The date that a spreadsheet wrote with the month or the day first and the year last; `None` where there is no such day.
    ///
    /// ```
    /// use hostwood::quantity::date::{Date, First};
    /// let read = |first| Date::of_spreadsheet("3/4/27", first).unwrap().written();
    /// assert_eq!([read(First::Month), read(First::Day)], ["2027-03-04", "2027-04-03"]);
    /// ```
    pub fn of_spreadsheet(text: &str, first: First) -> Option<Self> {
        let [one, other, year] = of_a_spreadsheet(text)?;
        let (month, day) = if first == First::Month { (one, other) } else { (other, one) };
        civil::Date::new(year, month.try_into().ok()?, day.try_into().ok()?).ok().map(Self)
    }

    /// The date so many days later, or earlier.
    pub fn plus(&self, days: i32) -> Self {
        Self(self.0.saturating_add(jiff::Span::new().days(i64::from(days))))
    }

    /// The date so much time later, in whole days.
    pub fn after(&self, time: &Duration) -> Self {
        self.plus(time.days().round() as i32)
    }

    /// The same date of the year after; 28 February for 29 February.
    pub fn a_year_later(&self) -> Self {
        Self(self.0.saturating_add(jiff::Span::new().years(1)))
    }

    /// Days from another date to this one.
    pub fn since(&self, earlier: Self) -> i32 {
        (self.0 - earlier.0).get_days()
    }

    /// The winter of a day, by the year in which it begins.
    ///
    /// ```
    /// use hostwood::quantity::Date;
    /// let winter = |text, south| Date::read(text).unwrap().winter(south);
    /// assert_eq!([winter("2027-03-02", false), winter("2027-08-01", false)], [2026, 2027]);
    /// assert_eq!([winter("2027-01-31", true), winter("2027-03-02", true)], [2026, 2027]);
    /// ```
    pub fn winter(&self, south: bool) -> i16 {
        let year = self.0.year();
        year - i16::from(*self < winter_begins(south).in_year(year))
    }
}

/// Which number of a spreadsheet's date comes first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum First {
    /// The month, as in the United States.
    Month,
    /// The day.
    Day,
}

impl First {
    /// What stands in brackets behind the head of a column, such as `Date (month first)`.
    pub fn of_head(words: &str) -> Option<Self> {
        match words {
            "month first" => Some(Self::Month),
            "day first" => Some(Self::Day),
            _ => None,
        }
    }
}

/// The day on which a winter of logs begins: 1 August, south of the equator 1 February.
pub const fn winter_begins(south: bool) -> DayOfYear {
    DayOfYear::first_of(if south { 2 } else { 8 })
}

/// A date of the year, written as month and day: `11-15`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct DayOfYear {
    month: i8,
    day: i8,
}

impl DayOfYear {
    /// Reads a date of the year.
    ///
    /// # Errors
    ///
    /// A [`Fault`] without a place, where the text is not a date of the year or the day does not exist.
    ///
    /// ```
    /// use hostwood::quantity::DayOfYear;
    /// assert_eq!(DayOfYear::read("03-01").unwrap().number(), 60);
    /// assert!(DayOfYear::read("02-30").is_err());
    /// ```
    pub fn read(text: &str) -> Result<Self, Fault> {
        let [month, day] = digits(text, [2, 2]).map(|parts| parts.map(|part| part as i8)).ok_or_else(|| {
            Fault::new("not-a-date", format!("`{text}` is not a date of the year"))
                .instead("write month and day with two digits each, such as `11-15`")
        })?;
        let swapped = civil::Date::new(2024, day, month).is_ok() && month > 12;
        civil::Date::new(2024, month, day).map(|_| Self { month, day }).map_err(|_| {
            let fault = no_such_day(text, "11-15");
            if swapped { fault.instead(format!("write the month first: `{day:02}-{month:02}`")) } else { fault }
        })
    }

    /// The number of the day in a year of 365 days, 1 to 365; 29 February counts as 28 February.
    pub fn number(&self) -> u16 {
        let day = civil::Date::new(2023, self.month, self.day).map_or(59, civil::Date::day_of_year);
        u16::try_from(day).unwrap_or(1)
    }

    /// The date of the year with a number from 1 to 365; other numbers run on round the year.
    pub fn of_number(number: i32) -> Self {
        let days = i64::from((number - 1).rem_euclid(365));
        let date = civil::date(2023, 1, 1).saturating_add(jiff::Span::new().days(days));
        Self { month: date.month(), day: date.day() }
    }

    /// The first day of a month, 1 to 12.
    pub const fn first_of(month: i8) -> Self {
        Self { month, day: 1 }
    }

    /// The days of a month, 1 to 12, as numbers in a year of 365 days.
    ///
    /// ```
    /// assert_eq!(hostwood::quantity::DayOfYear::days_of(12), 335..=365);
    /// ```
    pub fn days_of(month: i8) -> RangeInclusive<u16> {
        let next = Self::first_of(month % 12 + 1).number();
        Self::first_of(month).number()..=if next == 1 { 365 } else { next - 1 }
    }

    /// The month, 1 to 12.
    pub const fn month(&self) -> i8 {
        self.month
    }

    /// The date as records write it.
    pub fn written(&self) -> String {
        format!("{:02}-{:02}", self.month, self.day)
    }

    /// The date as an edition prints it: "November 15" or "15 November".
    pub fn show(&self, units: Units) -> String {
        let (day, month) = (self.day, month_name(self.month));
        units.pick(format!("{month} {day}"), format!("{day} {month}"))
    }

    /// The date in a given year; 29 February falls on 1 March where there is none, and no date after that of the last year.
    pub fn in_year(&self, year: i16) -> Date {
        let first_of_march = || civil::Date::new(year, 3, 1).unwrap_or(civil::Date::MAX);
        Date(civil::Date::new(year, self.month, self.day).unwrap_or_else(|_| first_of_march()))
    }
}

/// A month of a year, written by ISO 8601 as `2026-11`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Month {
    year: i16,
    month: i8,
}

impl Month {
    /// Reads a month of a year.
    ///
    /// # Errors
    ///
    /// A [`Fault`] without a place, where the text is not a year and a month.
    ///
    /// ```
    /// use hostwood::quantity::Month;
    /// assert_eq!(Month::read("2026-11").unwrap().show(), "November 2026");
    /// assert!(Month::read("2026-13").is_err());
    /// ```
    pub fn read(text: &str) -> Result<Self, Fault> {
        match digits(text, [4, 2]) {
            Some([year, month @ 1..=12]) => Ok(Self { year, month: month as i8 }),
            _ => Err(Fault::new("not-a-month", format!("`{text}` is not a month of a year"))
                .instead("write year and month, such as `2026-11`")),
        }
    }

    /// The month as ISO 8601 writes it.
    pub fn written(&self) -> String {
        format!("{:04}-{:02}", self.year, self.month)
    }

    /// The month as a page prints it: "November 2026".
    pub fn show(&self) -> String {
        format!("{} {}", month_name(self.month), self.year)
    }
}

/// The English name of a month, 1 to 12.
pub fn month_name(month: i8) -> &'static str {
    usize::try_from(month - 1).ok().and_then(|index| MONTHS.split(' ').nth(index)).unwrap_or("")
}

/// The numbers in a date, where each has so many digits.
fn digits<const N: usize>(text: &str, widths: [usize; N]) -> Option<[i16; N]> {
    let parts: Vec<&str> = text.trim().split('-').collect();
    let fits = |(part, width): (&&str, usize)| part.len() == width && part.bytes().all(|b| b.is_ascii_digit());
    let all = parts.len() == N && parts.iter().zip(widths).all(fits);
    let numbers = parts.iter().map_while(|part| part.parse().ok()).collect::<Vec<i16>>();
    numbers.try_into().ok().filter(|_| all)
}

/// The numbers of a date as a spreadsheet leaves it, such as `3/4/27`; the year is the last.
fn of_a_spreadsheet(text: &str) -> Option<[i16; 3]> {
    let parts: Vec<&str> = text.trim().split(['/', '.', '-']).collect();
    let number = |part: &str| part.parse::<i16>().ok().filter(|number| part.len() <= 4 && *number >= 0);
    let [first, second, year] = parts.as_slice() else { return None };
    let year = number(year)?;
    Some([number(first)?, number(second)?, if year < 100 { year + 2000 } else { year }])
}

/// Which number of a spreadsheet's date is the month is asked and never guessed.
fn month_first(text: &str) -> Option<Fault> {
    let read = |first| Some(format!("`{}`", Date::of_spreadsheet(text, first)?.written()));
    let (month, day) = (read(First::Month), read(First::Day));
    let wrong = if month.is_some() && day.is_some() {
        format!("month first? `{text}` does not say which number is the month")
    } else {
        format!("`{text}` is a date as a spreadsheet leaves it")
    };
    let instead = match (month, day) {
        (Some(month), Some(day)) if month != day => {
            format!("write {month} if the month comes first, {day} if the day does")
        }
        (Some(date), _) | (None, Some(date)) => format!("write year, month and day: {date}"),
        (None, None) => return None,
    };
    Some(Fault::new(MONTH_FIRST, wrong).instead(instead))
}

fn no_such_day(text: &str, example: &str) -> Fault {
    Fault::new("no-such-date", format!("the day `{text}` does not exist"))
        .instead(format!("look at a calendar and write a day such as `{example}`"))
}

as_text!(Date, "date", "2025-10-04", |date| f64::from(date.ordinal()));
as_text!(Month, "month", "2026-11", |month| f64::from(month.year) * 12.0 + f64::from(month.month));
as_text!(DayOfYear, "day-of-year", "11-15", |day| f64::from(day.number()));
