//! The working behind the weights and the bark.

use std::collections::BTreeMap;

use crate::book::Wood;
use crate::page::Context;
use crate::page::part::cite::Cite;
use crate::page::part::weight::weight_note;
use crate::page::part::worked::{Block, Part};
use crate::page::part::{Anchor, range};
use crate::reckon::bark::BARK;
use crate::reckon::findings::{LogWeight, WoodWeight};
use crate::reckon::formula::Formula;
use crate::reckon::weight::WEIGHT;
use crate::record::said::Mark;

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&WEIGHT, &BARK];

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let units = context.units();
    let length = context.book.farm.record.log.length.show(units);
    let logs = context.findings.weights().iter().take(1).flat_map(|of| &of.logs);
    let volume = |log: &LogWeight| Some(format!("{}: {}", log.diameter.show(units), log.green.input("V")?.show(units)));
    let volumes: Vec<String> = logs.filter_map(volume).collect();
    let says = format!(
        "Each weight is that of a log {length} long: its volume over bark ({}) times the green density; in brackets, \
         by the part of the tree.",
        volumes.join("; ")
    );
    let told = |wood: &Wood| {
        let record = &wood.record;
        record.density.is_some() || record.moisture.is_some() || record.bark.is_some()
    };
    let (known, unknown): (Vec<_>, Vec<_>) = context.findings.weights().iter().partition(|of| told(&of.wood));
    let mut gaps: BTreeMap<String, Vec<&str>> = BTreeMap::new();
    for of in unknown {
        gaps.entry(of.density.show(units)).or_default().push(of.wood.name());
    }
    let gaps = gaps.into_iter().map(|(gap, woods)| Block::default().gap(Some(format!("{}: {gap}", woods.join(", ")))));
    vec![
        Part::new("formulas", "Formulas").by(FORMULAS, context),
        Part::new("woods", "Figures used, and what they come to")
            .says(says)
            .blocks(known.into_iter().map(|weight| block(weight, context)))
            .blocks(gaps),
    ]
}

fn block(weight: &WoodWeight, context: &Context<'_>) -> Block {
    let weighed: Vec<String> = weight.logs.iter().filter_map(|log| of_log(log, context)).collect();
    let mut block = Block::of(Anchor::wood(&weight.wood, context)).figure(&weight.density, context);
    if !weighed.is_empty() {
        block = block.line(format!("{}: {}", weight_note(&weight.wood), weighed.join("; ")));
    }
    let block = block.cites(cites(&weight.wood, context));
    let fits = weight.wood.record.bark.iter().flat_map(|bark| &bark.fits);
    weight.bark.iter().zip(fits).fold(block, |block, (figure, fit)| {
        let region = Cite::of(&fit.source, Mark::Read, context);
        block.figure(figure, context).cites([Cite { short: fit.region.clone(), ..region }])
    })
}

/// A log of one thickness: its weight, and that of the driest and the wettest part of the tree.
fn of_log(log: &LogWeight, context: &Context<'_>) -> Option<String> {
    let units = context.units();
    let mass = log.green.result.as_ref().ok()?;
    let ends = log.range.as_ref().map(|ends| ends.clone().map(|mass| mass.show(units)));
    let spread = ends.filter(|[low, high]| low != high).map(|[low, high]| format!(" ({})", range(&low, &high)));
    Some(format!("{}: {}{}", log.diameter.show(units), mass.show(units), spread.unwrap_or_default()))
}

fn cites(wood: &Wood, context: &Context<'_>) -> Vec<Cite> {
    let record = &wood.record;
    let density = record.density.as_ref().map(|density| Cite::by(density, context));
    let moisture = record.moisture.as_ref().map(|moisture| Cite::by(moisture, context));
    let bark = record.bark.as_ref().map(|bark| Cite::by(bark, context));
    density.into_iter().chain(moisture).chain(bark).collect()
}
