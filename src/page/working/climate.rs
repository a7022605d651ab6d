//! The working behind the air, the light and the modelled dates.

use crate::page::Context;
use crate::page::part::cite::Cite;
use crate::page::part::table::{Table, or_dash, or_gap};
use crate::page::part::worked::{Block, Part};
use crate::page::part::{Anchor, air};
use crate::quantity::date::{DayOfYear, month_name};
use crate::quantity::measure::rounded;
use crate::quantity::{Event, Length, SeasonEnd, Temperature, TemperatureStep, count};
use crate::reckon::climate::CURVE;
use crate::reckon::daylight::day_length;
use crate::reckon::degree_days::{BASE, WARMTH};
use crate::reckon::dormancy::{COLOUR, ERROR};
use crate::reckon::formula::Formula;
use crate::reckon::season::{Observations, Usual, of_day, tell};
use crate::reckon::{days, dormancy, hopkins};
use crate::record::Id;
use crate::record::said::Mark;

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&CURVE, &COLOUR, &WARMTH];

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let crossings = crossings(context);
    vec![
        Part::new("formulas", "Formulas").by(FORMULAS, context),
        year(context),
        events(context),
        Part::new("crossings", "Where the air crosses a temperature").blocks(match crossings.as_slice() {
            [] => vec![Block::default().line("No window asks for it.")],
            _ => crossings,
        }),
    ]
}

fn year(context: &Context<'_>) -> Part {
    let (known, units) = (context.findings.known(), context.units());
    let air = known.air.as_ref();
    let middle = |month| DayOfYear::first_of(month).in_year(context.findings.axis().0.year()).plus(14);
    let months = Table::of("facts", "Each month, with daylight on its 15th", 1..=12)
        .wide("Each month")
        .head("Month", month_name)
        .number("Mean", |month| or_dash(air.map(|air| air.month(month).show(units))))
        .number("Deviation", |month| {
            or_dash(air.map(|air| air.deviation(middle(month).day_of_year().number()).show(units)))
        })
        .number("Daylight", |month| format!("{} h", rounded(day_length(known.latitude, middle(month).0).hours(), 1)))
        .number(&format!("Degree-days above {}", Temperature::of_celsius(BASE).show(units)), |month| {
            or_dash(air.map(|air| air.warmth(DayOfYear::days_of(month)).whole(units)))
        });
    let light = Cite::of(&Id::new("noaa-sun"), Mark::Copy, context);
    let mut part = Part::new("months", "The year here").table(months.done());
    let mut block = Block::default().line("Daylight from sunrise to sunset.").cites([light]);
    if let Some(station) = context.book.farm.record.climate.as_ref().and_then(|climate| climate.station.as_ref()) {
        block = block.line(station);
    }
    if air.is_some_and(|air| air.assumed) {
        let [summer, winter] = [3.0, 5.0].map(|degrees| TemperatureStep::of_celsius(degrees).show(units));
        part = part.says(format!(
            "The farm gives no day-to-day deviation, so {} are assumed (our own choice): continental places show about \
             {summer} in summer and {winter} in winter.",
            air::deviation(context)
        ));
    }
    if let Some(air) = air {
        let [coldest, warmest] = air.curve.turns().map(|day| of_day(day).show(context.units()));
        part = part.says(format!(
            "By the curve the coldest day is {coldest} and the warmest {warmest}. Degree-days are the mean over days \
             that scatter about the usual temperature. Every day stands in [climate.csv]({}tables/climate.csv).",
            context.route.root()
        ));
    }
    let gap = "no figure: the air of the farm is not recorded; write twelve monthly means in farm.yaml under climate";
    part.blocks([block.gap(air.is_none().then_some(gap))])
}

/// Leaves turned and buds swollen, by the models, beside what was observed.
fn events(context: &Context<'_>) -> Part {
    let known = context.findings.known();
    let air = known.air.as_ref();
    let model = |event| air.map(|air| dormancy::modelled(event, air, known.latitude));
    let seen = |event| known.observed.iter().find(|seen| seen.event == event);
    let usual = |event| seen(event).and_then(Observations::usual);
    let caption = "The models beside what was observed";
    let table = Table::of("facts", caption, [Event::LeafColour, Event::BudSwell])
        .wide(caption)
        .head("Event", Event::said)
        .column("By the model", |event| {
            let day = model(event).map(|day| day.map(|day| of_day(day).show(context.units())));
            or_gap(day, "no date: the monthly means are not recorded")
        })
        .column("Observed here", |event| {
            let of_years = |usual: Usual| {
                let day = of_day(usual.median).show(context.units());
                format!("usually {day}, in {}", count(usual.years, "year", "years"))
            };
            let now = seen(event).and_then(|seen| seen.now).map(|date| date.show(context.units()));
            let words: Vec<String> = now.into_iter().chain(usual(event).map(of_years)).collect();
            or_gap((!words.is_empty()).then(|| words.join("; ")), "not observed")
        })
        .number("Days apart", |event| {
            let day = model(event).and_then(Result::ok).zip(usual(event));
            or_dash(day.map(|(day, seen)| days::apart(day, seen.median).to_string()))
        });
    let [best, unchecked] = ERROR;
    let first = format!(
        "Our own dates always come first. A date from a model may be wrong by {best} days at best, and by {unchecked} at \
         a place where nobody has checked it."
    );
    let height = Length::of_feet(hopkins::FEET).show(context.units());
    let moved = format!(
        "The dates were observed elsewhere and moved here by Hopkins’ rule, as the farm asks: four days for each \
         degree of latitude, and in spring for each {height}. It is a folk rule by now, good to about a week."
    );
    let rule = Cite::of(&Id::new("hopkins-1918"), Mark::SecondHand, context);
    let moved =
        known.observed.iter().any(|seen| seen.moved.is_some()).then(|| Block::default().line(moved).cites([rule]));
    let part = Part::new("events", "Leaves turned and buds swollen, by the models").table(table.done());
    part.blocks([Block::default().line(first).made_by(&[&COLOUR])]).blocks(moved)
}

/// The ends of windows at which the air crosses a temperature.
fn crossings(context: &Context<'_>) -> Vec<Block> {
    let windows = context.findings.windows().iter().map(|found| &found.window);
    let ends = windows.flat_map(|window| [&window.record.from, &window.record.to].map(|end| (window, end)));
    let crossing = ends.filter(|(_, end)| matches!(end, SeasonEnd::Crossing { .. })).map(|(window, end)| {
        let (block, says) = (Block::of(Anchor::window(window, context)), end.show(context.units()));
        let block = match tell(end, context.findings.known()) {
            Ok(told) => block.line(format!("{says}, {}", of_day(told.day).show(context.units()))),
            Err(gap) => block.gap(Some(format!("{says}, {gap}"))),
        };
        block.made_by(&[&CURVE])
    });
    crossing.collect()
}
