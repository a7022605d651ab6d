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
    vec![
        Part::new("formulas", "Formulas").by(FORMULAS, context),
        Part::new("woods", "The green wood of our woods, and their weights at 35 and 23 %").blocks(woods),
        Part::new("readings", "Sample logs and slices")
            .says("What was weighed stands at the foot of the page of its batch."),
    ]
}
