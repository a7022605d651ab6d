//! What holds in other places than the farm's: rules, cautions and season windows, each named as whose it is.

use serde::Serialize;

use super::Context;
use super::part::caution::Caution;
use super::part::cite::Cite;
use super::part::rule::BySubject;
use super::part::{Anchor, capital, holding, rule};
use crate::book;

/// What holds elsewhere.
#[derive(Debug, Serialize)]
pub struct View {
    place: Option<String>,
    subjects: Vec<BySubject>,
    windows: Vec<Window>,
    /// Cautions, each with the places whose it is.
    cautions: Vec<(Option<String>, Caution)>,
}

/// A season window of another place.
#[derive(Debug, Serialize)]
struct Window {
    id: String,
    name: String,
    kind: &'static str,
    when: String,
    whose: Option<String>,
    standing: Option<String>,
    woods: Vec<Anchor>,
    mushrooms: Vec<Anchor>,
    says: String,
    cite: Cite,
}

/// The view of what holds elsewhere.
pub fn view(context: &Context<'_>) -> View {
    let elsewhere = &context.book.elsewhere;
    View {
        place: context.book.here.name(),
        subjects: rule::by_subject(&elsewhere.rules, context),
        windows: elsewhere.windows.values().map(|window| of_window(window, context)).collect(),
        cautions: elsewhere
            .cautions
            .values()
            .map(|caution| {
                let whose = holding::places(&caution.record.holds, context).map(|places| capital(&places));
                (whose, Caution::of(caution, context))
            })
            .collect(),
    }
}

fn of_window(window: &book::Window, context: &Context<'_>) -> Window {
    let record = &window.record;
    Window {
        id: window.id.clone(),
        name: record.name.clone(),
        kind: record.kind.words(),
        when: format!("{} to {}", record.from.show(context.units()), record.to.show(context.units())),
        whose: holding::places(&record.holds, context),
        standing: holding::standing(&record.holds, record.mark, context),
        woods: window.woods.iter().map(|wood| Anchor::wood(wood, context)).collect(),
        mushrooms: window.mushrooms.iter().map(|mushroom| Anchor::mushroom(mushroom, context)).collect(),
        says: record.says.clone(),
        cite: Cite::by(record, context),
    }
}
