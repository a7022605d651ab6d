//! How wet the logs are: what sample logs and slices say, and what a log weighs when it is too dry.

use std::sync::Arc;

use serde::Serialize;

use crate::book;
use crate::page::part::caution::{Cautions, grown};
use crate::page::part::cite::Cite;
use crate::page::part::table::{Cell, Part, Table, cell};
use crate::page::part::{Anchor, Figure};
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
    woods: Option<Table>,
    cautions: Cautions,
    working: String,
}

/// One batch.
#[derive(Debug, Serialize)]
struct Batch {
    id: String,
    name: Anchor,
    logs: u32,
    inoculated: String,
    about: Option<String>,
    readings: Option<Table>,
    slices: Vec<Cell>,
}

impl Batch {
    /// Whether nothing is known of its water.
    fn is_unweighed(&self) -> bool {
        self.readings.is_none() && self.slices.is_empty()
    }
}

/// The view of the moisture of logs, batches that were weighed first.
pub fn view(context: &Context<'_>) -> View {
    let mut batches: Vec<Batch> = context.book.batches.values().map(|batch| of_batch(batch, context)).collect();
    batches.sort_by_key(Batch::is_unweighed);
    let cite = |id: &str, mark: Mark| Cite::of(&Id::new(id), mark, context);
    View {
        batches,
        rule: cite("uk-83", Mark::Copy),
        limits: cite("uk-82", Mark::Read),
        woods: lightness(context),
        cautions: Cautions::of(Task::Stacking, &grown(context), context),
        working: context.route.to(&Page::Working(Topic::Moisture)),
    }
}

fn of_batch(batch: &Arc<book::Batch>, context: &Context<'_>) -> Batch {
    let findings = context.findings;
    let readings = wetness::of_batch(findings.readings(), &batch.id, |reading| &reading.batch);
    let slices = wetness::of_batch(findings.slices(), &batch.id, |slice| &slice.batch);
    let units = context.units();
    Batch {
        id: batch.id.clone(),
        name: Anchor::batch(batch, context),
        logs: batch.logs,
        inoculated: batch.record.inoculated.show(context.units()),
        about: batch.record.about.clone(),
        readings: Table::of("facts", "Sample logs", readings)
            .wide(&format!("Sample logs of {}", batch.name))
            .head("Log", |reading| reading.label.to_string())
            .column("Weighed", |reading| reading.date.show(context.units()))
            .number("At inoculation", |reading| reading.then.show(units))
            .number("Then", |reading| reading.now.show(units))
            .number("Lost", |reading| Figure::of(&reading.lost, context))
            .column("Verdict", |reading| {
                let verdict = |too_dry: &bool| match too_dry {
                    true => Part::Strong("too dry: water it overnight".into()),
                    false => "not too dry".into(),
                };
                reading.too_dry.as_ref().map(verdict)
            })
            .done(),
        slices: slices.iter().map(|found| slice(found, context)).collect(),
    }
}

/// A share of the wood in whole per cent.
fn whole(share: &formula::Figure<Percent>) -> String {
    share.result.as_ref().map_or_else(ToString::to_string, |share| format!("{} %", rounded(share.base(), 0)))
}

/// What a log of each wood weighs when it is too dry, as a part of its green weight.
fn lightness(context: &Context<'_>) -> Option<Table> {
    let part = |part: &formula::Figure<Percent>| {
        let above = part.result.as_ref().is_ok_and(|part| part.of_one() > 1.0);
        let below = if above { " (drier when felled)" } else { "" };
        Figure::worked(whole(part) + below, &part.place, context)
    };
    let caption = "Weight, as a part of green weight, at which a log holds 35 % water and 23 %, wet basis";
    Table::of("facts", caption, context.findings.lightness())
        .wide("When a log is too light")
        .head("Wood", |found| Anchor::wood(&found.wood, context))
        .number("Water when green", |found| whole(&found.wet))
        .number("35 %", |found| part(&found.parts[0]))
        .number("23 %", |found| part(&found.parts[1]))
        .done()
}

fn slice(reading: &wetness::SliceReading, context: &Context<'_>) -> Cell {
    let units = context.units();
    let [wet, _] = &reading.water;
    let log = reading.slice.log.as_ref().zip(reading.limits.as_ref()).map(|(log, [well, dead])| {
        format!(
            "; a whole log of {} then ({} wet) comes to {} at 35 % and {} at 23 %",
            log.show(units),
            whole(wet),
            well.show(units),
            dead.show(units)
        )
    });
    let of = format!("Slice of {}: ", reading.slice.date.show(context.units()));
    cell![of, Figure::of(wet, context), " water, wet basis", log]
}
