//! The six doors of the front page: the season's work, each with its number.

use serde::Serialize;

use super::purchase::money;
use super::{Anchor, mass_range};
use crate::page::{Context, Page};
use crate::quantity::{Mass, count};
use crate::reckon::findings::{day, purchase};

/// A piece of the season's work, and how much of it there is.
#[derive(Debug, Serialize)]
pub struct Door {
    link: Anchor,
    number: String,
}

/// The six doors, in the order of the year.
pub fn all(context: &Context<'_>) -> [Door; 6] {
    let door =
        |page: Page, word: &str, number| Door { link: Anchor::to(context.route.to(&page), word, context), number };
    [
        door(Page::Felling, "Fell", felling(context)),
        door(Page::Supply, "Order", order(context)),
        door(Page::Inoculation, "Inoculate", inoculation(context)),
        door(Page::SoakRota, "Soak", soak(context)),
        door(Page::Selling, "Pick", picked(context)),
        door(Page::Troubles, "Trouble", count(context.book.troubles.len(), "sign", "signs")),
    ]
}

fn felling(context: &Context<'_>) -> String {
    let winter = context.findings.winter();
    match winter.number() {
        0 if winter.wishes.is_empty() => "no plan yet".to_owned(),
        0 => "nothing left".to_owned(),
        trees => {
            format!("{} → {}", count(trees, "tree", "trees"), count(context.findings.felled_logs(), "log", "logs"))
        }
    }
}

fn order(context: &Context<'_>) -> String {
    let purchases = context.findings.purchases();
    match purchase::total(purchases) {
        Some(cost) => money(cost, context),
        None if purchases.is_empty() => "nothing left".to_owned(),
        None => count(purchases.len(), "item", "items"),
    }
}

fn inoculation(context: &Context<'_>) -> String {
    let Some(total) = day::total(context.findings) else { return "nothing left".to_owned() };
    let logs = count(total.logs, "log", "logs");
    match total.work {
        Ok(work) => format!("{logs}, {:.0} h", work.hours()),
        Err(_) => logs,
    }
}

fn soak(context: &Context<'_>) -> String {
    let rotas = context.findings.rotas();
    let logs: u32 = rotas.iter().flat_map(|rota| &rota.batches).map(|(_, logs)| logs).sum();
    let days = crate::reckon::findings::tank::tank_days(rotas).len();
    if days == 0 {
        "nothing due".to_owned()
    } else {
        format!("{}, {}", count(logs, "log", "logs"), count(days, "day", "days"))
    }
}

/// What was picked in this growing year; before its first picking, what may crop.
fn picked(context: &Context<'_>) -> String {
    let findings = context.findings;
    let year = findings.season.growing_year();
    let picked = findings.batches().iter().filter_map(|found| found.year(year)?.picked.clone());
    let picked: Vec<Mass> = picked.collect();
    if picked.is_empty() {
        return format!("nothing yet in {year}");
    }
    let sum: Mass = picked.into_iter().sum();
    format!("{} in {year}", mass_range(&[sum.clone(), sum], context.units()))
}
