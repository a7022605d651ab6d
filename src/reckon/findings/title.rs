//! The dated work of the season in a few words, for the calendar, its table and the list of the months.

use std::sync::Arc;

use super::agenda::{What, Work};
use super::lying::Lying;
use crate::book::{Mushroom, Strain, Wood};
use crate::quantity::count;
use crate::record::plan::Item;

/// Names that a title gives before it counts the others.
const NAMED: usize = 3;

impl Work {
    /// The work in a few words, and how far its days may be wrong where they are modelled.
    pub fn title(&self) -> String {
        let words = self.words();
        match self.basis.doubt() {
            Some(doubt) => format!("{words} ({doubt})"),
            None => words,
        }
    }

    /// The work in a few words.
    pub fn words(&self) -> String {
        match &self.what {
            What::Fell { woods, .. } => format!("Fell {}", few(&names(woods), "woods")),
            What::NoCut(window) if window.woods.is_empty() => "Do not cut any tree".to_owned(),
            What::NoCut(window) => format!("Do not cut {}", few(&names(&window.woods), "woods")),
            What::Order { item, strain, .. } => format!("Last day to order {}", ware(*item, strain.as_deref())),
            What::UseUp { item, strain, lot, .. } => {
                let lot = lot.as_ref().map_or_else(String::new, |lot| format!(", lot {lot}"));
                format!("Last day of the opened {}{lot}", ware(*item, strain.as_deref()))
            }
            What::Inoculate { mushrooms, woods, others, .. } => {
                let mushrooms: Vec<&str> = mushrooms.iter().map(|mushroom| Mushroom::name(mushroom)).collect();
                let on = if *others { format!(" on {}", few(&names(woods), "woods")) } else { String::new() };
                format!("Inoculate {}{on}", few(&mushrooms, "mushrooms"))
            }
            What::Rest(lying) => format!("{}, {}: felled, resting", lying.lot.record.name, logs(lying)),
            What::Rested(lying) => format!("{}, {}: ready by our rest", lying.lot.record.name, logs(lying)),
            What::Fill(lying, fill) => {
                let mushrooms: Vec<&str> = fill.mushrooms.iter().map(|mushroom| Mushroom::name(mushroom)).collect();
                format!("Fill {}, {}, with {}", lying.lot.record.name, logs(lying), few(&mushrooms, "mushrooms"))
            }
            What::FirstFruit { batch, .. } => format!("Look for the first mushrooms: {}", batch.name),
            What::Soak(strain, turn) => {
                format!("Soak {} of {}, group {}", count(turn.count(), "log", "logs"), strain.record.name, turn.group)
            }
            What::Other(window) => window.record.name.clone(),
        }
    }
}

/// The logs of a lot that lie.
fn logs(lying: &Lying) -> String {
    count(lying.logs, "log", "logs")
}

/// What is bought: the item, and of spawn its strain.
pub fn ware(item: Item, strain: Option<&Strain>) -> String {
    let word = item.words();
    strain.map_or_else(|| word.to_owned(), |strain| format!("{word} of {}", strain.record.name))
}

/// The names of woods; of a group, the shorter one.
pub fn names(woods: &[Arc<Wood>]) -> Vec<&str> {
    let place = |wood: &Wood| usize::from(!wood.is_species());
    woods.iter().map(|wood| wood.record.names.get(place(wood)).map_or_else(|| wood.name(), String::as_str)).collect()
}

/// Names in one sentence part, some of them counted.
fn few(names: &[&str], noun: &str) -> String {
    match names {
        [] => noun.to_owned(),
        [one] => (*one).to_owned(),
        [first @ .., last] if names.len() <= NAMED => format!("{} and {last}", first.join(", ")),
        names => format!("{} and {} more {noun}", names[..NAMED - 1].join(", "), names.len() - NAMED + 1),
    }
}
