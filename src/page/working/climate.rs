//! The working behind the air, the light and the modelled dates.

use serde::Serialize;

use crate::page::Context;
use crate::page::part::cite::Cite;
use crate::page::part::worked::Cited;
use crate::page::part::{Anchor, Figure, air};
use crate::quantity::date::{DayOfYear, month_name};
use crate::quantity::measure::rounded;
use crate::quantity::{Event, Length, SeasonEnd, Temperature, TemperatureStep, count};
use crate::reckon::climate::CURVE;
use crate::reckon::daylight::day_length;
use crate::reckon::degree_days::{BASE, WARMTH};
use crate::reckon::dormancy::{COLOUR, ERROR};
use crate::reckon::formula::Formula;
use crate::reckon::season::{Observations, of_day};
use crate::reckon::{days, dormancy, hopkins};
use crate::record::Id;
use crate::record::said::Mark;

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&CURVE, &COLOUR, &WARMTH];

/// The working behind the air.
#[derive(Debug, Serialize)]
pub struct View {
    formulas: Vec<Cited>,
    months: Vec<Month>,
    light: Cite,
    station: Option<String>,
    assumed: Option<String>,
    usual: [String; 2],
    base: String,
    height: String,
    turns: Option<[String; 2]>,
    events: Vec<Modelled>,
    error: [u16; 2],
    moved: Option<Cite>,
    crossings: Vec<Crossing>,
    gap: Option<String>,
    table: String,
}

/// A month.
#[derive(Debug, Serialize)]
struct Month {
    name: &'static str,
    mean: Option<String>,
    deviation: Option<String>,
    light: String,
    warmth: Option<String>,
}

/// An event by the models, beside what was observed.
#[derive(Debug, Serialize)]
struct Modelled {
    event: &'static str,
    day: Figure,
    observed: Option<String>,
    apart: Option<i32>,
}

/// A window's end at which the air crosses a temperature.
#[derive(Debug, Serialize)]
struct Crossing {
    window: Anchor,
    end: String,
    day: Figure,
}

/// The view of the working behind the air.
pub fn view(context: &Context<'_>) -> View {
    let known = context.findings.known();
    let climate = context.book.farm.record.climate.as_ref();
    View {
        formulas: Cited::all(FORMULAS, context),
        months: (1..=12).map(|month| self::month(month, context)).collect(),
        light: Cite::of(&Id::new("noaa-sun"), Mark::Copy, context),
        station: climate.and_then(|climate| climate.station.clone()),
        assumed: known.air.as_ref().filter(|air| air.assumed).map(|_| air::deviation(context)),
        usual: [3.0, 5.0].map(|degrees| TemperatureStep::of_celsius(degrees).show(context.units())),
        base: Temperature::of_celsius(BASE).show(context.units()),
        height: Length::of_feet(hopkins::FEET).show(context.units()),
        turns: known.air.as_ref().map(|air| air.curve.turns().map(|day| of_day(day).show())),
        events: [Event::LeafColour, Event::BudSwell].map(|event| modelled(event, context)).into(),
        error: ERROR,
        moved: known
            .observed
            .iter()
            .any(|seen| seen.moved.is_some())
            .then(|| Cite::of(&Id::new("hopkins-1918"), Mark::SecondHand, context)),
        crossings: crossings(context),
        gap: known.air.is_none().then(|| {
            "no figure: the air of the farm is not recorded; write twelve monthly means in farm.yaml under climate"
                .to_owned()
        }),
        table: format!("{}tables/climate.csv", context.route.root()),
    }
}

fn month(month: i8, context: &Context<'_>) -> Month {
    let known = context.findings.known();
    let units = context.units();
    let first = DayOfYear::first_of(month);
    let middle = first.in_year(context.findings.axis().0.year()).plus(14);
    let air = known.air.as_ref();
    Month {
        name: month_name(month),
        mean: air.map(|air| air.month(month).show(units)),
        deviation: air.map(|air| air.deviation(middle.day_of_year().number()).show(units)),
        light: format!("{} h", rounded(day_length(known.latitude, middle.0).hours(), 1)),
        warmth: air.map(|air| air.warmth(DayOfYear::days_of(month)).whole(units)),
    }
}

fn modelled(event: Event, context: &Context<'_>) -> Modelled {
    let known = context.findings.known();
    let model = known.air.as_ref().map(|air| dormancy::modelled(event, air, known.latitude));
    let seen = known.observed.iter().find(|seen| seen.event == event).and_then(Observations::usual);
    let day = model.as_ref().and_then(|model| model.as_ref().ok().copied());
    Modelled {
        event: event.words(),
        day: match model {
            Some(Ok(day)) => Figure::plain(of_day(day).show()),
            Some(Err(gap)) => Figure::gap(gap.to_string()),
            None => Figure::gap("no date: the monthly means are not recorded"),
        },
        observed: seen
            .map(|usual| format!("{} in {}", of_day(usual.median).show(), count(usual.years, "year", "years"))),
        apart: day.zip(seen).map(|(day, seen)| days::apart(day, seen.median)),
    }
}

fn crossings(context: &Context<'_>) -> Vec<Crossing> {
    let mut crossings = Vec::new();
    for found in context.findings.windows() {
        for end in [&found.window.record.from, &found.window.record.to] {
            if matches!(end, SeasonEnd::Crossing { .. }) {
                let day = crate::reckon::season::tell(end, context.findings.known());
                crossings.push(Crossing {
                    window: Anchor::window(&found.window, context),
                    end: end.show(context.units()),
                    day: match day {
                        Ok(told) => Figure::plain(of_day(told.day).show()),
                        Err(gap) => Figure::gap(gap.to_string()),
                    },
                });
            }
        }
    }
    crossings
}
