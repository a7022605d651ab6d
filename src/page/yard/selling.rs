//! Picking and selling: when each mushroom is ripe, how to pick, cool, pack and label, and which rules to ask about.

use serde::Serialize;

use crate::page::part::caution::{Along, Cautions, grown};
use crate::page::part::cite::Line;
use crate::page::part::look_alike::{self, LookAlike, own_print};
use crate::page::part::step::Step;
use crate::page::part::{Anchor, gate, step};
use crate::page::{Context, Page};
use crate::record::Kind;
use crate::record::caution::Task;

/// Picking and selling.
#[derive(Debug, Serialize)]
pub struct View {
    ripe: Vec<(Anchor, Vec<Line>, Vec<LookAlike>, String)>,
    picking: Vec<Step>,
    selling: Vec<Step>,
    mushrooms: Vec<(Anchor, Vec<Line>)>,
    gate: Vec<&'static str>,
    harvest: Cautions,
    market: Cautions,
    harvests: String,
    how_to_pick: String,
    how_to_sell: String,
    sales: String,
    key: Anchor,
}

/// The view of picking and selling.
pub fn view(context: &Context<'_>) -> View {
    let [picking, selling] = ["picking", "selling"].map(|method| step::of_method(method, context));
    let steps = step::tasks(picking).chain(step::tasks(selling));
    let tasks = [Task::Harvest, Task::Selling].into_iter().chain(steps);
    let mut along = Along::new(tasks, &grown(context), context);
    View {
        gate: gate::of(gate::PICKING, context),
        harvest: along.take(Task::Harvest),
        market: along.take(Task::Selling),
        ripe: context
            .findings
            .mushrooms()
            .iter()
            .map(|mushroom| {
                let lines = Line::all(&mushroom.record.picking, context);
                (Anchor::mushroom(mushroom, context), lines, look_alike::all(mushroom, context), own_print(mushroom))
            })
            .collect(),
        picking: step::all(picking, &mut along, context),
        selling: step::all(selling, &mut along, context),
        mushrooms: Line::of_grown(|record| &record.food, context),
        how_to_pick: context.route.record(Kind::Method, "picking"),
        how_to_sell: context.route.record(Kind::Method, "selling"),
        harvests: context.route.to(&Page::Harvests),
        sales: context.route.to(&Page::Sales),
        key: Anchor::page(&Page::KeyMushroom, context),
    }
}
