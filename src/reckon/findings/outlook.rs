//! From wishes back to logs by every published yield, and what a log costs and may bring.

use std::sync::Arc;

use super::{Day, Findings, TreeFinding};
use crate::book::Strain;
use crate::quantity::measure::rounded;
use crate::quantity::{Area, Duration, Mass, Units, Volume, count};
use crate::reckon::{Gap, money, planning};
use crate::record::farm::{Money, Price};
use crate::record::mushroom::{LogYield, Over};
use crate::record::plan::Item;
use crate::record::strain::SpawnForm;

/// What one wish comes to by one published yield.
#[derive(Debug, Clone)]
pub struct PlanningFinding {
    /// The strain.
    pub strain: Arc<Strain>,
    /// What is asked, in words.
    pub asks: Ask,
    /// The yield, and what a log gives by its low or its high end; none for guests.
    pub by: Option<(LogYield, Mass)>,
    /// Logs in all, and logs a week (by a flush) or new logs a year (by a life).
    pub logs: Result<[u32; 2], Gap>,
    /// Trees of this farm that give so many.
    pub trees: Option<u32>,
    /// Tank in which the logs of one soak lie.
    pub tank: Option<Volume>,
    /// Ground on which all the logs lie.
    pub ground: Option<Area>,
}

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub enum Ask {
    /// A weight a week.
    AWeek(Mass),
    /// Logs for guests.
    Guests(u32),
}

impl Ask {
    /// What is asked, in words.
    pub fn words(&self, units: Units) -> String {
        match self {
            Self::AWeek(mass) => format!("{} a week", mass.show(units)),
            Self::Guests(guests) => count(*guests, "guest", "guests"),
        }
    }
}

/// From every wish back to logs, trees, tank and ground.
pub fn planning(findings: &Findings) -> Vec<PlanningFinding> {
    let mut rows = Vec::new();
    let a_tree = logs_a_tree(findings.trees());
    let size = &findings.book.farm.record.log;
    let middle = size.diameter.middle();
    for found in &findings.winter().wishes {
        let mut row = |asks: &Ask, by: Option<(LogYield, Mass)>, logs: Result<[u32; 2], Gap>| {
            let [all, each] = [0, 1].map(|which| logs.as_ref().ok().map(|logs| logs[which]));
            let soaked = each.filter(|_| by.as_ref().is_some_and(|(of, _)| of.over == Over::Flush));
            rows.push(PlanningFinding {
                strain: Arc::clone(&found.strain),
                asks: asks.clone(),
                by,
                trees: all.and_then(|logs| planning::trees(logs, a_tree)),
                tank: soaked.map(|logs| planning::tank(logs, &middle, &size.length)),
                ground: all.map(|logs| planning::ground(logs, &middle, &size.length)),
                logs,
            });
        };
        let wish = &found.wish;
        if let Some(guests) = wish.guests {
            let logs = planning::by_guests(guests, wish.logs_a_guest);
            row(&Ask::Guests(guests), None, Ok([logs, logs]));
        }
        let Some(a_week) = &wish.a_week else { continue };
        let asks = Ask::AWeek(a_week.clone());
        let yields = found.strain.mushroom.log_yields();
        for of in yields {
            let high = Some(&of.a_log.high).filter(|high| **high != of.a_log.low);
            for a_log in [&of.a_log.low].into_iter().chain(high) {
                row(&asks, Some((of.clone(), a_log.clone())), logs(a_week, wish.weeks, of, a_log));
            }
        }
        if yields.is_empty() {
            row(&asks, None, Err(Gap::NotPublished("the weight a log of it gives")));
        }
    }
    rows
}

/// Logs of a marked tree, on average.
fn logs_a_tree(trees: &[TreeFinding]) -> f64 {
    let giving = || trees.iter().filter(|tree| tree.may_fall() && tree.logs() > 0);
    f64::from(giving().map(TreeFinding::logs).sum::<u32>()) / giving().count().max(1) as f64
}

fn logs(a_week: &Mass, weeks: Option<u32>, of: &LogYield, a_log: &Mass) -> Result<[u32; 2], Gap> {
    let years = of.years.as_ref().map(|years| f64::midpoint(years.low, years.high));
    match (of.over, years) {
        (Over::Flush, _) => {
            let [each, all] = planning::by_flush(a_week, a_log);
            Ok([all, each])
        }
        (Over::Life, Some(years)) => planning::by_life(a_week, weeks, a_log, years),
        (Over::FirstSeason, _) => planning::by_life(a_week, weeks, a_log, 1.0),
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
    /// Spawn for one log, in money.
    pub spawn: Result<f64, Gap>,
    /// Wax for one log, in money.
    pub wax: Result<f64, Gap>,
    /// Work on one log.
    pub work: Result<Duration, Gap>,
    /// Cost of one log, in money.
    pub cost: Result<f64, Gap>,
    /// The price of its mushroom.
    pub price: Option<Price>,
    /// What one log brings over its life, least and most, by each yield counted over a life.
    pub returns: Vec<(LogYield, [f64; 2])>,
    /// The yield at which a log pays for itself.
    pub break_even: Option<Mass>,
}

/// What a log of every strain on the day costs and may bring.
pub fn money(findings: &Findings) -> Vec<MoneyFinding> {
    let Some(farm) = &findings.book.farm.record.money else { return Vec::new() };
    let days = findings.days();
    let all_logs: u32 = days.iter().map(Day::logs).sum();
    let wax = cost(findings, Item::Wax, None).map(|cost| cost / f64::from(all_logs.max(1)));
    let mut found: Vec<MoneyFinding> = Vec::new();
    for day in days.iter().filter(|day| day.logs() > 0) {
        if found.iter().any(|found| found.strain.id == day.strain.id && found.form == day.form) {
            continue;
        }
        let same: Vec<&Day> =
            days.iter().filter(|other| other.strain.id == day.strain.id && other.form == day.form).collect();
        let logs: u32 = same.iter().map(|day| day.logs()).sum();
        let spawn = cost(findings, Item::of(day.form), Some(&day.strain.id));
        let spawn = spawn.map(|cost| cost * share(&same) / f64::from(logs));
        let work = day.work.as_ref().map(|work| work * (1.0 / f64::from(day.logs()))).map_err(Gap::clone);
        let an_hour =
            farm.hour.ok_or(Gap::NotRecorded("what an hour of work costs (`hour` under `money` in farm.yaml)"));
        let whole = || Ok(money::cost(spawn.clone()? + wax.clone()?, work.clone()?.hours(), an_hour?));
        let cost: Result<f64, Gap> = whole();
        let price = price_of(&day.strain, farm);
        let paid = price.filter(|price| price.price > 0.0).zip(cost.as_ref().ok());
        found.push(MoneyFinding {
            strain: Arc::clone(&day.strain),
            form: day.form,
            logs,
            returns: price.map_or_else(Vec::new, |price| returns(&day.strain, price)),
            break_even: paid.map(|(price, cost)| money::break_even(*cost, price.price, &price.per)),
            spawn,
            wax: wax.clone(),
            work,
            cost,
            price: price.cloned(),
        });
    }
    found
}

/// The price that a farm records for a strain: that of its mushroom, or of the nearest group above it that has one.
pub fn price_of<'a>(strain: &Strain, farm: &'a Money) -> Option<&'a Price> {
    strain.mushroom.line().find_map(|id| farm.prices.iter().find(|price| price.mushroom.as_str() == id))
}

/// What one log of a strain brings over its life, least and most, by each yield counted over a life.
pub fn returns(strain: &Strain, price: &Price) -> Vec<(LogYield, [f64; 2])> {
    let worth = |mass: &Mass| money::worth(mass, price.price, &price.per);
    let of_life = strain.mushroom.log_yields().iter().filter(|of| of.over == Over::Life);
    of_life.map(|of| (of.clone(), [worth(&of.a_log.low), worth(&of.a_log.high)])).collect()
}

/// What was bought of a thing costs.
fn cost(findings: &Findings, item: Item, strain: Option<&str>) -> Result<f64, Gap> {
    let of_strain = |found: Option<&Arc<Strain>>| found.map(|strain| strain.id.as_str()) == strain;
    let found = findings.purchases().iter().find(|found| found.item == item && of_strain(found.strain.as_ref()));
    found.ok_or(Gap::NotRecorded("a package on offer (`offers` in the plan)"))?.cost()
}

/// An amount of money in a currency: its sign before the number, a longer name after it.
///
/// ```
/// use hostwood::reckon::findings::outlook::amount;
/// assert_eq!(amount(4.5, "$"), "$4.50");
/// assert_eq!(amount(4.5, "crowns"), "4.50 crowns");
/// assert_eq!(amount(12.6 / 0.7, "£"), "£18", "what no coin pays is not told");
/// ```
pub fn amount(number: f64, currency: &str) -> String {
    let cents = (number * 100.0).round();
    let number = if cents % 100.0 == 0.0 { rounded(number, 0) } else { format!("{number:.2}") };
    if currency.is_empty() {
        number
    } else if currency.chars().all(char::is_alphabetic) {
        format!("{number} {currency}")
    } else {
        format!("{currency}{number}")
    }
}

/// The part of a purchase of spawn that goes into drilled logs, by weight; totems and beds take the rest.
fn share(same: &[&Day]) -> f64 {
    let logs: Mass = same.iter().filter_map(|day| day.spawn.clone().ok()).map(|[_, most]| most).sum();
    let other: Mass = same.iter().flat_map(|day| &day.other).filter_map(|work| work.spawn.clone()?.ok()).sum();
    if logs.base() > 0.0 { logs.base() / (logs.base() + other.base()) } else { 1.0 }
}
