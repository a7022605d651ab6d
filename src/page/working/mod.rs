//! The working behind the figures: formula, numbers put in, result, source.

pub mod allocation;
pub mod climate;
pub mod fruiting;
pub mod inoculation;
pub mod lifting;
pub mod moisture;
pub mod pairings;
pub mod seasons;
pub mod stands;
pub mod supply;
pub mod tree_key;
pub mod trees;
pub mod weights;
pub mod yard;

use serde::Serialize;
use serde_json::Value;
use strum::IntoEnumIterator;

use super::leaf::Grove;
use super::name::json;
use super::part::Anchor;
use super::part::cite::Cite;
use super::part::worked::{Cited, Part};
use super::{Context, Page};
use crate::quantity::measure::rounded;
use crate::reckon::formula::Formula;
use crate::reckon::{Topic, pairing};
use crate::record::evidence::EvidenceKind;
use crate::record::table::Table as Name;

pub use pairings::view as pairings;

/// The working of a topic: its formulas, and the figures that they made.
#[derive(Debug, Serialize)]
pub struct View {
    name: &'static str,
    parts: Vec<Part>,
}

/// The formulas of a topic.
pub const fn formulas(topic: Topic) -> &'static [&'static Formula] {
    match topic {
        Topic::Seasons => seasons::FORMULAS,
        Topic::Weights => weights::FORMULAS,
        Topic::Inoculation => inoculation::FORMULAS,
        Topic::Trees => trees::FORMULAS,
        Topic::Stands => stands::FORMULAS,
        Topic::Lifting => lifting::FORMULAS,
        Topic::Allocation => allocation::FORMULAS,
        Topic::Supply => supply::FORMULAS,
        Topic::Moisture => moisture::FORMULAS,
        Topic::Climate => climate::FORMULAS,
        Topic::Fruiting => fruiting::FORMULAS,
        Topic::Yard => yard::FORMULAS,
        Topic::TreeKey => tree_key::FORMULAS,
    }
}

/// The view of the working of a topic.
pub fn view(topic: Topic, context: &Context<'_>) -> Value {
    let parts = match topic {
        Topic::Seasons => seasons::parts(context),
        Topic::Climate => climate::parts(context),
        Topic::Weights => weights::parts(context),
        Topic::Inoculation => inoculation::parts(context),
        Topic::Trees => trees::parts(context),
        Topic::Stands => stands::parts(context),
        Topic::Lifting => lifting::parts(context),
        Topic::Allocation => allocation::parts(context),
        Topic::Supply => supply::parts(context),
        Topic::Moisture => moisture::parts(context),
        Topic::Fruiting => fruiting::parts(context),
        Topic::Yard => yard::parts(context),
        Topic::TreeKey => tree_key::parts(context),
    };
    json(View { name: topic.name(), parts })
}

/// The view of the working behind some trees.
pub fn of_trees(grove: &Grove, context: &Context<'_>) -> Value {
    json(View { name: Topic::Trees.name(), parts: trees::of(grove, context) })
}

/// The list of formulas.
#[derive(Debug, Serialize)]
pub struct Index {
    questions: Vec<Question>,
    mushrooms: Vec<Anchor>,
    weights: Vec<(&'static str, String)>,
    inherited: String,
    formulas: Vec<Cited>,
    tables: Vec<Table>,
}

/// A question and where its working stands.
#[derive(Debug, Serialize)]
struct Question {
    asks: &'static str,
    link: Anchor,
    cites: Vec<Cite>,
    own: &'static str,
}

/// A computed table as a file beside the guide.
#[derive(Debug, Serialize)]
struct Table {
    name: &'static str,
    about: String,
    csv: String,
    json: String,
}

/// The view of the list of formulas.
pub fn index(context: &Context<'_>) -> Index {
    let route = &context.route;
    let working = |mushroom: &crate::book::Mushroom| {
        Anchor::to(route.to(&Page::WorkingPairings(mushroom.id.clone())), mushroom.name(), context)
    };
    let table = |name: Name| Table {
        name: name.word(),
        about: name.about(),
        csv: format!("{}tables/{}.csv", route.root(), name.word()),
        json: format!("{}tables/{}.json", route.root(), name.word()),
    };
    let kinds = [
        EvidenceKind::Trial,
        EvidenceKind::Advice,
        EvidenceKind::OwnLogs,
        EvidenceKind::Observation,
        EvidenceKind::List,
    ];
    Index {
        questions: Topic::iter().map(|topic| question(topic, context)).collect(),
        mushrooms: context.book.mushrooms.values().map(|mushroom| working(mushroom)).collect(),
        weights: kinds.map(|kind| (kind.words(), rounded(pairing::weight(kind), 2))).to_vec(),
        inherited: rounded(pairing::INHERITED_SHARE * 100.0, 0),
        formulas: Cited::all(&[&pairing::MEDIAN, &pairing::AGREEMENT], context),
        tables: Name::ALL.iter().copied().map(table).collect(),
    }
}

fn question(topic: Topic, context: &Context<'_>) -> Question {
    let formulas = formulas(topic);
    let mut cites: Vec<Cite> = Vec::new();
    for cite in Cited::all(formulas, context).into_iter().flat_map(|formula| formula.cites) {
        if cites.iter().all(|known| known.href != cite.href) {
            cites.push(cite);
        }
    }
    Question {
        asks: topic.asks(),
        link: Anchor::to(context.route.to(&Page::Working(topic)), topic.name(), context),
        cites,
        own: formulas.first().map_or("", |formula| formula.own),
    }
}
