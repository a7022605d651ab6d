//! Cutting to length: the logs of each tree that comes down, what they weigh, and what one person may lift.

use serde::Serialize;

use crate::page::part::caution::{Cautions, Subject};
use crate::page::part::help::Rescue;
use crate::page::part::table::{Cell, Part, Table, cell, list, or_dash};
use crate::page::part::weight::{about, about_range};
use crate::page::part::{Anchor, Figure, caution, falling, gate, help, lift, thickness};
use crate::page::{Context, Page};
use crate::quantity::measure::rounded;
use crate::quantity::{Length, Units, count};
use crate::reckon::Topic;
use crate::reckon::bolts::Pieces;
use crate::reckon::findings::{TreeFinding, WoodWeight, logs};
use crate::reckon::holes::girth;
use crate::record::Kind;
use crate::record::caution::Task;

/// The most lots that the sheet tells.
const LOTS: usize = 12;

/// The sheet of log weights.
#[derive(Debug, Serialize)]
pub struct View {
    trees: Option<Table>,
    parts: Vec<Anchor>,
    lots: Vec<Cell>,
    more_lots: usize,
    ledger: String,
    limits: Option<Table>,
    thickest: Option<Table>,
    /// What our logs weigh beside what one person may lift, drawn, with what it shows.
    picture: Option<(String, String)>,
    loads: Option<Table>,
    unweighed: Vec<Anchor>,
    gate: Vec<&'static str>,
    cautions: Cautions,
    rescue: Rescue,
    working: String,
}

/// The view of the sheet of log weights, or of its first part where the trees fill several.
pub fn view(context: &Context<'_>) -> View {
    view_of(0, context)
}

/// The view of a part.
pub fn view_of(part: usize, context: &Context<'_>) -> View {
    let page = |part| if part == 0 { Page::Bucking } else { Page::BuckingPart(part) };
    let units = context.units();
    let (weighed, unweighed): (Vec<_>, Vec<_>) = context.findings.loads().partition(|of| of.ends.is_ok());
    let (lots, more_lots) = if part == 0 { lots(context) } else { (Vec::new(), 0) };
    let around = |diameter: &Length| format!("{} ({} around)", diameter.show(units), girth(diameter).show(units));
    let diameters: Vec<String> = logs::diameters(context.book, units).iter().map(around).collect();
    View {
        trees: trees(part, context),
        parts: falling::links(part, page, context),
        lots,
        more_lots,
        ledger: context.route.to(&Page::Ledger),
        limits: lift::limits(&context.findings.lifts().iter().collect::<Vec<_>>(), context),
        thickest: lift::thickest_by_wood(&weighed, context),
        picture: lift::picture(&weighed, context),
        loads: loads(&weighed, &diameters, context),
        unweighed: unweighed.into_iter().map(|of| Anchor::wood(&of.wood, context)).collect(),
        gate: gate::of(gate::BUCKING, context),
        cautions: Cautions::of(Task::Bucking, &Subject::woods(caution::felled_woods(context)), context),
        rescue: help::rescue_at_saw(context),
        working: context.route.to(&Page::Working(Topic::Weights)),
    }
}

/// The logs of each tree of a part, in the order of the felling sheet.
fn trees(part: usize, context: &Context<'_>) -> Option<Table> {
    let sheets = falling::sheets(context.findings);
    let falling = sheets.get(part).into_iter().flatten().flat_map(|falling| falling.trees.iter().copied());
    let units = context.units();
    let caption = format!("Logs {} long, measured over bark", context.book.farm.record.log.length.show(units));
    let worked = |found: &TreeFinding, text: String| Figure::worked(text, &found.place(), context);
    Table::of("facts tally walk stack", &caption, falling)
        .wide("The logs of each tree")
        .column("Cut", |_| Part::Tick)
        .head("Tag", |found| found.tree.tag().to_string())
        .column("Wood", |found| Anchor::wood(&found.tree.wood, context))
        .number("Logs", |found| {
            if found.is_counted() { worked(found, found.logs().to_string()) } else { Figure::gap("not counted") }
        })
        .column("Mid-log thickness", |found| {
            let middles = || found.fitting().map(|piece| piece.middle.inches());
            match (middles().reduce(f64::max), middles().reduce(f64::min)) {
                (Some(thickest), Some(thinnest)) => {
                    let [thickest, thinnest] = [thickest, thinnest].map(|end| thickness(end, units));
                    if thickest == thinnest { thickest } else { format!("{thickest} to {thinnest}") }
                }
                _ if found.counted.is_ok() => "by eye".to_owned(),
                _ => String::new(),
            }
        })
        .number("Heaviest", |found| or_dash(found.heaviest().map(|ends| worked(found, about_range(&ends, units)))))
        .column("Not used", |found| {
            let thick = found.pieces.as_ref().map_or(0, Pieces::oversize);
            let thick = (thick > 0).then(|| format!("{thick} too thick"));
            let limbs = (found.limb_logs > 0).then(|| format!("{} from limbs", found.limb_logs));
            let top = found.pieces.as_ref().map(|cut| format!("top above {}", height(&cut.last_cut, units)));
            list("; ", [thick, limbs, top].into_iter().flatten())
        })
        .done()
}

/// A height on a stem in whole feet, or in metres with a decimal.
fn height(height: &Length, units: Units) -> String {
    match units {
        Units::Us => format!("{} ft", rounded(height.feet(), 0)),
        Units::Metric => format!("{} m", rounded(height.base(), 1)),
    }
}

/// The lots of logs that lie ready, as many as a sheet holds, and how many more there are.
fn lots(context: &Context<'_>) -> (Vec<Cell>, usize) {
    let waiting = context.book.lots.values().map(|lot| (lot, context.findings.ledger().waiting(lot)));
    let lots: Vec<_> = waiting.filter(|(_, left)| *left > 0).collect();
    let told = lots.iter().take(LOTS).map(|(lot, left)| {
        let logs = format!(": {left} of {} of ", count(lot.logs, "log", "logs"));
        let felled = lot.felled.map(|days| format!(", felled {}", days.show(context.units())));
        let from = lot.record.from.as_ref().map(|from| Part::Small(format!("From: {from}").into()));
        let name = Anchor::record(Kind::Lot, &lot.id, context);
        cell![name, logs, Anchor::wood(&lot.wood, context), " left", felled, ". ", from]
    });
    (told.collect(), lots.len().saturating_sub(LOTS))
}

/// What logs of each wood weigh, green, and soaked at the most.
fn loads(weighed: &[&WoodWeight], diameters: &[String], context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let length = context.book.farm.record.log.length.show(units);
    let caption = format!("Logs {length} long: green from the driest to the wettest, and soaked at the most");
    let table = Table::of("facts", &caption, weighed.iter().copied())
        .wide("Weights")
        .head("Wood", |of| lift::weighed_wood(of, context));
    let columns = diameters.iter().enumerate().fold(table, |table, (place, diameter)| {
        table.column(diameter, |of| {
            let log = of.logs.get(place)?;
            let (green, soaked) = (log.span(false).ok()?, log.heaviest(true).ok()?);
            let green = Figure::worked(about_range(&green, units), &log.green.place, context);
            Some(cell![green, format!(", wet {}", about(&soaked, units))])
        })
    });
    columns.done()
}
