//! The pairing table: what this farm grows or could grow, on the woods it has.

use std::sync::Arc;

use serde::Serialize;

use super::{
    Context,
    part::{Anchor, pair::Pair, rating::Rating},
};
use crate::{
    book::{Mushroom, Wood},
    quantity::date::month_name,
    reckon::{
        findings::{Pairing, Word, pairing::Reach},
        pairing::Accord,
    },
};

/// The pairing table.
#[derive(Debug, Serialize)]
pub struct View {
    matrix: Matrix,
    disputed: Vec<Pair>,
    others: Vec<Anchor>,
    woods: Vec<Anchor>,
    own_list: bool,
    pairs: usize,
    rated: usize,
    methods: Vec<(String, String)>,
    months: Vec<(i8, &'static str)>,
    weights: Vec<(&'static str, String)>,
    working: String,
    table: String,
}

/// Mushrooms across, woods down.
#[derive(Debug, Serialize)]
pub struct Matrix {
    mushrooms: Vec<Column>,
    rows: Vec<Row>,
}

/// One mushroom at the head of its column: how it is grown, and in which months the air suits it.
#[derive(Debug, Serialize)]
struct Column {
    id: String,
    link: Anchor,
    methods: Vec<String>,
    months: Vec<i8>,
}

/// One wood against all mushrooms of the table.
#[derive(Debug, Serialize)]
struct Row {
    id: String,
    wood: Anchor,
    cells: Vec<Cell>,
}

/// One pair in the table.
#[derive(Debug, Serialize)]
struct Cell {
    id: String,
    mushroom: String,
    rating: Rating,
    href: Option<String>,
    sources: usize,
    agree: bool,
    inherited: bool,
}

/// The view of the pairing table.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    use crate::record::evidence::EvidenceKind;
    let findings = context.findings;
    let others = context
        .book
        .mushrooms
        .values()
        .filter(|mushroom| !findings.mushrooms().iter().any(|own| own.id == mushroom.id));
    let mut woods: Vec<Anchor> = context
        .book
        .woods
        .values()
        .filter(|wood| {
            !findings.woods().iter().any(|own| own.id == wood.id)
                && findings.pairings().iter().any(|pair| pair.wood.id == wood.id)
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
        matrix: matrix(findings.mushrooms(), findings.woods(), context),
        disputed: disputed(context),
        others: others.map(|mushroom| Anchor::mushroom(mushroom, context)).collect(),
        woods,
        own_list: !context.book.farm.grows.is_empty() && !context.book.farm.woods.is_empty(),
        methods: methods(context),
        months: (1..=12).map(|month| (month, month_name(month))).collect(),
        pairs: findings.pairings().len(),
        rated: findings.pairings().iter().filter(|pair| pair.consensus.is_some()).count(),
        weights: weights
            .map(|kind| (kind.words(), crate::quantity::measure::rounded(crate::reckon::pairing::weight(kind), 2)))
            .to_vec(),
        working: context.route.to(&super::Page::Working),
        table: format!("{}tables/pairings.csv", context.route.root()),
    }
}

/// The methods by which the mushrooms of the table are grown, each with its name.
fn methods(context: &Context<'_>) -> Vec<(String, String)> {
    let grown = |id: &str| {
        let mut mushrooms = context.findings.mushrooms().iter();
        mushrooms.any(|mushroom| mushroom.methods.iter().any(|method| method.id == id))
    };
    let methods = context.book.methods.values().filter(|method| grown(&method.id));
    methods.map(|method| (method.id.clone(), method.record.name.clone())).collect()
}

/// Some mushrooms on some woods, the woods that carry most of them best first.
#[must_use]
pub fn matrix(mushrooms: &[Arc<Mushroom>], woods: &[Arc<Wood>], context: &Context<'_>) -> Matrix {
    let mut rows: Vec<((u32, String), Row)> = woods.iter().map(|wood| row(mushrooms, wood, context)).collect();
    rows.sort_by(|a, b| a.0.cmp(&b.0));
    Matrix {
        mushrooms: mushrooms.iter().map(|mushroom| column(mushroom, context)).collect(),
        rows: rows.into_iter().map(|(_, row)| row).collect(),
    }
}

fn column(mushroom: &Arc<Mushroom>, context: &Context<'_>) -> Column {
    Column {
        id: mushroom.id.clone(),
        link: Anchor::mushroom(mushroom, context),
        methods: mushroom.methods.iter().map(|method| method.id.clone()).collect(),
        months: context.findings.fruiting_months(&mushroom.id),
    }
}

/// A row, and by what it is sorted: the sum of squares of its ratings, the highest first, then its name.
fn row(mushrooms: &[Arc<Mushroom>], wood: &Arc<Wood>, context: &Context<'_>) -> ((u32, String), Row) {
    let found = mushrooms.iter().map(|mushroom| context.findings.pairing(&mushroom.id, &wood.id));
    let found: Vec<Option<&Pairing>> = found.collect();
    let ratings = found.iter().flatten().filter_map(|pair| pair.rating()).map(u32::from);
    let best: u32 = ratings.map(|rating| rating * rating).sum();
    let cells = found.iter().zip(mushrooms).map(|(pair, mushroom)| cell(*pair, mushroom, context));
    let row = Row { id: wood.id.clone(), wood: Anchor::wood(wood, context), cells: cells.collect() };
    ((u32::MAX - best, wood.name().to_owned()), row)
}

fn cell(pair: Option<&Pairing>, mushroom: &Mushroom, context: &Context<'_>) -> Cell {
    Cell {
        id: mushroom.id.clone(),
        mushroom: mushroom.name().to_owned(),
        rating: Rating::of(pair.map_or(Word::Untried, |pair| pair.word)),
        href: pair.map(|pair| context.route.pairing(&pair.mushroom.id, &pair.wood.id)),
        sources: pair.map_or(0, |pair| pair.sources),
        agree: pair.and_then(Pairing::accord) == Some(Accord::All),
        inherited: pair.is_some_and(|pair| pair.reach == Reach::Genus),
    }
}

/// Pairs of the table on which sources differ about the wood itself, the sharpest first.
fn disputed(context: &Context<'_>) -> Vec<Pair> {
    let findings = context.findings;
    let shown = |pair: &&Pairing| {
        findings.mushrooms().iter().any(|mushroom| mushroom.id == pair.mushroom.id)
            && findings.woods().iter().any(|wood| wood.id == pair.wood.id)
    };
    let differs =
        |pair: &&Pairing| pair.reach != Reach::Genus && pair.accord().is_some_and(|accord| accord != Accord::All);
    let mut pairs: Vec<&Pairing> = findings.pairings().iter().filter(shown).filter(differs).collect();
    pairs.sort_by(|a, b| a.agreement().unwrap_or(1.0).total_cmp(&b.agreement().unwrap_or(1.0)));
    pairs.into_iter().map(|pair| Pair::of(pair, context)).collect()
}
