//! Sales as several pages speak of them: what was taken, what came home, and what a weight fetched.

use std::sync::Arc;

use serde::Serialize;

use super::purchase::money;
use super::table::{Cell, Columns, Table, below, cell, or_dash};
use super::{Anchor, range};
use crate::book::{Sale, Strain, Wood};
use crate::page::Context;
use crate::quantity::measure::rounded;
use crate::quantity::{Mass, count};
use crate::reckon::findings::Takings;
use crate::reckon::findings::sales::{parted, unit, wood, wood_id};

/// Sales added up: what is asked first, and by strain and by wood.
#[derive(Debug, Serialize)]
pub struct Sums {
    answers: Vec<(&'static str, Cell)>,
    strains: Option<Table>,
    woods: Option<Table>,
}

impl Sums {
    /// The sums of sales, in the order of their dates; `None` where there is none.
    pub fn of(sales: &[Arc<Sale>], context: &Context<'_>) -> Option<Self> {
        let strains = parted(sales, |sale| sale.strain.id.as_str());
        let woods = parted(sales, wood_id);
        let head = |(sale, _): &(Arc<Sale>, Takings)| {
            let mushroom = Some(&sale.strain.mushroom).filter(|_| context.findings.mushrooms().len() > 1);
            let mushroom = mushroom.map(|mushroom| cell![mushroom.name().to_owned()]);
            cell![Anchor::strain(&sale.strain, context), below(mushroom)]
        };
        let on = |(sale, _): &(Arc<Sale>, Takings)| match wood(sale) {
            Some(wood) => cell![Anchor::wood(wood, context)],
            None => cell!["Not told"],
        };
        let strains =
            Table::of("facts stack", "By strain, what fetched most first", &strains).own().head("Strain", head);
        let woods = Table::of("facts stack", "By wood, what fetched most first", &woods).own().head("Wood", on);
        Some(Self {
            answers: answers(sales, context)?,
            strains: figures(strains, |(_, takings)| takings, context),
            woods: figures(woods, |(_, takings)| takings, context),
        })
    }
}

/// What was taken, what came home, and what fetched most.
fn answers(sales: &[Arc<Sale>], context: &Context<'_>) -> Option<Vec<(&'static str, Cell)>> {
    let units = context.units();
    let all = Takings::of(sales)?;
    let brought = all.sold.base() + all.unsold.base();
    let taken = format!(
        "{} for {}, in {}",
        money(all.taken, context),
        all.sold.show(units),
        count(sales.len(), "sale", "sales")
    );
    let home = match all.unsold.base() {
        none if none <= 0.0 => "nothing".to_owned(),
        part => format!(
            "{} of the {} brought, {} %",
            all.unsold.show(units),
            Mass::of_kilograms(brought).show(units),
            rounded(part / brought * 100.0, 0)
        ),
    };
    let best = parted(sales, |sale| (sale.strain.id.as_str(), wood_id(sale))).into_iter().next();
    let best = best.and_then(|(sale, takings)| {
        Some(cell![named(&sale.strain, wood(&sale), context), format!(", {}", by_weight(&takings, context)?)])
    });
    let told = [
        ("Taken", Some(cell![taken])),
        ("Unsold", Some(cell![home])),
        ("Fetched", by_weight(&all, context).map(|fetched| cell![fetched])),
        ("Fetched most", best),
    ];
    Some(told.into_iter().filter_map(|(head, said)| Some((head, said?))).collect())
}

/// A table's columns of what was sold and taken.
pub fn figures<'a, R: Copy>(rows: Columns<R>, of: impl Fn(R) -> &'a Takings, context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let per = unit(units);
    let home = |row| unsold(of(row)).map(|unsold| format!("{} unsold", unsold.listed(units)));
    rows.number("Sold", |row| cell![of(row).sold.listed(units), below(home(row))])
        .number("Taken", |row| money(of(row).taken, context))
        .number(&format!("For {}", per.show(units)), |row| {
            or_dash(of(row).sold_for(&per).map(|fetched| money(fetched, context)))
        })
        .done()
}

/// What a weight fetched, in words; `None` where nothing was sold.
fn by_weight(takings: &Takings, context: &Context<'_>) -> Option<String> {
    let per = unit(context.units());
    Some(format!("{} for {}", money(takings.sold_for(&per)?, context), per.show(context.units())))
}

/// A strain on a wood.
pub fn named(strain: &Strain, wood: Option<&Arc<Wood>>, context: &Context<'_>) -> Cell {
    let wood = wood.map(|wood| cell![" on ", Anchor::wood(wood, context)]);
    cell![Anchor::strain(strain, context), wood.unwrap_or_else(|| cell![", the batch not told"])]
}

/// What came home, where anything did.
fn unsold(takings: &Takings) -> Option<&Mass> {
    Some(&takings.unsold).filter(|unsold| unsold.base() > 0.0)
}

/// What was taken by wood and strain, beside what was reckoned.
pub fn taken(context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let coins = |number: f64| money(number, context);
    Table::of("facts stack", "What this farm took, beside what was reckoned", context.findings.taken())
        .id("taken")
        .own()
        .head("Strain and wood", |found| named(&found.strain, found.wood.as_ref(), context))
        .number("Sold", |found| found.takings.sold.listed(units))
        .number("Unsold", |found| or_dash(unsold(&found.takings).map(|unsold| unsold.listed(units))))
        .number("Taken", |found| coins(found.takings.taken))
        .column("Taken by weight", |found| {
            let per = found.price.as_ref().map_or_else(|| unit(units), |price| price.per.clone());
            let price = found.price.as_ref().map(|price| format!("reckoned with {}", coins(price.price)));
            let taken = found.takings.sold_for(&per).map(|taken| format!("{} for {}", coins(taken), per.show(units)));
            cell![or_dash(taken), below(price)]
        })
        .column("Taken by a log so far", |found| {
            let life = found
                .life
                .map(|[low, high]| format!("over its life {} are reckoned", range(&coins(low), &coins(high))));
            cell![or_dash(found.a_log.map(coins)), below(life)]
        })
        .done()
}
