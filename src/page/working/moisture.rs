//! The working behind the moisture of logs.

use crate::page::Context;
use crate::page::part::Anchor;
use crate::page::part::worked::{Block, Part};
use crate::reckon::formula::Formula;
use crate::reckon::moisture::MOISTURE;

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&MOISTURE];

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let findings = context.findings;
    let woods = findings.lightness().iter().map(|found| {
        let block = Block::of(Anchor::wood(&found.wood, context)).figure(&found.wet, context);
        block.figures(found.parts.iter().chain(&found.bounds), context)
    });
    let readings = findings.readings().iter().map(|reading| {
        let log = format!("log {}, {}", reading.label, reading.date.show(context.units()));
        Block::of(Anchor::batch(&reading.batch, context)).line(log).figure(&reading.lost, context)
    });
    let slices = findings.slices().iter().map(|slice| {
        let block = Block::of(Anchor::batch(&slice.batch, context));
        let block =
            block.line(format!("slice of {}", slice.slice.date.show(context.units()))).figures(&slice.water, context);
        block.figures(slice.limits.iter().flatten(), context)
    });
    vec![
        Part::new("formulas", "Formulas").by(FORMULAS, context),
        Part::new("woods", "The green wood of our woods, and their weights at 35 and 23 %").blocks(woods),
        Part::new("readings", "Sample logs").blocks(readings),
        Part::new("slices", "Slices").blocks(slices),
    ]
}
