//! The felling sheet: which trees come down this winter, stand by stand, in walking order.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use serde::Serialize;

use crate::book::Wood;
use crate::page::part::caution::{Caution, Cautions, Subject};
use crate::page::part::deadline::Deadline;
use crate::page::part::help::Rescue;
use crate::page::part::table::{Part, Table, cell};
use crate::page::part::{Anchor, Figure, and, capital, caution, deadline, gain, gate, help, tree, waits};
use crate::page::{Context, Page};
use crate::quantity::count;
use crate::reckon::Topic;
use crate::reckon::findings::season::felling;
use crate::reckon::findings::stands::standing;
use crate::reckon::findings::{StandFinding, TreeFinding};
use crate::reckon::formula::Place;
use crate::reckon::walk::walk;
use crate::record::Kind;
use crate::record::caution::Task;

/// The caution that stands at the foot of whatever tells of felling.
const HUNG: &str = "fell-hung-tree";

/// The felling sheet.
#[derive(Debug, Serialize)]
pub struct View {
    plans: Vec<String>,
    total: Figure,
    gain: Option<Figure>,
    stands: Vec<Stand>,
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
#[derive(Debug, Serialize)]
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

/// The view of the felling sheet.
pub fn view(context: &Context<'_>) -> View {
    let findings = context.findings;
    let winter = findings.winter();
    let logs = findings.felled_logs();
    let homeless: Vec<usize> = findings
        .trees()
        .iter()
        .enumerate()
        .filter(|(_, tree)| tree.tree.stand.is_none())
        .map(|(index, _)| index)
        .collect();
    let mut cautions = Cautions::of(Task::Felling, &Subject::woods(caution::felled_woods(context)), context);
    let mut stands: Vec<Stand> = findings
        .stands()
        .iter()
        .filter(|stand| !stand.trees.is_empty())
        .map(|stand| of_stand(stand, context))
        .collect();
    if !homeless.is_empty() {
        stands.push(Stand {
            gap: Some("These trees grow in no stand of the records, so no limit is kept to. Name a stand in a column `stand`, or call the sheet as the stand is called.".to_owned()),
            ..of(&homeless, "no stand", context)
        });
    }
    View {
        plans: winter.plans().iter().map(|plan| plan.record.name.clone()).collect(),
        total: Figure::worked(
            format!("{}, {}", count(winter.number(), "tree", "trees"), count(logs, "log", "logs")),
            &Place::new(Topic::Allocation, "result"),
            context,
        ),
        gain: gain::words(context),
        stands,
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

fn of_stand(found: &StandFinding, context: &Context<'_>) -> Stand {
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
        link: Some(Anchor::record(Kind::Stand, &measured.stand.id, context)),
        limit: limit.ok(),
        left: found
            .after
            .as_ref()
            .ok()
            .map(|density| Figure::worked(density.basal_area.show(units), &working, context)),
        gap: below.or_else(|| measured.allowance().err().map(|gap| format!("No limit is kept to here ({gap})."))),
        ..of(&found.trees, &measured.stand.record.name, context)
    }
}

fn of(trees: &[usize], name: &str, context: &Context<'_>) -> Stand {
    let findings = context.findings;
    let winter = findings.winter();
    let tree = |index: &usize| &findings.trees()[*index];
    let falling: Vec<usize> = trees.iter().copied().filter(|index| winter.falls(tree(index).tree.tag())).collect();
    let wanted = |tree: &TreeFinding| winter.takes(&tree.tree.wood.id);
    let waits = |tree: &TreeFinding| !winter.waits(&tree.tree.wood.id).is_empty();
    let left = trees.iter().map(tree).filter(|tree| tree.may_fall() && !winter.falls(tree.tree.tag()));
    let left = left.filter(|tree| !waits(tree));
    let (spared, unwanted): (Vec<&TreeFinding>, Vec<&TreeFinding>) = left.partition(|tree| wanted(tree));
    let tags =
        |trees: Vec<&TreeFinding>| -> Vec<String> { trees.iter().map(|tree| tree.tree.tag().to_string()).collect() };
    let (spared, unwanted) = (tags(spared), tags(unwanted));
    let uncounted = trees
        .iter()
        .map(tree)
        .filter(|tree| tree.may_fall())
        .filter_map(|tree| Some(format!("{}: {}", tree.tree.tag(), tree.counted.as_ref().err()?)));
    let down = tags(trees.iter().map(tree).filter(|tree| findings.is_of_this_winter(tree)).collect());
    let (order, walked) = in_walking_order(&falling, context);
    Stand {
        link: None,
        limit: None,
        left: None,
        gap: None,
        rows: table(&order.iter().map(tree).collect::<Vec<_>>(), walked, name, context),
        spared: and(&spared),
        unwanted: and(&unwanted),
        waits: waits::lines(trees.iter().map(tree), context),
        uncounted: uncounted.collect(),
        down: and(&down),
    }
}

/// Trees that come down, to be ticked in the woods.
fn table(trees: &[&TreeFinding], walked: bool, name: &str, context: &Context<'_>) -> Option<Table> {
    let logs: u32 = trees.iter().map(|tree| tree.logs()).sum();
    let order = if walked { ", in walking order" } else { "" };
    let caption = format!("{}, {}{order}", count(trees.len(), "tree", "trees"), count(logs, "log", "logs"));
    let why = |found: &TreeFinding| {
        let dangers = tree::dangers(found, context);
        let marks = (!dangers.is_empty()).then(|| Part::Strong(format!("{}. ", capital(&dangers.join(", "))).into()));
        cell![marks, tree::whole_why(found, context)]
    };
    let table = Table::of("facts tally walk two", &caption, trees.iter().copied()).column("Down", |_| Part::Tick);
    tree::columns(table, context).column("Why", why).wide(&format!("Trees of {name}")).done()
}

/// Trees in the order in which one walks to them: the order that is written, else by their places, else by tag.
fn in_walking_order(trees: &[usize], context: &Context<'_>) -> (Vec<usize>, bool) {
    let tree = |index: &usize| &context.findings.trees()[*index];
    if trees.iter().all(|index| tree(index).tree.record.order.is_some()) {
        let mut order = trees.to_vec();
        order.sort_by_key(|index| (tree(index).tree.record.order, *index));
        return (order, true);
    }
    let places: Option<Vec<[f64; 2]>> =
        trees.iter().map(|index| standing(tree(index)).map(|place| [place.east, place.north])).collect();
    places.map_or_else(
        || (trees.to_vec(), false),
        |places| (walk(&places).into_iter().map(|at| trees[at]).collect(), true),
    )
}
