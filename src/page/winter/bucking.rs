//! Cutting to length: the logs of each tree that comes down, what they weigh, and what one person may lift.

use serde::Serialize;

use crate::page::part::caution::Caution;
use crate::page::part::weight::weight_note;
use crate::page::part::{Anchor, Figure, capital, caution, thickness};
use crate::page::{Context, Page};
use crate::quantity::measure::rounded;
use crate::quantity::{Length, Units};
use crate::reckon::bolts::Pieces;
use crate::reckon::findings::{LimitFinding, TaskFinding, TreeFinding, WoodWeight, logs};
use crate::reckon::holes::girth;
use crate::reckon::lifting::Index;
use crate::reckon::{Topic, formula};
use crate::record::caution::Task;

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
pub fn view(context: &Context<'_>) -> View {
    let units = context.units();
    let lift = context.findings.lifts().first();
    let own = context.findings.lifts().last().filter(|lift| lift.own);
    let (weighed, unweighed): (Vec<_>, Vec<_>) = context.findings.loads().partition(|of| of.density.result.is_ok());
    View {
        length: context.book.farm.record.log.length.show(units),
        diameters: logs::diameters(context.book, units)
            .iter()
            .map(|diameter| format!("{} ({} around)", diameter.show(units), girth(diameter).show(units)))
            .collect(),
        trees: context.findings.felled().map(|tree| of_tree(tree, context)).collect(),
        lots: lots(context),
        limits: context.findings.lifts().iter().map(|task| limit(task, context)).collect(),
        loads: lift
            .map(|lift| weighed.into_iter().map(|of| load(of, lift, own, context)).collect())
            .unwrap_or_default(),
        own_lift: own.map(|own| own.name.clone()),
        unweighed: unweighed.into_iter().map(|of| Anchor::wood(&of.wood, context)).collect(),
        lift: lift.map_or_else(String::new, |lift| lift.name.clone()),
        cautions: caution::for_woods(&[Task::Bucking], caution::felled_woods(context), context),
        working: context.route.to(&Page::Working(Topic::Weights)),
    }
}

fn of_tree(found: &TreeFinding, context: &Context<'_>) -> Tree {
    let units = context.units();
    let place = found.place();
    let middles = || found.fitting().map(|piece| piece.middle.inches());
    let show = |inches: f64| thickness(inches, units);
    let middles = match (middles().reduce(f64::max), middles().reduce(f64::min)) {
        (Some(thickest), Some(thinnest)) => format!("{} to {}", show(thickest), show(thinnest)),
        _ if found.counted.is_ok() => "by eye".to_owned(),
        _ => String::new(),
    };
    let mut over = Vec::new();
    let thick = found.pieces.as_ref().map_or(0, Pieces::oversize);
    if thick > 0 {
        over.push(format!("{thick} too thick"));
    }
    if found.limb_logs > 0 {
        over.push(format!("{} from limbs", found.limb_logs));
    }
    over.extend(found.pieces.as_ref().map(|cut| format!("top above {}", height(&cut.last_cut, units))));
    Tree {
        tag: found.tree.tag().to_string(),
        wood: Anchor::wood(&found.tree.wood, context),
        logs: if found.is_counted() {
            Figure::worked(found.logs().to_string(), &place, context)
        } else {
            Figure::gap("not counted")
        },
        middles,
        heaviest: found.heaviest().map(|mass| Figure::worked(mass.show(units), &place, context)),
        over: over.join("; "),
    }
}

/// A height on a stem in whole feet, or in metres with a decimal.
fn height(height: &Length, units: Units) -> String {
    match units {
        Units::Us => format!("{} ft", rounded(height.feet(), 0)),
        Units::Metric => format!("{} m", rounded(height.base(), 1)),
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
    let figure = |limit: &LimitFinding| match (&limit.limit.result, limit.lowest()) {
        (Err(_), Some(_)) => Figure::gap("no load"),
        _ => Figure::of(&limit.limit, context),
    };
    Limit { name: capital(&task.name), own: task.own, figures: task.limits.iter().map(figure).collect() }
}

fn load(of: &WoodWeight, task: &TaskFinding, own: Option<&TaskFinding>, context: &Context<'_>) -> Load {
    let indexes = |task: &TaskFinding| -> Vec<Figure> {
        let index = |index: formula::Figure<Index>| match index.result {
            Ok(_) => Figure::of(&index, context),
            Err(_) => Figure::gap("outside"),
        };
        task.indexes(&of.logs).map(index).collect()
    };
    let owns = own.map_or_else(|| vec![None; of.logs.len()], |own| indexes(own).into_iter().map(Some).collect());
    let cells = of.logs.iter().zip(indexes(task)).zip(owns).map(|((log, index), own)| Cell {
        green: Figure::of(&log.green, context),
        soaked: log.mass(true).map(|mass| mass.show(context.units())).unwrap_or_default(),
        index,
        own,
    });
    Load {
        wood: Anchor::wood(&of.wood, context),
        cells: cells.collect(),
        note: Some(weight_note(&of.wood)).filter(|_| of.wood.record.bark.is_none()),
    }
}
