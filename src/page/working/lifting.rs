//! The working behind the limits of lifts.

use crate::page::Context;
use crate::page::part::cite::Cite;
use crate::page::part::worked::{Block, Part};
use crate::page::part::{Anchor, capital, range};
use crate::quantity::Temperature;
use crate::quantity::measure::rounded;
use crate::reckon::findings::TaskFinding;
use crate::reckon::formula::Formula;
use crate::reckon::lifting;
use crate::reckon::lifting::{AIR, LIMIT};
use crate::record::Id;
use crate::record::farm::Grip;
use crate::record::said::Mark;

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&LIMIT];

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let units = context.units();
    let [high, low, from] = lifting::estimate(units).map(|reach| format!("{} {}", rounded(reach, 0), units.length()));
    let [cool, warm] = AIR.map(|degrees| Temperature::of_celsius(degrees).show(units));
    let air = range(&cool, &warm);
    let manual = Cite::of(&Id::new("niosh-94-110"), Mark::Copy, context);
    let filters = Cite::of(&Id::new("hse-l23"), Mark::Memory, context);
    let estimated = format!(
        "Where the reach was not measured it is {high} plus half the thickness of the log with the hands at {from} or \
         higher, and {low} plus half below that. The four usual lifts are this handbook’s own choice: two hands, no \
         twist, up to an hour, bark and gloves counted as a poor grip."
    );
    let outside = format!(
        "Lifts with one hand, seated or kneeling, in a cramped place, of a load that shifts, with carrying, pushing \
         or pulling, with a barrow or shovel, tossed, on wet or icy ground, far from {air}, for more than eight \
         hours, or shared by two people. Outdoor work with logs is often one of these, so take the limit as an upper \
         guide. Other countries use other figures, such as filter values."
    );
    let lifts = context.findings.lifts().iter().flat_map(|task| [of_task(task, context), indexes(task, context)]);
    vec![
        Part::new("formulas", "Formulas")
            .by(FORMULAS, context)
            .blocks([Block::default().line(estimated).cites([manual])]),
        Part::new("lifts", "Each lift, by the thickness of the log").blocks(lifts),
        Part::new("outside", "Where the equation does not reach")
            .blocks([Block::default().line(outside).cites([filters])]),
    ]
}

fn of_task(task: &TaskFinding, context: &Context<'_>) -> Block {
    let units = context.units();
    let own = if task.own { ", as this farm describes it" } else { "" };
    let block = Block::of(Anchor::here(&task.id, format!("{}{own}", capital(&task.name))));
    let block = task.limits.first().map_or_else(Block::default, |first| {
        let lift = &first.lift;
        let grip = match lift.grip {
            Grip::Good => "good",
            Grip::Fair => "fair",
            Grip::Poor => "poor",
        };
        block.line(format!(
            "V = {} to {} {}, pace {} a minute, A = {}°, grip {grip}",
            rounded(lift.from.height, 1),
            rounded(lift.to.height, 1),
            units.length(),
            rounded(lift.a_minute, 2),
            rounded(lift.twist, 0)
        ))
    });
    if let Err(gap) = &task.reached {
        return block.named(&task.id).gap(Some(gap));
    }
    task.limits.iter().fold(block, |block, limit| block.figures(&limit.ends, context).figure(&limit.limit, context))
}

/// Weight over limit for each wood, in the order of the thicknesses.
fn indexes(task: &TaskFinding, context: &Context<'_>) -> Block {
    let id = format!("{}-indexes", task.id);
    let block = Block::of(Anchor::here(&id, format!("{}: weight over limit", capital(&task.name)))).named(id);
    let block = context.findings.loads().fold(block, |block, wood| {
        let figures = task.indexes(&wood.logs).filter(|figure| figure.result.is_ok());
        let numbers: Vec<String> = figures.map(|figure| figure.numbers(context.units())).collect();
        if numbers.is_empty() { block } else { block.line(format!("{}: {}", wood.wood.name(), numbers.join("; "))) }
    });
    block.made_by(FORMULAS)
}
