//! The tables of the year: air and light, fruiting, the calendar.

use super::{
    Cell, Grid,
    build::{grid, text},
};
use crate::{
    book::Book,
    quantity::Units,
    reckon::{Findings, daylight::day_length, degree_days, normal},
    record::table::Table,
};

/// The base above which warmth is counted, in degrees C: that of the models of leaf and bud.
pub const BASE: f64 = 5.0;

/// The unit of a temperature column.
const fn unit(units: Units) -> &'static str {
    match units {
        Units::Us => "f",
        Units::Metric => "c",
    }
}

/// A difference of temperatures in the units of a table.
const fn step(celsius: f64, units: Units) -> f64 {
    match units {
        Units::Us => celsius * 1.8,
        Units::Metric => celsius,
    }
}

/// Every day of the year that begins with the first dormant month.
pub fn climate(book: &Book, findings: &Findings) -> Grid {
    let units = findings.choice.units;
    let air = findings.known().air.as_ref();
    let climate = book.farm.record.climate.as_ref();
    let half_range = climate.and_then(|climate| climate.daily_range.as_ref()).map(|range| range.base() / 2.0);
    let year = findings.axis().a_year_later().since(findings.axis());
    let rows = (0..year).map(|days| {
        let date = findings.axis().plus(days);
        let number = date.day_of_year().number();
        let mean = air.map(|air| air.mean(number));
        let deviation = air.map(|air| air.deviation(number));
        let zero = if units == Units::Us { 32.0 } else { 0.0 };
        let warmth = |celsius: Option<f64>| Cell::number(celsius.map(|celsius| step(celsius, units)), 3);
        vec![
            text(date.written()),
            Cell::number(mean.map(|mean| step(mean, units) + zero), 6),
            Cell::number(deviation.map(|deviation| step(deviation, units)), 3),
            Cell::Number(day_length(findings.known().latitude, date.0).hours(), 4),
            warmth(mean.map(|mean| degree_days::average(mean, mean, BASE))),
            warmth(mean.zip(half_range).map(|(mean, half)| degree_days::single_sine(mean + half, mean - half, BASE))),
            warmth(mean.zip(deviation).map(|(mean, deviation)| normal::above(mean, deviation, BASE))),
        ]
    });
    let unit = unit(units);
    let [mean, deviation] = ["mean", "deviation"].map(|name| format!("{name}_{unit}"));
    let [average, sine, expected] =
        ["degree_days", "degree_days_sine", "degree_days_expected"].map(|name| format!("{name}_{unit}"));
    let columns = ["date", &mean, &deviation, "daylight_hours", &average, &sine, &expected];
    grid(Table::Climate, &columns, rows.collect())
}

/// Suitable days, week by week.
pub fn fruiting(findings: &Findings) -> Grid {
    let mut rows = Vec::new();
    for found in findings.fruiting() {
        for week in found.weeks.iter().flatten() {
            rows.push(vec![
                text(found.id()),
                text(week.week.name()),
                text(week.week.monday().written()),
                text(week.week.sunday().written()),
                Cell::Number(week.days[0], 2),
                Cell::Number(week.days[1], 2),
                text(found.kind.word()),
            ]);
        }
    }
    let columns = ["strain", "week", "from", "to", "suitable_days", "suitable_days_most", "band"];
    grid(Table::Fruiting, &columns, rows)
}

/// All dated work of the season: a row for each entry of the calendar.
pub fn calendar(findings: &Findings) -> Grid {
    let rows = findings.agenda().iter().map(|work| {
        vec![
            text(&work.uid),
            text(work.kind().word()),
            text(work.from.written()),
            text(work.to.written()),
            text(work.title()),
        ]
    });
    grid(Table::Calendar, &["entry", "kind", "from", "to", "title"], rows.collect())
}
