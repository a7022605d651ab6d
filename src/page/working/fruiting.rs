//! The working behind the days whose air suits a strain.

use crate::page::Context;
use crate::page::part::cite::Line;
use crate::page::part::worked::{Block, Part};
use crate::page::part::{air, capital, fruiting};
use crate::quantity::date::{DayOfYear, month_name};
use crate::quantity::measure::rounded;
use crate::quantity::{Range, Temperature};
use crate::reckon::findings::FruitingFinding;
use crate::reckon::formula::Formula;
use crate::reckon::fruiting::{LIKELY, POSSIBLE, SUITABLE, suitable};

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&SUITABLE];

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let part = |chance: f64| format!("{} of 7 days", rounded(chance * 7.0, 2));
    let states = format!(
        "The air suits where every band that counts gives at least {}, and it may suit where one gives at least {}. What \
         this farm measured comes before what is published for outdoors. Temperatures of growing rooms tell no month. \
         Where sources give a season for the region, only what lies within it is told. [Every week in \
         fruiting.csv]({}tables/fruiting.csv)",
        part(LIKELY),
        part(POSSIBLE),
        context.route.root()
    );
    let formulas = Part::new("formulas", "Formulas").by(FORMULAS, context).says(states);
    let assumed = context.findings.known().air.as_ref().is_some_and(|air| air.assumed);
    let deviation = air::deviation(context);
    vec![
        if assumed { formulas.says(format!("The day-to-day deviation is assumed: {deviation}.")) } else { formulas },
        Part::new("strains", "Each strain")
            .blocks(context.findings.fruiting().iter().map(|found| strain(found, context))),
    ]
}

fn strain(found: &FruitingFinding, context: &Context<'_>) -> Block {
    let block = Block::of(fruiting::anchor(found, context))
        .named(found.id())
        .line(format!("{}.", capital(fruiting::kind_words(found.kind))));
    let block = found.bands.iter().map(|band| Line::band(band, context)).fold(block, |block, line| {
        let figure = line.figure.map_or_else(String::new, |figure| figure.text);
        let note = line.note.map_or_else(String::new, |note| format!(" ({note})"));
        block.line(format!("{}: {figure}{note}", line.head)).cites(line.cites)
    });
    if let Err(gap) = &found.weeks {
        return block.gap(Some(gap)).made_by(FORMULAS);
    }
    let rows = fruiting::rows(found, context);
    let rows: Vec<String> = rows.into_iter().map(|(state, figure)| format!("{state} {}", figure.text)).collect();
    let made = if rows.is_empty() { "no stretch suits".to_owned() } else { rows.join("; ") };
    block.line(format!("suitable days of each month: {}", months(found, context))).line(made).made_by(FORMULAS)
}

/// Suitable days of each month, least and most over the bands.
fn months(found: &FruitingFinding, context: &Context<'_>) -> String {
    let Some(air) = &context.findings.known().air else { return String::new() };
    let bands: Vec<Range<Temperature>> = found.bands.iter().map(|band| band.range.clone()).collect();
    let first = context.findings.first_month();
    let days = (0..12).filter_map(|step| {
        let month = (first - 1 + step) % 12 + 1;
        let [least, most] = suitable(air, &bands, &DayOfYear::days_of(month))?.map(|days| rounded(days, 0));
        let words = if least == most { least } else { format!("{least}–{most}") };
        Some(format!("{} {words}", &month_name(month)[..3]))
    });
    days.collect::<Vec<String>>().join(", ")
}
