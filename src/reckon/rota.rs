//! Which logs go into the tank each week?
//!
//! | question | formula | source |
//! |---|---|---|
//! | how many each week | N logs in G = R groups, R weeks from soak to soak; group g has ⌊N/G⌋ logs, and one more for g < N mod G | UK-85: 108 logs, nine weeks, 12 a week |
//! | how often | ⌈(W − g) / R⌉ soaks of group g in W weeks | own arithmetic |
//! | which | week by week, as many as the week's group holds: those that have waited longest, none before R weeks from its last flush | CORN-FORCE: a natural flush counts |
//!
//! Weeks and groups are counted from nought. Where no log has just flushed, the two rules give the same weeks.

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

/// How a rota is kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rule {
    /// Weeks from one soak of a log to its next.
    pub every: u32,
    /// For each week of the season whether a soak may begin in it.
    pub open: Vec<bool>,
    /// The first week of the season that still lies ahead.
    pub from: u32,
    /// The most soaks of one log in the season.
    pub most: Option<u32>,
}

/// A log that waits for its turn.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Waiting {
    /// The first week in which it may be soaked.
    pub ready: u32,
    /// Soaks that it has had in this season.
    pub soaked: u32,
}

/// The logs of one week.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Turn {
    /// The week.
    pub week: u32,
    /// The group whose turn it is.
    pub group: u32,
    /// The logs, by their place in the list.
    pub logs: Vec<usize>,
}

/// The rota.
pub const ROTA: Formula = Formula {
    name: "The soak rota",
    math: r#"<math display="block"><mrow><msub><mi>N</mi><mi>g</mi></msub><mo>=</mo><mo>⌊</mo><mfrac><mi>N</mi><mi>R</mi></mfrac><mo>⌋</mo><mo>+</mo><mo>[</mo><mi>g</mi><mo>&lt;</mo><mi>N</mi><mi>mod</mi><mi>R</mi><mo>]</mo><mspace width="2em"/><mi>soaks</mi><mo>=</mo><mo>⌈</mo><mfrac><mrow><mi>W</mi><mo>−</mo><mi>g</mi></mrow><mi>R</mi></mfrac><mo>⌉</mo></mrow></math>"#,
    words: "As many groups as weeks between two soaks of a log, one group a week. Each week as many logs go in as its group holds, those that have waited longest; none before its rest from the last soak, or from a flush that came by itself, is over, and none before twelve months from inoculation.",
    symbols: &[
        ("N", "logs of the strain that are old enough"),
        ("R", "weeks from soak to soak"),
        ("g", "group, counted from nought"),
        ("W", "weeks of the season in which a soak may begin"),
    ],
    sources: &[("uk-85", Mark::Copy), ("corn-force", Mark::Copy)],
    own: "the groups by the first source, natural flushes by the second",
};

/// Every week's logs.
///
/// ```
/// use hostwood::reckon::rota::{Rule, Waiting, plan};
/// let rule = Rule { every: 9, open: vec![true; 20], from: 0, most: None };
/// let turns = plan(&[Waiting::default(); 108], &rule);
/// assert!(turns.iter().all(|turn| turn.logs.len() == 12)); // WE-01: twelve a week
/// let of_first = |turn: &&hostwood::reckon::rota::Turn| turn.logs.contains(&0);
/// assert_eq!(turns.iter().filter(of_first).map(|turn| turn.week).collect::<Vec<_>>(), [0, 9, 18]);
/// ```
pub fn plan(logs: &[Waiting], rule: &Rule) -> Vec<Turn> {
    let every = rule.every.max(1);
    let season = rule.open.len() as u32;
    let sizes = groups(logs.iter().filter(|log| log.ready < season).count() as u32, every);
    let mut waiting: Vec<(u32, usize, u32)> =
        logs.iter().enumerate().map(|(index, log)| (log.ready, index, log.soaked)).collect();
    let mut turns = Vec::new();
    for week in (rule.from..season).filter(|week| rule.open[*week as usize]) {
        let group = week % every;
        let room = sizes[group as usize] as usize;
        let may = |log: &&mut (u32, usize, u32)| log.0 <= week && rule.most.is_none_or(|most| log.2 < most);
        waiting.sort_unstable();
        let mut taken = Vec::new();
        for log in waiting.iter_mut().filter(may).take(room) {
            taken.push(log.1);
            *log = (week + every, log.1, log.2 + 1);
        }
        if !taken.is_empty() {
            turns.push(Turn { week, group, logs: taken });
        }
    }
    turns
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn totals(logs: usize, every: u32, season: u32) -> (u32, Vec<u32>) {
        let rule = Rule { every, open: vec![true; season as usize], from: 0, most: None };
        let turns = plan(&vec![Waiting::default(); logs], &rule);
        let first_round = turns.iter().take_while(|turn| turn.week < every);
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

    proptest! {
        #[test]
        fn no_log_goes_in_before_its_rest_or_too_often(
            ready in proptest::collection::vec((0u32..30, 0u32..3), 0..60),
            every in 1u32..14,
            open in proptest::collection::vec(proptest::bool::ANY, 0..40),
            from in 0u32..10,
            most in proptest::option::of(1u32..5),
        ) {
            let logs: Vec<Waiting> =
                ready.iter().map(|(ready, soaked)| Waiting { ready: *ready, soaked: *soaked }).collect();
            let turns = plan(&logs, &Rule { every, open: open.clone(), from, most });
            for (log, waiting) in logs.iter().enumerate() {
                let weeks: Vec<u32> =
                    turns.iter().filter(|turn| turn.logs.contains(&log)).map(|turn| turn.week).collect();
                let allowed = |week: &u32| *week >= waiting.ready.max(from) && open[*week as usize];
                prop_assert!(weeks.iter().all(allowed));
                prop_assert!(weeks.windows(2).all(|pair| pair[1] - pair[0] >= every));
                prop_assert!(most.is_none_or(|most| weeks.len() as u32 <= most.saturating_sub(waiting.soaked)));
            }
            let largest = groups(logs.len() as u32, every).into_iter().max().unwrap_or(0) as usize;
            prop_assert!(turns.iter().all(|turn| turn.logs.len() <= largest));
        }
    }
}
