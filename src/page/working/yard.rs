//! The working behind batches and the soak rota.

use crate::page::Context;
use crate::page::part::cite::Cite;
use crate::page::part::worked::{Block, Part};
use crate::page::part::{Anchor, date, mass_range, range, year_words};
use crate::quantity::count;
use crate::quantity::measure::rounded;
use crate::reckon::findings::batches::YieldLine;
use crate::reckon::findings::{BatchFinding, RotaFinding};
use crate::reckon::formula::Formula;
use crate::reckon::life::{FIRST, YIELDS};
use crate::reckon::rota::ROTA;
use crate::reckon::{life, rota};

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&FIRST, &YIELDS, &ROTA];

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let (batches, rotas) = (context.findings.batches(), context.findings.rotas());
    let rota_part = Part::new("rota", "The soak rota").by(&[&ROTA], context);
    vec![
        Part::new("first", "First mushrooms")
            .by(&[&FIRST], context)
            .blocks(batches.iter().map(|found| first(found, context))),
        Part::new("life", "What a year should give")
            .by(&[&YIELDS], context)
            .blocks(batches.iter().map(|found| life(found, context))),
        match rotas {
            [] => rota_part.blocks([Block::default().gap(Some("No strain of this farm is soaked."))]),
            rotas => rota_part.blocks(rotas.iter().map(|found| rota(found, context))),
        },
    ]
}

fn first(found: &BatchFinding, context: &Context<'_>) -> Block {
    let units = context.units();
    let begins = match &found.begins {
        Ok((year, true)) => format!("{}, by the first harvest", year_words(*year, context.findings.season.south)),
        Ok((year, false)) => year_words(*year, context.findings.season.south),
        Err(gap) => gap.to_string(),
    };
    let usual = life::usual_run(found.batch.strain.spawn_runs()).map_or_else(
        || format!("crops: {begins}"),
        |usual| {
            let usual = usual.show(units);
            format!("the middle of the usual runs is {usual}, so crops are counted from {begins}")
        },
    );
    let block = Block::of(Anchor::batch(&found.batch, context))
        .named(&*found.first_place().block)
        .line(format!("inoculated {}; {usual}", found.batch.record.inoculated.show(context.units())));
    let runs = found.first.iter();
    let block = runs.fold(block, |block, (span, [from, to])| {
        let run = range(&span.range.low.show(units), &span.range.high.show(units));
        block.line(format!("{run}: {}", date::between(*from, *to, context.units()))).cites([Cite::by(span, context)])
    });
    block.made_by(&[&FIRST])
}

fn life(found: &BatchFinding, context: &Context<'_>) -> Block {
    let units = context.units();
    let lost = if found.balance.lost > 0 { format!(", {} lost since", found.balance.lost) } else { String::new() };
    let block = Block::of(Anchor::batch(&found.batch, context)).named(&*found.life_place().block).line(format!(
        "{} of {} × {}{lost}; a year an inch makes {} (common practice)",
        count(found.balance.all(), "log", "logs"),
        found.diameter.show(units),
        found.length.show(units),
        count(life::years_by_inches(&found.diameter), "year", "years")
    ));
    let block = match &found.batch.strain.mushroom.record.yield_shares {
        Some(profile) => {
            let parts: Vec<String> = profile.shares.iter().map(|part| rounded(*part, 2)).collect();
            block.line(format!("the years of a life stand as {}", parts.join(" : "))).cites([Cite::of(
                &profile.source,
                profile.mark,
                context,
            )])
        }
        None => block.line("no source says how its yield is spread, so the years count alike"),
    };
    let block = found.yields.iter().fold(block, |block, line| {
        block.line(of_line(line, found, context)).cites([Cite::of(&line.source, line.mark, context)])
    });
    let none = found.yields.is_empty().then_some("None of our sources gives grams a log.");
    block.gap(none).made_by(&[&YIELDS])
}

/// A source's yield over a life, spread over its years.
fn of_line(line: &YieldLine, found: &BatchFinding, context: &Context<'_>) -> String {
    let profile = found.batch.strain.mushroom.record.yield_shares.as_ref().map(|profile| profile.shares.as_slice());
    let mut lives: Vec<u32> = line.life.years.to_vec();
    lives.dedup();
    let spread = |years: &u32| {
        let parts = life::shares(*years, profile);
        let parts: Vec<String> = parts.iter().map(|part| format!("{} %", rounded(part * 100.0, 0))).collect();
        format!("over {}: {}", count(*years, "year", "years"), parts.join(", "))
    };
    let years: Vec<String> = lives.iter().map(spread).collect();
    let by_weight = if line.by_weight { " by its green weight" } else { "" };
    format!("{} a log{by_weight}; {}", mass_range(&line.life.a_log, context.units()), years.join("; "))
}

fn rota(found: &RotaFinding, context: &Context<'_>) -> Block {
    let units = context.units();
    let block = Block::of(Anchor::strain(&found.strain, context)).named(format!("rota-{}", found.id()));
    let season = match &found.season {
        Ok(season) => season,
        Err(gap) => return block.gap(Some(gap)).made_by(&[&ROTA]),
    };
    let sizes: Vec<String> = rota::groups(found.logs(), found.every.0).iter().map(ToString::to_string).collect();
    let block = block.line(format!(
        "{}, {} from soak to soak: groups of {}; the season is {}, {} in which a soak may begin; in all {} soaks of logs",
        count(found.logs(), "log", "logs"),
        count(found.every.0, "week", "weeks"),
        sizes.join(", "),
        date::between(season.dates.0, season.dates.1, context.units()),
        count(season.weeks(), "week", "weeks"),
        found.soaks()
    ));
    let block = found.expected.iter().fold(block, |block, line| {
        let [flush, all] = [&line.of.a_log.clone().into(), &line.all].map(|both| mass_range(both, units));
        block.line(format!("a flush each would give {} × {flush} = {all}", found.soaks())).cites([Cite::of(
            &line.of.source,
            line.of.mark,
            context,
        )])
    });
    let left: Vec<String> = found.batches.iter().filter_map(|(batch, _)| left(&batch.id, context)).collect();
    let block = if left.is_empty() {
        block
    } else {
        let holds = "what the lives of these logs still hold, by the least and the most of the sources, and never less than nothing";
        block.line(format!("{holds}: {}", left.join("; ")))
    };
    block.made_by(&[&ROTA])
}

/// What the lives of the logs of a batch still hold, with the numbers put in.
fn left(batch: &str, context: &Context<'_>) -> Option<String> {
    let units = context.units();
    let found = context.findings.batch(batch)?;
    let a_log = mass_range(&found.a_log()?, units);
    let logs = count(found.left(), "log", "logs");
    Some(format!("{batch}: {logs} × {a_log} less {} picked", found.picked().show(units)))
}
