//! The tables of the year: windows, air and light, fruiting, the calendar.

use std::collections::BTreeSet;

use super::{Grid, Sheet};
use crate::book::Book;
use crate::quantity::{Date, TemperatureStep};
use crate::reckon::daylight::day_length;
use crate::reckon::days::Interval;
use crate::reckon::findings::fruiting::weeks;
use crate::reckon::findings::{FruitingFinding, OutdoorFinding, Work};
use crate::reckon::season::Basis;
use crate::reckon::week::Week;
use crate::reckon::{Findings, degree_days};
use crate::record::Id;

/// A stretch of days in which something may be done or must not be: name, kind, first and last day, and what they rest on.
type Stretch = (String, &'static str, (Date, Date), Basis);

pub fn seasons(findings: &Findings) -> Grid {
    let season = findings.season;
    let windows = findings.windows().iter().filter_map(|found| {
        let (dates, told) = found.dates(season).zip(found.told.as_ref().ok())?;
        Some((found.window.id.clone(), found.window.record.kind.id(), dates, told.basis()))
    });
    let mut rows: Vec<Stretch> = windows.collect();
    for felling in findings.fellings() {
        for wood in &felling.woods {
            let stretch = |stretch: &Interval| {
                (format!("fell {}", wood.id), "cut", season.dates(*stretch), felling.basis(*stretch))
            };
            rows.extend(felling.intervals.iter().map(stretch));
        }
    }
    for inoculation in findings.inoculations() {
        let felling = &findings.fellings()[inoculation.felling];
        for carried in &inoculation.carried {
            let (dates, basis) = (season.dates(carried.inoculation), inoculation.basis(felling, carried));
            let name = |wood: &str| format!("inoculate {} on {wood}", inoculation.mushroom.id);
            rows.extend(felling.woods.iter().map(|wood| (name(&wood.id), "inoculate", dates, basis)));
        }
    }
    Sheet::of(&rows)
        .column("window", |(name, ..)| name)
        .column("kind", |(_, kind, ..)| *kind)
        .column("from", |(_, _, (from, _), _)| from)
        .column("to", |(_, _, (_, to), _)| to)
        .number("days", 0, |(_, _, (from, to), _)| f64::from(to.since(*from) + 1))
        .column("basis", |(.., basis)| basis.word())
        .grid(findings.choice.units)
}

/// Every day of the year that begins with the first dormant month.
pub fn climate(book: &Book, findings: &Findings) -> Grid {
    let axis = findings.axis();
    let air = findings.known().air.as_ref();
    let climate = book.farm.record.climate.as_ref();
    let half_range = climate.and_then(|climate| climate.daily_range.as_ref()).map(|range| range.base() / 2.0);
    let day = |date: Date| date.day_of_year().number();
    let mean = |date: Date| Some(air?.mean(day(date)).celsius());
    let warmth = TemperatureStep::of_celsius;
    Sheet::of((0..axis.a_year_later().since(axis)).map(|days| axis.plus(days)))
        .column("date", |date| date)
        .column("mean", |date| air.map(|air| air.mean(day(date))))
        .to(6)
        .column("deviation", |date| air.map(|air| air.deviation(day(date))))
        .number("daylight_hours", 4, |date| day_length(findings.known().latitude, date.0).hours())
        .column("degree_days", |date| {
            mean(date).map(|mean| warmth(degree_days::average(mean, mean, degree_days::BASE)))
        })
        .column("degree_days_sine", |date| {
            let (mean, half) = mean(date).zip(half_range)?;
            Some(warmth(degree_days::single_sine(mean + half, mean - half, degree_days::BASE)))
        })
        .column("degree_days_expected", |date| air.map(|air| air.warmth([day(date)])))
        .grid(findings.choice.units)
}

/// Every week of every strain: the days whose air suits, those of the region's seasons, and those on which was picked.
pub fn fruiting(findings: &Findings) -> Grid {
    let weeks: Vec<Week> = weeks(findings).collect();
    let rows = findings.fruiting().iter().flat_map(|found| {
        let air = found.weeks.as_ref().ok();
        weeks.iter().enumerate().map(move |(place, week)| FruitingWeek {
            found,
            week: *week,
            air: air.and_then(|air| air.get(place)).map(|week| week.days),
            outdoors: findings.outdoors_of(&found.mushroom.id),
        })
    });
    Sheet::of(rows)
        .column("strain", |row| row.found.id())
        .column("week", |row| row.week.name())
        .column("from", |row| row.week.monday())
        .column("to", |row| row.week.sunday())
        .number("suitable_days", 2, |row| row.air.map(|[least, _]| least))
        .number("suitable_days_most", 2, |row| row.air.map(|[_, most]| most))
        .column("band", |row| row.found.kind.word())
        .column("air_gap", |row| row.found.weeks.as_ref().err().map(ToString::to_string))
        .column("season_regions", FruitingWeek::regions)
        .number("season_days", 0, FruitingWeek::season_days)
        .number("picked_days", 0, FruitingWeek::picked_days)
        .column("mushroom", |row| &row.found.mushroom.id)
        .grid(findings.choice.units)
}

/// A week of a strain.
#[derive(Clone, Copy)]
struct FruitingWeek<'a> {
    found: &'a FruitingFinding,
    week: Week,
    air: Option<[f64; 2]>,
    outdoors: Option<&'a OutdoorFinding>,
}

impl FruitingWeek<'_> {
    fn strain(&self) -> Option<&str> {
        self.found.strain.as_ref().map(|strain| strain.id.as_str())
    }

    /// The ids of the regions whose seasons count here.
    fn regions(self) -> Option<String> {
        let counting = self.outdoors?.counting(self.strain());
        let ids = counting.flat_map(|found| found.season.regions.iter().map(Id::as_str)).collect::<BTreeSet<&str>>();
        (!ids.is_empty()).then(|| ids.into_iter().collect::<Vec<&str>>().join(" "))
    }

    /// The days of the week that lie in those seasons.
    fn season_days(self) -> Option<f64> {
        let season = self.found.season.as_ref()?;
        Some(self.week.days().into_iter().filter(|day| season.contains(*day)).count() as f64)
    }

    /// The days on which this farm picked in that week of the year, over all years.
    fn picked_days(self) -> f64 {
        let days: BTreeSet<u16> = self.week.days().into_iter().collect();
        let picked = self.outdoors.map(|found| found.picked(self.strain())).unwrap_or_default();
        picked.iter().filter(|date| days.contains(&date.day_of_year().number())).count() as f64
    }
}

/// All dated work of the season: a row for each entry of the calendar.
pub fn calendar(findings: &Findings) -> Grid {
    Sheet::of(findings.agenda())
        .column("entry", |work| &work.uid)
        .column("kind", |work| work.kind().word())
        .column("from", |work| work.from)
        .column("to", |work| work.to)
        .column("title", Work::title)
        .grid(findings.choice.units)
}
