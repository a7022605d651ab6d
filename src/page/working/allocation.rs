//! The working behind who gets which wood.

use serde::Serialize;

use super::formula::{Formula, winter};
use crate::{
    page::{Context, part::Anchor},
    reckon::table::basal_area,
};

/// The working behind who gets which wood.
#[derive(Debug, Serialize)]
pub struct View {
    formula: Formula,
    woods: Vec<OfWood>,
    limits: Vec<String>,
    reached: Option<String>,
    gap: Option<String>,
    floor: Vec<String>,
}

/// What there is of one wood, and what of it is used.
#[derive(Debug, Serialize)]
struct OfWood {
    wood: Anchor,
    ready: u32,
    marked: u32,
    felled: u32,
    placed: u32,
}

/// The view of the working.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let findings = context.findings;
    let answer = findings.winter();
    let woods = answer.woods.iter().map(|wood| {
        let of = |falls: bool| {
            let marked = findings.trees().iter().filter(|tree| tree.may_fall() && tree.tree.wood.id == wood.id);
            marked
                .filter(|tree| !falls || answer.falls(tree.tree.tag()))
                .map(crate::reckon::findings::TreeFinding::logs)
                .sum()
        };
        let lots = context.book.lots.values().filter(|lot| lot.wood.id == wood.id);
        let placed = answer.wishes.iter().flat_map(|wish| &wish.placed).filter(|placed| placed.wood.id == wood.id);
        OfWood {
            wood: Anchor::wood(wood, context),
            ready: lots.filter_map(|lot| findings.left().get(&lot.id)).sum(),
            marked: of(false),
            felled: of(true),
            placed: placed.map(|placed| placed.logs).sum(),
        }
    });
    let limits = findings.stands().iter().map(|stand| {
        let name = &stand.measured.stand.record.name;
        match stand.measured.allowance() {
            Ok(allowance) => {
                let out: f64 = stand
                    .felled
                    .iter()
                    .map(|index| crate::reckon::density::tree(findings.trees()[*index].tree.record.dbh.inches()))
                    .sum();
                let kept = stand.after.as_ref().map(|after| basal_area(after.basal_area).show(context.units()));
                format!("{name}: {out:.2} of {allowance:.2} ft² come out, {} stay", kept.unwrap_or_default())
            }
            Err(gap) => format!("{name}: no limit ({gap})"),
        }
    });
    View {
        formula: winter::allocation(),
        woods: woods.collect(),
        limits: limits.collect(),
        reached: answer.value.as_ref().ok().map(|value| {
            let ready: u32 = answer.from_lots.iter().sum();
            format!(
                "{} logs placed, {ready} of them from lots; sum of ratings {}; {} trees or clumps",
                value.placed, value.ratings, value.trees
            )
        }),
        gap: answer.value.as_ref().err().map(ToString::to_string),
        floor: answer
            .plans()
            .iter()
            .map(|plan| format!("{}: {}", plan.record.name, plan.record.floor.words()))
            .collect(),
    }
}
