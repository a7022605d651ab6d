//! The working behind orders, wishes and money.

use crate::page::Context;
use crate::page::part::cite::Cite;
use crate::page::part::purchase::money;
use crate::page::part::worked::{Block, Part};
use crate::page::part::{Anchor, capital};
use crate::quantity::measure::rounded;
use crate::quantity::{Duration, count};
use crate::reckon::Topic;
use crate::reckon::findings::purchase::holds;
use crate::reckon::findings::{MoneyFinding, PlanningFinding, PurchaseFinding};
use crate::reckon::formula::{Formula, Place};
use crate::reckon::money::COST;
use crate::reckon::planning::LOGS;
use crate::reckon::supply::PACKAGES;

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&PACKAGES, &LOGS, &COST];

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let findings = context.findings;
    vec![
        Part::new("packages", "What to order")
            .by(&[&PACKAGES], context)
            .blocks(findings.purchases().iter().map(|found| purchase(found, context))),
        Part::new("planning", "How many logs a wish needs")
            .by(&[&LOGS], context)
            .blocks(findings.planning().iter().enumerate().map(|(place, found)| wish(place, found, context))),
        Part::new("money", "What a log costs")
            .by(&[&COST], context)
            .blocks(findings.money().iter().enumerate().map(|(place, found)| log(place, found, context))),
    ]
}

fn purchase(found: &PurchaseFinding, context: &Context<'_>) -> Block {
    let units = context.units();
    let strain = found.strain.as_ref().map_or_else(String::new, |strain| format!(", {}", strain.record.name));
    let item = capital(&format!("{}{strain}", found.item.words()));
    let place = Place::new(Topic::Supply, found.id());
    let need = found.need.as_ref().map_or_else(ToString::to_string, |need| need.show(units));
    let mut block = Block::of(Anchor::here(&place.block, item)).named(&*place.block).line(format!("need: {need}"));
    let counts = found.bought.as_ref().map(|bought| bought.counts.as_slice()).unwrap_or_default();
    let offers = found.offers.iter().enumerate().map(|(index, offer)| {
        let price = offer.price.map_or_else(|| "no price".to_owned(), |price| money(price, context));
        format!("{} at {price}: {}", holds(offer, units), counts.get(index).copied().unwrap_or(0))
    });
    let offers: Vec<String> = offers.collect();
    if !offers.is_empty() {
        block = block.line(format!("on offer, and how many: {}", offers.join("; ")));
    }
    if let Some((from, to)) = found.window {
        let order = found.order_by.map(|date| format!("; less the longest lead time, {}", date.show(context.units())));
        let keeps =
            found.use_by.map(|date| format!("; plus the shortest keeping time, {}", date.show(context.units())));
        let ends = order.unwrap_or_default() + &keeps.unwrap_or_default();
        block = block.line(format!(
            "inoculation from {} to {}{ends}",
            from.show(context.units()),
            to.show(context.units())
        ));
    }
    block.made_by(&[&PACKAGES])
}

fn wish(place: usize, found: &PlanningFinding, context: &Context<'_>) -> Block {
    let units = context.units();
    let result = match &found.logs {
        Ok([all, each]) => format!("{} ({each} a week or new a year)", count(*all, "log", "logs")),
        Err(gap) => gap.to_string(),
    };
    let by = found.by.as_ref();
    let yields = by.map_or_else(String::new, |(of, _)| {
        format!("{} to {} a log; ", of.a_log.low.show(units), of.a_log.high.show(units))
    });
    let trees = found.trees.map_or_else(String::new, |trees| {
        format!(", {} by the mean of our marked trees", count(trees, "tree", "trees"))
    });
    Block::of(Anchor::strain(&found.strain, context))
        .named(format!("planning-{place}"))
        .line(format!("{yields}{result}{trees}"))
        .cites(by.map(|(of, _)| Cite::by(of, context)))
        .made_by(&[&LOGS])
}

fn log(place: usize, found: &MoneyFinding, context: &Context<'_>) -> Block {
    let part = |part: Option<f64>| part.map_or_else(|| "?".to_owned(), |part| rounded(part, 3));
    let [spawn, wax] = [&found.spawn, &found.wax].map(|paid| part(paid.as_ref().ok().copied()));
    let work = part(found.work.as_ref().ok().map(Duration::hours));
    let hour = context.book.farm.record.money.as_ref().and_then(|money| money.hour);
    let cost = found.cost.as_ref().map_or_else(ToString::to_string, |cost| rounded(*cost, 2));
    let hour = hour.map_or_else(|| "?".to_owned(), |hour| rounded(hour, 2));
    Block::of(Anchor::strain(&found.strain, context))
        .named(format!("money-{place}"))
        .line(format!("{spawn} + {wax} + {work} h × {hour} = {cost}"))
        .made_by(&[&COST])
}
