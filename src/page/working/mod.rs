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

use super::{
    Context, Page,
    part::{Anchor, cite::Cite},
};
use formula::Formula;

pub use allocation::view as allocation;
pub use climate::view as climate;
pub use fruiting::view as fruiting;
pub use inoculation::view as inoculation;
pub use lifting::view as lifting;
pub use moisture::view as moisture;
pub use pairings::view as pairings;
pub use seasons::view as seasons;
pub use stands::view as stands;
pub use supply::view as supply;
pub use trees::view as trees;
pub use weights::view as weights;
pub use yard::view as yard;

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

/// Every question whose working stands on a page of its own: the question, the page, its name, its formulas.
#[must_use]
pub fn questions() -> [(&'static str, Page, &'static str, Vec<Formula>); 12] {
    use formula::{bark, holes, rest, spawn, usual, weight, winter, year};
    [
        ("When may I fell, when not, and by when inoculate?", Page::WorkingSeasons, "dates", vec![usual(), rest()]),
        (
            "What does a green log weigh, and how thick is its bark?",
            Page::WorkingWeights,
            "weights",
            vec![weight(), bark()],
        ),
        ("How many holes, how much spawn?", Page::WorkingInoculation, "holes and spawn", vec![holes(), spawn()]),
        (
            "How many logs does a tree give?",
            Page::WorkingTrees,
            "trees",
            vec![winter::lower_stem(), winter::upper_stem(), winter::butt(), winter::fallback(), winter::newton()],
        ),
        (
            "How dense is a stand, before and after, and which tree gains room?",
            Page::WorkingStands,
            "stands",
            vec![winter::basal_area(), winter::quadratic_mean(), winter::removal(), winter::release()],
        ),
        ("What may one person lift?", Page::WorkingLifting, "lifting", vec![winter::lifting()]),
        (
            "Which trees come down, and which log goes to which strain?",
            Page::WorkingAllocation,
            "who gets which wood",
            vec![winter::allocation()],
        ),
        (
            "What to order, how many logs does a wish need, what does a log cost?",
            Page::WorkingSupply,
            "orders, wishes and money",
            vec![winter::packages(), winter::planning(), winter::money()],
        ),
        ("How wet is a log?", Page::WorkingMoisture, "moisture", vec![winter::moisture()]),
        (
            "How warm and how light is a day, and when do leaves colour?",
            Page::WorkingClimate,
            "air and light",
            vec![year::curve(), year::colour(), year::warmth()],
        ),
        ("When does the air suit a strain?", Page::WorkingFruiting, "suitable days", vec![year::suitable()]),
        (
            "When does a log first fruit, what should it give, when is it soaked?",
            Page::WorkingYard,
            "batches and the soak rota",
            vec![year::first(), year::yields(), year::rota()],
        ),
    ]
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
    let question = |(asks, page, text, formulas): (_, Page, &str, Vec<Formula>)| {
        let own = formulas.first().map_or("", |formula| formula.own);
        let mut cites: Vec<Cite> = Vec::new();
        for cite in formulas.into_iter().flat_map(|formula| formula.cited(context).cites) {
            if cites.iter().all(|known| known.href != cite.href) {
                cites.push(cite);
            }
        }
        Question { asks, link: Anchor { href: route.to(&page), text: text.to_owned() }, cites, own }
    };
    let kinds = [
        EvidenceKind::Trial,
        EvidenceKind::Advice,
        EvidenceKind::OwnLogs,
        EvidenceKind::Observation,
        EvidenceKind::List,
    ];
    Index {
        questions: questions().into_iter().map(question).collect(),
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
