//! Retiring: when a log is spent, and where it may go.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::page::leaf::Leaf;
use crate::page::part::caution::{Along, Cautions, grown};
use crate::page::part::cite::Line;
use crate::page::part::step::Step;
use crate::page::part::table::{Cell, cell};
use crate::page::part::{Anchor, Figure, ordinal_word, step};
use crate::page::{Context, Page};
use crate::quantity::count;
use crate::reckon::Topic;
use crate::reckon::findings::BatchFinding;
use crate::reckon::findings::batches::Stage;
use crate::reckon::formula::Place;
use crate::record::Kind;
use crate::record::caution::Task;

/// The most batches that are told one by one.
const MOST: usize = 20;

/// Retiring logs.
#[derive(Debug, Serialize)]
pub struct View {
    method: String,
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
        method: context.route.record(Kind::Method, "retiring"),
        old: all_old(context),
        lives: Line::of_grown(|record| &record.yields, context),
        cautions: along.take(Task::Hauling),
        steps: step::all(steps, &mut along, context),
        remarks: method.map(|method| Line::all(&method.remarks, context)).unwrap_or_default(),
        batches: context.route.to(&Page::Batches),
    }
}

/// Whether a batch is in the last year that a source gives, or past it.
fn is_old(found: &BatchFinding) -> bool {
    match found.stage {
        Stage::Old => true,
        Stage::Cropping(crop) => found.longest() == Some(crop),
        _ => false,
    }
}

/// A batch in or past its last years.
fn old(found: &BatchFinding, context: &Context<'_>) -> Cell {
    let why = match found.stage {
        Stage::Cropping(crop) => format!("in its {} crop year, the last that any source gives", ordinal_word(crop)),
        _ => "past every published life".to_owned(),
    };
    let why = Figure::worked(why, &Place::new(Topic::Yard, "life"), context);
    cell![Anchor::batch(&found.batch, context), ": ", why]
}

/// Batches in or past their last years: one by one, or by their years where they are many.
fn all_old(context: &Context<'_>) -> Vec<Cell> {
    let all: Vec<&BatchFinding> = context.findings.batches().iter().filter(|found| is_old(found)).collect();
    if all.len() <= MOST {
        return all.into_iter().map(|found| old(found, context)).collect();
    }
    let mut years: BTreeMap<i16, usize> = BTreeMap::new();
    for found in all {
        *years.entry(found.batch.year).or_default() += 1;
    }
    let year = |(year, batches): (i16, usize)| {
        let page = Page::BatchesOf(Leaf::first(year));
        let link = Anchor::to(context.route.to(&page), page.title(context), context);
        cell![link, format!(": {} in or past the last year that any source gives", count(batches, "batch", "batches"))]
    };
    years.into_iter().map(year).collect()
}
