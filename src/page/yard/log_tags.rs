//! A sheet of small labels: one for each batch that stands in the yard and for each that this winter's plan will make.

use serde::Serialize;

use crate::book::Batch;
use crate::page::part::{date, logs_words};
use crate::page::{Context, Page};
use crate::reckon::findings::batches::Stage;
use crate::reckon::findings::day::DayWood;
use crate::reckon::findings::stock::spawn_lots;
use crate::reckon::findings::{BatchFinding, Day};
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

/// The form of a batch's spawn, with the lot numbers of its bags.
fn spawn(batch: &Batch, form: SpawnForm, context: &Context<'_>) -> String {
    let lots: Vec<&str> = spawn_lots(context.book, batch).into_iter().collect();
    if lots.is_empty() { form.words().to_owned() } else { format!("{}, lot {}", form.words(), lots.join(", ")) }
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
