//! What one person may lift, in jobs of one, two and eight hours side by side.

use super::table::{Cell, Columns, Part, Table, cell, list};
use super::weight::{about, weight_note};
use super::{Anchor, Figure, capital, range};
use crate::page::Context;
use crate::quantity::measure::rounded;
use crate::quantity::{Length, Units};
use crate::reckon::Topic;
use crate::reckon::findings::{TaskFinding, WoodWeight};
use crate::reckon::formula::Place;
use crate::reckon::lifting::Stretch;

/// What marks the length of a job that the farm names.
const OURS: &str = "ours";

/// The lifts of dry logs, or of those that go through the tank; the farm's own is among those that it is like.
pub fn of_tank<'a>(tank: bool, context: &Context<'a>) -> Vec<&'a TaskFinding> {
    let at_tank = |task: &&TaskFinding| task.soaked || task.id == "into-the-tank";
    context.findings.lifts().iter().filter(|task| at_tank(task) == tank).collect()
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

/// The thickest log of a wood that one person may lift by the farm's own lift, or else from the ground to a rail: in a job
/// of the length that the farm names, or else of two hours.
pub fn ours(wood: &WoodWeight, context: &Context<'_>) -> Option<Length> {
    let lifts = context.findings.lifts();
    let task = lifts.iter().find(|task| task.own).or_else(|| lifts.first())?;
    let stretch = task.named.unwrap_or(Stretch::Moderate);
    task.reached.as_ref().ok()?;
    task.thickest(wood, &context.book.farm.record.log.length, stretch, context.units()).result.ok()
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
