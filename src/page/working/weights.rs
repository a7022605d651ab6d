//! The working behind the weights and the bark.

use std::collections::BTreeMap;

use crate::book::Wood;
use crate::page::Context;
use crate::page::part::cite::Cite;
use crate::page::part::weight::{own_words, stale_words, stem, weight_note};
use crate::page::part::worked::{Block, Part};
use crate::page::part::{Anchor, range};
use crate::quantity::measure::rounded;
use crate::quantity::{Units, count};
use crate::reckon::bark::BARK;
use crate::reckon::findings::{LogWeight, WeighedLog, WoodWeight};
use crate::reckon::formula::Formula;
use crate::reckon::weight::{WEIGHED, WEIGHT};
use crate::record::said::Mark;

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&WEIGHT, &WEIGHED, &BARK];

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let units = context.units();
    let length = context.book.farm.record.log.length.show(units);
    let logs = context.findings.weights().iter().take(1).flat_map(|of| &of.logs);
    let volume = |log: &LogWeight| Some(format!("{}: {}", log.diameter.show(units), log.green.input("V")?.show(units)));
    let volumes: Vec<String> = logs.filter_map(volume).collect();
    let says = format!(
        "Each weight is that of a log {length} long: its volume over bark ({}) times the green density, from the \
         driest to the wettest of the moistures in the record of the wood; in brackets that of the whole stem, or the mean of the logs weighed here.",
        volumes.join("; ")
    );
    let told = |wood: &Wood| {
        let record = &wood.record;
        record.density.is_some() || record.moisture.is_some() || record.bark.is_some()
    };
    let told = |of: &&WoodWeight| told(&of.wood) || !of.weighed.is_empty();
    let (known, unknown): (Vec<_>, Vec<_>) = context.findings.weights().iter().partition(told);
    let mut gaps: BTreeMap<String, Vec<&str>> = BTreeMap::new();
    for of in &unknown {
        gaps.entry(of.density.show(units)).or_default().push(of.wood.name());
    }
    let without = Block::of(Anchor::here("without", "Woods of which nothing is recorded".to_owned()))
        .named("without")
        .comes_to(count(unknown.len(), "wood", "woods"));
    let gaps =
        gaps.into_iter().fold(without, |block, (gap, woods)| block.gap(Some(format!("{}: {gap}", woods.join(", ")))));
    vec![
        Part::new("formulas", "Formulas").by(FORMULAS, context),
        Part::new("woods", "Figures used, and what they come to")
            .says(says)
            .blocks(known.into_iter().map(|weight| block(weight, context)))
            .blocks((!unknown.is_empty()).then_some(gaps)),
    ]
}

fn block(weight: &WoodWeight, context: &Context<'_>) -> Block {
    let weighed: Vec<String> = weight.logs.iter().filter_map(|log| of_log(log, context)).collect();
    let mut block = Block::of(Anchor::wood(&weight.wood, context))
        .figure(&weight.reckoned, context)
        .comes_to(weight.reckoned.value().map_or_else(|_| "no figure".to_owned(), |value| value.show(context.units())));
    if let (Ok([_, most]), false) = (&weight.ends, weight.is_own()) {
        let at_most = most.density.show(context.units());
        block = block.line(format!("At the most, by {}: {}, so ρ = {at_most}", most.of.words(), water(weight)));
    }
    block = stem(&weight.wood)
        .into_iter()
        .fold(block, |block, words| block.line(format!("M = {}: {words}", stem_water(weight))));
    block = weight.weighed.iter().fold(block, |block, log| block.line(of_weighed(log, weight, context)));
    block = own_words(weight, context).into_iter().fold(block, Block::line);
    if !weight.weighed.is_empty() {
        block = block.made_by(&[&WEIGHED]);
    }
    if !weighed.is_empty() {
        block = block.line(format!("Green, {}: {}", weight_note(weight), weighed.join("; ")));
    }
    let block = block.cites(cites(&weight.wood, context));
    let fits = weight.wood.record.bark.iter().flat_map(|bark| &bark.fits);
    weight.bark.iter().zip(fits).fold(block, |block, (figure, fit)| {
        let region = Cite::of(&fit.source, Mark::Read, context);
        block.figure(figure, context).cites([Cite { short: fit.region.clone(), ..region }])
    })
}

/// The moisture of the whole stem.
fn stem_water(weight: &WoodWeight) -> String {
    weight.green.moisture.map_or_else(String::new, |part| rounded(part, 3))
}

/// The moisture by which a wood is at its heaviest.
fn water(weight: &WoodWeight) -> String {
    let end = weight.ends.as_ref().ok().and_then(|[_, most]| most.density.input("M").cloned());
    end.map_or_else(String::new, |moisture| format!("M = {}", moisture.show(Units::default())))
}

/// A log that the farm weighed: what it was, and what it comes to.
fn of_weighed(log: &WeighedLog, weight: &WoodWeight, context: &Context<'_>) -> String {
    let units = context.units();
    let size = format!("{} × {}", log.diameter.show(units), log.length.show(units));
    let came = match log.density {
        Ok(density) => {
            let times = weight.reckoned.result.as_ref().ok().map(|by| rounded((density / *by).value, 2));
            let times = times.map(|times| format!(", k = {times}"));
            format!("so ρ = {}{}", units.density(density), times.unwrap_or_default())
        }
        Err(stale) => stale_words(stale),
    };
    let batch = Anchor::batch(&log.batch, context).text;
    format!("Log {} of {batch}: {size}, W = {}, {came}", log.label, log.weight.show(units))
}

/// A log of one thickness: its weight from least to most, and the usual one.
fn of_log(log: &LogWeight, context: &Context<'_>) -> Option<String> {
    let units = context.units();
    let ends = log.span(false).ok()?.map(|mass| mass.show(units));
    let usual = log.green.result.as_ref().ok().filter(|_| ends[0] != ends[1]);
    let usual = usual.map(|mass| format!(" ({})", mass.show(units)));
    Some(format!("{}: {}{}", log.diameter.show(units), range(&ends[0], &ends[1]), usual.unwrap_or_default()))
}

fn cites(wood: &Wood, context: &Context<'_>) -> Vec<Cite> {
    let record = &wood.record;
    let density = record.density.as_ref().map(|density| Cite::by(density, context));
    let moisture = record.moisture.as_ref().map(|moisture| Cite::by(moisture, context));
    let bark = record.bark.as_ref().map(|bark| Cite::by(bark, context));
    density.into_iter().chain(moisture).chain(bark).collect()
}
