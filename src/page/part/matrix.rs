//! Mushrooms on woods, as a table of ratings.

use std::sync::Arc;

use serde::Serialize;

use super::Anchor;
use super::rating::Rating;
use crate::book::{Mushroom, Wood};
use crate::page::Context;
use crate::reckon::findings::pairing::Reach;
use crate::reckon::findings::{Pairing, Word};
use crate::reckon::pairing::Accord;

/// Mushrooms across, woods down.
#[derive(Debug, Serialize)]
pub struct Matrix {
    mushrooms: Vec<Column>,
    rows: Vec<Row>,
}

/// One mushroom at the head of its column: how it is grown, and in which months it fruits.
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
    /// Signs beside its ring: said of the genus alone, or by sources that differ.
    class: String,
    inherited: bool,
    /// The letter of the way to which the rating belongs, or the name of the way that stands in.
    way: Option<String>,
}

/// Some mushrooms on some woods, the woods that carry most of them best first.
pub fn of(mushrooms: &[Arc<Mushroom>], woods: &[Arc<Wood>], context: &Context<'_>) -> Matrix {
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
        class: signs(pair),
        inherited: pair.is_some_and(|pair| pair.reach == Reach::Genus),
        way: pair.and_then(super::pair::way),
    }
}

/// The classes of the signs beside a ring.
fn signs(pair: Option<&Pairing>) -> String {
    let by_genus = pair.is_some_and(|pair| pair.reach == Reach::Genus && pair.word != Word::Untried);
    let differ = matches!(pair.and_then(Pairing::accord), Some(Accord::Differ | Accord::Opposed));
    let signs = [by_genus.then_some("genus"), differ.then_some("differ")];
    signs.into_iter().flatten().collect::<Vec<_>>().join(" ")
}
