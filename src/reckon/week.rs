//! Weeks of the calendar, by ISO 8601: from Monday to Sunday, the first of a year holding 4 January.

use jiff::civil::Weekday;

use crate::quantity::Date;

/// A week, by its Monday.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Week(Date);

impl Week {
    /// The week in which a day lies.
    ///
    /// ```
    /// use hostwood::{quantity::Date, reckon::week::Week};
    /// let week = |text| Week::of(Date::read(text).unwrap()).name();
    /// assert_eq!([week("2024-12-30"), week("2026-11-25"), week("2027-01-01")], ["2025-W01", "2026-W48", "2026-W53"]);
    /// ```
    pub fn of(date: Date) -> Self {
        let since = date.0.weekday().since(Weekday::Monday);
        Self(date.plus(-i32::from(since)))
    }

    /// Its Monday.
    pub const fn monday(self) -> Date {
        self.0
    }

    /// Its Sunday.
    pub fn sunday(self) -> Date {
        self.0.plus(6)
    }

    /// The week after so many others.
    pub fn later(self, weeks: i32) -> Self {
        Self(self.0.plus(weeks * 7))
    }

    /// Its days as days of the year, 1 to 365.
    pub fn days(self) -> [u16; 7] {
        std::array::from_fn(|step| self.0.plus(step as i32).day_of_year().number())
    }

    /// Its name, such as `2026-W48`.
    pub fn name(self) -> String {
        let week = self.0.0.iso_week_date();
        format!("{}-W{:02}", week.year(), week.week())
    }
}
