//! The working behind batches and the soak rota.

use serde::Serialize;

use super::formula::{self, Cited};
use crate::{
    page::{
        Context,
        part::{Anchor, cite::Cite, date, mass_range, range, year_words},
    },
    quantity::{Duration, Mass, count, measure::rounded},
    reckon::{
        findings::{BatchFinding, RotaFinding, batches::YieldLine},
        life, rota,
    },
};

/// The working behind the yard.
#[derive(Debug, Serialize)]
pub struct View {
    first: Cited,
    life: Cited,
    rota: Cited,
    batches: Vec<Batch>,
    rotas: Vec<Rota>,
}

/// One batch put in.
#[derive(Debug, Serialize)]
struct Batch {
    id: String,
    link: Anchor,
    inoculated: String,
    runs: Vec<Run>,
    usual: Option<String>,
    begins: String,
    size: String,
    by_inches: u32,
    logs: u32,
    lost: u32,
    lines: Vec<Life>,
    shares: Option<(String, Cite)>,
}

/// A source's spawn run.
#[derive(Debug, Serialize)]
struct Run {
    cite: Cite,
    span: String,
    dates: String,
}

/// A source's yield over a life, spread over its years.
#[derive(Debug, Serialize)]
struct Life {
    cite: Cite,
    a_log: String,
    by_weight: bool,
    years: Vec<String>,
}

/// One strain's rota put in.
#[derive(Debug, Serialize)]
struct Rota {
    id: String,
    strain: Anchor,
    logs: u32,
    every: u32,
    season: Option<(String, u32)>,
    sizes: String,
    soaks: u32,
    flushes: Vec<(String, Cite)>,
    left: Vec<String>,
    gap: Option<String>,
}

/// The view of the working behind the yard.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    View {
        first: formula::year::first().cited(context),
        life: formula::year::yields().cited(context),
        rota: formula::year::rota().cited(context),
        batches: context.findings.batches().iter().map(|found| batch(found, context)).collect(),
        rotas: context.findings.rotas().iter().map(|found| rota(found, context)).collect(),
    }
}

fn batch(found: &BatchFinding, context: &Context<'_>) -> Batch {
    let units = context.units();
    let runs: Vec<[f64; 2]> =
        found.first.iter().map(|(span, _)| [span.range.low.days(), span.range.high.days()]).collect();
    let record = &found.batch.strain.mushroom.record;
    Batch {
        id: found.batch.id.clone(),
        link: Anchor::batch(&found.batch, context),
        inoculated: found.batch.record.inoculated.show(),
        runs: found
            .first
            .iter()
            .map(|(span, [from, to])| Run {
                cite: Cite::of(&span.source, span.mark, context),
                span: range(&span.range.low.show(units), &span.range.high.show(units)),
                dates: date::between(*from, *to),
            })
            .collect(),
        usual: life::usual_run(&runs).map(|days| Duration::of_days(days).show(units)),
        begins: match &found.begins {
            Ok((year, true)) => format!("{}, by the first harvest", year_words(*year, context.findings.season.south)),
            Ok((year, false)) => year_words(*year, context.findings.season.south),
            Err(gap) => gap.to_string(),
        },
        size: format!("{} × {}", found.diameter.show(units), found.length.show(units)),
        by_inches: life::years_by_inches(&found.diameter),
        logs: found.batch.record.logs,
        lost: found.lost,
        lines: found.yields.iter().map(|line| self::line(line, found, context)).collect(),
        shares: record.yield_shares.as_ref().map(|profile| {
            let parts: Vec<String> = profile.shares.iter().map(|part| rounded(*part, 2)).collect();
            (parts.join(" : "), Cite::of(&profile.source, profile.mark, context))
        }),
    }
}

fn line(line: &YieldLine, found: &BatchFinding, context: &Context<'_>) -> Life {
    let profile = found.batch.strain.mushroom.record.yield_shares.as_ref().map(|profile| profile.shares.as_slice());
    let mut lives: Vec<u32> = line.years.to_vec();
    lives.dedup();
    let spread = |years: u32| {
        let parts: Vec<String> =
            life::shares(years, profile).iter().map(|part| format!("{} %", rounded(part * 100.0, 0))).collect();
        format!("over {}: {}", count(years, "year", "years"), parts.join(", "))
    };
    Life {
        cite: Cite::of(&line.source, line.mark, context),
        a_log: mass_range(&line.a_log, context.units()),
        by_weight: line.by_weight,
        years: lives.into_iter().map(spread).collect(),
    }
}

fn rota(found: &RotaFinding, context: &Context<'_>) -> Rota {
    let season = found.season.as_ref().ok();
    let units = context.units();
    let sizes: Vec<String> = rota::groups(found.logs(), found.every.0).iter().map(ToString::to_string).collect();
    Rota {
        id: found.strain.id.clone(),
        strain: Anchor::strain(&found.strain, context),
        logs: found.logs(),
        every: found.every.0,
        season: season.map(|season| (date::between(season.dates.0, season.dates.1), season.weeks())),
        sizes: sizes.join(", "),
        soaks: found.soaks(),
        flushes: found
            .expected
            .iter()
            .map(|line| {
                let [flush, all] = [&line.a_flush, &line.all].map(|both| mass_range(both, units));
                let cite = Cite::of(&line.source, line.mark, context);
                (format!("{} × {flush} = {all}", found.soaks()), cite)
            })
            .collect(),
        left: left(found, context),
        gap: found.season.as_ref().err().map(ToString::to_string),
    }
}

/// What the lives of the logs of each batch still hold, with the numbers put in.
fn left(found: &RotaFinding, context: &Context<'_>) -> Vec<String> {
    let units = context.units();
    let of = |batch: &BatchFinding| {
        let ends = [0, 1].map(|end| batch.yields.iter().map(move |line| line.a_log[end].clone()));
        let [least, most] = ends;
        let order = |a: &Mass, b: &Mass| a.base().total_cmp(&b.base());
        let a_log = [least.min_by(order)?, most.max_by(order)?];
        Some(format!(
            "{}: {} × {} less {} picked",
            batch.batch.id,
            count(batch.left(), "log", "logs"),
            mass_range(&a_log, units),
            batch.picked().show(units)
        ))
    };
    let batches = context.findings.batches().iter();
    let part =
        |batch: &&BatchFinding| found.batches.binary_search_by(|(other, _)| other.id.cmp(&batch.batch.id)).is_ok();
    batches.filter(part).filter_map(of).collect()
}
