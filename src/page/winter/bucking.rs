//! Cutting to length: the logs of each tree that comes down, what they weigh, and what one person may lift.

use serde::Serialize;

use crate::page::{
    Context, Page,
    part::{
        Anchor, Figure, capital,
        caution::{self, Caution},
        thickness,
        weight::weight_note,
    },
    route::tree_anchor,
};
use crate::{
    quantity::{Mass, Units, measure::rounded},
    reckon::{
        Topic,
        findings::{
            TreeFinding,
            lifts::{LoadFinding, TaskFinding, load},
            logs,
        },
        holes::girth,
        weight,
    },
    record::caution::Task,
};

/// The sheet of log weights.
#[derive(Debug, Serialize)]
pub struct View {
    length: String,
    diameters: Vec<String>,
    trees: Vec<Tree>,
    lots: Vec<Lot>,
    limits: Vec<Limit>,
    loads: Vec<Load>,
    lift: String,
    own_lift: Option<String>,
    unweighed: Vec<Anchor>,
    cautions: Vec<Caution>,
    working: String,
}

/// The logs of one tree.
#[derive(Debug, Serialize)]
struct Tree {
    tag: String,
    wood: Anchor,
    logs: Figure,
    middles: String,
    heaviest: Option<Figure>,
    over: String,
}

/// A lot of logs that lie ready.
#[derive(Debug, Serialize)]
struct Lot {
    id: String,
    name: String,
    wood: Anchor,
    logs: u32,
    left: u32,
    from: String,
    felled: Option<String>,
}

/// The limit of one lift by thickness of the log.
#[derive(Debug, Serialize)]
struct Limit {
    name: String,
    own: bool,
    figures: Vec<Figure>,
}

/// What logs of one wood weigh, and how that stands to the limit.
#[derive(Debug, Serialize)]
struct Load {
    wood: Anchor,
    cells: Vec<Cell>,
    note: Option<&'static str>,
}

/// One thickness.
#[derive(Debug, Serialize)]
struct Cell {
    green: Figure,
    soaked: String,
    index: Figure,
    own: Option<Figure>,
}

/// The view of the sheet of log weights.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let units = context.units();
    let lift = context.findings.lifts().first();
    let own = context.findings.lifts().last().filter(|lift| lift.own);
    View {
        length: context.book.farm.record.log.length.show(units),
        diameters: logs::diameters(context.book, units)
            .iter()
            .map(|diameter| format!("{} ({} around)", diameter.show(units), girth(diameter).show(units)))
            .collect(),
        trees: context
            .findings
            .trees()
            .iter()
            .filter(|tree| context.findings.winter().falls(tree.tree.tag()))
            .map(|tree| of_tree(tree, context))
            .collect(),
        lots: lots(context),
        limits: context.findings.lifts().iter().map(|task| limit(task, context)).collect(),
        loads: lift.map(|lift| loads(lift, own, context)).unwrap_or_default(),
        own_lift: own.map(|own| own.name.clone()),
        unweighed: unweighed(context),
        lift: lift.map_or_else(String::new, |lift| lift.name.clone()),
        cautions: caution::for_woods(&[Task::Bucking], caution::felled_woods(context), context),
        working: context.route.to(&Page::Working(Topic::Weights)),
    }
}

fn of_tree(found: &TreeFinding, context: &Context<'_>) -> Tree {
    let units = context.units();
    let working = context.route.at(&Page::Working(Topic::Trees), &tree_anchor(&found.tree.tag().0));
    let pieces = || found.pieces.iter().flat_map(|cut| &cut.pieces);
    let fitting = || pieces().filter(|piece| !piece.oversize);
    let show = |inches: f64| thickness(inches, units);
    let middles = match (
        fitting().map(|piece| piece.middle).reduce(f64::max),
        fitting().map(|piece| piece.middle).reduce(f64::min),
    ) {
        (Some(thickest), Some(thinnest)) => format!("{} to {}", show(thickest), show(thinnest)),
        _ if found.counted.is_ok() => "by eye".to_owned(),
        _ => String::new(),
    };
    let green = logs::green(&found.tree.wood.record);
    let volume = fitting().map(|piece| piece.volume).reduce(f64::max);
    let heaviest = volume.and_then(|volume| weight::of_cubic_feet(&green, volume).ok());
    let heaviest = heaviest.map(|mass| Figure::worked(mass.show(units), working.clone()));
    let mut over = Vec::new();
    let thick = pieces().filter(|piece| piece.oversize).count();
    if thick > 0 {
        over.push(format!("{thick} too thick"));
    }
    if found.limb_logs > 0 {
        over.push(format!("{} from limbs", found.limb_logs));
    }
    over.extend(found.pieces.as_ref().map(|cut| format!("top above {}", length_of(cut.last_cut, units))));
    Tree {
        tag: found.tree.tag().to_string(),
        wood: Anchor::wood(&found.tree.wood, context),
        logs: if found.is_counted() {
            Figure::worked(found.logs().to_string(), working.clone())
        } else {
            Figure::gap("not counted")
        },
        middles,
        heaviest,
        over: over.join("; "),
    }
}

/// A height on a stem in whole feet, or in metres with a decimal.
fn length_of(feet: f64, units: Units) -> String {
    match units {
        Units::Us => format!("{} ft", rounded(feet, 0)),
        Units::Metric => format!("{} m", rounded(feet * 0.3048, 1)),
    }
}

fn lots(context: &Context<'_>) -> Vec<Lot> {
    let lots = context.book.lots.values().map(|lot| Lot {
        id: lot.id.clone(),
        name: lot.record.name.clone(),
        wood: Anchor::wood(&lot.wood, context),
        logs: lot.record.logs,
        left: context.findings.left().get(&lot.id).copied().unwrap_or(0),
        from: lot.record.from.clone(),
        felled: lot.record.felled.map(|date| date.show()),
    });
    lots.collect()
}

fn limit(task: &TaskFinding, context: &Context<'_>) -> Limit {
    let units = context.units();
    let figures = logs::diameters(context.book, units).into_iter().map(|diameter| match task.limit(&diameter, units) {
        Ok(limit) if limit.governing().limit > 0.0 => Figure::worked(
            mass(limit.governing().limit, units).show(units),
            context.route.at(&Page::Working(Topic::Lifting), &task.id),
        ),
        Ok(_) => Figure::gap("no load"),
        Err(gap) => Figure::gap(gap.to_string()),
    });
    Limit { name: capital(&task.name), own: task.own, figures: figures.collect() }
}

/// A weight from the pounds or kilograms of a unit set.
fn mass(number: f64, units: Units) -> Mass {
    match units {
        Units::Us => Mass::of_pounds(number),
        Units::Metric => Mass::of_kilograms(number),
    }
}

fn loads(task: &TaskFinding, own: Option<&TaskFinding>, context: &Context<'_>) -> Vec<Load> {
    let loads = context.findings.loads().chunk_by(|a, b| a.wood.id == b.wood.id);
    let of_wood = |logs: &[LoadFinding]| {
        let first = logs.first()?;
        logs.iter().any(|log| log.green.is_ok()).then(|| Load {
            wood: Anchor::wood(&first.wood, context),
            cells: logs.iter().map(|log| cell(log, task, own, context)).collect(),
            note: Some(weight_note(&first.wood)).filter(|_| first.wood.record.bark.is_none()),
        })
    };
    loads.filter_map(of_wood).collect()
}

/// Woods at hand whose weight nobody can tell.
fn unweighed(context: &Context<'_>) -> Vec<Anchor> {
    let loads = context.findings.loads().chunk_by(|a, b| a.wood.id == b.wood.id);
    let unknown = loads.filter(|logs| logs.iter().all(|log| log.green.is_err())).filter_map(<[LoadFinding]>::first);
    unknown.map(|log| Anchor::wood(&log.wood, context)).collect()
}

/// Weight over limit of a log in one lift, to its working.
fn index_of(log: &LoadFinding, task: &TaskFinding, context: &Context<'_>) -> Figure {
    let units = context.units();
    let index = log.mass(task.soaked).and_then(|mass| task.limit(&log.diameter, units)?.index(load(&mass, units)));
    match index {
        Ok(index) => Figure::worked(
            format!("{index:.2}"),
            context.route.at(&Page::Working(Topic::Lifting), &format!("{}-indexes", task.id)),
        ),
        Err(_) => Figure::gap("outside"),
    }
}

fn cell(log: &LoadFinding, task: &TaskFinding, own: Option<&TaskFinding>, context: &Context<'_>) -> Cell {
    let units = context.units();
    Cell {
        green: match &log.green {
            Ok(mass) => {
                Figure::worked(mass.show(units), context.route.at(&Page::Working(Topic::Weights), &log.wood.id))
            }
            Err(gap) => Figure::gap(gap.to_string()),
        },
        soaked: log.mass(true).map(|mass| mass.show(units)).unwrap_or_default(),
        index: index_of(log, task, context),
        own: own.map(|own| index_of(log, own, context)),
    }
}
