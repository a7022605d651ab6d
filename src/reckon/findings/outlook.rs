//! From wishes back to logs by every published yield, and what a log costs and may bring.

use std::sync::Arc;

use super::{PurchaseFinding, TreeFinding, day::Day, winter::WishFinding};
use crate::{
    book::{Book, Mushroom, Strain},
    quantity::{Length, Mass, measure::rounded},
    reckon::{Gap, money, planning},
    record::{
        farm::Price,
        mushroom::{LogYield, Over},
        plan::Item,
        strain::SpawnForm,
    },
};

/// What one wish comes to by one published yield.
#[derive(Debug, Clone)]
pub struct PlanningFinding {
    /// The strain.
    pub strain: Arc<Strain>,
    /// What is asked, in words.
    pub asks: Ask,
    /// The yield, and whether its low or its high end is taken; none for guests.
    pub by: Option<(LogYield, End)>,
    /// Logs in all, and logs a week (by a flush) or new logs a year (by a life).
    pub logs: Result<[u32; 2], Gap>,
    /// Trees of this farm that give so many.
    pub trees: Option<u32>,
    /// Tank in which the logs of one soak lie, in cubic metres.
    pub tank: Option<f64>,
    /// Ground on which all the logs lie, in square metres.
    pub ground: Option<f64>,
}

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub enum Ask {
    /// A weight a week.
    AWeek(Mass),
    /// Logs for guests.
    Guests(u32),
}

/// An end of a range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The lower.
    Low,
    /// The higher.
    High,
}

impl End {
    fn of(self, of: &LogYield) -> &Mass {
        match self {
            Self::Low => &of.a_log.low,
            Self::High => &of.a_log.high,
        }
    }
}

/// The yields in figures that hold for a mushroom: its own, or else those of its group.
#[must_use]
pub fn yields(mushroom: &Mushroom) -> &[LogYield] {
    let mut next = Some(mushroom);
    while let Some(mushroom) = next {
        if !mushroom.record.log_yields.is_empty() {
            return &mushroom.record.log_yields;
        }
        next = mushroom.part_of.as_deref();
    }
    &[]
}

/// From every wish back to logs, trees, tank and ground.
#[must_use]
pub fn planning(book: &Book, wishes: &[WishFinding], trees: &[TreeFinding]) -> Vec<PlanningFinding> {
    let size = &book.farm.record.log;
    let middle = Length::of_inches(f64::midpoint(size.diameter.low.inches(), size.diameter.high.inches()));
    let giving: Vec<u32> =
        trees.iter().filter(|tree| tree.may_fall() && tree.logs() > 0).map(TreeFinding::logs).collect();
    let a_tree = f64::from(giving.iter().sum::<u32>()) / giving.len().max(1) as f64;
    let row = |strain: &Arc<Strain>, asks: Ask, by: Option<(LogYield, End)>, logs: Result<[u32; 2], Gap>| {
        let all = logs.as_ref().ok().map(|[all, _]| *all);
        let flush = by.as_ref().is_some_and(|(of, _)| of.over == Over::Flush);
        let soaked = logs.as_ref().ok().filter(|_| flush).map(|[_, each]| *each);
        PlanningFinding {
            strain: Arc::clone(strain),
            asks,
            by,
            trees: all.and_then(|logs| planning::trees(logs, a_tree)),
            tank: soaked.map(|logs| planning::tank(logs, &middle, &size.length)),
            ground: all.map(|logs| planning::ground(logs, &middle, &size.length)),
            logs,
        }
    };
    let mut rows = Vec::new();
    for wish in wishes {
        if let Some(guests) = wish.wish.guests {
            let logs = planning::by_guests(guests, wish.wish.logs_a_guest);
            rows.push(row(&wish.strain, Ask::Guests(guests), None, Ok([logs, logs])));
        }
        let Some(a_week) = &wish.wish.a_week else { continue };
        for of in yields(&wish.strain.mushroom) {
            let ends = if of.a_log.low == of.a_log.high { vec![End::Low] } else { vec![End::Low, End::High] };
            for end in ends {
                let logs = logs(a_week, wish.wish.weeks, of, end);
                rows.push(row(&wish.strain, Ask::AWeek(a_week.clone()), Some((of.clone(), end)), logs));
            }
        }
        if yields(&wish.strain.mushroom).is_empty() {
            let gap = Err(Gap::NotPublished("the weight a log of it gives"));
            rows.push(row(&wish.strain, Ask::AWeek(a_week.clone()), None, gap));
        }
    }
    rows
}

fn logs(a_week: &Mass, weeks: Option<u32>, of: &LogYield, end: End) -> Result<[u32; 2], Gap> {
    let mass = end.of(of);
    let years = of.years.as_ref().map(|years| f64::midpoint(years.low, years.high));
    match (of.over, years) {
        (Over::Flush, _) => {
            let [each, all] = planning::by_flush(a_week, mass);
            Ok([all, each])
        }
        (Over::Life, Some(years)) => planning::by_life(a_week, weeks, mass, years),
        (Over::FirstSeason, _) => planning::by_life(a_week, weeks, mass, 1.0),
        (Over::Life, None) => Err(Gap::NotRecorded("how many years the yield was counted over")),
    }
}

/// What a log of one strain costs, and may bring by one published yield.
#[derive(Debug, Clone)]
pub struct MoneyFinding {
    /// The strain.
    pub strain: Arc<Strain>,
    /// The form of its spawn.
    pub form: SpawnForm,
    /// Logs.
    pub logs: u32,
    /// Spawn for one log, wax for one log, hours for one log.
    pub parts: [Result<f64, Gap>; 3],
    /// Cost of one log.
    pub cost: Result<f64, Gap>,
    /// The price of its mushroom.
    pub price: Option<Price>,
    /// What one log brings over its life, least and most, by each yield counted over a life.
    pub returns: Vec<(LogYield, [f64; 2])>,
    /// The yield at which a log pays for itself.
    pub break_even: Option<Mass>,
}

/// What a log of every strain on the day costs and may bring.
#[must_use]
pub fn money(book: &Book, days: &[Day], purchases: &[PurchaseFinding]) -> Vec<MoneyFinding> {
    let Some(money) = &book.farm.record.money else { return Vec::new() };
    let all_logs: u32 = days.iter().map(Day::logs).sum();
    let cost = |found: Option<&PurchaseFinding>| {
        let found = found.ok_or(Gap::NotRecorded("a package on offer (`offers` in the plan)"))?;
        let bought = found.bought.clone()?;
        bought
            .cost
            .map(|cost| cost as f64 / 100.0)
            .ok_or(Gap::NotRecorded("the price of the packages (`price` of each offer in the plan)"))
    };
    let find = |item: Item, strain: Option<&str>| {
        purchases
            .iter()
            .find(|found| found.item == item && found.strain.as_ref().map(|strain| strain.id.as_str()) == strain)
    };
    let wax = cost(find(Item::Wax, None)).map(|cost| cost / f64::from(all_logs.max(1)));
    let an_hour = money.hour.ok_or(Gap::NotRecorded("what an hour of work costs (`hour` under `money` in farm.yaml)"));
    let mut findings: Vec<MoneyFinding> = Vec::new();
    for day in days.iter().filter(|day| day.logs() > 0) {
        let of_spawn = |other: &&Day| other.strain.id == day.strain.id && other.form == day.form;
        let logs: u32 = days.iter().filter(of_spawn).map(Day::logs).sum();
        if findings.iter().any(|found| found.strain.id == day.strain.id && found.form == day.form) {
            continue;
        }
        let spawn =
            cost(find(Item::of(day.form), Some(&day.strain.id))).map(|cost| cost * share(days, day) / f64::from(logs));
        let hours = day.hours().map(|hours| hours / f64::from(day.logs()));
        let cost = || Ok(money::cost(spawn.clone()? + wax.clone()?, hours.clone()?, an_hour.clone()?));
        let cost: Result<f64, Gap> = cost();
        let price = day
            .strain
            .mushroom
            .line()
            .find_map(|id| money.prices.iter().find(|price| price.mushroom.as_str() == id))
            .cloned();
        let of_life = yields(&day.strain.mushroom).iter().filter(|of| of.over == Over::Life);
        let returns = price.iter().flat_map(|price| {
            of_life.clone().map(|of| {
                let worth = |mass: &Mass| money::worth(mass, price.price, &price.per);
                (of.clone(), [worth(&of.a_log.low), worth(&of.a_log.high)])
            })
        });
        findings.push(MoneyFinding {
            strain: Arc::clone(&day.strain),
            form: day.form,
            logs,
            returns: returns.collect(),
            break_even: price
                .as_ref()
                .zip(cost.as_ref().ok())
                .filter(|(price, _)| price.price > 0.0)
                .map(|(price, cost)| money::break_even(*cost, price.price, &price.per)),
            parts: [spawn, wax.clone(), hours],
            cost,
            price,
        });
    }
    findings
}

/// An amount of money in a currency: its sign before the number, a longer name after it.
///
/// ```
/// use hostwood::reckon::findings::outlook::amount;
/// assert_eq!(amount(4.5, "$"), "$4.50");
/// assert_eq!(amount(4.5, "crowns"), "4.50 crowns");
/// ```
#[must_use]
pub fn amount(number: f64, currency: &str) -> String {
    let number = if number.fract() == 0.0 { rounded(number, 0) } else { format!("{number:.2}") };
    if currency.is_empty() {
        number
    } else if currency.chars().all(char::is_alphabetic) {
        format!("{number} {currency}")
    } else {
        format!("{currency}{number}")
    }
}

/// The part of a purchase of spawn that goes into drilled logs, by weight; totems and beds take the rest.
fn share(days: &[Day], day: &Day) -> f64 {
    let same = || days.iter().filter(|other| other.strain.id == day.strain.id && other.form == day.form);
    let logs: f64 = same().filter_map(|day| day.spawn.as_ref().ok()).map(|[_, most]| most.base()).sum();
    let other = same().flat_map(|day| &day.other).filter_map(|work| work.spawn()?.as_ref().ok());
    let other: f64 = other.map(Mass::base).sum();
    if logs > 0.0 { logs / (logs + other) } else { 1.0 }
}
