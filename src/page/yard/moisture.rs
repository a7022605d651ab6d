//! How wet the logs are: what sample logs and slices say, and what a log weighs when it is too dry.

use serde::Serialize;

use crate::page::leaf::ROWS;
use crate::page::part::batch::{verdict, whole};
use crate::page::part::caution::{Cautions, grown};
use crate::page::part::cite::Cite;
use crate::page::part::table::Table;
use crate::page::part::{Anchor, Figure};
use crate::page::{Context, Page};
use crate::quantity::{Percent, count};
use crate::reckon::findings::wetness::{self, Reading};
use crate::reckon::{Topic, formula};
use crate::record::Id;
use crate::record::caution::Task;
use crate::record::said::Mark;

/// How wet the logs are.
#[derive(Debug, Serialize)]
pub struct View {
    readings: Option<Table>,
    more: Option<String>,
    batches: String,
    rule: Cite,
    limits: Cite,
    woods: Option<Table>,
    cautions: Cautions,
    working: String,
}

/// The view of the moisture of logs.
pub fn view(context: &Context<'_>) -> View {
    let (young, earlier) = latest(context);
    let cite = |id: &str, mark: Mark| Cite::of(&Id::new(id), mark, context);
    let more = young.len().saturating_sub(ROWS) + earlier;
    View {
        readings: readings(&young[..young.len().min(ROWS)], context),
        more: (more > 0).then(|| count(more, "more weighed log", "more weighed logs")),
        batches: context.route.to(&Page::Batches),
        rule: cite("uk-83", Mark::Copy),
        limits: cite("uk-82", Mark::Read),
        woods: lightness(context),
        cautions: Cautions::of(Task::Stacking, &grown(context), context),
        working: context.route.to(&Page::Working(Topic::Moisture)),
    }
}

/// The last weighing of each sample log of the youngest batches, those that lost most first, and how many logs of earlier
/// batches were weighed.
fn latest<'a>(context: &Context<'a>) -> (Vec<&'a Reading>, usize) {
    let since = context.findings.season.growing_year() - 1;
    let (mut young, earlier): (Vec<&Reading>, Vec<&Reading>) =
        wetness::latest(context.findings.readings()).partition(|reading| reading.batch.year >= since);
    let lost = |reading: &Reading| reading.lost.result.as_ref().map_or(0.0, Percent::base);
    young.sort_by(|one, other| lost(other).total_cmp(&lost(one)));
    (young, earlier.len())
}

/// The last weighings.
fn readings(readings: &[&Reading], context: &Context<'_>) -> Option<Table> {
    Table::of("facts stack", "Sample logs of the youngest batches, the last weighing of each", readings.iter().copied())
        .head("Batch", |reading| Anchor::batch(&reading.batch, context))
        .column("Log", |reading| format!("{}, {}", reading.label, reading.date.show(context.units())))
        .number("Lost", |reading| Figure::of(&reading.lost, context))
        .column("Verdict", |reading| reading.too_dry.as_ref().map(verdict))
        .done()
}

/// What a log of each wood weighs when it is too dry, as a part of its green weight.
fn lightness(context: &Context<'_>) -> Option<Table> {
    let part = |part: &formula::Figure<Percent>| {
        let above = part.result.as_ref().is_ok_and(|part| part.of_one() > 1.0);
        let below = if above { " (drier when felled)" } else { "" };
        Figure::worked(whole(part) + below, &part.place, context)
    };
    let caption = "Weight, as a part of green weight, at which a log holds 35 % water and 23 %, wet basis";
    Table::of("facts stack", caption, context.findings.lightness())
        .wide("When a log is too light")
        .head("Wood", |found| Anchor::wood(&found.wood, context))
        .number("Water when green", |found| whole(&found.wet))
        .number("35 %", |found| part(&found.parts[0]))
        .number("23 %", |found| part(&found.parts[1]))
        .done()
}
