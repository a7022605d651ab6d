//! Batches as several pages speak of them: a short row, where each stands, its spawn, and the working of its figures.

use serde::Serialize;

use super::cite::Cite;
use super::purchase::money;
use super::table::{Cell, Part as Bit, cell, list};
use super::worked::Block;
use super::{Anchor, date, mass_range, ordinal_word, range, year_words};
use crate::book::{Batch, Origin, Sale};
use crate::page::Context;
use crate::page::leaf::Leaf;
use crate::quantity::measure::rounded;
use crate::quantity::{Mass, Percent, count};
use crate::reckon::Topic;
use crate::reckon::findings::batches::{Stage, YieldLine};
use crate::reckon::findings::stock::spawn_lots;
use crate::reckon::findings::{BatchFinding, Takings, wetness};
use crate::reckon::formula::Figure;
use crate::reckon::life::{self, FIRST, YIELDS};
use crate::record::evidence::Way;

/// A batch in a list.
#[derive(Debug, Serialize)]
pub struct Row {
    link: Anchor,
    id: String,
    says: String,
}

impl Row {
    /// The short row of a batch.
    pub fn of(found: &BatchFinding, context: &Context<'_>) -> Self {
        let ended = end_words(&found.batch, context);
        let left = left_words(found).filter(|_| found.batch.is_counted() || ended.is_none());
        let stage = ended.or_else(|| Some(short(found, context)));
        let picked = found.years.iter().any(|year| year.picked.is_some());
        let picked = picked.then(|| format!("{} picked", found.picked().show(context.units())));
        Self {
            link: Anchor::batch(&found.batch, context),
            id: found.batch.id.clone(),
            says: left.into_iter().chain(stage).chain(picked).collect::<Vec<_>>().join(" · "),
        }
    }
}

/// So many pieces of a batch: "12 logs", "3 totems".
pub fn pieces(number: u32, batch: &Batch) -> String {
    let [one, many] = batch.record.way.pieces();
    count(number, one, many)
}

/// How much is left of a batch; a bed has nothing that is counted.
pub fn left_words(found: &BatchFinding) -> Option<String> {
    let all = found.balance.all();
    match found.batch.record.way {
        Way::ChipBed => None,
        Way::Stump => Some(pieces(all, &found.batch)),
        _ => Some(format!("{} of {} left", found.left(), pieces(all, &found.batch))),
    }
}

/// Leaves of a list, as links from one to the others.
#[derive(Debug, Serialize)]
pub struct Leaves(Vec<(Anchor, bool)>);

impl Leaves {
    /// The leaves of so many rows of a year.
    pub fn of(leaf: Leaf, rows: usize, page: fn(Leaf) -> crate::page::Page, context: &Context<'_>) -> Self {
        let link = |other: Leaf| {
            let link = Anchor::to(context.route.to(&page(other)), (other.number + 1).to_string(), context);
            (link, other == leaf)
        };
        let leaves: Vec<_> = Leaf::of_year(leaf.year, rows).map(link).collect();
        Self(if leaves.len() > 1 { leaves } else { Vec::new() })
    }
}

/// Where a batch stands, in few words.
fn short(found: &BatchFinding, context: &Context<'_>) -> String {
    match found.stage {
        Stage::NotYet => "not inoculated yet".to_owned(),
        Stage::SpawnRun | Stage::MayFruit => found.first_span().map_or_else(
            || "the spawn runs".to_owned(),
            |[from, to]| format!("first mushrooms {}", date::between(from, to, context.units())),
        ),
        Stage::Cropping(crop) => format!("{} crop year", ordinal_word(crop)),
        Stage::Old => "past every published life".to_owned(),
        Stage::Gone => "nothing left".to_owned(),
        Stage::Unknown => "no source gives its spawn run".to_owned(),
    }
}

/// How and when a batch ended.
pub fn end_words(batch: &Batch, context: &Context<'_>) -> Option<String> {
    let ended = batch.record.ended.as_ref()?;
    Some(format!("{}, {}", ended.how.words(), ended.date.show(context.units())))
}

/// Where a batch stands in the growing year, in a sentence.
pub fn stage_words(found: &BatchFinding, context: &Context<'_>) -> String {
    let year = year_words(context.findings.season.growing_year(), context.findings.season.south);
    match (found.stage, found.longest()) {
        (Stage::NotYet, _) => format!("In {year} it is not inoculated yet."),
        (Stage::SpawnRun, _) => format!("In {year} the spawn still runs; no source has it fruit yet."),
        (Stage::MayFruit, _) => format!("In {year} it may fruit for the first time; crops are likelier a year later."),
        (Stage::Cropping(crop), Some(longest)) => {
            format!("{year} is its {} crop year; published lives run to {longest}.", ordinal_word(crop))
        }
        (Stage::Cropping(crop), None) => {
            format!("{year} is its {} crop year; no source says how long it crops.", ordinal_word(crop))
        }
        (Stage::Old, _) => {
            format!("In {year} it is past every published life. Look for the signs that a log is spent.")
        }
        (Stage::Gone, _) => "Nothing of it is left.".to_owned(),
        (Stage::Unknown, _) => "No source gives its spawn run, and nothing has been picked yet.".to_owned(),
    }
}

/// The form of a batch's spawn, with the number of its bag where the plans of its winter have one bag alone of that strain.
pub fn spawn(batch: &Batch, context: &Context<'_>) -> Option<String> {
    let form = batch.record.spawn?.words();
    let lots: Vec<&str> = spawn_lots(context.book, batch).into_iter().collect();
    Some(if lots.is_empty() { form.to_owned() } else { format!("{form}, lot {}", lots.join(", ")) })
}

/// What stands in the columns of the farm's own, in words that follow those of a line.
pub fn beside(origin: &Origin) -> Cell {
    list("", origin.beside.iter().map(|(head, text)| format!(", {head}: {text}")))
}

/// What was sold of a batch and taken for it, in words.
pub fn sold_words(found: &BatchFinding, context: &Context<'_>) -> Option<String> {
    let takings = Takings::of(&found.sales)?;
    Some(sold(&takings.sold, takings.taken, Some(&takings.unsold), context))
}

/// A sale with its day, without its buyer.
pub fn sale_line(sale: &Sale, context: &Context<'_>) -> Cell {
    let record = &sale.record;
    let note = record.note.clone().map(|note| cell![" ", Bit::Note(note.into())]);
    let words = sold(&record.sold(), record.taken, record.unsold.as_ref(), context);
    cell![format!("{}: {words}", record.date.show(context.units())), beside(&sale.origin), note]
}

fn sold(sold: &Mass, taken: f64, unsold: Option<&Mass>, context: &Context<'_>) -> String {
    let units = context.units();
    let unsold = unsold.filter(|unsold| unsold.base() > 0.0);
    let home = unsold.map_or_else(String::new, |unsold| format!(", {} unsold", unsold.show(units)));
    format!("{} sold for {}{home}", sold.show(units), money(taken, context))
}

/// The working of everything that is reckoned of a batch.
pub fn worked(found: &BatchFinding, context: &Context<'_>) -> Vec<Block> {
    let id = found.batch.id.as_str();
    let of_yard = [first(found, context), life(found, context)].map(|block| block.away(Topic::Yard, context));
    let readings = wetness::of_batch(context.findings.readings(), id, |reading| &reading.batch);
    let readings = readings.iter().map(|reading| {
        let log = format!("log {}, {}", reading.label, reading.date.show(context.units()));
        Block::default().line(log).figure(&reading.lost, context)
    });
    let slices = wetness::of_batch(context.findings.slices(), id, |slice| &slice.batch).iter().map(|slice| {
        let day = format!("slice of {}", slice.slice.date.show(context.units()));
        let block = Block::default().line(day).figures(&slice.water, context);
        block.figures(slice.limits.iter().flatten(), context)
    });
    let of_water = readings.chain(slices).map(|block| block.away(Topic::Moisture, context));
    of_yard.into_iter().chain(of_water).collect()
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
    let block = Block::default()
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
    let block = Block::default().named(&*found.life_place().block).line(format!(
        "{} of {} × {}{lost}; a year an inch makes {} (common practice)",
        pieces(found.balance.all(), &found.batch),
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
    let block = match found.a_log() {
        Some(a_log) => block.line(format!(
            "what its {} still hold: {} × {} less {} picked, and never less than nothing",
            found.batch.record.way.pieces()[1],
            pieces(found.left(), &found.batch),
            mass_range(&a_log, units),
            found.picked().show(units)
        )),
        None => block,
    };
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

/// Whether a sample log is too dry, in words.
pub fn verdict(too_dry: &bool) -> Cell {
    match too_dry {
        true => cell![Bit::Strong("too dry: water it overnight".into())],
        false => cell!["not too dry"],
    }
}

/// A share of the wood in whole per cent.
pub fn whole(share: &Figure<Percent>) -> String {
    share.result.as_ref().map_or_else(ToString::to_string, |share| format!("{} %", rounded(share.base(), 0)))
}
