//! Picking and selling: when each mushroom is ripe, how to pick, cool, pack and label, and which rules to ask about.

use serde::Serialize;

use crate::page::part::caution::Caution;
use crate::page::part::cite::Line;
use crate::page::part::look_alike::LookAlike;
use crate::page::part::step::Step;
use crate::page::part::{Anchor, caution, look_alike, step};
use crate::page::{Context, Page};
use crate::record::caution::Task;

/// Picking and selling.
#[derive(Debug, Serialize)]
pub struct View {
    ripe: Vec<Ripe>,
    picking: Vec<Step>,
    selling: Vec<Step>,
    mushrooms: Vec<(Anchor, Vec<Line>)>,
    cautions: Vec<Caution>,
    harvests: String,
    safety: String,
}

/// When a mushroom is ripe.
#[derive(Debug, Serialize)]
struct Ripe {
    mushroom: Anchor,
    lines: Vec<Line>,
    look_alikes: Vec<LookAlike>,
}

/// The view of picking and selling.
pub fn view(context: &Context<'_>) -> View {
    View {
        ripe: context
            .findings
            .mushrooms()
            .iter()
            .map(|mushroom| Ripe {
                mushroom: Anchor::mushroom(mushroom, context),
                lines: Line::all(&mushroom.record.picking, context),
                look_alikes: look_alike::all(mushroom, context),
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
