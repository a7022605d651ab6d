//! The pairing table: what this farm grows or could grow, on the woods it has.

use serde::Serialize;

use super::{
    Context,
    part::{Anchor, pair::Pair, rating::Rating},
};
use crate::reckon::findings::{Pairing, Word, pairing::Reach};

/// The pairing table.
#[derive(Debug, Serialize)]
pub struct View {
    mushrooms: Vec<Anchor>,
    rows: Vec<Row>,
    disputed: Vec<Pair>,
    others: Vec<Anchor>,
    woods: Vec<Anchor>,
    own_list: bool,
    pairs: usize,
    rated: usize,
    weights: Vec<(&'static str, String)>,
    working: String,
    table: String,
}

/// One wood against all mushrooms of the table.
#[derive(Debug, Serialize)]
struct Row {
    wood: Anchor,
    cells: Vec<Cell>,
}

/// One pair in the table.
#[derive(Debug, Serialize)]
struct Cell {
    mushroom: String,
    rating: Rating,
    href: Option<String>,
    agreement: &'static str,
    inherited: bool,
}

/// The view of the pairing table.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    use crate::record::evidence::EvidenceKind;
    let findings = context.findings;
    let mut rows: Vec<((u32, String), Row)> = findings
        .woods
        .iter()
        .map(|wood| {
            let found = findings.mushrooms.iter().map(|mushroom| findings.pairing(&mushroom.id, &wood.id));
            let found: Vec<Option<&Pairing>> = found.collect();
            let best: u32 = found
                .iter()
                .flatten()
                .filter_map(|pair| pair.rating())
                .map(u32::from)
                .map(|rating| rating * rating)
                .sum();
            let cells =
                found.iter().zip(&findings.mushrooms).map(|(pair, mushroom)| cell(*pair, mushroom.name(), context));
            let wood_link = Anchor::wood(wood, context);
            ((u32::MAX - best, wood.name().to_owned()), Row { wood: wood_link, cells: cells.collect() })
        })
        .collect();
    rows.sort_by(|a, b| a.0.cmp(&b.0));
    let others =
        context.book.mushrooms.values().filter(|mushroom| !findings.mushrooms.iter().any(|own| own.id == mushroom.id));
    let mut woods: Vec<Anchor> = context
        .book
        .woods
        .values()
        .filter(|wood| {
            !findings.woods.iter().any(|own| own.id == wood.id)
                && findings.pairings.iter().any(|pair| pair.wood.id == wood.id)
        })
        .map(|wood| Anchor::wood(wood, context))
        .collect();
    woods.sort_by_key(|wood| wood.text.to_lowercase());
    let weights = [
        EvidenceKind::Trial,
        EvidenceKind::Advice,
        EvidenceKind::OwnLogs,
        EvidenceKind::Observation,
        EvidenceKind::List,
    ];
    View {
        mushrooms: findings.mushrooms.iter().map(|mushroom| Anchor::mushroom(mushroom, context)).collect(),
        rows: rows.into_iter().map(|(_, row)| row).collect(),
        disputed: disputed(context),
        others: others.map(|mushroom| Anchor::mushroom(mushroom, context)).collect(),
        woods,
        own_list: !context.book.farm.grows.is_empty() && !context.book.farm.woods.is_empty(),
        pairs: findings.pairings.len(),
        rated: findings.pairings.iter().filter(|pair| pair.consensus.is_some()).count(),
        weights: weights
            .map(|kind| (kind.words(), crate::quantity::measure::rounded(crate::reckon::pairing::weight(kind), 2)))
            .to_vec(),
        working: context.route.to(&super::Page::Working),
        table: format!("{}tables/pairings.csv", context.route.root()),
    }
}

fn cell(pair: Option<&Pairing>, mushroom: &str, context: &Context<'_>) -> Cell {
    match pair {
        Some(pair) => Cell {
            mushroom: mushroom.to_owned(),
            rating: Rating::of(pair.word),
            href: Some(context.route.pairing(&pair.mushroom.id, &pair.wood.id)),
            agreement: super::part::pair::agreement(pair),
            inherited: pair.reach == Reach::Genus,
        },
        None => Cell {
            mushroom: mushroom.to_owned(),
            rating: Rating::of(Word::Untried),
            href: None,
            agreement: "nobody has spoken",
            inherited: false,
        },
    }
}

/// Pairs of the table on which sources differ about the wood itself, the sharpest first.
fn disputed(context: &Context<'_>) -> Vec<Pair> {
    let findings = context.findings;
    let shown = |pair: &&Pairing| {
        findings.mushrooms.iter().any(|mushroom| mushroom.id == pair.mushroom.id)
            && findings.woods.iter().any(|wood| wood.id == pair.wood.id)
    };
    let differs = |pair: &&Pairing| pair.reach != Reach::Genus && pair.agreement().is_some_and(|index| index < 0.999);
    let mut pairs: Vec<&Pairing> = findings.pairings.iter().filter(shown).filter(differs).collect();
    pairs.sort_by(|a, b| a.agreement().unwrap_or(1.0).total_cmp(&b.agreement().unwrap_or(1.0)));
    pairs.into_iter().map(|pair| Pair::of(pair, context)).collect()
}
