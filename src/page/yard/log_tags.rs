//! A sheet of small labels: one for each batch that stands in the yard and for each that this winter's plan will make.

use std::collections::BTreeSet;

use serde::Serialize;

use crate::book::Batch;
use crate::page::part::{date, logs_words};
use crate::page::{Context, Page};
use crate::reckon::findings::batches::Stage;
use crate::reckon::findings::day::DayWood;
use crate::reckon::findings::{BatchFinding, Day};
use crate::reckon::season::Season;
use crate::record::plan::{Item, Stock};
use crate::record::strain::SpawnForm;

/// The sheet of labels.
#[derive(Debug, Serialize)]
pub struct View {
    standing: Vec<Tag>,
    planned: Vec<Tag>,
    batches: String,
}

/// A label.
#[derive(Debug, Default, Serialize)]
struct Tag {
    strain: String,
    mushroom: String,
    wood: Option<String>,
    logs: String,
    batch: Option<String>,
    inoculated: Option<String>,
    first: Option<String>,
    spawn: Option<String>,
}

/// The view of the sheet.
pub fn view(context: &Context<'_>) -> View {
    let findings = context.findings;
    let stands = |found: &&BatchFinding| found.stage != Stage::Gone;
    let planned = findings.days().iter().flat_map(|day| day.woods.iter().map(move |wood| (day, wood)));
    View {
        standing: findings.batches().iter().filter(stands).map(|found| standing(found, context)).collect(),
        planned: planned.map(|(day, wood)| self::planned(day, wood)).collect(),
        batches: context.route.to(&Page::Batches),
    }
}

fn standing(found: &BatchFinding, context: &Context<'_>) -> Tag {
    let batch = &found.batch;
    let earliest = found.first.iter().map(|(_, [from, _])| *from).min();
    let latest = found.first.iter().map(|(_, [_, to])| *to).max();
    Tag {
        strain: batch.strain.record.name.clone(),
        mushroom: batch.strain.mushroom.name().to_owned(),
        wood: batch.wood.as_ref().map(|wood| wood.name().to_owned()),
        logs: logs_words(f64::from(found.left())),
        batch: Some(
            batch.record.number.map_or_else(|| batch.id.clone(), |number| format!("No. {number}, {}", batch.id)),
        ),
        inoculated: Some(batch.record.inoculated.show(context.units())),
        first: earliest.zip(latest).map(|(from, to)| date::between(from, to, context.units())),
        spawn: batch.record.spawn.map(|form| spawn(batch, form, context)),
    }
}

/// The form of a batch's spawn, with the number of its bag where the plans of its winter have one bag alone of that strain.
fn spawn(batch: &Batch, form: SpawnForm, context: &Context<'_>) -> String {
    let winter = Season::holding(batch.record.inoculated, context.findings.season.south).year;
    let plans = context.book.plans.values().filter(|plan| plan.record.season == winter);
    let is_of = |stock: &&Stock| stock.item == Item::of(form) && stock.strain.as_ref() == Some(&batch.record.strain);
    let bags = plans.flat_map(|plan| &plan.record.stock).filter(is_of);
    let bags: BTreeSet<&String> = bags.filter_map(|stock| stock.lot_number.as_ref()).collect();
    match bags.first() {
        Some(bag) if bags.len() == 1 => format!("{}, bag {bag}", form.words()),
        _ => form.words().to_owned(),
    }
}

fn planned(day: &Day, wood: &DayWood) -> Tag {
    Tag {
        strain: day.strain.record.name.clone(),
        mushroom: day.strain.mushroom.name().to_owned(),
        wood: wood.wood.as_ref().map(|wood| wood.name().to_owned()),
        logs: logs_words(f64::from(wood.logs)),
        spawn: Some(day.form.words().to_owned()),
        ..Tag::default()
    }
}
