//! Lays out the tables of what a wish needs and what a log costs.

use super::{
    Cell, Grid,
    build::{grid, mass, mass_unit, text},
};
use crate::{
    quantity::{Mass, Units, count},
    reckon::{
        Findings,
        findings::{
            MoneyFinding, PlanningFinding,
            outlook::{Ask, End},
        },
        money,
    },
    record::{
        mushroom::{LogYield, Over},
        table::Table,
    },
};

pub fn planning(findings: &Findings) -> Grid {
    let units = findings.choice.units;
    let row = |found: &PlanningFinding| {
        let by = found.by.as_ref();
        let per = by.map(|(of, end)| match end {
            End::Low => &of.a_log.low,
            End::High => &of.a_log.high,
        });
        let volume = found.tank.map(|cubic_metres| match units {
            Units::Us => cubic_metres / 0.3048_f64.powi(3),
            Units::Metric => cubic_metres * 1000.0,
        });
        let ground = found.ground.map(|square_metres| match units {
            Units::Us => square_metres / 0.3048_f64.powi(2),
            Units::Metric => square_metres,
        });
        vec![
            text(&found.strain.id),
            text(match &found.asks {
                Ask::AWeek(mass) => format!("{} a week", mass.show(units)),
                Ask::Guests(guests) => count(*guests, "guest", "guests"),
            }),
            Cell::text(by.map(|(of, _)| of.source.as_str())),
            Cell::text(by.map(|(of, _)| of.mark.words())),
            mass(per, units),
            Cell::text(by.map(|(of, _)| over(of.over))),
            Cell::number(found.logs.as_ref().ok().map(|[all, _]| f64::from(*all)), 0),
            Cell::number(found.logs.as_ref().ok().filter(|_| by.is_some()).map(|[_, each]| f64::from(*each)), 0),
            Cell::number(found.trees.map(f64::from), 0),
            Cell::number(volume, 1),
            Cell::number(ground, 1),
            Cell::text(found.logs.as_ref().err().map(ToString::to_string)),
        ]
    };
    let a_log = format!("a_log_{}", mass_unit(units));
    let (tank, ground) = if units == Units::Us { ("tank_ft3", "ground_ft2") } else { ("tank_l", "ground_m2") };
    let columns = [
        "strain",
        "asks",
        "source",
        "mark",
        &a_log,
        "over",
        "logs",
        "logs_soaked_or_new",
        "trees",
        tank,
        ground,
        "remark",
    ];
    grid(Table::Planning, &columns, findings.planning().iter().map(row).collect())
}

/// What a yield was counted over, in words.
#[must_use]
pub const fn over(over: Over) -> &'static str {
    match over {
        Over::Life => "a life",
        Over::FirstSeason => "the first season",
        Over::Flush => "a flush",
    }
}

pub fn money(findings: &Findings) -> Grid {
    let units = findings.choice.units;
    let mut rows = Vec::new();
    for found in findings.money() {
        match found.returns.as_slice() {
            [] => rows.push(money_row(found, units, None)),
            returns => rows.extend(returns.iter().map(|of| money_row(found, units, Some(of)))),
        }
    }
    for budget in money::PUBLISHED {
        let mut row = vec![Cell::Empty; 6];
        row[0] = text("published budget, in dollars of its day");
        row.extend([
            Cell::number(budget.cost, 2),
            text(budget.source),
            text(budget.mark.words()),
            Cell::number(budget.returns.map(|[low, _]| low), 2),
            Cell::number(budget.returns.map(|[_, high]| high), 2),
            mass(budget.break_even_pounds.map(Mass::of_pounds).as_ref(), units),
            text(budget.says),
        ]);
        rows.push(row);
    }
    let columns = [
        "of",
        "strain",
        "logs",
        "spawn_a_log",
        "wax_a_log",
        "hours_a_log",
        "cost_a_log",
        "source",
        "mark",
        "return_least",
        "return_most",
        &format!("break_even_{}", mass_unit(units)),
        "remark",
    ];
    grid(Table::Money, &columns, rows)
}

fn money_row(found: &MoneyFinding, units: Units, returns: Option<&(LogYield, [f64; 2])>) -> Vec<Cell> {
    let part = |index: usize| Cell::number(found.parts[index].as_ref().ok().copied(), 2);
    let gap = found.parts.iter().chain([&found.cost]).find_map(|part| part.as_ref().err());
    let no_price =
        found.price.is_none().then(|| "no return: the price of its mushroom is not recorded in farm.yaml".to_owned());
    vec![
        text("this farm"),
        text(&found.strain.id),
        Cell::Number(f64::from(found.logs), 0),
        part(0),
        part(1),
        part(2),
        Cell::number(found.cost.as_ref().ok().copied(), 2),
        Cell::text(returns.map(|(of, _)| of.source.as_str())),
        Cell::text(returns.map(|(of, _)| of.mark.words())),
        Cell::number(returns.map(|(_, [low, _])| *low), 2),
        Cell::number(returns.map(|(_, [_, high])| *high), 2),
        mass(found.break_even.as_ref(), units),
        Cell::text(gap.map(ToString::to_string).or(no_price)),
    ]
}
