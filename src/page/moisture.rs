//! How wet the logs are: what sample logs and slices say, and what a log weighs when it is too dry.

use serde::Serialize;

use super::{
    Context, Page,
    part::{
        Anchor, Figure,
        caution::{self, Caution},
        cite::Cite,
    },
};
use crate::{
    quantity::measure::rounded,
    reckon::{
        findings::{logs, wetness::of_batch},
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
    let cite = |id: &str| Cite::of(&Id::new(id), Mark::Copy, context);
    View {
        batches: context.book.batches.values().map(|batch| one(batch, context)).collect(),
        rule: cite("uk-83"),
        limits: cite("uk-82"),
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
                        context.route.at(&Page::WorkingMoisture, &wood.id),
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
        working: context.route.to(&Page::WorkingMoisture),
    }
}

fn one(batch: &crate::book::Batch, context: &Context<'_>) -> Batch {
    let findings = context.findings;
    let units = context.units();
    let working = context.route.to(&Page::WorkingMoisture);
    let readings = of_batch(findings.readings(), &batch.id, |reading| &reading.batch).iter().map(|reading| Reading {
        label: reading.label.to_string(),
        date: reading.date.show(),
        then: reading.then.show(units),
        now: reading.now.show(units),
        lost: Figure::worked(format!("{} %", rounded(lost(&reading.then, &reading.now) * 100.0, 1)), working.clone()),
        verdict: match reading.too_dry {
            Ok(true) => "too dry: water it overnight",
            Ok(false) => "not too dry",
            Err(_) => "",
        },
        too_dry: reading.too_dry == Ok(true),
        gap: reading.too_dry.as_ref().err().map(ToString::to_string),
    });
    let slices = of_batch(findings.slices(), &batch.id, |slice| &slice.batch).iter().map(|reading| Slice {
        date: reading.slice.date.show(),
        wet: Figure::worked(format!("{} %", rounded(reading.wet * 100.0, 1)), working.clone()),
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
    });
    Batch {
        id: batch.id.clone(),
        strain: Anchor::strain(&batch.strain, context),
        wood: batch.wood.as_ref().map(|wood| Anchor::wood(wood, context)),
        logs: batch.record.logs,
        inoculated: batch.record.inoculated.show(),
        about: batch.record.about.clone(),
        readings: readings.collect(),
        slices: slices.collect(),
    }
}
