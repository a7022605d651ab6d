//! What to order: the packages, by when, and what is left over.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde::Serialize;

use crate::book::Batch;
use crate::page::part::batch::sold_words;
use crate::page::part::cite::Cite;
use crate::page::part::purchase::money;
use crate::page::part::table::{Cell, Part, Table, cell, list, or_dash, or_gap};
use crate::page::part::{Anchor, Figure, capital};
use crate::page::{Context, Page};
use crate::quantity::Date;
use crate::reckon::Topic;
use crate::reckon::findings::purchase::{holds, total};
use crate::reckon::findings::stock::spawn_lots;
use crate::reckon::findings::{BagFinding, PurchaseFinding};
use crate::reckon::formula::Place;
use crate::reckon::spawn::OPENED_MONTHS;
use crate::record::Id;
use crate::record::plan::State;
use crate::record::said::Mark;

/// The order.
#[derive(Debug, Serialize)]
pub struct View {
    lines: Option<Table>,
    is_done: bool,
    total: Option<Figure>,
    unpriced: bool,
    working: String,
    day: String,
    bags: Option<Table>,
    opened: Cell,
    past: Option<Cell>,
    failures: Option<Table>,
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
        bags: bags(context),
        opened: Cite::of(&Id::new(OPENED_MONTHS.1), Mark::Read, context).into(),
        past: past(context),
        failures: failures(context),
    }
}

/// The bags of the season's plans: what is ordered, what came, what is left, and which batches came of each.
fn bags(context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let day = |day: Option<Date>| or_dash(day.map(|day| day.show(units)));
    let came = |bag: &BagFinding| match (bag.told.arrived, bag.told.ordered) {
        (None, Some(ordered)) if bag.left.is_none() => cell![format!("ordered {}", ordered.show(units))],
        (arrived, _) => day(arrived),
    };
    let opened = |bag: &BagFinding| {
        let last = bag.use_up().filter(|last| bag.is_in_hand() && *last >= context.findings.axis());
        let last = last.map(|last| format!(": use up by {}", last.show(units)));
        cell![day(bag.told.opened), last]
    };
    let left = |bag: &BagFinding| match (&bag.left, bag.told.state) {
        (_, State::Spoilt) => State::Spoilt.words().to_owned(),
        (None, _) => "on its way".to_owned(),
        (Some(left), State::Doubtful) => format!("{}, {}", left.show(units), State::Doubtful.words()),
        (Some(left), State::Good) => left.show(units),
    };
    Table::of("facts stack", "Spawn and wax that is ordered or in hand", context.findings.bags())
        .id("bags")
        .head("What", |bag| {
            let strain = bag.strain.as_ref().map(|strain| cell![", ", Anchor::strain(strain, context)]);
            cell![capital(bag.item.words()), strain]
        })
        .column("Lot number", |bag| or_dash(bag.lot.clone()))
        .column("Arrived", came)
        .column("Kept", |bag| or_dash(bag.told.kept.clone()))
        .column("Opened", opened)
        .column("Left", left)
        .column("Batches of it", |bag| {
            let of_it = bag.batches.iter().map(|batch| {
                let sold = context.findings.batch(&batch.id).and_then(|found| sold_words(found, context));
                cell![Anchor::batch(batch, context), sold.map(|sold| format!(" ({sold})"))]
            });
            or_dash(list(", ", of_it))
        })
        .done()
}

/// Bags of which something is left, and whose last day came before this season's year.
fn past(context: &Context<'_>) -> Option<Cell> {
    let axis = context.findings.axis();
    let bags = context.findings.bags().iter().filter(|bag| bag.is_in_hand());
    let told = bags.filter_map(|bag| {
        let opened = bag.told.opened.filter(|_| bag.use_up().is_some_and(|last| last < axis))?;
        let strain = bag.strain.as_ref().map(|strain| format!(", {}", strain.record.name));
        let lot = bag.lot.as_ref().map(|lot| format!(", lot {lot}"));
        Some(cell![bag.item.words(), strain, lot, format!(" (opened {})", opened.show(context.units()))])
    });
    let told: Vec<Cell> = told.collect();
    (!told.is_empty()).then(|| cell!["Opened too long ago, and past their day: ", list("; ", told), "."])
}

/// The batches whose spawn never took, by their strain.
fn failures(context: &Context<'_>) -> Option<Table> {
    let mut strains: BTreeMap<&str, Vec<&Arc<Batch>>> = BTreeMap::new();
    for batch in context.book.batches.values() {
        strains.entry(&batch.strain.id).or_default().push(batch);
    }
    let failed = strains.into_values().filter_map(|batches| {
        let all = batches.len();
        let failed: Vec<&Arc<Batch>> = batches.into_iter().filter(|batch| batch.has_failed()).collect();
        Some((Arc::clone(&failed.first()?.strain), all, failed))
    });
    let named = |batch: &&Arc<Batch>| {
        let lots: Vec<&str> = spawn_lots(context.book, batch).into_iter().collect();
        let lot = (!lots.is_empty()).then(|| format!(" (lot {})", lots.join(", ")));
        cell![Anchor::batch(batch, context), lot]
    };
    let strains: Vec<_> = failed.collect();
    Table::of("facts", "Spawn that never took", &strains)
        .id("failures")
        .head("Strain", |(strain, ..)| Anchor::strain(strain, context))
        .number("Batches", |(_, all, failed)| format!("{} of {all}", failed.len()))
        .column("Which", |(.., failed)| list(", ", failed.iter().map(named)))
        .done()
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
        let in_stock = found.in_stock.as_ref().map(|stock| {
            cell![" ", Part::Note(format!("besides {} in stock or on its way", stock.show(units)).into())]
        });
        found.need.clone().map(|need| cell![worked(found, need.listed(units)), in_stock])
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
        .number("Left over", |found| found.left_over().map(|left| worked(found, left.listed(units))))
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
