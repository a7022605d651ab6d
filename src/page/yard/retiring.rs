//! Retiring: when a log is spent, and where it may go.

use serde::Serialize;

use crate::page::part::caution::{Along, Cautions, grown};
use crate::page::part::cite::Line;
use crate::page::part::step::Step;
use crate::page::part::table::{Cell, cell};
use crate::page::part::{Anchor, Figure, ordinal_word, step};
use crate::page::{Context, Page};
use crate::reckon::Topic;
use crate::reckon::findings::BatchFinding;
use crate::reckon::findings::batches::Stage;
use crate::reckon::formula::Place;
use crate::record::caution::Task;

/// Retiring logs.
#[derive(Debug, Serialize)]
pub struct View {
    about: String,
    old: Vec<Cell>,
    lives: Vec<(Anchor, Vec<Line>)>,
    steps: Vec<Step>,
    remarks: Vec<Line>,
    cautions: Cautions,
    batches: String,
}

/// The view of retiring.
pub fn view(context: &Context<'_>) -> View {
    let method = context.book.methods.get("retiring").map(|method| &method.record);
    let steps = step::of_method("retiring", context);
    let tasks = [Task::Hauling].into_iter().chain(step::tasks(steps));
    let mut along = Along::new(tasks, &grown(context), context);
    View {
        about: method.map(|method| method.about.clone()).unwrap_or_default(),
        old: context.findings.batches().iter().filter_map(|found| old(found, context)).collect(),
        lives: Line::of_grown(|record| &record.yields, context),
        cautions: along.take(Task::Hauling),
        steps: step::all(steps, &mut along, context),
        remarks: method.map(|method| Line::all(&method.remarks, context)).unwrap_or_default(),
        batches: context.route.to(&Page::Batches),
    }
}

/// A batch in or past its last years.
fn old(found: &BatchFinding, context: &Context<'_>) -> Option<Cell> {
    let why = match (found.stage, found.longest()) {
        (Stage::Old, _) => "past every published life".to_owned(),
        (Stage::Cropping(crop), Some(longest)) if crop == longest => {
            format!("in its {} crop year, the last that any source gives", ordinal_word(crop))
        }
        _ => return None,
    };
    let why = Figure::worked(why, &Place::new(Topic::Yard, "life"), context);
    Some(cell![Anchor::batch(&found.batch, context), ": ", why])
}
