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

use super::{Context, Page, part::Anchor};

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
    formulas: Vec<formula::Formula>,
    tables: Vec<Table>,
}

/// A question and where its working stands.
#[derive(Debug, Serialize)]
struct Question {
    asks: &'static str,
    link: Anchor,
    source: &'static str,
}

/// A computed table as a file beside the guide.
#[derive(Debug, Serialize)]
struct Table {
    name: &'static str,
    about: &'static str,
    csv: String,
    json: String,
}

/// Every question whose working stands on a page of its own: the question, the page, its name, the source of the formula.
#[must_use]
pub fn questions() -> [(&'static str, Page, &'static str, &'static str); 12] {
    [
        (
            "When may I fell, when not, and by when inoculate?",
            Page::WorkingSeasons,
            "dates",
            "observed dates; dates of the year",
        ),
        (
            "What does a green log weigh, and how thick is its bark?",
            Page::WorkingWeights,
            "weights",
            "Miles & Smith 2009; Clark and others 1991",
        ),
        ("How many holes, how much spawn?", Page::WorkingInoculation, "holes and spawn", "geometry; common practice"),
        (
            "How many logs does a tree give?",
            Page::WorkingTrees,
            "trees",
            "Clark and others 1991; Raile 1982; Ormerod 1973",
        ),
        (
            "How dense is a stand, before and after, and which tree gains room?",
            Page::WorkingStands,
            "stands",
            "prism and plot formulas; Gingrich 1967",
        ),
        ("What may one person lift?", Page::WorkingLifting, "lifting", "NIOSH 94-110, revised 2021"),
        (
            "Which trees come down, and which log goes to which strain?",
            Page::WorkingAllocation,
            "who gets which wood",
            "integer programming in stages",
        ),
        (
            "What to order, how many logs does a wish need, what does a log cost?",
            Page::WorkingSupply,
            "orders, wishes and money",
            "dynamic programming; each published yield; published budgets",
        ),
        ("How wet is a log?", Page::WorkingMoisture, "moisture", "UK-82, UK-83; Wood Handbook"),
        (
            "How warm and how light is a day, and when do leaves colour?",
            Page::WorkingClimate,
            "air and light",
            "this project's spline; Delpierre 2009; NOAA",
        ),
        (
            "When does the air suit a strain?",
            Page::WorkingFruiting,
            "suitable days",
            "the normal distribution; each source's band",
        ),
        (
            "When does a log first fruit, what should it give, when is it soaked?",
            Page::WorkingYard,
            "batches and the soak rota",
            "each source's spans and yields; MD-11; UK-85",
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
    let question = |(asks, page, text, source): (_, Page, &str, _)| Question {
        asks,
        link: Anchor { href: route.to(&page), text: text.to_owned() },
        source,
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
        formulas: vec![formula::median(), formula::agreement()],
        tables: Name::ALL
            .map(|name| Table {
                name: name.word(),
                about: name.about(),
                csv: format!("{}tables/{}.csv", route.root(), name.word()),
                json: format!("{}tables/{}.json", route.root(), name.word()),
            })
            .into(),
    }
}
