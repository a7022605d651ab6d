//! The yard: where it lies, how logs are stacked there, and which stack is for which stage.

use serde::Serialize;

use crate::page::Context;
use crate::page::part::caution::{Along, Cautions, grown};
use crate::page::part::cite::Line;
use crate::page::part::step::Step;
use crate::page::part::{Anchor, Figure, step};
use crate::reckon::Topic;
use crate::reckon::findings::batches;
use crate::reckon::formula::Place;
use crate::record::Kind;
use crate::record::caution::Task;

/// The methods whose remarks stand beside the yard's own.
const BESIDE: [&str; 2] = ["shade-and-water", "resting-and-stacking"];

/// The yard.
#[derive(Debug, Serialize)]
pub struct View {
    about: String,
    steps: Vec<Step>,
    remarks: Vec<Line>,
    beside: Vec<(Anchor, Vec<Line>)>,
    cautions: Cautions,
    logs: u32,
    ground: Figure,
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
        about: own.map(|method| method.about.clone()).unwrap_or_default(),
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
    }
}
