//! What to order: the packages, by when, and what is left over.

use serde::Serialize;

use crate::page::part::purchase::money;
use crate::page::part::table::{Part, Table, cell, list, or_gap};
use crate::page::part::{Anchor, Figure, capital};
use crate::page::{Context, Page};
use crate::quantity::Date;
use crate::reckon::Topic;
use crate::reckon::findings::PurchaseFinding;
use crate::reckon::findings::purchase::{holds, total};
use crate::reckon::formula::Place;

/// The order.
#[derive(Debug, Serialize)]
pub struct View {
    lines: Option<Table>,
    is_done: bool,
    total: Option<Figure>,
    unpriced: bool,
    working: String,
    day: String,
}

/// The view of the order.
pub fn view(context: &Context<'_>) -> View {
    let purchases = context.findings.purchases();
    let working = Place::new(Topic::Supply, "packages");
    View {
        lines: lines(context),
        is_done: context.findings.winter().is_done(),
        total: total(purchases).map(|cost| Figure::worked(money(cost, context), &working, context)),
        unpriced: purchases.iter().any(|found| found.cost().is_err()),
        working: context.route.working(&working),
        day: context.route.to(&Page::Inoculation),
    }
}

fn lines(context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let worked =
        |found: &PurchaseFinding, text: String| Figure::worked(text, &Place::new(Topic::Supply, found.id()), context);
    let cost = |found: &PurchaseFinding| {
        let cost = found.cost().map(|cost| worked(found, money(cost, context)));
        found.bought.as_ref().ok().map(|_| cost.unwrap_or_else(|_| Figure::gap("no package has a price")))
    };
    let too_short = |found: &PurchaseFinding| {
        let (_, (_, to)) = found.use_by.zip(found.window).filter(|(use_by, (_, to))| use_by < to)?;
        Some(format!(
            "keeps no longer, though inoculation goes on to {}: order the rest later",
            to.show(context.units())
        ))
    };
    let need = |found: &PurchaseFinding| {
        let in_stock = found
            .in_stock
            .as_ref()
            .map(|stock| cell![" ", Part::Note(format!("besides {} in stock", stock.show(units)).into())]);
        found.need.clone().map(|need| cell![worked(found, need.show(units)), in_stock])
    };
    let is_bought = |found: &PurchaseFinding| {
        found.need.as_ref().is_err() || found.need.as_ref().is_ok_and(|need| need.whole() > 0)
    };
    let dated = |found: &PurchaseFinding, day: Option<Date>, gap: &str| {
        if is_bought(found) { or_gap(day.map(|day| day.show(units)), gap) } else { Part::Nothing.into() }
    };
    Table::of("facts tally stack", "The cheapest packages that cover each need", context.findings.purchases())
        .id("order")
        .plain("Ordered", |_| Part::Tick)
        .head("What", |found| {
            let strain = found.strain.as_ref().map(|strain| cell![", ", Anchor::strain(strain, context)]);
            cell![capital(found.item.words()), strain]
        })
        .column("Need", need)
        .column("Packages", |found| {
            let packages = found.packages().map(|(offer, count)| format!("{count} × {}", holds(offer, units)));
            let gap = found.need.as_ref().ok().and(found.bought.as_ref().err());
            let nothing = (!is_bought(found)).then_some("nothing: the stock will do");
            cell![list(", ", packages), nothing, gap.map(|gap| Part::Gap(gap.to_string()))]
        })
        .number("Cost", cost)
        .number("Left over", |found| found.left_over().map(|left| worked(found, left.show(units))))
        .column("Order by", |found| {
            dated(found, found.order_by, "no date: the plan gives no delivery time, or no day fits")
        })
        .column("Use by", |found| {
            let gap = "no date: the plan does not say how long it keeps, or no day fits";
            let too_short = too_short(found).map(|words| cell![" ", Part::Gap(words)]);
            cell![dated(found, found.use_by, gap), too_short]
        })
        .done()
}
