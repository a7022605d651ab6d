//! Picking and selling: when each mushroom is ripe, how to pick, cool, pack and label, and which rules to ask about.

use serde::Serialize;

use crate::page::part::caution::Caution;
use crate::page::part::cite::Line;
use crate::page::part::step::Step;
use crate::page::part::{Anchor, caution, step};
use crate::page::{Context, Page};
use crate::record::caution::Task;
use crate::record::mushroom::LookAlike;

/// Picking and selling.
#[derive(Debug, Serialize)]
pub struct View {
    ripe: Vec<(Anchor, Vec<Line>, Vec<LookAlike>)>,
    picking: Vec<Step>,
    selling: Vec<Step>,
    mushrooms: Vec<(Anchor, Vec<Line>)>,
    cautions: Vec<Caution>,
    harvests: String,
    safety: String,
}

/// The view of picking and selling.
pub fn view(context: &Context<'_>) -> View {
    View {
        ripe: context
            .findings
            .mushrooms()
            .iter()
            .map(|mushroom| {
                let lines = Line::all(&mushroom.record.picking, context);
                (Anchor::mushroom(mushroom, context), lines, mushroom.record.look_alikes.clone())
            })
            .collect(),
        picking: step::of_method("picking", context),
        selling: step::of_method("selling", context),
        mushrooms: Line::of_grown(|record| &record.food, context),
        cautions: caution::for_tasks(&[Task::Selling], caution::is_general, context),
        harvests: context.route.to(&Page::Harvests),
        safety: context.route.at(&Page::Safety, Task::Selling.id()),
    }
}
