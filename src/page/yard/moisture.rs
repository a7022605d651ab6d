//! How wet the logs are: what sample logs and slices say, and what a log weighs when it is too dry.

use std::{collections::BTreeMap, sync::Arc};

use serde::Serialize;

use crate::page::{
    Context, Page,
    part::sample,
    part::{
        Anchor, Figure,
        caution::{self, Caution},
        cite::Cite,
    },
};
use crate::{
    book,
    quantity::measure::rounded,
    reckon::{
        Topic,
        findings::{logs, wetness},
        moisture::{LIMITS, lost, now, part_at, weight_at, wet_of_dry},
    },
    record::{Id, caution::Task, said::Mark},
};

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
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let findings = context.findings;
    let cite = |id: &str, mark: Mark| Cite::of(&Id::new(id), mark, context);
    View {
        batches: batches(context),
        rule: cite("uk-83", Mark::Copy),
        limits: cite("uk-82", Mark::Read),
        woods: findings
            .woods()
            .iter()
            .filter_map(|wood| {
                let green = logs::green(&wood.record).moisture?;
                let share = |limit: f64| {
                    let share = part_at(wet_of_dry(green), limit);
                    let below = if share > 1.0 { " (drier when felled)" } else { "" };
                    Figure::worked(
                        format!("{} %{below}", rounded(share * 100.0, 0)),
                        context.route.at(&Page::Working(Topic::Moisture), &wood.id),
                    )
                };
                Some(OfWood {
                    wood: Anchor::wood(wood, context),
                    green: format!("{} %", rounded(wet_of_dry(green) * 100.0, 0)),
                    well: share(LIMITS[0]),
                    dead: share(LIMITS[1]),
                })
            })
            .collect(),
        cautions: caution::for_tasks(&[Task::Soaking], caution::is_general, context),
        working: context.route.to(&Page::Working(Topic::Moisture)),
    }
}

fn batches(context: &Context<'_>) -> Vec<Batch> {
    let findings = context.findings;
    let mut readings: BTreeMap<&str, Vec<Reading>> = BTreeMap::new();
    for (anchor, found) in sample::weighings(findings).iter().zip(findings.readings()) {
        readings.entry(&found.batch.id).or_default().push(reading(found, anchor, context));
    }
    let mut slices: BTreeMap<&str, Vec<Slice>> = BTreeMap::new();
    for (anchor, found) in sample::slices(findings).iter().zip(findings.slices()) {
        slices.entry(&found.batch.id).or_default().push(slice(found, anchor, context));
    }
    let mut of = |batch: &Arc<book::Batch>| Batch {
        id: batch.id.clone(),
        strain: Anchor::strain(&batch.strain, context),
        wood: batch.wood.as_ref().map(|wood| Anchor::wood(wood, context)),
        logs: batch.record.logs,
        inoculated: batch.record.inoculated.show(),
        about: batch.record.about.clone(),
        readings: readings.remove(batch.id.as_str()).unwrap_or_default(),
        slices: slices.remove(batch.id.as_str()).unwrap_or_default(),
    };
    context.book.batches.values().map(&mut of).collect()
}

fn reading(reading: &wetness::Reading, anchor: &str, context: &Context<'_>) -> Reading {
    let units = context.units();
    Reading {
        label: reading.label.to_string(),
        date: reading.date.show(),
        then: reading.then.show(units),
        now: reading.now.show(units),
        lost: Figure::worked(
            format!("{} %", rounded(lost(&reading.then, &reading.now) * 100.0, 1)),
            context.route.at(&Page::Working(Topic::Moisture), anchor),
        ),
        verdict: match reading.too_dry {
            Ok(true) => "too dry: water it overnight",
            Ok(false) => "not too dry",
            Err(_) => "",
        },
        too_dry: reading.too_dry == Ok(true),
        gap: reading.too_dry.as_ref().err().map(ToString::to_string),
    }
}

fn slice(reading: &wetness::SliceReading, anchor: &str, context: &Context<'_>) -> Slice {
    let units = context.units();
    Slice {
        date: reading.slice.date.show(),
        wet: Figure::worked(
            format!("{} %", rounded(reading.wet * 100.0, 1)),
            context.route.at(&Page::Working(Topic::Moisture), anchor),
        ),
        log: reading.slice.log.as_ref().map(|log| {
            let at = |limit: f64| weight_at(log, reading.wet, limit).show(units);
            let moisture = now(log, reading.wet, log);
            format!(
                "a whole log of {} then ({} % wet) comes to {} at 35 % and {} at 23 %",
                log.show(units),
                rounded(moisture * 100.0, 0),
                at(LIMITS[0]),
                at(LIMITS[1])
            )
        }),
    }
}
