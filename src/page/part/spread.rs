//! What sources say of one quantity, each beside the others on one axis.

use serde::Serialize;

use crate::book::Mushroom;
use crate::page::Context;
use crate::page::figure::spread::{self, Row};
use crate::quantity::{Duration, Range, Value};
use crate::reckon::findings::inoculation;
use crate::record::Id;
use crate::record::mushroom::Over;
use crate::record::said::Stage;
use crate::record::source::Source;

/// A drawing of what sources say of one quantity.
#[derive(Debug, Serialize)]
pub struct Spread {
    svg: String,
    caption: String,
}

/// A unit of time for an axis, and its days.
const TIMES: [(&str, f64); 3] = [("days", 1.0), ("weeks", 7.0), ("months", 30.4375)];
/// The most of a unit that an axis of time shows.
const MOST: f64 = 40.0;

/// How long logs rest after felling.
pub fn rest(mushroom: &Mushroom, context: &Context<'_>) -> Option<Spread> {
    let rests = inoculation::rests(mushroom);
    let days = |time: &Option<Duration>| time.as_ref().map(Duration::days);
    let rows = rests.iter().map(|rest| Row {
        name: name(&rest.source, context),
        least: days(&rest.least).or_else(|| rest.best.as_ref().map(|best| best.low.days())),
        most: days(&rest.most).or_else(|| rest.best.as_ref().map(|best| best.high.days())),
        best: rest.best.as_ref().map(|best| [best.low.days(), best.high.days()]),
    });
    let ours = context.findings.rest();
    let grown = context.findings.mushrooms().iter().any(|grown| grown.id == mushroom.id);
    let band = grown.then(|| [ours.low.days(), ours.high.days()]);
    in_time(&format!("rest-of-{}", mushroom.id), "Rest after felling", rows.collect(), band)
}

/// From inoculation to the first mushrooms.
pub fn first(mushroom: &Mushroom, context: &Context<'_>) -> Option<Spread> {
    let rows =
        mushroom.spawn_runs().iter().map(|span| ranged(name(&span.source, context), &span.range, Duration::days));
    in_time(&format!("first-of-{}", mushroom.id), "First mushrooms after inoculation", rows.collect(), None)
}

/// The air in which it fruits.
pub fn fruiting(mushroom: &Mushroom, context: &Context<'_>) -> Option<Spread> {
    let units = context.units();
    let bands = mushroom.record.temperatures.iter().filter(|band| band.stage == Stage::Fruiting);
    let rows = bands.map(|band| {
        let indoors = if band.indoors { ", rooms" } else { "" };
        let number = |of: &crate::quantity::Temperature| Value::from(of).number(units).unwrap_or_default();
        ranged(format!("{}{indoors}", name(&band.source, context)), &band.range, number)
    });
    let unit = units.pick("°F", "°C");
    drawn(&format!("air-of-{}", mushroom.id), format!("Fruiting, {unit}"), rows.collect(), None)
}

/// What a log gives over its life.
pub fn gives(mushroom: &Mushroom, context: &Context<'_>) -> Option<Spread> {
    let units = context.units();
    let of_life = mushroom.log_yields().iter().filter(|line| line.over == Over::Life);
    let number = |of: &crate::quantity::Mass| Value::from(of).number(units).unwrap_or_default();
    let rows = of_life.map(|line| ranged(name(&line.source, context), &line.a_log, number));
    let unit = units.pick("lb", "kg");
    drawn(&format!("gives-{}", mushroom.id), format!("A log over its life, {unit}"), rows.collect(), None)
}

fn name(source: &Id<Source>, context: &Context<'_>) -> String {
    context.book.short(source).to_owned()
}

/// A range as a row; a single figure as a dot.
fn ranged<T>(name: String, range: &Range<T>, number: impl Fn(&T) -> f64) -> Row {
    let [low, high] = [number(&range.low), number(&range.high)];
    let best = (low >= high).then_some([low, high]);
    Row { name, least: Some(low), most: Some(high), best }
}

/// Rows in days, on an axis of the smallest unit of time that does not crowd it.
fn in_time(id: &str, caption: &str, rows: Vec<Row>, band: Option<[f64; 2]>) -> Option<Spread> {
    let most = rows.iter().flat_map(|row| [row.least, row.most]).flatten().fold(0.0, f64::max);
    let (unit, days) = TIMES.into_iter().find(|(_, days)| most / days <= MOST).unwrap_or(TIMES[2]);
    let in_unit = |row: Row| Row {
        least: row.least.map(|least| least / days),
        most: row.most.map(|most| most / days),
        best: row.best.map(|best| best.map(|end| end / days)),
        ..row
    };
    let band = band.map(|band| band.map(|end| end / days));
    drawn(id, format!("{caption}, {unit}"), rows.into_iter().map(in_unit).collect(), band)
}

/// A drawing, where there is more than one row to compare.
fn drawn(id: &str, caption: String, mut rows: Vec<Row>, band: Option<[f64; 2]>) -> Option<Spread> {
    rows.retain(|row| row.least.is_some() || row.most.is_some());
    let key = |row: &Row| row.least.or(row.most).unwrap_or_default();
    rows.sort_by(|one, other| key(one).total_cmp(&key(other)));
    (rows.len() > 1).then(|| Spread { svg: spread::svg(id, &caption, &rows, band), caption })
}
