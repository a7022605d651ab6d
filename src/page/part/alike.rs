//! Two woods that are taken for one another, character by character.

use std::sync::Arc;

use serde::Serialize;

use super::character::{name, shown};
use super::cite::Cite;
use super::table::Table;
use super::{Anchor, capital};
use crate::book::Wood;
use crate::page::{Context, Page};
use crate::reckon::findings::tree_key::effort;
use crate::record::character::{Character, When};
use crate::record::wood;

/// A wood that is taken for the one at hand.
#[derive(Debug, Serialize)]
pub struct Alike {
    /// The other wood's id.
    pub id: String,
    /// The pair, where it is compared.
    pub pair: Anchor,
    /// The other wood.
    pub other: Anchor,
    /// The one character that tells them apart.
    pub tell: String,
    /// A second one.
    pub then: Option<String>,
    /// Who says so.
    pub cite: Cite,
}

/// The name of the block in which a wood is compared with another.
pub fn block(other: &Wood) -> String {
    format!("alike-{}", other.id)
}

/// Every wood that is taken for one, with the row that says so; a pair is written on one of the two.
pub fn rows<'a>(wood: &'a Wood, context: &Context<'a>) -> Vec<(&'a Arc<Wood>, &'a wood::Alike)> {
    let woods = &context.book.woods;
    let own = wood.record.alike.iter().filter_map(|row| Some((woods.get(row.wood.as_str())?, row)));
    let others = woods.values().flat_map(|other| other.record.alike.iter().map(move |row| (other, row)));
    own.chain(others.filter(|(_, row)| row.wood.as_str() == wood.id)).collect()
}

/// Every wood that is taken for one.
pub fn all(wood: &Wood, context: &Context<'_>) -> Vec<Alike> {
    let alike = |(other, row): (&Arc<Wood>, &wood::Alike)| {
        let to = context.route.at(&Page::Wood(wood.id.clone()), &block(other));
        Alike {
            id: other.id.clone(),
            pair: Anchor::to(to, format!("{} or {}", capital(wood.name()), other.name()), context),
            other: Anchor::wood(other, context),
            tell: row.tell.clone(),
            then: row.then.clone(),
            cite: Cite::by(row, context),
        }
    };
    rows(wood, context).into_iter().map(alike).collect()
}

/// Every wood that is taken for one, told apart by what is seen with the least effort in a season; by what the record says
/// where their characters do not tell them apart then.
pub fn in_season(wood: &Wood, when: When, context: &Context<'_>) -> Vec<Alike> {
    let mut all = all(wood, context);
    for pair in &mut all {
        let seen = context.book.woods.get(&pair.id).and_then(|other| seen_apart(wood, other, when, context));
        pair.tell = seen.unwrap_or_else(|| std::mem::take(&mut pair.tell));
    }
    all
}

/// The character in which two woods differ that takes the least effort to see in a season: "Bark at breast height: beech smooth
/// and grey, hornbeam smooth over a muscled stem".
fn seen_apart(wood: &Wood, other: &Wood, when: When, context: &Context<'_>) -> Option<String> {
    let told = |wood: &Wood, asked: Character| wood.record.characters.told(asked).map(|told| told.states);
    let parts = |asked: Character| -> Option<(f64, Character)> {
        let (one, two) = (told(wood, asked)?, told(other, asked)?);
        let is_apart = !one.iter().any(|state| two.contains(state));
        is_apart.then_some(effort(asked, when)?).map(|effort| (effort, asked))
    };
    let (_, asked) = Character::ALL.into_iter().filter_map(parts).min_by(|a, b| a.0.total_cmp(&b.0))?;
    let shows = |wood: &Wood| Some(format!("{} {}", wood.name(), shown(wood, asked, context)?));
    Some(format!("{}: {}; {}.", name(asked, context), shows(wood)?, shows(other)?))
}

/// This or that: every character in which two woods are told to differ.
pub fn compared(wood: &Wood, other: &Wood, context: &Context<'_>) -> Option<Table> {
    let differs = |asked: &Character| {
        let [one, two] = [wood, other].map(|wood| wood.record.characters.told(*asked).map(|told| told.states));
        one.zip(two).is_some_and(|(one, two)| one != two)
    };
    let asked = Character::ALL.into_iter().filter(|asked| asked.when() != When::Never || *asked == Character::Twig);
    let shows = |wood: &Wood, asked: Character| shown(wood, asked, context).unwrap_or_default();
    Table::of("facts stack", &format!("{} or {}", capital(wood.name()), other.name()), asked.filter(differs))
        .head("Look at", |asked| name(asked, context))
        .column(&capital(wood.name()), |asked| shows(wood, asked))
        .column(&capital(other.name()), |asked| shows(other, asked))
        .done()
}
