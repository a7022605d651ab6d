//! When may I fell, when not?
//!
//! An end of a window is a date of the year, an event with a shift, or a crossing of temperatures. An event falls on the
//! day on which the farm saw it this season; where it has none yet, on the median of its other years, the earliest and the
//! latest beside it; where there are none either, where a published model of [`dormancy`] puts it. A crossing falls where the usual mean of the air crosses. A window is a stretch on the circle of the year, and
//! no-cut windows are taken away from felling windows as sets of [`days`](super::days).

use strum::IntoStaticStr;

use super::climate::Air;
use super::days::{Interval, Stretch, apart, day};
use super::formula::Formula;
use super::{Gap, dormancy};
use crate::quantity::{Date, DayOfYear, Event, SeasonEnd, Units};

/// What a date rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Basis {
    /// A published model, or a rule that moves dates from place to place.
    #[strum(serialize = "model")]
    Modelled,
    /// Dates of the farm's own past years.
    Observed,
    /// A date of the year.
    Dated,
}

impl Basis {
    /// The basis as tables write it.
    pub fn word(self) -> &'static str {
        self.into()
    }

    /// The basis as pages say it.
    pub fn words(self) -> &'static str {
        if self == Self::Modelled { "from a model" } else { self.word() }
    }

    /// What stands beside a date that is modelled: by how much it may be wrong at a place where nobody has checked it.
    pub fn doubt(self) -> Option<String> {
        let [_, unchecked] = super::dormancy::ERROR;
        (self == Self::Modelled).then(|| format!("from a model, ± {unchecked} days"))
    }
}

/// The dates on which an event was observed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Observations {
    /// The event.
    pub event: Event,
    /// The date of this season, where it has come and was written down.
    pub now: Option<Date>,
    /// The dates of other seasons, one a year.
    pub others: Vec<Date>,
    /// Days by which a rule moves them from where they were observed to the farm, where the farm asks for it.
    pub moved: Option<i32>,
}

impl Observations {
    /// Parts the dates of an event into that of a season and those of others.
    pub fn of(event: Event, dates: &[Date], season: Season, moved: Option<i32>) -> Self {
        let (now, others): (Vec<Date>, Vec<Date>) =
            dates.iter().partition(|date| Season::holding(**date, season.south) == season);
        Self { event, now: now.last().copied(), others, moved }
    }

    /// The usual day of the event on the farm, by other seasons; `None` where they have none.
    pub fn usual(&self) -> Option<Usual> {
        let seen = usual(&self.others, self.event)?;
        let [median, earliest, latest] = [seen.median, seen.earliest, seen.latest].map(|number| self.here(number));
        Some(Usual { median, earliest, latest, years: seen.years })
    }

    /// The day on which the event falls on the farm: that of this season, else the usual one.
    fn day(&self) -> Option<u16> {
        let now = self.now.map(|date| self.here(date.day_of_year().number()));
        now.or_else(|| Some(self.usual()?.median))
    }

    /// A day as it is moved to the farm.
    fn here(&self, number: u16) -> u16 {
        day(i32::from(number) + self.moved.unwrap_or(0))
    }
}

/// What is known of the year of a place.
#[derive(Debug, Clone)]
pub struct Known {
    /// The units in which a gap is told.
    pub units: Units,
    /// What was observed of each event.
    pub observed: Vec<Observations>,
    /// The air; `None` where the monthly means are not known.
    pub air: Option<Air>,
    /// Latitude in degrees, south negative.
    pub latitude: f64,
}

impl Known {
    /// The day of an event, by observation or else by a model, before any shift.
    ///
    /// # Errors
    ///
    /// A [`Gap`] where it was not observed and cannot be modelled.
    pub fn event(&self, event: Event) -> Result<End, Gap> {
        let seen = self.observed.iter().find(|seen| seen.event == event);
        if let Some((seen, day)) = seen.and_then(|seen| Some((seen, seen.day()?))) {
            let basis = if seen.moved.is_some() { Basis::Modelled } else { Basis::Observed };
            return Ok(End { day, basis });
        }
        dormancy::outside_the_tropics(self.latitude)?;
        let air = self.air.as_ref().ok_or(Gap::NotObserved(event))?;
        Ok(End { day: dormancy::modelled(event, air, self.latitude)?, basis: Basis::Modelled })
    }
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

/// The usual day of an event.
pub const USUAL: Formula = Formula {
    name: "Usual day of an event",
    math: r#"<math display="block"><mrow><mi>d</mi><mo>=</mo><mi>median</mi><mo>(</mo><msub><mi>d</mi><mn>1</mn></msub><mo>,</mo><mo>…</mo><mo>,</mo><msub><mi>d</mi><mi>n</mi></msub><mo>)</mo></mrow></math>"#,
    words: "The middle of the farm's own dates of other seasons, where this season has none yet; of an even number of years, the later of the two middle days opens a window and the earlier closes one.",
    symbols: &[("d₁ … dₙ", "days of the year on which the event was observed")],
    sources: &[],
    own: "the farm's own observations",
};

/// The median day of observed dates, on the circle of the year; `None` where there are none.
///
/// With an even number of years the careful one of the two middle days stands: the later opens a window, the earlier
/// closes one.
///
/// ```
/// use hostwood::{quantity::{Date, Event}, reckon::season::usual};
/// let dates: Vec<Date> = ["2022-12-30", "2023-01-03", "2025-01-01"].iter().map(|d| Date::read(d).unwrap()).collect();
/// assert_eq!(usual(&dates, Event::LeafColour).unwrap().median, 1);
/// ```
pub fn usual(dates: &[Date], event: Event) -> Option<Usual> {
    let first = dates.first()?.day_of_year().number();
    let mut near: Vec<i32> = dates.iter().map(|date| apart(date.day_of_year().number(), first)).collect();
    near.sort_unstable();
    // Leaf colour opens the dormant period, and bud swell closes it.
    let middle = match event {
        Event::LeafColour => near.len() / 2,
        Event::BudSwell => (near.len() - 1) / 2,
    };
    let at = |index: usize| day(i32::from(first) + near[index]);
    Some(Usual { median: at(middle), earliest: at(0), latest: at(near.len() - 1), years: near.len() })
}

/// A day of the year on which a window begins or ends, and what it rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct End {
    /// The day of the year.
    pub day: u16,
    /// What it rests on.
    pub basis: Basis,
}

/// Tells on which day of the year an end falls.
///
/// # Errors
///
/// A [`Gap`] where an event was not observed and no model holds, or where the air does not cross the temperature.
pub fn tell(end: &SeasonEnd, known: &Known) -> Result<End, Gap> {
    match end {
        SeasonEnd::Day(day) => Ok(End { day: day.number(), basis: Basis::Dated }),
        SeasonEnd::Event { event, shift } => {
            let told = known.event(*event)?;
            let days = shift.as_ref().map_or(0, |(later, by)| {
                let days = by.days().round() as i32;
                if *later { days } else { -days }
            });
            Ok(End { day: day(i32::from(told.day) + days), ..told })
        }
        SeasonEnd::Crossing { rising, temperature } => {
            let air = known.air.as_ref().ok_or_else(|| Gap::NeedsMonthlyMeans(end.show(known.units)))?;
            let celsius = temperature.celsius();
            let crossed = if *rising { air.curve.rises_above(celsius) } else { air.curve.falls_below(celsius) };
            let [coldest, _] = air.curve.turns();
            let temperature = || temperature.show(known.units);
            let day = crossed.ok_or_else(|| {
                let never = if air.curve.on(coldest) >= celsius { Gap::NeverBelow } else { Gap::NeverAbove };
                never(temperature())
            })?;
            Ok(End { day, basis: Basis::Modelled })
        }
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
    pub const fn interval(self) -> Interval {
        Interval { from: self.from.day, to: self.to.day }
    }

    /// What the window rests on: modelled where either end is, else observed where either end is.
    pub fn basis(self) -> Basis {
        self.from.basis.min(self.to.basis)
    }
}

/// Tells both ends of a window.
///
/// # Errors
///
/// The [`Gap`] of the first end that cannot be told.
pub fn window(from: &SeasonEnd, to: &SeasonEnd, known: &Known) -> Result<Told, Gap> {
    Ok(Told { from: tell(from, known)?, to: tell(to, known)? })
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
    pub const fn begins(self) -> u16 {
        if self.south { 32 } else { 213 }
    }

    /// The season to which a day belongs.
    ///
    /// ```
    /// use hostwood::{quantity::Date, reckon::season::Season};
    /// let day = Date::read("2027-03-02").unwrap();
    /// assert_eq!(Season::holding(day, false).year, 2026); // a winter from 1 August
    /// assert_eq!(Season::holding(day, true).year, 2027); // and in the south from 1 February
    /// ```
    pub fn holding(day: Date, south: bool) -> Self {
        Self { year: day.winter(south), south }
    }

    /// The day on which it begins.
    pub fn first_day(self) -> Date {
        of_day(self.begins()).in_year(self.year)
    }

    /// The first month of the dormant ones: November in the north, May in the south.
    pub const fn dormant_month(self) -> i8 {
        if self.south { 5 } else { 11 }
    }

    /// The growing year that follows the dormant period: a calendar year in the north, and in the south the year whose July
    /// begins it.
    pub const fn growing_year(self) -> i16 {
        if self.south { self.year } else { self.year + 1 }
    }

    /// The last day of a growing year.
    pub fn growing_year_ends(self, year: i16) -> Date {
        if self.south { of_day(181).in_year(year + 1) } else { of_day(365).in_year(year) }
    }

    /// The first day of the twelve months that begin with a month of this season.
    pub fn axis(self, first_month: i8) -> Date {
        let first = DayOfYear::first_of(first_month);
        first.in_year(self.year + i16::from(first.number() < self.begins()))
    }

    /// The calendar dates of a stretch that begins in the growing year after the dormant period.
    ///
    /// ```
    /// use hostwood::reckon::{days::Interval, season::Season};
    /// let season = Season { year: 2026, south: false };
    /// let (from, to) = season.summer_dates(Interval { from: 217, to: 283 });
    /// assert_eq!((from.written(), to.written()), ("2027-08-05".into(), "2027-10-10".into()));
    /// ```
    pub fn summer_dates(self, interval: Interval) -> (Date, Date) {
        let year = self.growing_year() + i16::from(self.south && interval.from <= 181);
        let from = of_day(interval.from).in_year(year);
        let closes = year + i16::from(interval.to < interval.from);
        (from, of_day(interval.to).in_year(closes))
    }

    /// The calendar dates of a stretch in this season.
    ///
    /// ```
    /// use hostwood::reckon::{days::Interval, season::Season};
    /// let season = Season { year: 2026, south: false };
    /// let (from, to) = season.dates(Interval { from: 319, to: 90 });
    /// assert_eq!((from.written(), to.written()), ("2026-11-15".into(), "2027-03-31".into()));
    /// ```
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

/// From the first day of some stretches to the last of any; `None` where there are none.
pub fn span(stretches: impl IntoIterator<Item = (Date, Date)>) -> Option<(Date, Date)> {
    stretches.into_iter().reduce(|(from, to), (first, last)| (from.min(first), to.max(last)))
}

/// The date of the year with a number.
pub fn of_day(number: u16) -> DayOfYear {
    DayOfYear::of_number(i32::from(number))
}
