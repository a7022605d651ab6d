//! The working behind who gets which wood.

use std::sync::Arc;

use crate::book::Wood;
use crate::page::Context;
use crate::page::part::Anchor;
use crate::page::part::worked::{Block, Part};
use crate::quantity::count;
use crate::reckon::allocation::ALLOCATION;
use crate::reckon::findings::{StandFinding, winter};
use crate::reckon::formula::{Formula, Place};
use crate::record::Kind;

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&ALLOCATION];

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let findings = context.findings;
    let winter = findings.winter();
    let floors = winter.plans().into_iter().map(|plan| format!("{}: {}", plan.record.name, plan.record.floor.words()));
    let floors: Vec<String> = floors.collect();
    let formulas = Part::new("formulas", "Formulas").by(FORMULAS, context);
    vec![
        if floors.is_empty() {
            formulas
        } else {
            let least = floors.join("; ");
            formulas.says(format!("Least pairing used: {least}. A pair that fails is never used."))
        },
        Part::new("woods", "Logs of each wood").blocks(winter.woods.iter().map(|wood| of_wood(wood, context))),
        Part::new("limits", "Each stand").blocks(findings.stands().iter().map(|stand| limit(stand, context))),
        Part::new("result", "Result").blocks([result(context)]),
    ]
}

/// What there is of one wood, and what of it is used.
fn of_wood(wood: &Arc<Wood>, context: &Context<'_>) -> Block {
    let found = winter::of_wood(context.findings, wood);
    let strains: Vec<String> =
        found.placed.iter().map(|(logs, strain)| format!("{logs} with {}", strain.record.name)).collect();
    let placed = match found.placed.iter().map(|(logs, _)| logs).sum::<u32>() {
        0 => "none placed".to_owned(),
        placed => format!("{placed} placed: {}", strains.join(", ")),
    };
    let (ready, marked, felled) = (found.ready, found.marked, found.felled);
    let numbers = format!("logs ready {ready}, of marked trees {marked}, of felled trees {felled}; {placed}");
    Block::of(Anchor::wood(wood, context)).named(&wood.id).line(numbers).made_by(FORMULAS)
}

/// What comes out of one stand, and what may.
fn limit(found: &StandFinding, context: &Context<'_>) -> Block {
    let units = context.units();
    let trees = count(found.felled.len(), "tree", "trees");
    let fall = format!("{trees} come down and give {}", count(found.logs, "log", "logs"));
    let numbers = match found.measured.allowance() {
        Ok(allowance) => {
            let kept = found.after.as_ref().map(|after| after.basal_area.show(units)).unwrap_or_default();
            format!("{fall}: {} of {}, and {kept} stay", found.out.stems(units), allowance.stems(units))
        }
        Err(gap) => format!("{fall}; no limit ({gap})"),
    };
    let stand = &found.measured.stand;
    let head = Anchor::record(Kind::Stand, &stand.id, context);
    Block::of(head).named(&*Place::limit(&stand.id).block).line(numbers).made_by(FORMULAS)
}

fn result(context: &Context<'_>) -> Block {
    let winter = context.findings.winter();
    let block = Block::default().made_by(FORMULAS);
    let value = match &winter.value {
        Ok(value) => value,
        Err(gap) => return block.gap(Some(gap)),
    };
    block.line(format!(
        "{} placed, {} of them from lots; sum of ratings {}; {}; {} come down and give {}",
        count(value.placed, "log", "logs"),
        value.from_lots,
        value.ratings,
        count(value.trees, "tree or clump", "trees or clumps"),
        count(winter.number(), "tree", "trees"),
        count(context.findings.felled_logs(), "log", "logs")
    ))
}
