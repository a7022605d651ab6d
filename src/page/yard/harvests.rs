//! What was picked, beside what sources say a log should give.

use std::collections::BTreeSet;
use std::sync::Arc;

use serde::Serialize;

use crate::book::{Book, Harvest};
use crate::page::leaf::{Leaf, ROWS};
use crate::page::part::batch::Leaves;
use crate::page::part::caution::{Cautions, grown};
use crate::page::part::table::{Table, below, cell, list};
use crate::page::part::{Anchor, year_words};
use crate::page::{Context, Page};
use crate::quantity::{Mass, count};
use crate::reckon::Findings;
use crate::reckon::Topic;
use crate::reckon::findings::batches::BatchYear;
use crate::reckon::findings::{BatchFinding, batches};
use crate::reckon::life::growing_year;
use crate::record::caution::Task;

/// What was picked, year by year.
#[derive(Debug, Serialize)]
pub struct View {
    years: Option<Table>,
    cautions: Cautions,
    selling: String,
    sales: String,
    batches: String,
    working: String,
}

/// What was picked in a year.
#[derive(Debug, Serialize)]
pub struct OfYear {
    says: String,
    rows: Vec<Row>,
    leaves: Leaves,
    days: Option<Table>,
    harvests: String,
}

/// A batch in its year.
#[derive(Debug, Serialize)]
struct Row {
    link: Anchor,
    picked: Option<String>,
    says: Vec<String>,
}

/// The view of all years.
pub fn view(context: &Context<'_>) -> View {
    let south = context.findings.season.south;
    let totals = batches::totals(context.book, south);
    let years: Vec<(i16, &Mass, usize)> =
        totals.iter().rev().map(|(year, mass)| (*year, mass, picked_in(*year, context.book).count())).collect();
    View {
        years: Table::of("facts", "Year by year, the last first", years.iter())
            .own()
            .head("Year", |(year, ..)| {
                let page = Page::HarvestsOf(Leaf::first(*year));
                Anchor::to(context.route.to(&page), year_words(*year, south), context)
            })
            .number("Picked", |(_, mass, _)| mass.show(context.units()))
            .number("Pickings", |(.., pickings)| pickings.to_string())
            .done(),
        cautions: Cautions::of(Task::Harvest, &grown(context), context).without_rules(),
        selling: context.route.to(&Page::Selling),
        sales: context.route.to(&Page::Sales),
        batches: context.route.to(&Page::Batches),
        working: context.route.at(&Page::Working(Topic::Yard), "life"),
    }
}

/// What was picked in a growing year, in the order of the days.
fn picked_in(year: i16, book: &Book) -> impl DoubleEndedIterator<Item = &Arc<Harvest>> {
    let south = book.farm.record.place.latitude < 0.0;
    book.harvests.iter().filter(move |harvest| growing_year(harvest.record.date, south) == year)
}

/// The leaves of what was picked: a row for each batch in each year.
pub fn leaves(book: &Book, _: &Findings) -> Vec<Leaf> {
    let south = book.farm.record.place.latitude < 0.0;
    let of = |harvest: &'_ Arc<Harvest>| {
        let year = growing_year(harvest.record.date, south);
        harvest.batches.iter().map(move |batch| (year, batch.id.clone())).collect::<Vec<_>>()
    };
    let rows: BTreeSet<(i16, String)> = book.harvests.iter().flat_map(of).collect();
    Leaf::all(rows.into_iter().map(|(year, _)| year))
}

/// The view of a leaf of a year, the batches that gave most first.
pub fn of_year(leaf: Leaf, context: &Context<'_>) -> OfYear {
    let found = context.findings.batches().iter();
    let gave = |found: &'_ BatchFinding| found.year(leaf.year).filter(|year| year.picked.is_some()).cloned();
    let mut rows: Vec<(&BatchFinding, BatchYear)> = found.filter_map(|found| Some((found, gave(found)?))).collect();
    let picked = |year: &BatchYear| year.picked.as_ref().map_or(0.0, Mass::base);
    rows.sort_by(|(_, one), (_, other)| picked(other).total_cmp(&picked(one)));
    let all = Mass::of_kilograms(picked_in(leaf.year, context.book).map(|harvest| harvest.record.weight.base()).sum());
    let pickings: Vec<&Arc<Harvest>> = picked_in(leaf.year, context.book).rev().collect();
    let says = format!(
        "{} in {} from {}.",
        all.show(context.units()),
        count(pickings.len(), "picking", "pickings"),
        count(rows.len(), "batch", "batches")
    );
    OfYear {
        says,
        rows: leaf.rows(&rows).iter().map(|(found, year)| row(found, year, context)).collect(),
        leaves: Leaves::of(leaf, rows.len(), Page::HarvestsOf, context),
        days: if leaf.number > 0 { None } else { days(&pickings, context) },
        harvests: context.route.to(&Page::Harvests),
    }
}

fn row(found: &BatchFinding, year: &BatchYear, context: &Context<'_>) -> Row {
    let units = context.units();
    let beside = year.beside.map(verdict);
    Row {
        link: Anchor::batch(&found.batch, context),
        picked: year.picked.as_ref().map(|mass| mass.show(units)),
        says: year.a_log().into_iter().map(|mass| format!("{} a log", mass.show(units))).chain(beside).collect(),
    }
}

/// Day by day, the latest first: picking by picking, or where they are many each day's sum.
fn days(pickings: &[&Arc<Harvest>], context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    if pickings.len() <= ROWS {
        return Table::of("facts", "Every picking, the latest first", pickings.iter().copied())
            .head("Day", |harvest| harvest.record.date.show(units))
            .column("Batch", |harvest| {
                let batches = harvest.batches.iter().map(|batch| Anchor::batch(batch, context));
                cell![list(", ", batches), below(harvest.record.note.clone())]
            })
            .number("Weight", |harvest| harvest.record.weight.show(units))
            .done();
    }
    let days: Vec<&[&Arc<Harvest>]> = pickings.chunk_by(|one, next| one.record.date == next.record.date).collect();
    let sum = |day: &[&Arc<Harvest>]| Mass::of_kilograms(day.iter().map(|harvest| harvest.record.weight.base()).sum());
    Table::of("facts", "Every day, the latest first; single pickings stand with their batches", days)
        .head("Day", |day| day[0].record.date.show(units))
        .number("Pickings", |day| day.len().to_string())
        .number("Weight", |day| sum(day).show(units))
        .done()
}

/// How a year's picking stands beside the sources, in words.
fn verdict([more, within, less]: [usize; 3]) -> String {
    let all = more + within + less;
    let told = [(within, "within"), (more, "below"), (less, "above")].into_iter().filter(|(count, _)| *count > 0);
    let ranges = |(count, words)| match all {
        1 => format!("{words} the published range"),
        all => format!("{words} {count} of {all} published ranges"),
    };
    told.map(ranges).collect::<Vec<_>>().join(", ")
}
