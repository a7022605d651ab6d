//! The pairing table: what this farm grows or could grow, on the woods it has.

use serde::Serialize;

use super::Context;
use super::part::matrix::Matrix;
use super::part::pair::Pair;
use super::part::rating::Rating;
use super::part::{Anchor, matrix};
use crate::quantity::date::month_name;
use crate::reckon::findings::pairing::Reach;
use crate::reckon::findings::{Pairing, Word};
use crate::reckon::pairing::Accord;
use crate::record::evidence::Way;

/// The words of the table, in the order of its key.
const KEY: [Word; 6] = [Word::Thrives, Word::DoesWell, Word::GetsBy, Word::Fails, Word::Mentioned, Word::Untried];

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
    /// The signs of the table.
    key: Vec<Rating>,
    months: Vec<(i8, &'static str)>,
    weights: Vec<(&'static str, String)>,
    /// The ways of growing, each with its letter.
    ways: Vec<(&'static str, &'static str)>,
    working: String,
    table: String,
}

/// The view of the pairing table.
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
        matrix: matrix::of(findings.mushrooms(), findings.woods(), context),
        disputed: disputed(context),
        others: others.map(|mushroom| Anchor::mushroom(mushroom, context)).collect(),
        woods,
        own_list: !context.book.farm.grows.is_empty() && !context.book.farm.woods.is_empty(),
        methods: methods(context),
        key: KEY.map(Rating::of).into(),
        months: (1..=12).map(|month| (month, month_name(month))).collect(),
        pairs: findings.pairings().len(),
        rated: findings.pairings().iter().filter(|pair| pair.consensus().is_some()).count(),
        weights: weights
            .map(|kind| (kind.words(), crate::quantity::measure::rounded(crate::reckon::pairing::weight(kind), 2)))
            .to_vec(),
        ways: Way::ALL.map(|way| (way.letter(), way.words())).into(),
        working: context.route.to(&super::Page::WorkingIndex),
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
