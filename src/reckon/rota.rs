//! Which logs go into the tank each week, and on which days?
//!
//! | question | formula | source |
//! |---|---|---|
//! | how many each week | N logs in G = R groups, R weeks from soak to soak; group g has ⌊N/G⌋ logs, and one more for g < N mod G | UK-85: 108 logs, nine weeks, 12 a week |
//! | how often | ⌈(W − g) / R⌉ soaks of group g in W weeks | own arithmetic |
//! | which | week by week, as many as the week's group holds: those that have waited longest, none before R weeks from its last flush | CORN-FORCE: a natural flush counts |
//! | on which days | one load of the tank after another, ⌊7 / d⌋ loads a week, d days from load to load | own arithmetic |
//! | what a full week needs | T logs in L loads: a tank for ⌈T/L⌉ logs, or ⌈⌈T/L⌉ / C⌉ loads a day of one for C | own arithmetic |
//!
//! Weeks, days and groups are counted from nought. Where no log has just flushed and the tank holds every group, a log goes in
//! on the same day of every round.

use std::collections::BTreeSet;

use super::formula::Formula;
use crate::quantity::Date;
use crate::record::said::Mark;

/// From a soak to the last picking, in days (common practice: picking begins after about 7 to 12 days).
const SOAK_TO_PICKING_DAYS: i32 = 12;
/// A harvest within so many days of a soak belongs to it (this project's choice).
pub const OF_A_SOAK_DAYS: i32 = 21;
/// Mushrooms a log from which those that came by themselves count as a flush (CORN-FORCE).
pub const A_FLUSH: f64 = 6.0;

/// Until when to pick after a soak.
pub fn picked_by(soaked: Date) -> Date {
    soaked.plus(SOAK_TO_PICKING_DAYS)
}

/// How many logs each group has.
///
/// ```
/// use hostwood::reckon::rota::groups;
/// assert_eq!(groups(108, 9), [12; 9]); // WE-01, UK-85: nine groups of twelve
/// assert_eq!(groups(100, 8), [13, 13, 13, 13, 12, 12, 12, 12]);
/// ```
pub fn groups(logs: u32, weeks: u32) -> Vec<u32> {
    let weeks = weeks.max(1);
    (0..weeks).map(|group| logs / weeks + u32::from(group < logs % weeks)).collect()
}

/// How often the tank is filled for so many logs.
///
/// ```
/// assert_eq!(hostwood::reckon::rota::loads(50, 20), 3); // own arithmetic
/// ```
pub const fn loads(logs: u32, tank: u32) -> u32 {
    logs.div_ceil(if tank == 0 { 1 } else { tank })
}

/// A tank, and how long a load lies in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tank {
    /// How many logs it holds.
    pub holds: u32,
    /// Hours that a load lies in it.
    pub hours: f64,
}

/// What so many logs in a week ask for, where the tank does not take them with a load a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Needed {
    /// Loads on each day, where a day is long enough for them.
    pub loads_a_day: Option<u32>,
    /// A tank for so many logs would do with a load a day.
    pub holds: u32,
    /// So many tanks like this one would do.
    pub tanks: u32,
}

impl Tank {
    /// Days from one load to the next: one, or as many as a load lies.
    fn step(&self) -> u32 {
        ((self.hours / 24.0).ceil() as u32).clamp(1, 7)
    }

    /// Loads that it takes in a week, at most one a day.
    pub fn loads_a_week(&self) -> u32 {
        7 / self.step()
    }

    /// Logs that it takes in a week.
    pub fn logs_a_week(&self) -> u32 {
        self.holds.max(1).saturating_mul(self.loads_a_week())
    }

    /// What so many logs in a week need beyond it; `None` where it takes them.
    ///
    /// ```
    /// use hostwood::reckon::rota::{Needed, Tank};
    /// let tank = Tank { holds: 8, hours: 12.0 };
    /// assert_eq!(tank.needed(56), None); // by hand: seven loads of eight
    /// assert_eq!(tank.needed(60), Some(Needed { loads_a_day: Some(2), holds: 9, tanks: 2 }));
    /// assert_eq!(tank.needed(1640), Some(Needed { loads_a_day: None, holds: 235, tanks: 30 }));
    /// ```
    pub fn needed(&self, logs: u32) -> Option<Needed> {
        let holds = logs.div_ceil(self.loads_a_week());
        (logs > self.logs_a_week()).then(|| {
            let loads = loads(holds, self.holds);
            let fit = f64::from(loads) * self.hours <= 24.0;
            Needed { loads_a_day: fit.then_some(loads), holds, tanks: logs.div_ceil(self.logs_a_week()) }
        })
    }

    /// Logs that go in on one day of a week with so many: a load, or an even part where the week has more than fit.
    fn a_day(&self, week: u32) -> u32 {
        self.holds.max(1).max(week.div_ceil(self.loads_a_week()))
    }

    /// The days of a week on which it is filled.
    fn days(&self, week: u32) -> impl Iterator<Item = u32> + use<> {
        let step = self.step();
        (0..self.loads_a_week()).map(move |load| week * 7 + load * step)
    }
}

/// Logs that are alike in strain and share a tank, and how their rota is kept; days are counted from the first of all that
/// share the tank.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pool {
    /// The logs.
    pub logs: Vec<Waiting>,
    /// Weeks from one soak of a log to its next.
    pub every: u32,
    /// For each day whether a soak may begin on it.
    pub open: Vec<bool>,
    /// The first day that still lies ahead.
    pub from: u32,
    /// Logs that went in earlier in the week of that day.
    pub taken: u32,
    /// The most soaks of one log in the season.
    pub most: Option<u32>,
}

/// A log that waits for its turn.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Waiting {
    /// The first day on which it may be soaked.
    pub ready: u32,
    /// Soaks that it has had in this season.
    pub soaked: u32,
}

/// The logs of one pool that go in on one day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Turn {
    /// The pool, by its place in the list.
    pub pool: usize,
    /// The day.
    pub day: u32,
    /// The group whose turn it is.
    pub group: u32,
    /// The logs, by their place in the pool.
    pub logs: Vec<usize>,
}

/// The rota.
pub const ROTA: Formula = Formula {
    name: "The soak rota",
    math: r#"<math display="block"><mrow><msub><mi>N</mi><mi>g</mi></msub><mo>=</mo><mo>⌊</mo><mfrac><mi>N</mi><mi>R</mi></mfrac><mo>⌋</mo><mo>+</mo><mo>[</mo><mi>g</mi><mo>&lt;</mo><mi>N</mi><mi>mod</mi><mi>R</mi><mo>]</mo><mspace width="2em"/><mi>soaks</mi><mo>=</mo><mo>⌈</mo><mfrac><mrow><mi>W</mi><mo>−</mo><mi>g</mi></mrow><mi>R</mi></mfrac><mo>⌉</mo></mrow></math>"#,
    words: "As many groups as weeks between two soaks of a log, one group a week. Each week as many logs go in as its group holds, those that have waited longest, one tank load after another; none before its rest from the last soak, or from a flush that came by itself, is over, and none before twelve months from inoculation.",
    symbols: &[
        ("N", "logs of the strain that are old enough"),
        ("R", "weeks from soak to soak"),
        ("g", "group, counted from nought"),
        ("W", "weeks of the season in which a soak may begin"),
    ],
    sources: &[("uk-85", Mark::Copy), ("corn-force", Mark::Copy)],
    own: "the groups by the first source, natural flushes by the second",
};

/// The turns of all pools that share a tank, in the order of their days; without a tank a week's logs go in on its first day.
///
/// ```
/// use hostwood::reckon::rota::{Pool, Tank, Waiting, plan};
/// let logs = vec![Waiting::default(); 108];
/// let pool = Pool { logs, every: 9, open: vec![true; 140], from: 0, taken: 0, most: None };
/// let turns = plan(&[pool.clone()], None);
/// assert!(turns.iter().all(|turn| turn.logs.len() == 12)); // WE-01: twelve a week
/// let of_first = |turn: &&hostwood::reckon::rota::Turn| turn.logs.contains(&0);
/// assert_eq!(turns.iter().filter(of_first).map(|turn| turn.day / 7).collect::<Vec<_>>(), [0, 9, 18]);
/// let turns = plan(&[pool], Some(Tank { holds: 8, hours: 12.0 }));
/// assert_eq!((turns[0].logs.len(), turns[1].logs.len(), turns[1].day), (8, 4, 1)); // by hand
/// ```
pub fn plan(pools: &[Pool], tank: Option<Tank>) -> Vec<Turn> {
    let mut queues: Vec<Queue<'_>> = pools.iter().map(Queue::of).collect();
    let days = pools.iter().map(|pool| pool.open.len() as u32).max().unwrap_or(0);
    let tank = tank.unwrap_or(Tank { holds: u32::MAX, hours: 24.0 });
    let mut turns = Vec::new();
    for week in 0..days.div_ceil(7) {
        let mut rooms: Vec<u32> = queues.iter().map(|queue| queue.room(week)).collect();
        let a_day = tank.a_day(rooms.iter().sum());
        for day in tank.days(week) {
            let mut load = a_day;
            for (pool, (queue, room)) in queues.iter_mut().zip(&mut rooms).enumerate() {
                let logs = queue.take(day, load.min(*room));
                load -= logs.len() as u32;
                *room -= logs.len() as u32;
                let group = week % pools[pool].every.max(1);
                turns.extend((!logs.is_empty()).then_some(Turn { pool, day, group, logs }));
            }
        }
    }
    turns
}

/// The logs of a pool, those that have waited longest first.
struct Queue<'a> {
    pool: &'a Pool,
    sizes: Vec<u32>,
    waiting: BTreeSet<(u32, usize, u32)>,
}

impl<'a> Queue<'a> {
    fn of(pool: &'a Pool) -> Self {
        // A log that was soaked keeps its place in its group, though its next rest ends after the season.
        let in_season = |(_, log): &(usize, &Waiting)| log.soaked > 0 || (log.ready as usize) < pool.open.len();
        let may = |log: &Waiting| pool.most.is_none_or(|most| log.soaked < most);
        let logs = || pool.logs.iter().enumerate().filter(in_season);
        let waiting = logs().filter(|(_, log)| may(log)).map(|(index, log)| (log.ready, index, log.soaked));
        Self { pool, sizes: groups(logs().count() as u32, pool.every), waiting: waiting.collect() }
    }

    /// How many logs may go in within a week.
    fn room(&self, week: u32) -> u32 {
        let group = (week % self.pool.every.max(1)) as usize;
        let taken = if week == self.pool.from / 7 { self.pool.taken } else { 0 };
        let room = self.sizes[group].saturating_sub(taken);
        let mut days = (week * 7..week * 7 + 7).rev();
        let ready = |last| self.waiting.range(..(last + 1, 0, 0)).take(room as usize).count() as u32;
        days.find(|day| self.is_open(*day)).map_or(0, ready)
    }

    fn is_open(&self, day: u32) -> bool {
        day >= self.pool.from && self.pool.open.get(day as usize).copied().unwrap_or(false)
    }

    /// Takes at most so many logs on a day.
    fn take(&mut self, day: u32, most: u32) -> Vec<usize> {
        let mut taken = Vec::new();
        while self.is_open(day) && (taken.len() as u32) < most {
            let Some((_, log, soaked)) = self.waiting.first().copied().filter(|(ready, ..)| *ready <= day) else {
                break;
            };
            self.waiting.pop_first();
            if self.pool.most.is_none_or(|most| soaked + 1 < most) {
                self.waiting.insert((day + self.pool.every.max(1) * 7, log, soaked + 1));
            }
            taken.push(log);
        }
        taken
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn pool(logs: usize, every: u32, weeks: u32) -> Pool {
        let (logs, open) = (vec![Waiting::default(); logs], vec![true; weeks as usize * 7]);
        Pool { logs, every, open, from: 0, taken: 0, most: None }
    }

    fn totals(logs: usize, every: u32, season: u32) -> (u32, Vec<u32>) {
        let turns = plan(&[pool(logs, every, season)], None);
        let first_round = turns.iter().take_while(|turn| turn.day / 7 < every);
        (
            turns.iter().map(|turn| turn.logs.len() as u32).sum(),
            first_round.map(|turn| turn.logs.len() as u32).collect(),
        )
    }

    #[test]
    fn logs_soaked_in_a_season_as_worked_out_by_hand() {
        // Logs, weeks between, weeks of the season, soaks of logs in all.
        let rows = [
            (120, 8, 24, 360),
            (120, 8, 22, 330),
            (100, 8, 26, 326),
            (60, 7, 20, 172),
            (500, 10, 26, 1300),
            (96, 12, 30, 240),
            (40, 8, 6, 30),
            (5, 8, 20, 14),
            (100, 8, 21, 264),
        ];
        for (logs, every, season, all) in rows {
            let (total, first) = totals(logs, every, season);
            assert_eq!(total, all, "{logs} logs every {every} weeks in {season}");
            let sizes = groups(logs as u32, every);
            let soaks = |group: u32| season.saturating_sub(group).div_ceil(every);
            assert_eq!(sizes.iter().zip(0..).map(|(size, group)| size * soaks(group)).sum::<u32>(), all);
            let began = sizes.into_iter().take(season as usize).filter(|size| *size > 0);
            assert_eq!(first, began.collect::<Vec<_>>());
        }
    }

    #[test]
    fn a_week_too_full_for_the_tank_is_spread_evenly_over_its_days() {
        let turns = plan(&[pool(60, 1, 1)], Some(Tank { holds: 8, hours: 12.0 }));
        let logs: Vec<usize> = turns.iter().map(|turn| turn.logs.len()).collect();
        assert_eq!(logs, [9, 9, 9, 9, 9, 9, 6]);
        let two_days = plan(&[pool(20, 1, 1)], Some(Tank { holds: 8, hours: 48.0 }));
        assert_eq!(
            two_days.iter().map(|turn| (turn.day, turn.logs.len())).collect::<Vec<_>>(),
            [(0, 8), (2, 8), (4, 4)]
        );
    }

    #[test]
    fn what_went_in_already_leaves_the_rest_of_its_week() {
        let soaked = |logs: u32| {
            let mut pool = Pool { from: 1, taken: logs, ..pool(24, 2, 2) };
            pool.logs[..logs as usize].fill(Waiting { ready: 14, soaked: 1 });
            plan(&[pool], Some(Tank { holds: 8, hours: 12.0 }))
        };
        let days = |turns: Vec<Turn>| turns.iter().map(|turn| (turn.day, turn.logs.len())).collect::<Vec<_>>();
        assert_eq!(days(soaked(8)), [(1, 4), (7, 8), (8, 4)]);
        assert_eq!(days(soaked(12)), [(7, 8), (8, 4)]);
    }

    fn pools() -> impl Strategy<Value = Vec<Pool>> {
        let logs = proptest::collection::vec((0u32..200, 0u32..3), 0..60);
        let open = proptest::collection::vec(proptest::bool::weighted(0.9), 0..250);
        let most = proptest::option::of(1u32..5);
        let pool =
            (logs, 1u32..14, open, 0u32..60, 0u32..9, most).prop_map(|(logs, every, open, from, taken, most)| {
                let logs = logs.into_iter().map(|(ready, soaked)| Waiting { ready, soaked }).collect();
                Pool { logs, every, open, from, taken, most }
            });
        proptest::collection::vec(pool, 1..4)
    }

    fn tanks() -> impl Strategy<Value = Tank> {
        (1u32..30, 1.0..168.0).prop_map(|(holds, hours)| Tank { holds, hours })
    }

    proptest! {
        #[test]
        fn no_log_goes_in_before_its_rest_or_too_often(pools in pools(), tank in proptest::option::of(tanks())) {
            let turns = plan(&pools, tank);
            for (place, pool) in pools.iter().enumerate() {
                let of_pool = || turns.iter().filter(|turn| turn.pool == place);
                for (log, waiting) in pool.logs.iter().enumerate() {
                    let days: Vec<u32> = of_pool().filter(|turn| turn.logs.contains(&log)).map(|turn| turn.day).collect();
                    let allowed = |day: &u32| *day >= waiting.ready.max(pool.from) && pool.open[*day as usize];
                    prop_assert!(days.iter().all(allowed));
                    prop_assert!(days.windows(2).all(|pair| pair[1] - pair[0] >= pool.every * 7));
                    prop_assert!(pool.most.is_none_or(|most| days.len() as u32 <= most.saturating_sub(waiting.soaked)));
                }
                let largest = groups(pool.logs.len() as u32, pool.every).into_iter().max().unwrap_or(0) as usize;
                for week in 0..40 {
                    let logs: usize = of_pool().filter(|turn| turn.day / 7 == week).map(|turn| turn.logs.len()).sum();
                    prop_assert!(logs <= largest);
                }
            }
        }

        #[test]
        fn no_day_is_over_the_tank_unless_its_week_is(pools in pools(), tank in tanks()) {
            let turns = plan(&pools, Some(tank));
            for day in 0..280 {
                let logs: usize = turns.iter().filter(|turn| turn.day == day).map(|turn| turn.logs.len()).sum();
                // The sizes of all groups whose turn this week can be are the most that the week can hold.
                let week: u32 = pools.iter().map(|pool| {
                    groups(pool.logs.len() as u32, pool.every).into_iter().max().unwrap_or(0)
                }).sum();
                let holds = tank.needed(week).map_or(tank.holds, |needed| needed.holds);
                prop_assert!(logs as u32 <= holds);
            }
            let steps: Vec<u32> = turns.iter().map(|turn| turn.day).collect();
            let apart = |pair: &[u32]| pair[0] == pair[1] || f64::from(pair[1] - pair[0]) * 24.0 >= tank.hours.min(168.0);
            prop_assert!(steps.windows(2).all(apart));
        }

        #[test]
        fn every_log_that_may_be_soaked_has_one_turn_in_a_round(
            logs in 0usize..80, every in 1u32..14, tank in proptest::option::of(tanks()),
        ) {
            let turns = plan(&[pool(logs, every, every)], tank);
            let mut taken: Vec<usize> = turns.iter().flat_map(|turn| turn.logs.iter().copied()).collect();
            taken.sort_unstable();
            prop_assert_eq!(taken, (0..logs).collect::<Vec<_>>());
        }
    }
}
