//! From wishes to woods: who gets which wood, how many logs a wish needs, and what a log costs and may bring.

use serde::Serialize;

use crate::page::{
    Context, Page,
    part::{Anchor, Figure, capital, cite::Cite, logs_words, other_work, purchase::money, range, rating::Rating},
};
use crate::{
    quantity::{Duration, Length, count, measure::rounded},
    reckon::{
        Gap, Topic,
        findings::{
            Day, MoneyFinding, PlanningFinding,
            outlook::Ask,
            winter::{Cure, WishFinding},
        },
        formula::Place,
        money as budgets,
        table::why,
    },
};

/// From wishes to woods.
#[derive(Debug, Serialize)]
pub struct View {
    wishes: Vec<Wish>,
    no_plan: bool,
    trees: Figure,
    one_tree: bool,
    rows: Vec<Row>,
    money: Vec<Log>,
    no_money: bool,
    published: Vec<Budget>,
    felling: String,
    working: String,
    yields: String,
}

/// One wish.
#[derive(Debug, Serialize)]
struct Wish {
    strain: Anchor,
    spawn: &'static str,
    wanted: Figure,
    placed: Vec<Placed>,
    short: Option<String>,
    cure: Option<String>,
    other: Vec<String>,
}

/// Logs of one wood.
#[derive(Debug, Serialize)]
struct Placed {
    wood: Anchor,
    logs: Figure,
    rating: Rating,
    working: String,
}

/// What a wish comes to by one yield.
#[derive(Debug, Serialize)]
struct Row {
    strain: Anchor,
    asks: String,
    by: Option<Cite>,
    a_log: Option<String>,
    note: Option<String>,
    logs: Figure,
    each: Option<Figure>,
    trees: Option<Figure>,
    tank: Option<Figure>,
    ground: Option<Figure>,
}

/// What a log costs and may bring.
#[derive(Debug, Serialize)]
struct Log {
    strain: Anchor,
    logs: u32,
    parts: Vec<Figure>,
    cost: Figure,
    price: Option<String>,
    returns: Vec<Return>,
    break_even: Option<Figure>,
}

/// What a log brings by one yield.
#[derive(Debug, Serialize)]
struct Return {
    by: Cite,
    brings: Figure,
}

/// A published budget.
#[derive(Debug, Serialize)]
struct Budget {
    by: Cite,
    cost: Option<String>,
    returns: Option<String>,
    says: String,
}

/// The view of the sheet.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let findings = context.findings;
    let winter = findings.winter();
    View {
        wishes: winter.wishes.iter().zip(findings.days()).map(|(wish, day)| of_wish(wish, day, context)).collect(),
        no_plan: winter.wishes.is_empty(),
        trees: Figure::worked(
            count(winter.number(), "tree", "trees"),
            &Place::new(Topic::Allocation, "result"),
            context,
        ),
        one_tree: winter.number() == 1,
        rows: findings.planning().iter().enumerate().map(|(place, found)| row(place, found, context)).collect(),
        money: findings.money().iter().enumerate().map(|(place, found)| log(place, found, context)).collect(),
        no_money: context.book.farm.record.money.is_none(),
        published: budgets::PUBLISHED
            .iter()
            .map(|budget| Budget {
                by: Cite::of(&crate::record::Id::new(budget.source), budget.mark, context),
                cost: budget.cost.map(|cost| format!("${cost:.2}")),
                returns: budget.returns.map(|[low, high]| range(&format!("${low:.2}"), &format!("${high:.2}"))),
                says: capital(budget.says),
            })
            .collect(),
        felling: context.route.to(&Page::Felling),
        working: context.route.to(&Page::Working(Topic::Allocation)),
        yields: context.route.at(&Page::Working(Topic::Supply), "planning"),
    }
}

fn of_wish(found: &WishFinding, day: &Day, context: &Context<'_>) -> Wish {
    let placed = found.placed.iter().map(|placed| Placed {
        wood: Anchor::wood(&placed.wood, context),
        logs: Figure::worked(placed.logs.to_string(), &Place::new(Topic::Allocation, placed.wood.id.clone()), context),
        rating: Rating::of(placed.word),
        working: context.route.pairing(&found.strain.mushroom.id, &placed.wood.id),
    });
    Wish {
        strain: Anchor::strain(&found.strain, context),
        spawn: found.wish.spawn.words(),
        wanted: match &found.wanted {
            Ok(0) => Figure::plain("no drilled logs".to_owned()),
            Ok(logs) => Figure::plain(logs_words(f64::from(*logs))),
            Err(gap) => Figure::gap(gap.to_string()),
        },
        placed: placed.collect(),
        other: day.other.iter().map(|work| other_work::words(work, context)).collect(),
        short: found.short.as_ref().map(|short| format!("{} short: {}", logs_words(f64::from(short.logs)), why(short))),
        cure: found.short.as_ref().and_then(|short| Some(cure(short.logs, short.cure.as_ref()?, context))),
    }
}

/// What would cure a shortage, in words: "eight more logs of red oak: two trees of 8 in".
fn cure(logs: u32, cure: &Cure, context: &Context<'_>) -> String {
    let more = count(logs, "more log", "more logs");
    let trees = count(cure.trees, "tree", "trees");
    let inches = Length::of_inches(cure.diameter.inches().round()).show(context.units());
    format!("{more} of {}: {trees} of {inches}, at {} each", cure.wood.name(), logs_words(f64::from(cure.logs_each)))
}

fn row(place: usize, found: &PlanningFinding, context: &Context<'_>) -> Row {
    let units = context.units();
    let working = Place::new(Topic::Supply, format!("planning-{place}"));
    let worked = |text: String| Figure::worked(text, &working, context);
    let by = found.by.as_ref();
    let mass = by.map(|(of, end)| end.of(of));
    Row {
        strain: Anchor::strain(&found.strain, context),
        asks: match &found.asks {
            Ask::AWeek(mass) => format!("{} a week", mass.show(units)),
            Ask::Guests(guests) => count(*guests, "guest", "guests"),
        },
        by: by.map(|(of, _)| Cite::of(&of.source, of.mark, context)),
        a_log: by.zip(mass).map(|((of, _), mass)| {
            let years = of.years.as_ref().map_or_else(String::new, |years| {
                format!(" of {} years", range(&rounded(years.low, 1), &rounded(years.high, 1)))
            });
            format!("{} over {}{years}", mass.show(units), of.over.words())
        }),
        note: by.and_then(|(of, _)| of.note.clone()),
        logs: match &found.logs {
            Ok([all, _]) => worked(all.to_string()),
            Err(gap) => Figure::gap(gap.to_string()),
        },
        each: found.logs.as_ref().ok().zip(by).map(|([_, each], (of, _))| {
            worked(match of.over {
                crate::record::mushroom::Over::Flush => format!("{each} soaked a week"),
                _ => format!("{each} new a year"),
            })
        }),
        trees: found.trees.map(|trees| worked(trees.to_string())),
        tank: found.tank.map(|tank| worked(units.volume_words(tank))),
        ground: found.ground.as_ref().map(|ground| worked(ground.show(units))),
    }
}

fn log(place: usize, found: &MoneyFinding, context: &Context<'_>) -> Log {
    let working = Place::new(Topic::Supply, format!("money-{place}"));
    let units = context.units();
    let figure = |part: Result<String, &Gap>| match part {
        Ok(words) => Figure::worked(words, &working, context),
        Err(gap) => Figure::gap(gap.to_string()),
    };
    let coins = |number: f64| money(number, context);
    let paid = |part: &Result<f64, Gap>| figure(part.as_ref().map(|number| coins(*number)));
    let minutes = |work: &Duration| format!("{} min", rounded(work.hours() * 60.0, 0));
    Log {
        strain: Anchor::strain(&found.strain, context),
        logs: found.logs,
        parts: vec![paid(&found.spawn), paid(&found.wax), figure(found.work.as_ref().map(minutes))],
        cost: paid(&found.cost),
        price: found.price.as_ref().map(|price| format!("{} for {}", coins(price.price), price.per.show(units))),
        returns: found
            .returns
            .iter()
            .map(|(of, [low, high])| Return {
                by: Cite::of(&of.source, of.mark, context),
                brings: Figure::worked(range(&coins(*low), &coins(*high)), &working, context),
            })
            .collect(),
        break_even: found.break_even.as_ref().map(|mass| Figure::worked(mass.show(units), &working, context)),
    }
}
