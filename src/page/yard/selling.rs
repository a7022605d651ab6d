//! Picking and selling: when each mushroom is ripe, how to pick, cool, pack and label, and which rules to ask about.

use serde::Serialize;

use crate::page::part::caution::Caution;
use crate::page::part::cite::Line;
use crate::page::part::step::Step;
use crate::page::part::{Anchor, caution, step};
use crate::page::{Context, Page};
use crate::record::caution::Task;

/// Picking and selling.
#[derive(Debug, Serialize)]
pub struct View {
    ripe: Vec<Ripe>,
    picking: Vec<Step>,
    selling: Vec<Step>,
    mushrooms: Vec<Said>,
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

/// A mushroom that may be taken for it.
#[derive(Debug, Serialize)]
struct LookAlike {
    name: String,
    scientific: String,
    deadly: bool,
}

/// What sources say of cooking, keeping and selling a mushroom.
#[derive(Debug, Serialize)]
struct Said {
    mushroom: Anchor,
    lines: Vec<Line>,
}

/// The view of picking and selling.
pub fn view(context: &Context<'_>) -> View {
    let grown = context.findings.mushrooms();
    View {
        ripe: grown
            .iter()
            .map(|mushroom| Ripe {
                mushroom: Anchor::mushroom(mushroom, context),
                lines: Line::all(&mushroom.record.picking, context),
                look_alikes: mushroom
                    .record
                    .look_alikes
                    .iter()
                    .map(|other| LookAlike {
                        name: other.name.clone(),
                        scientific: other.scientific.clone(),
                        deadly: other.deadly,
                    })
                    .collect(),
            })
            .collect(),
        picking: step::of_method("picking", context),
        selling: step::of_method("selling", context),
        mushrooms: grown
            .iter()
            .filter(|mushroom| !mushroom.record.food.is_empty())
            .map(|mushroom| Said {
                mushroom: Anchor::mushroom(mushroom, context),
                lines: Line::all(&mushroom.record.food, context),
            })
            .collect(),
        cautions: caution::for_tasks(&[Task::Selling], caution::is_general, context),
        harvests: context.route.to(&Page::Harvests),
        safety: context.route.at(&Page::Safety, Task::Selling.id()),
    }
}
