//! Cutting to length: what a green log of each wood weighs, before anyone lifts it.

use serde::Serialize;

use super::{
    Context, Page,
    part::{
        Anchor, Figure,
        caution::{self, Caution},
    },
    wood::weight_note,
};
use crate::{
    reckon::{
        findings::{Weight, logs},
        holes::girth,
    },
    record::caution::Task,
};

/// The sheet of log weights.
#[derive(Debug, Serialize)]
pub struct View {
    length: String,
    diameters: Vec<String>,
    own: Vec<Row>,
    others: Vec<Row>,
    gaps: bool,
    cautions: Vec<Caution>,
    working: String,
}

/// One wood's weights.
#[derive(Debug, Serialize)]
struct Row {
    wood: Anchor,
    figures: Vec<Figure>,
    note: &'static str,
}

/// The view of the sheet of log weights.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let units = context.units();
    let at_hand = |id: &str| context.findings.woods.iter().any(|wood| wood.id == id);
    let rows = |own: bool| -> Vec<Row> {
        let mut rows: Vec<(f64, Row)> = context
            .findings
            .weights
            .chunk_by(|a, b| a.wood.id == b.wood.id)
            .filter(|weights| weights.first().is_some_and(|weight| at_hand(&weight.wood.id) == own))
            .filter(|weights| own || weights.iter().all(|weight| weight.mass.is_ok()))
            .filter_map(|weights| row(weights, context))
            .collect();
        rows.sort_by(|a, b| b.0.total_cmp(&a.0));
        rows.into_iter().map(|(_, row)| row).collect()
    };
    let own = rows(true);
    View {
        gaps: own.iter().flat_map(|row| &row.figures).any(|figure| figure.gap),
        length: context.book.farm.record.log.length.show(units),
        diameters: logs::diameters(context.book, units)
            .iter()
            .map(|diameter| format!("{} ({} around)", diameter.show(units), girth(diameter).show(units)))
            .collect(),
        own,
        others: rows(false),
        cautions: caution::for_tasks(&[Task::Bucking], caution::is_general, context),
        working: context.route.to(&Page::WorkingWeights),
    }
}

fn row(weights: &[Weight], context: &Context<'_>) -> Option<(f64, Row)> {
    let first = weights.first()?;
    let figures = weights.iter().map(|weight| match &weight.mass {
        Ok(mass) => {
            Figure::worked(mass.show(context.units()), context.route.at(&Page::WorkingWeights, &weight.wood.id))
        }
        Err(gap) => Figure::gap(gap.to_string()),
    });
    let heaviest = weights
        .iter()
        .filter_map(|weight| weight.mass.as_ref().ok())
        .map(crate::quantity::measure::Mass::base)
        .fold(0.0, f64::max);
    Some((
        heaviest,
        Row { wood: Anchor::wood(&first.wood, context), figures: figures.collect(), note: weight_note(&first.wood) },
    ))
}
