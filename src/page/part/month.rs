//! The work of a month.

use serde::Serialize;

use super::{Anchor, date};
use crate::page::Context;
use crate::page::part::work::page;
use crate::quantity::Date;
use crate::quantity::date::month_name;
use crate::reckon::findings::agenda::{What, Work, WorkKind};
use crate::reckon::findings::title::ware;

/// Months shown at most.
const MOST_MONTHS: i64 = 18;

/// The work of one month.
#[derive(Debug, Serialize)]
pub struct Month {
    /// The month and its year.
    pub name: String,
    /// Its work, each with where more is told.
    pub work: Vec<Anchor>,
}

impl Month {
    /// The month with so much of its work at most, and how much more there is.
    pub fn first(mut self, most: usize) -> (Self, usize) {
        let more = self.work.len().saturating_sub(most);
        self.work.truncate(most);
        (self, more)
    }
}

/// Every month of the season's year.
pub fn all(context: &Context<'_>) -> Vec<Month> {
    (0..months(context))
        .map(|step| {
            month(first_of(context.findings.axis(), step), first_of(context.findings.axis(), step + 1), context)
        })
        .collect()
}

/// Twelve months, or as many more as the season's work runs on.
fn months(context: &Context<'_>) -> i64 {
    let last = context.findings.agenda().iter().map(|work| work.to).max();
    let reached = |months: &i64| last.is_none_or(|last| first_of(context.findings.axis(), *months) > last);
    (12..MOST_MONTHS).find(reached).unwrap_or(MOST_MONTHS)
}

/// The first day of the month so many months after another.
fn first_of(date: Date, months: i64) -> Date {
    Date(date.0.saturating_add(jiff::Span::new().months(months)))
}

fn month(from: Date, next: Date, context: &Context<'_>) -> Month {
    let to = next.plus(-1);
    let agenda = context.findings.agenda();
    let in_month = |work: &&Work| work.from <= to && work.to >= from;
    let soaks: Vec<&Work> = agenda.iter().filter(in_month).filter(|work| work.kind() == WorkKind::Soak).collect();
    let others = agenda.iter().filter(in_month).filter(|work| !matches!(work.kind(), WorkKind::Soak | WorkKind::Order));
    let mut work: Vec<Anchor> = others.map(|work| entry(work, from, to, context)).collect();
    let orders: Vec<&Work> = agenda.iter().filter(in_month).filter(|work| work.kind() == WorkKind::Order).collect();
    for day in orders.chunk_by(|one, other| one.from == other.from) {
        work.push(order(day, context));
    }
    if !soaks.is_empty() {
        let mut days: Vec<String> = soaks.iter().map(|work| work.from.0.day().to_string()).collect();
        days.dedup();
        let words = format!("Soak, by the rota: on the {}", super::and(&days));
        work.push(Anchor::to(context.route.to(&page(WorkKind::Soak)), words, context));
    }
    Month { name: format!("{} {}", month_name(from.0.month()), from.0.year()), work }
}

/// What has to be ordered by one day.
fn order(day: &[&Work], context: &Context<'_>) -> Anchor {
    let thing = |work: &&Work| match &work.what {
        What::Order { item, strain, .. } => Some(ware(*item, strain.as_deref())),
        _ => None,
    };
    let things: Vec<String> = day.iter().filter_map(thing).collect();
    let last = day.first().map_or_else(String::new, |work| work.from.day_of_year().show(context.units()));
    let words = format!("Order {} by {last}", super::and(&things));
    Anchor::to(context.route.at(&page(WorkKind::Order), "order"), words, context)
}

/// A piece of work with the end that falls in the month.
fn entry(work: &Work, from: Date, to: Date, context: &Context<'_>) -> Anchor {
    let day = |date: Date| date.day_of_year().show(context.units());
    let when = match (work.from >= from, work.to <= to) {
        (true, true) if work.from == work.to => format!(": {}", day(work.from)),
        (true, true) => format!(": {} to {}", day(work.from), day(work.to)),
        (true, false) => format!(": from {}", day(work.from)),
        (false, true) => format!(": until {}", day(work.to)),
        (false, false) => String::new(),
    };
    let when = if when.is_empty() { when } else { date::with_basis(when, work.basis) };
    Anchor::to(context.route.to(&page(work.kind())), format!("{}{when}", work.words()), context)
}
