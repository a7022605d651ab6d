//! The working behind orders, wishes and money.

use serde::Serialize;

use super::formula::{Cited, winter};
use crate::{
    page::{
        Context,
        part::{
            Anchor, capital,
            cite::Cite,
            purchase::{amount_words, holds, money},
        },
    },
    quantity::{count, measure::rounded},
    reckon::findings::{MoneyFinding, PlanningFinding, PurchaseFinding},
};

/// The working behind orders, wishes and money.
#[derive(Debug, Serialize)]
pub struct View {
    packages: Cited,
    planning: Cited,
    money: Cited,
    lines: Vec<Line>,
    wishes: Vec<Wish>,
    logs: Vec<Log>,
}

/// One thing to order.
#[derive(Debug, Serialize)]
struct Line {
    id: String,
    item: String,
    need: String,
    offers: Vec<String>,
    dates: Option<String>,
}

/// What a wish comes to by one yield.
#[derive(Debug, Serialize)]
struct Wish {
    id: String,
    strain: Anchor,
    numbers: String,
    cite: Option<Cite>,
}

/// What a log costs.
#[derive(Debug, Serialize)]
struct Log {
    id: String,
    strain: Anchor,
    numbers: String,
}

/// The view of the working.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let findings = context.findings;
    View {
        packages: winter::packages().cited(context),
        planning: winter::planning().cited(context),
        money: winter::money().cited(context),
        lines: findings.purchases().iter().map(|found| line(found, context)).collect(),
        wishes: findings.planning().iter().enumerate().map(|(place, found)| wish(place, found, context)).collect(),
        logs: findings.money().iter().enumerate().map(|(place, found)| log(place, found, context)).collect(),
    }
}

fn line(found: &PurchaseFinding, context: &Context<'_>) -> Line {
    let units = context.units();
    let counts = found.bought.as_ref().map(|bought| bought.counts.clone()).unwrap_or_default();
    let offers = found.offers.iter().enumerate().map(|(index, offer)| {
        let price = offer.price.map_or_else(|| "no price".to_owned(), |price| money(price, context));
        let count = counts.get(index).copied().unwrap_or(0);
        format!("{} at {price}: {count}", holds(offer, units))
    });
    let strain = found.strain.as_ref().map_or_else(String::new, |strain| format!(", {}", strain.record.name));
    Line {
        id: found.id(),
        item: capital(&format!("{}{strain}", found.item.words())),
        need: found.need.as_ref().map_or_else(ToString::to_string, |need| amount_words(need, units)),
        offers: offers.collect(),
        dates: found.window.map(|(from, to)| {
            let order = found
                .order_by
                .map_or_else(String::new, |date| format!("; less the longest lead time, {}", date.show()));
            let keeps = found
                .use_by
                .map_or_else(String::new, |date| format!("; plus the shortest keeping time, {}", date.show()));
            format!("inoculation from {} to {}{order}{keeps}", from.show(), to.show())
        }),
    }
}

fn wish(place: usize, found: &PlanningFinding, context: &Context<'_>) -> Wish {
    let units = context.units();
    let result = match &found.logs {
        Ok([all, each]) => format!("{} ({each} a week or new a year)", count(*all, "log", "logs")),
        Err(gap) => gap.to_string(),
    };
    let by = found.by.as_ref().map_or_else(String::new, |(of, _)| {
        format!("{} to {} a log; ", of.a_log.low.show(units), of.a_log.high.show(units))
    });
    let trees = found.trees.map_or_else(String::new, |trees| {
        format!(", {} by the mean of our marked trees", count(trees, "tree", "trees"))
    });
    Wish {
        id: format!("planning-{place}"),
        strain: Anchor::strain(&found.strain, context),
        numbers: format!("{by}{result}{trees}"),
        cite: found.by.as_ref().map(|(of, _)| Cite::of(&of.source, of.mark, context)),
    }
}

fn log(place: usize, found: &MoneyFinding, context: &Context<'_>) -> Log {
    let part = |index: usize| found.parts[index].as_ref().map_or_else(|_| "?".to_owned(), |part| rounded(*part, 3));
    let hour = context.book.farm.record.money.as_ref().and_then(|money| money.hour);
    let cost = found.cost.as_ref().map_or_else(ToString::to_string, |cost| rounded(*cost, 2));
    let hour = hour.map_or_else(|| "?".to_owned(), |hour| rounded(hour, 2));
    Log {
        id: format!("money-{place}"),
        strain: Anchor::strain(&found.strain, context),
        numbers: format!("{} + {} + {} h × {hour} = {cost}", part(0), part(1), part(2)),
    }
}
