//! Holes, spawn and wax: for one log of this farm's sizes, and for many.

use serde::Serialize;

use super::{
    Context, Page,
    part::{
        Figure,
        caution::{self, Caution},
        cite::Cite,
    },
};
use crate::{
    quantity::Length,
    reckon::{
        Gap,
        findings::{Filling, logs},
        holes, weight,
    },
    record::{Kind, caution::Task, strain::SpawnForm},
};

/// The sheet of holes, spawn and wax.
#[derive(Debug, Serialize)]
pub struct View {
    length: String,
    pattern: Option<PatternView>,
    diameters: Vec<String>,
    sizes: Vec<Size>,
    others: Vec<Other>,
    package: Option<String>,
    rate: Option<Cite>,
    wax: String,
    minutes: String,
    method: String,
    cautions: Vec<Caution>,
    working: String,
}

/// The pattern of the sheet.
#[derive(Debug, Serialize)]
struct PatternView {
    name: String,
    along: String,
    between: String,
    cite: Cite,
}

/// Logs of one diameter.
#[derive(Debug, Serialize)]
struct Size {
    diameter: String,
    holes: Figure,
    rows: Vec<Row>,
}

/// A number of logs of one diameter.
#[derive(Debug, Serialize)]
struct Row {
    logs: u32,
    holes: Figure,
    spawn: Figure,
    packages: Figure,
}

/// What other rules give for the same log.
#[derive(Debug, Serialize)]
pub struct Other {
    rule: String,
    cite: Option<Cite>,
    figures: Vec<String>,
}

/// The view of the sheet.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let units = context.units();
    let findings = context.findings;
    let sawdust: Vec<&Filling> =
        findings.fillings.iter().filter(|filling| filling.form == SpawnForm::Sawdust).collect();
    let first = sawdust.first();
    let name = first.map(|filling| filling.pattern.name.as_str());
    let of_pattern: Vec<&Filling> =
        sawdust.iter().copied().filter(|filling| Some(filling.pattern.name.as_str()) == name).collect();
    let rate = first.and_then(|filling| filling.rate.as_ref());
    View {
        length: context.book.farm.record.log.length.show(units),
        pattern: first.map(|filling| PatternView {
            name: filling.pattern.name.clone(),
            along: filling.pattern.along.show(units),
            between: filling.between.show(units),
            cite: Cite::of(&filling.pattern.source, filling.pattern.mark, context),
        }),
        sizes: of_pattern
            .chunk_by(|a, b| a.diameter == b.diameter)
            .filter_map(|fillings| size(fillings, context))
            .collect(),
        diameters: logs::diameters(context.book, units).iter().map(|diameter| diameter.show(units)).collect(),
        others: others(context),
        package: rate.map(|rate| rate.package.show(units)),
        rate: rate.map(|rate| Cite::of(&rate.source, rate.mark, context)),
        wax: Gap::NotPublished("the weight of wax a log").to_string(),
        minutes: Gap::NotPublished("the time to drill, fill and wax a log").to_string(),
        method: context.route.record(Kind::Method, logs::DRILLED),
        cautions: caution::for_tasks(&[Task::Drilling, Task::Waxing], caution::is_general, context),
        working: context.route.to(&Page::WorkingInoculation),
    }
}

fn size(fillings: &[&Filling], context: &Context<'_>) -> Option<Size> {
    let units = context.units();
    let first = fillings.first()?;
    let working = |anchor: &str| context.route.at(&Page::WorkingInoculation, anchor);
    let rows = fillings.iter().map(|filling| {
        let (spawn, packages) = match filling.need.as_ref().map(|need| (need, filling.all_spawn())) {
            Ok((need, Some([least, most]))) => (
                Figure::worked(range(&least.show(units), &most.show(units)), working("spawn")),
                Figure::worked(
                    range(&need.packages_least.to_string(), &need.packages_most.to_string()),
                    working("spawn"),
                ),
            ),
            Ok((_, None)) => (Figure::gap("–"), Figure::gap("–")),
            Err(gap) => (Figure::gap(gap.to_string()), Figure::gap("–")),
        };
        Row {
            logs: filling.logs,
            holes: Figure::worked(filling.all_holes().to_string(), working("holes")),
            spawn,
            packages,
        }
    });
    Some(Size {
        diameter: first.diameter.show(units),
        holes: Figure::worked(first.whole_holes().to_string(), working("holes")),
        rows: rows.collect(),
    })
}

/// Two values as a range, their unit once; one value where they are equal.
fn range(low: &str, high: &str) -> String {
    let unit = |text: &str| text.split_once(' ').map(|(_, unit)| unit.to_owned());
    match (unit(low), unit(high)) {
        _ if low == high => low.to_owned(),
        (Some(one), Some(other)) if one == other => format!("{}–{high}", low.trim_end_matches(&one).trim_end()),
        (Some(_), _) | (_, Some(_)) => format!("{low} to {high}"),
        (None, None) => format!("{low}–{high}"),
    }
}

/// Holes in one log by every other pattern and rule that was published.
#[must_use]
pub fn others(context: &Context<'_>) -> Vec<Other> {
    let units = context.units();
    let farm = &context.book.farm.record;
    let diameters = logs::diameters(context.book, units);
    let length = &farm.log.length;
    let whole = |number: f64| number.round().to_string();
    let mut rows = Vec::new();
    if let Some(method) = context.book.methods.get(logs::DRILLED) {
        for pattern in &method.record.patterns {
            let Some(between) = &pattern.between else { continue };
            rows.push(Other {
                rule: format!(
                    "{}: {} along, {} between rows",
                    pattern.name,
                    pattern.along.show(units),
                    between.show(units)
                ),
                cite: Some(Cite::of(&pattern.source, pattern.mark, context)),
                figures: diameters
                    .iter()
                    .map(|diameter| whole(holes::by_area(diameter, length, &pattern.along, between)))
                    .collect(),
            });
        }
    }
    let six_inches = Length::of_inches(6.0);
    rows.push(Other {
        rule: format!("A row for each inch of diameter, {} along", six_inches.show(units)),
        cite: Some(source("common-practice", context)),
        figures: diameters.iter().map(|diameter| whole(holes::by_rows(diameter, length, &six_inches))).collect(),
    });
    if let Some(wood) = context.findings.woods.iter().find(|wood| weight::density(&logs::green(&wood.record)).is_ok()) {
        let green = logs::green(&wood.record);
        let pounds = |diameter: &Length| weight::log(&green, diameter, length).map_or(0.0, |mass| mass.pounds());
        rows.push(Other {
            rule: format!("One to two holes for each pound of a green log, here of {}", wood.name()),
            cite: Some(source("sab-den", context)),
            figures: diameters
                .iter()
                .map(|diameter| {
                    let [one, two] = [1.0, 2.0].map(|factor| whole(holes::by_weight(pounds(diameter), factor)));
                    range(&one, &two)
                })
                .collect(),
        });
    }
    rows.push(Other {
        rule: "At least three to four holes for each centimetre of top diameter".to_owned(),
        cite: Some(source("hro09", context)),
        figures: diameters
            .iter()
            .map(|diameter| {
                let (low, high) = holes::by_diameter(diameter);
                range(&whole(low), &whole(high))
            })
            .collect(),
    });
    rows
}

fn source(id: &str, context: &Context<'_>) -> Cite {
    Cite::of(&crate::record::Id::new(id), crate::record::said::Mark::Read, context)
}
