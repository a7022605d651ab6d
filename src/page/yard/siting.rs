//! The yard: where it lies, how logs are stacked there, and which stack is for which stage.

use serde::Serialize;

use crate::book::Rule as Bound;
use crate::page::Context;
use crate::page::part::caution::{Along, Cautions, Subject, grown};
use crate::page::part::cite::Line;
use crate::page::part::rule::Rule;
use crate::page::part::step::Step;
use crate::page::part::table::{Cell, Part, Table, or_dash};
use crate::page::part::{Anchor, Figure, rule, step};
use crate::quantity::count;
use crate::reckon::Topic;
use crate::reckon::findings::batches;
use crate::reckon::formula::Place;
use crate::record::Kind;
use crate::record::caution::Task;
use crate::record::farm::Yard;
use crate::record::rule::Subject as About;

/// The methods whose remarks stand beside the yard's own.
const BESIDE: [&str; 2] = ["shade-and-water", "resting-and-stacking"];

/// The yard.
#[derive(Debug, Serialize)]
pub struct View {
    method: String,
    steps: Vec<Step>,
    remarks: Vec<Line>,
    beside: Vec<(Anchor, Vec<Line>)>,
    cautions: Cautions,
    logs: u32,
    ground: Figure,
    yards: Option<Table>,
    leaving: Option<Leaving>,
}

/// Logs that lie on other people's land, and what holds where wood is moved.
#[derive(Debug, Serialize)]
struct Leaving {
    batches: Vec<Anchor>,
    rules: Vec<Rule>,
    unknown: Option<&'static str>,
}

/// The view of the yard.
pub fn view(context: &Context<'_>) -> View {
    let method = |id: &str| context.book.methods.get(id);
    let own = method("siting").map(|method| &method.record);
    let steps = step::of_method("siting", context);
    let tasks = [Task::Stacking].into_iter().chain(step::tasks(steps));
    let mut along = Along::new(tasks, &grown(context), context);
    let logs: u32 = context.findings.batches().iter().map(crate::reckon::findings::BatchFinding::left).sum();
    View {
        method: context.route.record(Kind::Method, "siting"),
        cautions: along.take(Task::Stacking),
        steps: step::all(steps, &mut along, context),
        remarks: own.map(|method| Line::all(&method.remarks, context)).unwrap_or_default(),
        beside: BESIDE
            .into_iter()
            .filter_map(method)
            .map(|method| {
                let remarks = Line::all(&method.record.remarks, context);
                (Anchor::record(Kind::Method, &method.id, context), remarks)
            })
            .collect(),
        logs,
        ground: Figure::worked(
            batches::ground(context.findings.batches()).show(context.units()),
            &Place::new(Topic::Supply, "planning"),
            context,
        ),
        yards: yards(context),
        leaving: leaving(context),
    }
}

/// The yards of the farm, and what lies in each.
fn yards(context: &Context<'_>) -> Option<Table> {
    let lies = |yard: &Yard| {
        let here = |(name, logs): &(String, u32)| (*name == yard.name).then_some(*logs);
        let batches = context.findings.batches().iter();
        batches.flat_map(|found| &found.yards).filter_map(here).sum::<u32>()
    };
    let remarks = |yard: &Yard| {
        let indoors = yard.indoors.then_some("indoors: neither season nor frost reaches it");
        let off = yard.off_property.then_some("on other people's land");
        [indoors, off].into_iter().flatten().collect::<Vec<_>>().join("; ")
    };
    let yards = &context.book.farm.record.yards;
    let table = Table::of("facts stack", "Our yards", yards)
        .id("yards")
        .head("Yard", |yard| yard.name.clone())
        .number("Logs", lies)
        .column("Shade", |yard| or_nothing(yard.shade.clone()))
        .column("Water", |yard| or_nothing(yard.water.clone()));
    let own = yards.iter().any(|yard| yard.tank.is_some());
    let tank = |yard: &Yard| or_dash(yard.tank.map(|logs| count(logs, "log", "logs")));
    let table = if own { table.column("Own tank", tank) } else { table };
    let told = yards.iter().any(|yard| yard.indoors || yard.off_property);
    let table = if told { table.column("Where", |yard| or_nothing(Some(remarks(yard)))) } else { table };
    table.done()
}

/// The batches that lie on other people's land, with the rules of moving wood; nothing where none does.
fn leaving(context: &Context<'_>) -> Option<Leaving> {
    let off = |(name, _): &(String, u32)| context.book.farm.yard(name).is_some_and(|yard| yard.off_property);
    let gone =
        || context.findings.batches().iter().filter(|found| found.yards.iter().any(off)).map(|found| &found.batch);
    gone().next()?;
    let subject = Subject::woods(gone().filter_map(|batch| batch.wood.as_ref()));
    let is_met = |rule: &Bound| rule.record.about == About::MovingWood && subject.is_met_by(rule);
    Some(Leaving {
        batches: gone().map(|batch| Anchor::batch(batch, context)).collect(),
        unknown: rule::unknown(About::MovingWood, context),
        rules: rule::some(is_met, context),
    })
}

fn or_nothing(words: Option<String>) -> Cell {
    words.filter(|words| !words.is_empty()).map_or(Part::Nothing.into(), Cell::from)
}
