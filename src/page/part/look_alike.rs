//! What may be taken for a mushroom.

use std::sync::Arc;

use serde::Serialize;

use super::cite::Cite;
use super::table::{self, Cell, Table, cell};
use super::{Anchor, and, capital};
use crate::book::{Listed, Mushroom};
use crate::page::{Context, Page};
use crate::record::Kind;
use crate::record::look_alike::{Feature, LookAlike as Record, Part};
use crate::record::mushroom::TakenFor;
use crate::record::said::Mark;

/// A look-alike as it is held against a mushroom.
#[derive(Debug, Serialize)]
pub struct LookAlike {
    /// Its id.
    pub id: String,
    /// Its common name.
    pub name: String,
    /// Its scientific name.
    pub scientific: String,
    /// Whether eating it can kill.
    pub deadly: bool,
    /// Colour of its spore print.
    pub print: String,
    /// Colour of the mushroom's own, where the handbook knows it.
    pub planted_print: String,
    /// Whether the prints tell the two apart.
    pub print_separates: bool,
    /// What an expert looks at.
    pub apart: String,
    /// What it does to those who eat it.
    pub harm: String,
    /// Who says so.
    pub cites: Vec<Cite>,
    /// Where the two are compared part by part, or where the look-alike is told of if the mushroom is not grown.
    pub pair: Anchor,
}

impl LookAlike {
    fn of(row: &TakenFor, mushroom: &Mushroom, context: &Context<'_>) -> Option<Self> {
        let found = context.book.look_alikes.get(row.kind.as_str())?;
        let record = &found.record;
        let apart = row.apart.as_ref().map_or_else(|| record.apart.clone(), |own| format!("{}; {own}", record.apart));
        let is_grown = context.findings.mushrooms().iter().any(|grown| grown.id == mushroom.id);
        let pair = if is_grown {
            context.route.at(&Page::KeyMushroom, &block(mushroom, found))
        } else {
            context.route.record(Kind::LookAlike, &found.id)
        };
        Some(Self {
            id: found.id.clone(),
            name: record.name.clone(),
            scientific: record.scientific.clone(),
            deadly: record.deadly,
            print: record.print.clone(),
            planted_print: own_print(mushroom),
            print_separates: row.print_separates,
            apart,
            harm: record.harm.clone(),
            cites: Cite::all(&record.sources, record.mark, context),
            pair: Anchor::to(pair, format!("{} or {}", capital(mushroom.name()), record.name), context),
        })
    }
}

/// What may be taken for a mushroom, the deadly first.
pub fn all(mushroom: &Mushroom, context: &Context<'_>) -> Vec<LookAlike> {
    let rows = mushroom.record.look_alikes.iter();
    let mut all: Vec<_> = rows.filter_map(|row| LookAlike::of(row, mushroom, context)).collect();
    all.sort_by_key(|row| !row.deadly);
    all
}

/// Colour of a mushroom's spore print, as its look-alikes are held against it.
pub fn own_print(mushroom: &Mushroom) -> String {
    mushroom.record.print.clone().unwrap_or_else(|| "not recorded".to_owned())
}

/// What a mushroom looks like, part by part.
pub fn looks(mushroom: &Mushroom) -> Option<Table> {
    let features = mushroom.record.features.iter();
    Table::of("facts", "Part by part", features).head("Part", |row| row.part.words()).column("It is", seen).done()
}

/// The name of the block in which a mushroom is compared with a look-alike.
pub fn block(mushroom: &Mushroom, look_alike: &Listed<Record>) -> String {
    format!("{}-or-{}", mushroom.id, look_alike.id)
}

/// This or that: the parts in which a mushroom and a look-alike are told to differ.
pub fn compared(mushroom: &Mushroom, other: &Arc<Listed<Record>>) -> Option<Table> {
    let [one, two] = [&mushroom.record.features, &other.record.features];
    let differs = |part: &Part| of(one, *part).zip(of(two, *part)).is_some_and(|(one, two)| one.says != two.says);
    let column = |features: &[Feature], part: Part| of(features, part).map_or_else(Cell::default, seen);
    Table::of(
        "facts stack",
        &format!("{} or {}", capital(mushroom.name()), other.record.name),
        Part::ALL.into_iter().filter(differs),
    )
    .head("Look at", Part::words)
    .column(&capital(mushroom.name()), |part| column(one, part))
    .column(&capital(&other.record.name), |part| column(two, part))
    .done()
}

/// The parts in which the two are told to be alike, in words.
pub fn same(mushroom: &Mushroom, other: &Record) -> Option<String> {
    let [one, two] = [&mushroom.record.features, &other.features];
    let is_same = |part: &Part| of(one, *part).zip(of(two, *part)).is_some_and(|(one, two)| one.says == two.says);
    let same: Vec<String> = Part::ALL.into_iter().filter(is_same).map(|part| part.words().to_owned()).collect();
    (!same.is_empty()).then(|| and(&same))
}

/// Who tells the features of the two.
pub fn tellers(mushroom: &Mushroom, other: &Record, context: &Context<'_>) -> Vec<Cite> {
    let mut cites: Vec<Cite> = Vec::new();
    for feature in mushroom.record.features.iter().chain(&other.features).filter(|row| row.mark != Mark::Memory) {
        let cite = Cite::by(feature, context);
        if !cites.iter().any(|other| other.short == cite.short) {
            cites.push(cite);
        }
    }
    cites
}

fn of(features: &[Feature], part: Part) -> Option<&Feature> {
    features.iter().find(|feature| feature.part == part)
}

/// What a part looks like; what nobody has read says so.
fn seen(feature: &Feature) -> Cell {
    let memory = (feature.mark == Mark::Memory).then(|| cell![" ", table::Part::Mark(feature.mark.words())]);
    cell![table::Part::Line(feature.says.clone()), memory]
}
