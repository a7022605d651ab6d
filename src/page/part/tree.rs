//! Tagged trees in a table.

use super::table::{Columns, Part, cell};
use super::{Anchor, Figure, and};
use crate::page::Context;
use crate::quantity::{Length, Units, count};
use crate::reckon::findings::TreeFinding;
use crate::reckon::findings::stands::standing;
use crate::reckon::findings::trees::{Counted, Down};
use crate::reckon::table::NAMED;
use crate::record::tree::{Condition, Gone};

/// The cautions of woods whose leaves poison stock.
const STOCK: [&str; 3] = ["prunus-stock", "leaves-stock", "buckeye-stock"];

/// Trees by their tags, or by their number where they are many.
pub fn tags(trees: &[&TreeFinding]) -> String {
    if trees.len() > NAMED {
        return count(trees.len(), "tree", "trees");
    }
    and(&trees.iter().map(|tree| tree.tree.tag().to_string()).collect::<Vec<_>>())
}

/// The columns that every table of trees has: tag, wood, diameter and logs.
pub fn columns<'a>(table: Columns<&'a TreeFinding>, context: &Context<'_>) -> Columns<&'a TreeFinding> {
    let counted = |found: &TreeFinding| match found.counted {
        Ok(Counted::Eye) => Some(cell![" ", Part::Mark("by eye")]),
        Ok(Counted::StandHeight) => Some(cell![" ", Part::Mark("by the stand's height")]),
        _ => None,
    };
    table
        .head("Tag", |found| found.tree.tag().to_string())
        .column("Wood", |found| Anchor::wood(&found.tree.wood, context))
        .number("DBH", |found| found.tree.record.dbh().show(context.units()))
        .number("Logs", |found| cell![logs(found, context), counted(found)])
}

/// Its logs, and in brackets those of a stem 5 % thinner where that differs and no felled trees tell it better.
fn logs(found: &TreeFinding, context: &Context<'_>) -> Figure {
    let worked = |text: String| Figure::worked(text, &found.place(), context);
    let spread = found
        .careful
        .filter(|_| found.told.is_none())
        .map(|careful| careful + found.limb_logs)
        .filter(|careful| *careful != found.logs());
    match (&found.counted, spread) {
        (Ok(_), Some(careful)) => worked(format!("{} ({careful})", found.logs())),
        (Ok(_), None) => worked(found.logs().to_string()),
        (Err(_), _) if found.is_counted() => worked(format!("{} of limbs", found.limb_logs)),
        (Err(_), _) => Figure::gap("not counted"),
    }
}

/// Condition and reason.
pub fn why(found: &TreeFinding) -> String {
    joined([condition(found), found.tree.record.why.clone()])
}

fn condition(found: &TreeFinding) -> Option<String> {
    let condition = found.tree.record.condition;
    (condition != Condition::Sound).then(|| condition.words().to_owned())
}

/// Which stems of its clump or stool come down with it.
fn together(found: &TreeFinding) -> Option<String> {
    let record = &found.tree.record;
    record.clump.as_ref().map(|clump| {
        if record.stool {
            format!("stool {clump}, all stems at once")
        } else {
            format!("clump {clump}, its marked stems together")
        }
    })
}

fn joined<const N: usize>(words: [Option<String>; N]) -> String {
    words.into_iter().flatten().filter(|words| !words.is_empty()).collect::<Vec<_>>().join("; ")
}

/// What is given up with a tree of those things that the farm keeps trees for: "gives up sap and mast".
pub fn given_up(found: &TreeFinding, context: &Context<'_>) -> Option<String> {
    let kept = context.book.farm.record.keep_for.iter();
    let lost: Vec<String> =
        kept.filter(|what| found.tree.wood.is_good_for(**what)).map(|what| what.words().to_owned()).collect();
    (!lost.is_empty()).then(|| format!("gives up {}", and(&lost)))
}

/// Why it stands on the list, and what is given up with it.
pub fn why_and_worth(found: &TreeFinding, context: &Context<'_>) -> String {
    joined([Some(why(found)), given_up(found, context)])
}

/// The same, with the stems of its clump that come down with it.
pub fn whole_why(found: &TreeFinding, context: &Context<'_>) -> String {
    joined([condition(found), together(found), found.tree.record.why.clone(), given_up(found, context)])
}

/// What can kill at felling one tree rather than another, in a few words; the whole words stand in the cautions of felling.
pub fn dangers(found: &TreeFinding, context: &Context<'_>) -> Vec<&'static str> {
    let condition = found.tree.record.condition;
    let rotten = matches!(condition, Condition::Damaged | Condition::Decayed | Condition::Dead);
    let comes_with =
        |id: &str| context.book.cautions.get(id).is_some_and(|caution| caution.speaks_of_wood(&found.tree.wood));
    let dangers = [
        ("leans: can split", condition == Condition::Leaning),
        ("top can drop", rotten || comes_with("beech-ash-tops")),
        ("leaves poison stock", STOCK.iter().any(|id| comes_with(id))),
    ];
    dangers.into_iter().filter(|(_, is)| *is).map(|(words, _)| words).collect()
}

/// What became of it, or becomes of it this winter.
pub fn fate(found: &TreeFinding, context: &Context<'_>) -> String {
    if let Some(down) = found.down {
        return fallen(found, down, context.units());
    }
    let doubt = found.is_doubtful();
    match (context.findings.winter().falls(found.tree.tag()), found.may_fall()) {
        (true, _) => "comes down",
        _ if found.is_snag() && doubt => "dead, still standing, in doubt",
        _ if found.is_snag() => Gone::Died.words(),
        _ if doubt => "stays, in doubt",
        (false, true) => "not needed",
        (false, false) => "stays",
    }
    .to_owned()
}

/// How it came down, when, and what it gave: "felled on 12 January 2027, 6 logs".
fn fallen(found: &TreeFinding, down: Down, units: Units) -> String {
    let day = down.day.map_or_else(String::new, |day| format!(" {}", day.show(units)));
    let logs = found.tree.record.logs_cut.map_or_else(String::new, |logs| format!(", {}", count(logs, "log", "logs")));
    format!("{}{day}{logs}", down.how.words())
}

/// Where it stands: feet or metres east and north.
pub fn place(found: &TreeFinding, units: Units) -> Option<String> {
    let show = |length: &Length| match units {
        Units::Us => format!("{:.0}", length.feet()),
        Units::Metric => format!("{:.0}", length.base()),
    };
    let record = &found.tree.record;
    let (east, north) = standing(found).and(record.east.as_ref()).zip(record.north.as_ref())?;
    Some(format!("{} / {}", show(east), show(north)))
}
