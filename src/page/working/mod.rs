//! The working behind the figures: formula, numbers put in, result, source.

pub mod allocation;
pub mod climate;
pub mod formula;
pub mod fruiting;
pub mod inoculation;
pub mod lifting;
pub mod moisture;
pub mod pairings;
pub mod seasons;
pub mod stands;
pub mod supply;
pub mod trees;
pub mod weights;
pub mod yard;

use serde::Serialize;
use serde_json::Value;
use strum::IntoEnumIterator;

use super::{
    Context, Page,
    name::json,
    part::{Anchor, cite::Cite},
};
use crate::reckon::Topic;
use formula::Formula;

pub use pairings::view as pairings;

/// The list of formulas.
#[derive(Debug, Serialize)]
pub struct Index {
    questions: Vec<Question>,
    mushrooms: Vec<Anchor>,
    weights: Vec<(&'static str, String)>,
    inherited: String,
    formulas: Vec<formula::Cited>,
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

/// The formulas of a topic.
fn formulas(topic: Topic) -> Vec<Formula> {
    use formula::{bark, holes, rest, spawn, usual, weight, winter, year};
    match topic {
        Topic::Seasons => vec![usual(), rest()],
        Topic::Weights => vec![weight(), bark()],
        Topic::Inoculation => vec![holes(), spawn()],
        Topic::Trees => {
            vec![winter::lower_stem(), winter::upper_stem(), winter::butt(), winter::fallback(), winter::newton()]
        }
        Topic::Stands => vec![winter::basal_area(), winter::quadratic_mean(), winter::removal(), winter::release()],
        Topic::Lifting => vec![winter::lifting()],
        Topic::Allocation => vec![winter::allocation()],
        Topic::Supply => vec![winter::packages(), winter::planning(), winter::money()],
        Topic::Moisture => vec![winter::moisture()],
        Topic::Climate => vec![year::curve(), year::colour(), year::warmth()],
        Topic::Fruiting => vec![year::suitable()],
        Topic::Yard => vec![year::first(), year::yields(), year::rota()],
    }
}

/// The view of the working of a topic.
#[must_use]
pub fn view(topic: Topic, context: &Context<'_>) -> Value {
    match topic {
        Topic::Seasons => json(seasons::view(context)),
        Topic::Weights => json(weights::view(context)),
        Topic::Inoculation => json(inoculation::view(context)),
        Topic::Trees => json(trees::view(context)),
        Topic::Stands => json(stands::view(context)),
        Topic::Lifting => json(lifting::view(context)),
        Topic::Allocation => json(allocation::view(context)),
        Topic::Supply => json(supply::view(context)),
        Topic::Moisture => json(moisture::view(context)),
        Topic::Climate => json(climate::view(context)),
        Topic::Fruiting => json(fruiting::view(context)),
        Topic::Yard => json(yard::view(context)),
    }
}

/// The view of the list of formulas.
#[must_use]
pub fn index(context: &Context<'_>) -> Index {
    use crate::{
        quantity::measure::rounded,
        reckon::pairing,
        record::{evidence::EvidenceKind, table::Table as Name},
    };
    let route = &context.route;
    let question = |topic: Topic| {
        let formulas = formulas(topic);
        let own = formulas.first().map_or("", |formula| formula.own);
        let mut cites: Vec<Cite> = Vec::new();
        for cite in formulas.into_iter().flat_map(|formula| formula.cited(context).cites) {
            if cites.iter().all(|known| known.href != cite.href) {
                cites.push(cite);
            }
        }
        let link = Anchor { href: route.to(&Page::Working(topic)), text: topic.name().to_owned() };
        Question { asks: topic.asks(), link, cites, own }
    };
    let kinds = [
        EvidenceKind::Trial,
        EvidenceKind::Advice,
        EvidenceKind::OwnLogs,
        EvidenceKind::Observation,
        EvidenceKind::List,
    ];
    Index {
        questions: Topic::iter().map(question).collect(),
        mushrooms: context
            .book
            .mushrooms
            .values()
            .map(|mushroom| Anchor {
                href: route.to(&Page::WorkingPairings(mushroom.id.clone())),
                text: mushroom.name().to_owned(),
            })
            .collect(),
        weights: kinds.map(|kind| (kind.words(), rounded(pairing::weight(kind), 2))).to_vec(),
        inherited: rounded(pairing::INHERITED_SHARE * 100.0, 0),
        formulas: vec![formula::median().cited(context), formula::agreement().cited(context)],
        tables: Name::ALL
            .iter()
            .map(|name| Table {
                name: name.word(),
                about: name.about(),
                csv: format!("{}tables/{}.csv", route.root(), name.word()),
                json: format!("{}tables/{}.json", route.root(), name.word()),
            })
            .collect(),
    }
}
