//! When may I fell, when not?
//!
//! An end of a window is a date of the year, or an observed event with a shift. An event falls on the median of the
//! farm's own dates; the earliest and the latest stand beside it. A window is a stretch on the circle of the year, and
//! no-cut windows are taken away from felling windows as sets of [`days`](super::days).

use super::{
    Gap,
    days::{Interval, Stretch, day},
};
use crate::quantity::{Date, DayOfYear, Event, SeasonEnd};

/// What a date rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Basis {
    /// Dates of the farm's own past years.
    Observed,
    /// A date of the year.
    Dated,
    /// A published model.
    Modelled,
}

impl Basis {
    /// The basis as tables write it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Observed => "observed",
            Self::Dated => "dated",
            Self::Modelled => "modelled",
        }
    }
}

/// The dates on which an event was observed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Observations {
    /// The event.
    pub event: Event,
    /// The dates, one a year.
    pub dates: Vec<Date>,
}

/// The usual day of an event and its spread between years.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Usual {
    /// Median, as a day of the year.
    pub median: u16,
    /// Earliest, as a day of the year.
    pub earliest: u16,
    /// Latest, as a day of the year.
    pub latest: u16,
    /// How many years were observed.
    pub years: usize,
}

/// Which end of a window an event makes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Its first day.
    Opening,
    /// Its last day.
    Closing,
}

impl Side {
    /// The end of the dormant period that an event makes: leaf colour opens it, bud swell closes it.
    #[must_use]
    pub const fn of(event: Event) -> Self {
        match event {
            Event::LeafColour => Self::Opening,
            Event::BudSwell => Self::Closing,
        }
    }
}

/// The median day of observed dates, on the circle of the year; `None` where there are none.
///
/// With an even number of years the careful one of the two middle days stands: the later opens a window, the earlier
/// closes one.
///
/// ```
/// use hostwood::{quantity::Date, reckon::season::{Side, usual}};
/// let dates: Vec<Date> = ["2022-12-30", "2023-01-03", "2025-01-01"].iter().map(|d| Date::read(d).unwrap()).collect();
/// assert_eq!(usual(&dates, Side::Opening).unwrap().median, 1);
/// ```
#[must_use]
pub fn usual(dates: &[Date], side: Side) -> Option<Usual> {
    let numbers: Vec<i32> = dates.iter().map(|date| i32::from(date.day_of_year().number())).collect();
    let first = *numbers.first()?;
    let mut near: Vec<i32> = numbers.iter().map(|number| (number - first + 182).rem_euclid(365) - 182).collect();
    near.sort_unstable();
    let middle = match side {
        Side::Opening => near.len() / 2,
        Side::Closing => (near.len() - 1) / 2,
    };
    let at = |index: usize| day(first + near[index]);
    Some(Usual { median: at(middle), earliest: at(0), latest: at(near.len() - 1), years: near.len() })
}

/// A day of the year on which a window begins or ends, and what it rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct End {
    /// The day of the year.
    pub day: u16,
    /// What it rests on.
    pub basis: Basis,
    /// The spread between years, where it was observed.
    pub usual: Option<Usual>,
}

/// Tells on which day of the year an end falls.
///
/// # Errors
///
/// A [`Gap`] where an event was not observed, or where the end is a crossing of temperatures.
pub fn tell(end: &SeasonEnd, side: Side, observed: &[Observations]) -> Result<End, Gap> {
    match end {
        SeasonEnd::Day(day) => Ok(End { day: day.number(), basis: Basis::Dated, usual: None }),
        SeasonEnd::Event { event, shift } => {
            let dates = observed.iter().find(|seen| seen.event == *event).map_or(&[][..], |seen| &seen.dates);
            let usual = usual(dates, side).ok_or(Gap::NotObserved(*event))?;
            let days = shift.as_ref().map_or(0, |(later, by)| {
                let days = by.days().round() as i32;
                if *later { days } else { -days }
            });
            Ok(End { day: day(i32::from(usual.median) + days), basis: Basis::Observed, usual: Some(usual) })
        }
        SeasonEnd::Crossing { .. } => Err(Gap::NeedsDailyTemperatures(end.written())),
    }
}

/// A window whose two ends are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Told {
    /// Its first day.
    pub from: End,
    /// Its last day.
    pub to: End,
}

impl Told {
    /// The stretch of the year.
    #[must_use]
    pub const fn interval(self) -> Interval {
        Interval { from: self.from.day, to: self.to.day }
    }

    /// What the window rests on: observed where either end is.
    #[must_use]
    pub fn basis(self) -> Basis {
        self.from.basis.min(self.to.basis)
    }
}

/// Tells both ends of a window.
///
/// # Errors
///
/// The [`Gap`] of the first end that cannot be told.
pub fn window(from: &SeasonEnd, to: &SeasonEnd, observed: &[Observations]) -> Result<Told, Gap> {
    Ok(Told { from: tell(from, Side::Opening, observed)?, to: tell(to, Side::Closing, observed)? })
}

/// A season: the twelve months in which a dormant period begins and its logs are inoculated.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Season {
    /// The year in which the dormant period begins.
    pub year: i16,
    /// Whether the farm lies south of the equator.
    pub south: bool,
}

impl Season {
    /// The day of the year on which the season begins: 1 August in the north, 1 February in the south.
    #[must_use]
    pub const fn begins(self) -> u16 {
        if self.south { 32 } else { 213 }
    }

    /// The calendar dates of a stretch in this season.
    ///
    /// ```
    /// use hostwood::reckon::{days::Interval, season::Season};
    /// let season = Season { year: 2026, south: false };
    /// let (from, to) = season.dates(Interval { from: 319, to: 90 });
    /// assert_eq!((from.written(), to.written()), ("2026-11-15".into(), "2027-03-31".into()));
    /// ```
    #[must_use]
    pub fn dates(self, stretch: impl Into<Stretch>) -> (Date, Date) {
        let stretch = stretch.into();
        let year = i32::from(self.year) + i32::from(stretch.start < self.begins());
        let date = |after: i32| {
            let days = i32::from(stretch.start) - 1 + after;
            let year = i16::try_from(year + days.div_euclid(365)).unwrap_or(i16::MAX);
            of_day(day(days + 1)).in_year(year)
        };
        (date(stretch.first), date(stretch.last))
    }
}

/// The date of the year with a number.
#[must_use]
pub fn of_day(number: u16) -> DayOfYear {
    DayOfYear::of_number(i32::from(number))
}
