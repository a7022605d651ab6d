//! What goes into each tank day by day, and the weeks in which that is more than it takes.

use std::cmp::Reverse;

use super::grouped;
use super::rota::{RotaFinding, RotaTurn, weeks};
use crate::quantity::Date;
use crate::reckon::rota::{Needed, Tank};

/// A day at a tank: the turns of all strains.
#[derive(Debug, Clone)]
pub struct TankDay<'a> {
    /// The day.
    pub date: Date,
    /// The yard whose own tank it is; `None` where it is the farm's.
    pub yard: Option<&'a str>,
    /// The turn of each strain.
    pub turns: Vec<(&'a RotaFinding, &'a RotaTurn)>,
}

impl TankDay<'_> {
    /// Logs of all strains.
    pub fn logs(&self) -> u32 {
        self.turns.iter().map(|(_, turn)| turn.count()).sum()
    }

    /// The tank, where the farm says how many logs it holds.
    pub fn tank(&self) -> Option<Tank> {
        self.turns.first().and_then(|(found, _)| found.tank)
    }
}

/// Every day at each tank, the strains of one day together.
pub fn tank_days(rotas: &[RotaFinding]) -> Vec<TankDay<'_>> {
    let turns = rotas.iter().flat_map(|found| found.turns.iter().map(move |turn| (found, turn)));
    let days = grouped(turns.map(|(found, turn)| ((turn.date, found.yard.as_deref()), (found, turn))));
    days.into_iter().map(|((date, yard), turns)| TankDay { date, yard, turns }).collect()
}

/// The fullest week of a tank, where it is more than the tank takes with a load a day.
#[derive(Debug, Clone)]
pub struct FullWeek {
    /// The yard whose own tank it is; `None` where it is the farm's.
    pub yard: Option<String>,
    /// The tank.
    pub tank: Tank,
    /// The first day on which logs go in.
    pub from: Date,
    /// Logs of all strains.
    pub logs: u32,
    /// What would take them.
    pub needed: Needed,
}

/// The fullest week of each tank that has more to take than it can.
pub fn full_weeks(rotas: &[RotaFinding]) -> Vec<FullWeek> {
    let tanks = grouped(rotas.iter().map(|found| (found.yard.as_deref(), found)));
    let of_tank = |(yard, rotas): (Option<&str>, Vec<&RotaFinding>)| {
        let tank = rotas.first()?.tank?;
        let turns = || rotas.iter().flat_map(|found| &found.turns);
        let (week, logs) = weeks(turns()).into_iter().max_by_key(|(week, logs)| (*logs, Reverse(*week)))?;
        let from = turns().filter(|turn| turn.week == week).map(|turn| turn.date).min()?;
        Some(FullWeek { yard: yard.map(str::to_owned), tank, from, logs, needed: tank.needed(logs)? })
    };
    tanks.into_iter().filter_map(of_tank).collect()
}
