//! What was sold: what was taken, what came home, what fetched most, and how it closes the money.

use std::sync::Arc;

use serde::Serialize;

use crate::book::{Book, Sale};
use crate::page::leaf::Leaf;
use crate::page::part::batch::{Leaves, sale_line};
use crate::page::part::sales::{Sums, figures, taken};
use crate::page::part::table::{Cell, Table, cell};
use crate::page::part::{Anchor, year_words};
use crate::page::{Context, Page};
use crate::reckon::Findings;
use crate::reckon::findings::Takings;
use crate::reckon::findings::sales::years;

/// What was sold in all years.
#[derive(Debug, Serialize)]
pub struct View {
    latest: Option<Latest>,
    years: Option<Table>,
    taken: Option<Table>,
    money: String,
    selling: String,
    harvests: String,
}

/// The last year in which anything was sold.
#[derive(Debug, Serialize)]
struct Latest {
    year: Anchor,
    /// The season's own, where nothing was sold in it yet.
    none_in: Option<String>,
    sums: Sums,
}

/// What was sold in a year.
#[derive(Debug, Serialize)]
pub struct OfYear {
    sums: Option<Sums>,
    days: Vec<Cell>,
    leaves: Leaves,
    sales: String,
}

/// The view of all years.
pub fn view(context: &Context<'_>) -> View {
    let season = context.findings.season;
    let words = |year| year_words(year, season.south);
    let link = |year| Anchor::to(context.route.to(&Page::SalesOf(Leaf::first(year))), words(year), context);
    let years = years(context.findings);
    let latest = years.last_key_value().and_then(|(year, sales)| {
        let now = season.growing_year();
        let none_in = (*year < now).then(|| words(now));
        Some(Latest { year: link(*year), none_in, sums: Sums::of(sales, context)? })
    });
    let sums: Vec<(i16, Takings)> =
        years.iter().rev().filter_map(|(year, sales)| Some((*year, Takings::of(sales)?))).collect();
    let rows = Table::of("facts", "The last first", &sums).own().head("Year", |(year, _)| link(*year));
    View {
        latest,
        years: figures(rows, |(_, takings)| takings, context),
        taken: taken(context),
        money: context.route.at(&Page::Planning, "money"),
        selling: context.route.to(&Page::Selling),
        harvests: context.route.to(&Page::Harvests),
    }
}

/// The leaves of what was sold: a row for each sale.
pub fn leaves(_: &Book, findings: &Findings) -> Vec<Leaf> {
    years(findings).into_iter().flat_map(|(year, sales)| Leaf::of_year(year, sales.len())).collect()
}

/// The view of a leaf of a year, the latest sale first; the sums stand on the first.
pub fn of_year(leaf: Leaf, context: &Context<'_>) -> OfYear {
    let mut sales = years(context.findings).remove(&leaf.year).unwrap_or_default();
    let sums = Sums::of(&sales, context).filter(|_| leaf.number == 0);
    sales.reverse();
    OfYear {
        sums,
        days: leaf.rows(&sales).iter().map(|sale| line(sale, context)).collect(),
        leaves: Leaves::of(leaf, sales.len(), Page::SalesOf, context),
        sales: context.route.to(&Page::Sales),
    }
}

/// A sale with what was sold of.
fn line(sale: &Arc<Sale>, context: &Context<'_>) -> Cell {
    let of = match &sale.batch {
        Some(batch) => Anchor::batch(batch, context),
        None => Anchor::strain(&sale.strain, context),
    };
    cell![of, ", ", sale_line(sale, context)]
}
