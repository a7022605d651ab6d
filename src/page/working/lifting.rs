//! The working behind the limits of lifts.

use serde::Serialize;

use super::formula::{Cited, winter};
use crate::{
    page::{
        Context,
        part::{capital, cite::Cite, range},
    },
    quantity::{Length, Temperature, Units, measure::rounded},
    reckon::{
        findings::{
            lifts::{LoadFinding, TaskFinding, load},
            logs,
        },
        lifting::{self, End},
    },
    record::{Id, farm::Grip, said::Mark},
};

/// Air in which the equation holds, in degrees Celsius, by its manual.
const AIR: [f64; 2] = [19.0, 26.0];

/// The working behind the limits of lifts.
#[derive(Debug, Serialize)]
pub struct View {
    formula: Cited,
    cite: Cite,
    reach: [String; 3],
    air: String,
    tasks: Vec<Task>,
    filters: Cite,
}

/// One lift.
#[derive(Debug, Serialize)]
struct Task {
    id: String,
    name: String,
    own: bool,
    numbers: String,
    gap: Option<String>,
    rows: Vec<Row>,
    indexes: Vec<String>,
}

/// The limit of a log of one thickness.
#[derive(Debug, Serialize)]
struct Row {
    diameter: String,
    begins: String,
    ends: Option<String>,
    limit: String,
}

/// The view of the working.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    View {
        formula: winter::lifting().cited(context),
        cite: Cite::of(&Id::new("niosh-94-110"), Mark::Copy, context),
        reach: lifting::estimate(context.units())
            .map(|reach| format!("{} {}", rounded(reach, 0), context.units().length())),
        air: {
            let [low, high] = AIR.map(|degrees| Temperature::of_celsius(degrees).show(context.units()));
            range(&low, &high)
        },
        tasks: context.findings.lifts().iter().map(|task| of_task(task, context)).collect(),
        filters: Cite::of(&Id::new("hse-l23"), Mark::Memory, context),
    }
}

fn of_task(task: &TaskFinding, context: &Context<'_>) -> Task {
    let units = context.units();
    let diameters = logs::diameters(context.book, units);
    let unit = units.length();
    let numbers = diameters.first().map(|diameter| {
        let lift = task.lift(diameter, units);
        let grip = match lift.grip {
            Grip::Good => "good",
            Grip::Fair => "fair",
            Grip::Poor => "poor",
        };
        format!(
            "V = {} to {} {unit}, pace {} a minute, A = {}°, grip {grip}",
            rounded(lift.from.height, 1),
            rounded(lift.to.height, 1),
            rounded(lift.a_minute, 2),
            rounded(lift.twist, 0)
        )
    });
    Task {
        id: task.id.clone(),
        name: capital(&task.name),
        own: task.own,
        numbers: numbers.unwrap_or_default(),
        gap: task.reached.as_ref().err().map(ToString::to_string),
        indexes: indexes(task, context),
        rows: diameters.iter().filter_map(|diameter| row(task, diameter, units)).collect(),
    }
}

/// Weight over limit for each wood, in the order of the thicknesses.
fn indexes(task: &TaskFinding, context: &Context<'_>) -> Vec<String> {
    let units = context.units();
    let of_wood = |logs: &[LoadFinding]| {
        let one = |log: &LoadFinding| {
            let weight = load(&log.mass(task.soaked).ok()?, units);
            let limit = task.limit(&log.diameter, units).ok()?;
            let index = limit.index(weight).ok()?;
            Some(format!("{} / {} = {index:.2}", rounded(weight, 1), rounded(limit.governing().limit, 1)))
        };
        let numbers: Vec<String> = logs.iter().filter_map(one).collect();
        (!numbers.is_empty()).then(|| format!("{}: {}", logs[0].wood.name(), numbers.join(", ")))
    };
    context.findings.loads().chunk_by(|a, b| a.wood.id == b.wood.id).filter_map(of_wood).collect()
}

fn row(task: &TaskFinding, diameter: &Length, units: Units) -> Option<Row> {
    let limit = task.limit(diameter, units).ok()?;
    let unit = if units == Units::Us { "lb" } else { "kg" };
    let end = |end: &End| {
        let parts = [end.reach, end.height, end.way, end.twist, end.frequency, end.grip];
        let parts: Vec<String> = parts.iter().map(|part| rounded(*part, 3)).collect();
        format!("{} = {} {unit}", parts.join(" × "), rounded(end.limit, 1))
    };
    Some(Row {
        diameter: diameter.show(units),
        begins: end(&limit.begins),
        ends: limit.ends.as_ref().map(end),
        limit: format!("{} {unit}", rounded(limit.governing().limit, 1)),
    })
}
