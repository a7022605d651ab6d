//! The working behind holes and spawn.

use serde::Serialize;

use super::formula::{self, Cited};
use crate::{
    page::{
        Context,
        part::{
            Anchor,
            cite::Cite,
            hole_rules::{self, HoleRule},
        },
    },
    quantity::{Mass, Units, count, measure::rounded},
    reckon::{findings::Filling, holes},
    record::strain::SpawnForm,
};

/// The working behind holes and spawn.
#[derive(Debug, Serialize)]
pub struct View {
    holes: Cited,
    spawn: Cited,
    rows: Vec<Row>,
    totals: Vec<String>,
    rules: Vec<HoleRule>,
    rate: Option<Rate>,
    day: Vec<DayRow>,
    spawn_rows: Vec<SpawnRow>,
}

/// The holes of one log.
#[derive(Debug, Serialize)]
struct Row {
    pattern: String,
    numbers: String,
    hole: Option<String>,
    exact: String,
    whole: u32,
    cite: Cite,
}

/// The logs of one wood for one strain, as they were put in.
#[derive(Debug, Serialize)]
struct DayRow {
    strain: Anchor,
    wood: Anchor,
    numbers: String,
    result: String,
}

/// The rate put in.
#[derive(Debug, Serialize)]
struct Rate {
    words: String,
    cite: Cite,
}

/// The spawn of one log.
#[derive(Debug, Serialize)]
struct SpawnRow {
    diameter: String,
    factor: String,
    each: String,
    many: Vec<String>,
}

/// The view of the working behind holes and spawn.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let fillings = context.findings.fillings();
    let mut single: Vec<&Filling> = fillings.iter().filter(|filling| filling.logs == 1).collect();
    let mut seen = Vec::new();
    single.retain(|filling| {
        let key = (filling.pattern.name.clone(), filling.between.written(), filling.diameter.written());
        let fresh = !seen.contains(&key);
        seen.push(key);
        fresh
    });
    let rate = fillings.iter().find_map(|filling| filling.rate.as_ref());
    let units = context.units();
    let first = fillings.iter().find(|filling| filling.need.is_ok()).map(|filling| filling.pattern.name.as_str());
    let of_first: Vec<&Filling> = fillings
        .iter()
        .filter(|filling| filling.form == SpawnForm::Sawdust && Some(filling.pattern.name.as_str()) == first)
        .collect();
    View {
        holes: formula::holes().cited(context),
        spawn: formula::spawn().cited(context),
        rows: single.into_iter().map(|filling| row(filling, context)).collect(),
        totals: of_first.iter().map(|filling| total(filling, units)).collect(),
        rules: hole_rules::all(context),
        rate: rate.map(|rate| Rate {
            words: format!(
                "P = {}, n = {} to {}, D₀ = {} to {} (middle {}), L₀ = {}",
                rate.package.show(units),
                rate.logs.low,
                rate.logs.high,
                rate.diameter.low.show(units),
                rate.diameter.high.show(units),
                crate::quantity::Length::of_metres(f64::midpoint(rate.diameter.low.base(), rate.diameter.high.base()))
                    .show(units),
                rate.length.show(units)
            ),
            cite: Cite::of(&rate.source, rate.mark, context),
        }),
        day: day_rows(context),
        spawn_rows: of_first
            .chunk_by(|a, b| a.diameter == b.diameter)
            .filter_map(|fillings| spawn_row(fillings, context))
            .collect(),
    }
}

fn day_rows(context: &Context<'_>) -> Vec<DayRow> {
    let units = context.units();
    let work = &context.book.farm.record.work;
    let each = [work.drilling_minutes, work.filling_minutes, work.waxing_minutes];
    let minutes: Vec<String> = each.into_iter().flatten().map(|minutes| rounded(minutes, 1)).collect();
    let mut rows = Vec::new();
    for day in context.findings.days() {
        for wood in &day.woods {
            let wax =
                work.wax_a_log.as_ref().map_or_else(String::new, |wax| format!("; {} of wax a log", wax.show(units)));
            let whole = wood.holes.round();
            rows.push(DayRow {
                strain: Anchor::strain(&day.strain, context),
                wood: Anchor::wood(&wood.wood, context),
                numbers: format!(
                    "m = {}, D = {}, N = {}{wax}; {} minutes a log",
                    wood.logs,
                    wood.diameter.show(units),
                    rounded(wood.holes, 2),
                    if minutes.is_empty() { "no".to_owned() } else { minutes.join(" + ") }
                ),
                result: format!("{whole} × {} = {}", wood.logs, count(whole * f64::from(wood.logs), "hole", "holes")),
            });
        }
    }
    rows
}

fn row(filling: &Filling, context: &Context<'_>) -> Row {
    let units = context.units();
    let pattern = &filling.pattern;
    Row {
        pattern: pattern.name.clone(),
        numbers: format!(
            "D = {}, L = {}, a = {}, b = {}",
            filling.diameter.show(units),
            filling.length.show(units),
            pattern.along.show(units),
            filling.between.show(units)
        ),
        hole: pattern.hole_diameter.as_ref().zip(pattern.hole_depth.as_ref()).map(|(diameter, depth)| {
            let volume = units.volume(holes::volume(diameter, depth));
            format!("a hole of {} × {} holds {volume}", diameter.show(units), depth.show(units))
        }),
        exact: rounded(filling.holes, 2),
        whole: filling.whole_holes(),
        cite: Cite::of(&pattern.source, pattern.mark, context),
    }
}

/// Whole holes times logs.
fn total(filling: &Filling, units: Units) -> String {
    let (each, logs, all) = (filling.whole_holes(), filling.logs, filling.all_holes());
    format!("{}: {each} × {logs} = {all}", filling.diameter.show(units))
}

fn spawn_row(fillings: &[&Filling], context: &Context<'_>) -> Option<SpawnRow> {
    let units = context.units();
    let first = fillings.first()?;
    let (need, rate) = (first.need.as_ref().ok()?, first.rate.as_ref()?);
    let each = |mass: &Mass| mass.show(units);
    let many = fillings.iter().filter_map(|filling| {
        let need = filling.need.as_ref().ok()?;
        let (least, most) = (need.packages_least, need.packages_most);
        let packages = if least == most { least.to_string() } else { format!("{least} to {most}") };
        let logs = count(filling.logs, "log", "logs");
        let [low, high] = filling.all_spawn()?;
        let spawn = format!("{} to {}", low.show(units), high.show(units));
        Some(format!("{logs}: {spawn}, so {packages} of {}", rate.package.show(units)))
    });
    Some(SpawnRow {
        diameter: first.diameter.show(units),
        factor: rounded(need.least.base() * rate.logs.high / rate.package.base(), 3),
        each: format!("{} to {}", each(&need.least), each(&need.most)),
        many: many.collect(),
    })
}
