//! What one person may lift, in jobs of one, two and eight hours side by side.

use super::table::{Cell, Columns, Part, Table, cell, list};
use super::weight::{about, weight_note};
use super::{Anchor, Figure, capital, range};
use crate::page::Context;
use crate::page::figure::load;
use crate::quantity::measure::rounded;
use crate::quantity::{Length, Mass, Units, Value};
use crate::reckon::Topic;
use crate::reckon::findings::{LogWeight, TaskFinding, WoodWeight};
use crate::reckon::formula::Place;
use crate::reckon::lifting::Stretch;

/// What marks the length of a job that the farm names.
const OURS: &str = "ours";

/// The lifts of dry logs, or of those that go through the tank; the farm's own is among those that it is like.
pub fn of_tank<'a>(tank: bool, context: &Context<'a>) -> Vec<&'a TaskFinding> {
    let at_tank = |task: &&TaskFinding| task.soaked || task.id == "into-the-tank";
    context.findings.lifts().iter().filter(|task| at_tank(task) == tank).collect()
}

/// What logs of some woods weigh beside what one person may lift, drawn, with the words for the limit.
pub fn picture(woods: &[&WoodWeight], context: &Context<'_>) -> Option<(String, String)> {
    let units = context.units();
    let (task, stretch) = usual(context)?;
    let number = |mass: &Mass| Value::from(mass).number(units).unwrap_or_default();
    let rows = woods.iter().filter_map(|of| {
        let logs =
            of.logs.iter().map(|log| Some([number(&log.heaviest(false).ok()?), number(&log.heaviest(true).ok()?)]));
        Some(load::Row { name: of.wood.name().to_owned(), logs: logs.collect::<Option<Vec<_>>>()? })
    });
    let rows: Vec<load::Row> = rows.collect();
    let limits = task.limits_for(stretch).filter_map(|limit| limit.limit.result.as_ref().ok().map(number));
    let ends = limits.fold(None, |ends: Option<[f64; 2]>, limit| {
        Some(ends.map_or([limit; 2], |[low, high]| [low.min(limit), high.max(limit)]))
    });
    let unit = units.pick("lb", "kg");
    let words = format!(
        "The most that logs weigh, {unit}: a dot a thickness ({}), its tail as far as from the tank. The band: {}, in a job of {}",
        woods.first().map_or_else(String::new, |of| sizes(&of.logs, units)),
        task.name,
        heading(stretch)
    );
    let title = format!("What our logs weigh beside what one person may lift, {unit}");
    (!rows.is_empty()).then(|| (load::svg("loads", &title, &rows, ends), words))
}

/// The thicknesses of some logs, in a row.
fn sizes(logs: &[LogWeight], units: Units) -> String {
    logs.iter().map(|log| log.diameter.show(units)).collect::<Vec<_>>().join(", ")
}

/// The lift by which a log is judged at a glance: the farm's own, or else from the ground to a rail, in a job of the length that
/// the farm names, or else of two hours.
fn usual<'a>(context: &'a Context<'_>) -> Option<(&'a TaskFinding, Stretch)> {
    let lifts = context.findings.lifts();
    let task = lifts.iter().find(|task| task.own).or_else(|| lifts.first())?;
    task.reached.as_ref().ok()?;
    Some((task, task.named.unwrap_or(Stretch::Moderate)))
}

/// The limit of some lifts in jobs of each length, from the thinnest to the thickest log.
pub fn limits(tasks: &[&TaskFinding], context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let size = &context.book.farm.record.log.diameter;
    let size = range(&size.low.show(units), &size.high.show(units));
    let table = Table::of(
        "facts",
        &format!("Limit for one person, logs {size} thick: the thicker, the lower"),
        tasks.iter().copied(),
    )
    .wide("Limits")
    .head("Lift", named);
    jobs(table, |task, stretch| limit(task, stretch, context)).done()
}

/// The thickest log of a wood that one person may lift by the usual lift, and the same in words, never rounded up.
pub fn ours(wood: &WoodWeight, context: &Context<'_>) -> Option<(Length, String)> {
    let units = context.units();
    let (task, stretch) = usual(context)?;
    let most = task.thickest(wood, &context.book.farm.record.log.length, stretch, units).result.ok()?;
    let across = (most.number(units) * units.pick(10.0, 2.0)).floor() / units.pick(10.0, 2.0);
    Some((most, format!("{} {}", rounded(across, 1), units.length())))
}

/// The thickest log of a wood for one person, lift by lift.
pub fn thickest_of(wood: &WoodWeight, context: &Context<'_>) -> Option<Table> {
    wood.heaviest().ok()?;
    let length = context.book.farm.record.log.length.show(context.units());
    let caption = format!("Thickest log for one person, {length} long and as heavy as it can be");
    let table = Table::of("facts", &caption, context.findings.lifts()).wide("Thickest logs").head("Lift", named);
    let cell = |task, stretch| marked(task, stretch, thickest(task, wood, stretch, true, context), Some(OURS));
    jobs(table, cell).done()
}

/// The thickest log for one person, wood by wood: from the ground to a rail, and by the farm's own lift.
pub fn thickest_by_wood(woods: &[&WoodWeight], context: &Context<'_>) -> Option<Table> {
    let lifts = context.findings.lifts();
    let shown: Vec<&TaskFinding> = lifts.iter().take(1).chain(lifts.iter().skip(1).filter(|task| task.own)).collect();
    let ours = if shown.len() > 1 { " / own lift" } else { "" };
    let caption = format!("Thickest log for one person, ground to rail{ours}");
    let table = Table::of("facts", &caption, woods.iter().copied())
        .wide("Thickest logs")
        .head("Wood", |of| Anchor::wood(&of.wood, context));
    let cell = |of, stretch| {
        let cell = |(place, task): (usize, &&TaskFinding)| {
            marked(task, stretch, thickest(task, of, stretch, place + 1 == shown.len(), context), None)
        };
        list(" / ", shown.iter().enumerate().map(cell))
    };
    jobs(table, cell).done()
}

/// The name of a wood, with a mark where its weight rests on less or more than usual.
pub fn weighed_wood(of: &WoodWeight, context: &Context<'_>) -> Cell {
    let note = (of.is_own() || of.green.bark.is_none()).then(|| cell![" ", Part::Mark(weight_note(of))]);
    cell![Anchor::wood(&of.wood, context), note]
}

/// A column for jobs of each length.
fn jobs<R: Copy>(table: Columns<R>, read: impl Fn(R, Stretch) -> Cell) -> Columns<R> {
    Stretch::ALL.into_iter().fold(table, |table, stretch| table.number(heading(stretch), |row| read(row, stretch)))
}

/// The length of a job in words.
pub const fn heading(stretch: Stretch) -> &'static str {
    match stretch {
        Stretch::Short => "1 hour",
        Stretch::Moderate => "2 hours",
        Stretch::Long => "8 hours",
    }
}

/// A lift with its pace.
fn named(task: &TaskFinding) -> Cell {
    cell![capital(&task.name), ", ", Part::Small(format!("{} a minute", rounded(task.lift.a_minute, 2)).into())]
}

/// What stands in the column of jobs of the length that the farm names.
fn marked(task: &TaskFinding, stretch: Stretch, cell: impl Into<Cell>, mark: Option<&'static str>) -> Cell {
    if task.named != Some(stretch) {
        return cell.into();
    }
    cell![Part::Strong(cell.into()), mark.map(|mark| cell![" ", Part::Mark(mark)])]
}

fn limit(task: &TaskFinding, stretch: Stretch, context: &Context<'_>) -> Cell {
    let units = context.units();
    let found = || task.limits_for(stretch).map(|limit| limit.limit.result.as_ref());
    let words = |ends: [String; 2]| {
        let figure = Figure::worked(range(&ends[0], &ends[1]), &Place::new(Topic::Lifting, task.id.clone()), context);
        marked(task, stretch, figure, Some(OURS))
    };
    match (&task.reached, found().next(), found().last()) {
        (Err(gap), ..) => Part::Gap(gap.to_string()).into(),
        (Ok(()), Some(Ok(thin)), Some(Ok(thick))) => words([thick, thin].map(|mass| about(mass, units))),
        _ => Part::Gap("no load".to_owned()).into(),
    }
}

fn thickest(task: &TaskFinding, wood: &WoodWeight, stretch: Stretch, unit: bool, context: &Context<'_>) -> Cell {
    let units = context.units();
    let found = task.thickest(wood, &context.book.farm.record.log.length, stretch, units);
    let Ok(length) = &found.result else {
        return Part::Gap(if task.reached.is_ok() { "no load" } else { "outside" }.to_owned()).into();
    };
    // A thickness that is never rounded up: to a tenth of an inch, or half a centimetre.
    let number = match units {
        Units::Us => format!("{:.1}", (length.inches() * 10.0).floor() / 10.0),
        Units::Metric => rounded((length.base() * 200.0).floor() / 2.0, 1),
    };
    let unit = if unit { format!(" {}", units.length()) } else { String::new() };
    Figure::worked(number + &unit, &found.place, context).into()
}
