//! The working behind the moisture of logs.

use serde::Serialize;

use super::formula::{Cited, winter};
use crate::{
    page::{
        Context,
        part::{
            Anchor,
            sample::{slices, weighings},
        },
    },
    quantity::measure::rounded,
    reckon::{
        findings::logs,
        moisture::{LIMITS, dry_of_wet, lost, most, part_at, sinks, wet_of_dry},
    },
};

/// The working behind the moisture of logs.
#[derive(Debug, Serialize)]
pub struct View {
    formula: Cited,
    woods: Vec<OfWood>,
    readings: Vec<Line>,
    slices: Vec<Line>,
}

/// One weighing or one slice, worked.
#[derive(Debug, Serialize)]
struct Line {
    id: String,
    batch: Anchor,
    numbers: String,
}

/// One wood.
#[derive(Debug, Serialize)]
struct OfWood {
    id: String,
    wood: Anchor,
    numbers: String,
}

/// The view of the working.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let findings = context.findings;
    let units = context.units();
    let percent = |share: f64| format!("{} %", rounded(share * 100.0, 1));
    let wood = |wood: &std::sync::Arc<crate::book::Wood>| {
        let green = logs::green(&wood.record);
        let dry = green.moisture?;
        let wet = wet_of_dry(dry);
        let limits = green.density.map_or_else(String::new, |density| {
            format!("; holds at most {} and sinks from {}, dry basis", percent(most(density)), percent(sinks(density)))
        });
        Some(OfWood {
            id: wood.id.clone(),
            wood: Anchor::wood(wood, context),
            numbers: format!(
                "green d = {}, w = {}; (1 − w) / (1 − 0.35) = {}, (1 − w) / (1 − 0.23) = {}{limits}",
                percent(dry),
                percent(wet),
                rounded(part_at(wet, LIMITS[0]), 3),
                rounded(part_at(wet, LIMITS[1]), 3)
            ),
        })
    };
    View {
        formula: winter::moisture().cited(context),
        woods: findings.woods().iter().filter_map(wood).collect(),
        readings: weighings(findings)
            .into_iter()
            .zip(findings.readings())
            .map(|(id, reading)| {
                let (then, now) = (reading.then.show(units), reading.now.show(units));
                let numbers = format!(
                    "log {}, {}: ({then} − {now}) / {then} = {}",
                    reading.label,
                    reading.date.show(),
                    percent(lost(&reading.then, &reading.now))
                );
                Line { id, batch: Anchor::batch(&reading.batch, context), numbers }
            })
            .collect(),
        slices: slices(findings)
            .into_iter()
            .zip(findings.slices())
            .map(|(id, reading)| {
                let [wet, dry] = [&reading.slice.wet, &reading.slice.dry].map(|mass| mass.finely(units));
                let numbers = format!(
                    "slice of {}: ({wet} − {dry}) / {wet} = {} wet basis, {} dry basis",
                    reading.slice.date.show(),
                    percent(reading.wet),
                    percent(dry_of_wet(reading.wet))
                );
                Line { id, batch: Anchor::batch(&reading.batch, context), numbers }
            })
            .collect(),
    }
}
