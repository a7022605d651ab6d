//! The felling sheet: which trees come down this winter, stand by stand, in walking order.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use serde::Serialize;

use crate::book::Wood;
use crate::page::part::caution::{Caution, Cautions, Subject};
use crate::page::part::deadline::Deadline;
use crate::page::part::doubt::{self, Doubt};
use crate::page::part::falling::{self, Falling};
use crate::page::part::help::Rescue;
use crate::page::part::table::{Part, Table, cell};
use crate::page::part::{Anchor, Figure, capital, caution, deadline, gain, gate, help, tree, waits};
use crate::page::{Context, Page};
use crate::quantity::count;
use crate::reckon::Topic;
use crate::reckon::findings::season::felling;
use crate::reckon::findings::{StandFinding, TreeFinding};
use crate::reckon::formula::Place;
use crate::record::Kind;
use crate::record::caution::Task;

/// The caution that stands at the foot of whatever tells of felling.
const HUNG: &str = "fell-hung-tree";

/// What holds of trees without a stand.
const HOMELESS: &str = "These trees grow in no stand of the records, so no limit is kept to. Name a stand in a column `stand`, or \
                        call the sheet as the stand is called.";

/// The felling sheet.
#[derive(Debug, Serialize)]
pub struct View {
    plans: Vec<String>,
    total: Figure,
    gain: Option<Figure>,
    doubt: Vec<Doubt>,
    key: String,
    stands: Vec<Stand>,
    parts: Vec<Anchor>,
    no_plan: bool,
    undated: BTreeSet<String>,
    deadlines: Vec<Deadline>,
    gate: Vec<&'static str>,
    cautions: Cautions,
    hung: Vec<Caution>,
    rescue: Rescue,
    working: String,
    planning: String,
    ledger: String,
    seasons: String,
    method: String,
}

/// One stand on the sheet.
#[derive(Debug, Default, Serialize)]
struct Stand {
    link: Option<Anchor>,
    limit: Option<String>,
    left: Option<Figure>,
    gap: Option<String>,
    rows: Option<Table>,
    spared: String,
    unwanted: String,
    waits: Vec<String>,
    uncounted: Vec<String>,
    down: String,
}

/// The view of the felling sheet, or of its first part where the trees fill several.
pub fn view(context: &Context<'_>) -> View {
    view_of(0, context)
}

/// The view of a part.
pub fn view_of(part: usize, context: &Context<'_>) -> View {
    let findings = context.findings;
    let winter = findings.winter();
    let logs = findings.felled_logs();
    let mut cautions = Cautions::of(Task::Felling, &Subject::woods(caution::felled_woods(context)), context);
    let sheets = falling::sheets(findings);
    let stands = sheets.get(part).into_iter().flatten().map(|falling| stand(falling, context)).collect();
    View {
        plans: winter.plans().iter().map(|plan| plan.record.name.clone()).collect(),
        total: Figure::worked(
            format!("{}, {}", count(winter.number(), "tree", "trees"), count(logs, "log", "logs")),
            &Place::new(Topic::Allocation, "result"),
            context,
        ),
        gain: gain::words(context),
        doubt: sheets.get(part).into_iter().flatten().flat_map(|falling| in_doubt(falling, context)).collect(),
        key: context.route.to(&Page::KeyWinter),
        stands,
        parts: falling::links(part, page, context),
        no_plan: winter.wishes.is_empty(),
        undated: undated(context),
        deadlines: deadline::all(context),
        gate: gate::of(gate::FELLING, context),
        hung: cautions.take(HUNG).into_iter().collect(),
        cautions,
        rescue: help::rescue_at_saw(context),
        working: context.route.to(&Page::Working(Topic::Trees)),
        planning: context.route.to(&Page::Planning),
        ledger: context.route.to(&Page::Ledger),
        seasons: context.route.to(&Page::Seasons),
        method: context.route.record(Kind::Method, crate::reckon::findings::logs::DRILLED),
    }
}

/// The woods that come down without a date of felling, and why.
fn undated(context: &Context<'_>) -> BTreeSet<String> {
    let woods: BTreeMap<&str, &Arc<Wood>> =
        context.findings.felled().map(|tree| (tree.tree.wood.id.as_str(), &tree.tree.wood)).collect();
    let gap = |wood: &Arc<Wood>| Some(format!("{}: {}", wood.name(), felling(context.findings, wood).gap?));
    woods.into_values().filter_map(gap).collect()
}

/// The page of a part.
fn page(part: usize) -> Page {
    if part == 0 { Page::Felling } else { Page::FellingPart(part) }
}

fn stand(falling: &Falling<'_>, context: &Context<'_>) -> Stand {
    let findings = context.findings;
    let rows = table(falling, context);
    match falling.stand {
        Some(found) if !falling.is_first => Stand { link: Some(link(found, context)), rows, ..Stand::default() },
        Some(found) => Stand { rows, ..of_stand(found, falling, context) },
        None if !falling.is_first => Stand { rows, ..Stand::default() },
        None => Stand { gap: Some(HOMELESS.to_owned()), rows, ..of(&falling.tagged(findings), context) },
    }
}

/// Marked trees of a stand that are left until it is known what they are, on the sheet where the stand begins.
fn in_doubt(falling: &Falling<'_>, context: &Context<'_>) -> Vec<Doubt> {
    let tagged = if falling.is_first { falling.tagged(context.findings) } else { Vec::new() };
    doubt::all(tagged, context)
}

fn link(found: &StandFinding, context: &Context<'_>) -> Anchor {
    Anchor::record(Kind::Stand, &found.measured.stand.id, context)
}

fn of_stand(found: &StandFinding, falling: &Falling<'_>, context: &Context<'_>) -> Stand {
    let units = context.units();
    let measured = &found.measured;
    let working = Place::new(Topic::Stands, measured.stand.id.clone());
    let before = measured.now.as_ref().map(|density| density.basal_area.show(units));
    let allowed = measured.allowance().ok().zip(measured.area.as_ref().ok());
    let still = if measured.is_begun() { "still up to" } else { "up to" };
    let most = allowed
        .map_or_else(String::new, |(allowance, area)| format!(", so {still} {}", allowance.over(area).show(units)));
    let limit = before.map(|before| {
        let target = measured.target().map_or_else(
            || "no target is recorded".to_owned(),
            |target| format!("the target is {}", target.show(units)),
        );
        format!("Basal area {before} now; {target}; at most a third comes out in a winter{most}")
    });
    let below = measured
        .is_below_target()
        .then(|| "Less stands here than the target already, so nothing may come out.".to_owned());
    Stand {
        link: Some(link(found, context)),
        limit: limit.ok(),
        left: found
            .after
            .as_ref()
            .ok()
            .map(|density| Figure::worked(density.basal_area.show(units), &working, context)),
        gap: below.or_else(|| measured.allowance().err().map(|gap| format!("No limit is kept to here ({gap})."))),
        ..of(&falling.tagged(context.findings), context)
    }
}

fn of(trees: &[&TreeFinding], context: &Context<'_>) -> Stand {
    let findings = context.findings;
    let winter = findings.winter();
    let wanted = |tree: &TreeFinding| winter.takes(&tree.tree.wood.id);
    let waits = |tree: &TreeFinding| !winter.waits(&tree.tree.wood.id).is_empty();
    let left = trees.iter().copied().filter(|tree| tree.may_fall() && !winter.falls(tree.tree.tag()));
    let (spared, unwanted): (Vec<&TreeFinding>, Vec<&TreeFinding>) =
        left.filter(|tree| !waits(tree)).partition(|tree| wanted(tree));
    let uncounted = (trees.iter().filter(|tree| tree.may_fall()))
        .filter_map(|tree| Some(format!("{}: {}", tree.tree.tag(), tree.counted.as_ref().err()?)));
    let down: Vec<&TreeFinding> = trees.iter().copied().filter(|tree| findings.is_of_this_winter(tree)).collect();
    Stand {
        spared: tree::tags(&spared),
        unwanted: tree::tags(&unwanted),
        waits: waits::lines(trees.iter().copied(), context),
        uncounted: uncounted.collect(),
        down: tree::tags(&down),
        ..Stand::default()
    }
}

/// Trees that come down, to be ticked in the woods.
fn table(falling: &Falling<'_>, context: &Context<'_>) -> Option<Table> {
    let logs: u32 = falling.trees.iter().map(|tree| tree.logs()).sum();
    let order = if falling.is_walked { ", in walking order" } else { "" };
    let caption = format!("{}, {}{order}", count(falling.trees.len(), "tree", "trees"), count(logs, "log", "logs"));
    let why = |found: &TreeFinding| {
        let dangers = tree::dangers(found, context);
        let marks = (!dangers.is_empty()).then(|| Part::Strong(format!("{}. ", capital(&dangers.join(", "))).into()));
        cell![marks, tree::whole_why(found, context)]
    };
    let table =
        Table::of("facts tally walk two", &caption, falling.trees.iter().copied()).column("Down", |_| Part::Tick);
    tree::columns(table, context).column("Why", why).wide(&format!("Trees of {}", falling.name())).done()
}
