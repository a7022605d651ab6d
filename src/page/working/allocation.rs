//! The working behind who gets which wood.

use serde::Serialize;

use super::formula::{Cited, winter};
use crate::{
    page::{Context, part::Anchor, route::stand_anchor},
    quantity::{Area, count},
    reckon::{
        density,
        findings::{StandFinding, TreeFinding, winter::WishFinding},
        table::basal_area,
    },
    record::Kind,
};

/// The working behind who gets which wood.
#[derive(Debug, Serialize)]
pub struct View {
    formula: Cited,
    woods: Vec<OfWood>,
    limits: Vec<Limit>,
    reached: Option<String>,
    gap: Option<String>,
    floor: Vec<String>,
}

/// What there is of one wood, and what of it is used.
#[derive(Debug, Serialize)]
struct OfWood {
    id: String,
    wood: Anchor,
    ready: u32,
    marked: u32,
    felled: u32,
    placed: u32,
    strains: Vec<(u32, Anchor)>,
}

/// What comes out of one stand, and what may.
#[derive(Debug, Serialize)]
struct Limit {
    id: String,
    stand: Anchor,
    numbers: String,
}

/// The view of the working.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let findings = context.findings;
    let answer = findings.winter();
    let woods = answer.woods.iter().map(|wood| {
        let of = |falls: bool| {
            let marked = findings.trees().iter().filter(|tree| tree.may_fall() && tree.tree.wood.id == wood.id);
            marked.filter(|tree| !falls || answer.falls(tree.tree.tag())).map(TreeFinding::logs).sum()
        };
        let lots = context.book.lots.values().filter(|lot| lot.wood.id == wood.id);
        let of_wish = |wish: &&WishFinding| {
            let logs = wish.placed.iter().filter(|placed| placed.wood.id == wood.id).map(|placed| placed.logs).sum();
            (logs, Anchor::strain(&wish.strain, context))
        };
        let wishes = answer.wishes.iter();
        let strains: Vec<(u32, Anchor)> = wishes.map(|wish| of_wish(&wish)).filter(|(logs, _)| *logs > 0).collect();
        OfWood {
            id: wood.id.clone(),
            wood: Anchor::wood(wood, context),
            ready: lots.filter_map(|lot| findings.left().get(&lot.id)).sum(),
            marked: of(false),
            felled: of(true),
            placed: strains.iter().map(|(logs, _)| logs).sum(),
            strains,
        }
    });
    View {
        formula: winter::allocation().cited(context),
        woods: woods.collect(),
        limits: findings.stands().iter().map(|stand| limit(stand, context)).collect(),
        reached: answer.value.as_ref().ok().map(|value| {
            let ready: u32 = answer.from_lots.iter().sum();
            format!(
                "{} placed, {ready} of them from lots; sum of ratings {}; {}; {} come down and give {}",
                count(value.placed, "log", "logs"),
                value.ratings,
                count(value.trees, "tree or clump", "trees or clumps"),
                count(answer.number(), "tree", "trees"),
                count(felled_logs(findings.trees().iter().filter(|tree| answer.falls(tree.tree.tag()))), "log", "logs")
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

fn felled_logs<'a>(trees: impl Iterator<Item = &'a TreeFinding>) -> u32 {
    trees.map(TreeFinding::logs).sum()
}

fn limit(found: &StandFinding, context: &Context<'_>) -> Limit {
    let units = context.units();
    let trees: Vec<&TreeFinding> = found.felled.iter().map(|index| &context.findings.trees()[*index]).collect();
    let fall = format!(
        "{} come down and give {}",
        count(trees.len(), "tree", "trees"),
        count(felled_logs(trees.iter().copied()), "log", "logs")
    );
    let numbers = match found.measured.allowance() {
        Ok(allowance) => {
            let out: f64 = trees.iter().map(|tree| density::tree(tree.tree.record.dbh.inches())).sum();
            let [out, allowed] = [out, allowance].map(|feet| Area::of_square_feet(feet).stems(units));
            let kept = found.after.as_ref().map(|after| basal_area(after.basal_area).show(units));
            format!("{fall}: {out} of {allowed}, and {} stay", kept.unwrap_or_default())
        }
        Err(gap) => format!("{fall}; no limit ({gap})"),
    };
    let stand = &found.measured.stand;
    Limit {
        id: stand_anchor(&stand.id),
        stand: Anchor { href: context.route.record(Kind::Stand, &stand.id), text: stand.record.name.clone() },
        numbers,
    }
}
