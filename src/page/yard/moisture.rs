//! How wet the logs are: what sample logs and slices say, and what a log weighs when it is too dry.

use std::sync::Arc;

use serde::Serialize;

use crate::book;
use crate::page::part::caution::Caution;
use crate::page::part::cite::Cite;
use crate::page::part::{Anchor, Figure, caution};
use crate::page::{Context, Page};
use crate::quantity::Percent;
use crate::quantity::measure::rounded;
use crate::reckon::findings::wetness;
use crate::reckon::{Topic, formula};
use crate::record::Id;
use crate::record::caution::Task;
use crate::record::said::Mark;

/// How wet the logs are.
#[derive(Debug, Serialize)]
pub struct View {
    batches: Vec<Batch>,
    rule: Cite,
    limits: Cite,
    woods: Vec<OfWood>,
    cautions: Vec<Caution>,
    working: String,
}

/// One batch.
#[derive(Debug, Serialize)]
struct Batch {
    id: String,
    strain: Anchor,
    wood: Option<Anchor>,
    logs: u32,
    inoculated: String,
    about: Option<String>,
    readings: Vec<Reading>,
    slices: Vec<Slice>,
}

/// One weighing.
#[derive(Debug, Serialize)]
struct Reading {
    label: String,
    date: String,
    then: String,
    now: String,
    lost: Figure,
    verdict: &'static str,
    too_dry: bool,
    gap: Option<String>,
}

/// One slice.
#[derive(Debug, Serialize)]
struct Slice {
    date: String,
    wet: Figure,
    log: Option<String>,
}

/// What a log of a wood weighs when it is too dry, as a part of its green weight.
#[derive(Debug, Serialize)]
struct OfWood {
    wood: Anchor,
    green: String,
    well: Figure,
    dead: Figure,
}

/// The view of the moisture of logs.
pub fn view(context: &Context<'_>) -> View {
    let findings = context.findings;
    let cite = |id: &str, mark: Mark| Cite::of(&Id::new(id), mark, context);
    View {
        batches: context.book.batches.values().map(|batch| of_batch(batch, context)).collect(),
        rule: cite("uk-83", Mark::Copy),
        limits: cite("uk-82", Mark::Read),
        woods: findings.lightness().iter().map(|found| light(found, context)).collect(),
        cautions: caution::for_tasks(&[Task::Soaking], caution::is_general, context),
        working: context.route.to(&Page::Working(Topic::Moisture)),
    }
}

fn of_batch(batch: &Arc<book::Batch>, context: &Context<'_>) -> Batch {
    let findings = context.findings;
    let readings = wetness::of_batch(findings.readings(), &batch.id, |reading| &reading.batch);
    let slices = wetness::of_batch(findings.slices(), &batch.id, |slice| &slice.batch);
    Batch {
        id: batch.id.clone(),
        strain: Anchor::strain(&batch.strain, context),
        wood: batch.wood.as_ref().map(|wood| Anchor::wood(wood, context)),
        logs: batch.record.logs,
        inoculated: batch.record.inoculated.show(),
        about: batch.record.about.clone(),
        readings: readings.iter().map(|found| reading(found, context)).collect(),
        slices: slices.iter().map(|found| slice(found, context)).collect(),
    }
}

/// A share of the wood in whole per cent.
fn whole(share: &formula::Figure<Percent>) -> String {
    share.result.as_ref().map_or_else(ToString::to_string, |share| format!("{} %", rounded(share.base(), 0)))
}

fn light(found: &wetness::Lightness, context: &Context<'_>) -> OfWood {
    let [well, dead] = found.parts.each_ref().map(|part| {
        let above = part.result.as_ref().is_ok_and(|part| part.of_one() > 1.0);
        let below = if above { " (drier when felled)" } else { "" };
        Figure::worked(whole(part) + below, &part.place, context)
    });
    OfWood { wood: Anchor::wood(&found.wood, context), green: whole(&found.wet), well, dead }
}

fn reading(reading: &wetness::Reading, context: &Context<'_>) -> Reading {
    let units = context.units();
    Reading {
        label: reading.label.to_string(),
        date: reading.date.show(),
        then: reading.then.show(units),
        now: reading.now.show(units),
        lost: Figure::of(&reading.lost, context),
        verdict: match reading.too_dry {
            Ok(true) => "too dry: water it overnight",
            Ok(false) => "not too dry",
            Err(_) => "",
        },
        too_dry: reading.too_dry == Ok(true),
        gap: reading.too_dry.as_ref().err().map(ToString::to_string),
    }
}

fn slice(reading: &wetness::SliceReading, context: &Context<'_>) -> Slice {
    let units = context.units();
    let [wet, _] = &reading.water;
    Slice {
        date: reading.slice.date.show(),
        wet: Figure::of(wet, context),
        log: reading.slice.log.as_ref().zip(reading.limits.as_ref()).map(|(log, [well, dead])| {
            format!(
                "a whole log of {} then ({} wet) comes to {} at 35 % and {} at 23 %",
                log.show(units),
                whole(wet),
                well.show(units),
                dead.show(units)
            )
        }),
    }
}
