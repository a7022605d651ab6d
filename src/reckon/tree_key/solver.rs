//! Weighs keys, and keeps the best question of every set.

use std::collections::HashMap;

use super::{Matrix, Set, Split};

/// Questions of the most gain that are tried while many woods are left.
const TRIED: usize = 3;
/// Questions that set kinds to refuse apart that are tried beside them.
const APART: usize = 12;
/// Sets of many woods at which more than one question is tried.
const SETS: usize = 40;
/// Sets that are weighed at most, so that woods of many states each cannot hold a run up.
const WEIGHED: usize = 400_000;
/// Differences below which two costs are equal.
const EQUAL: f64 = 1e-9;

/// What a key costs: the effort until it is known whether to refuse, before the effort to the wood.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Cost {
    pub(super) to_refuse: f64,
    pub(super) average: f64,
}

impl Cost {
    /// Whether it is less by more than what rounding makes.
    pub(super) fn is_less(self, other: Self) -> bool {
        let refuse = self.to_refuse - other.to_refuse;
        refuse < -EQUAL || refuse <= EQUAL && self.average < other.average - EQUAL
    }
}

/// Weighs keys, and keeps the best question of every set.
pub(super) struct Solver<'a> {
    matrix: &'a Matrix,
    exact: usize,
    /// Large sets at which more than one question may still be tried.
    sets: usize,
    kept: HashMap<Set, (Cost, Option<Split>)>,
}

impl<'a> Solver<'a> {
    /// A solver that tries every question while no more woods than `exact` are left.
    pub(super) fn of(matrix: &'a Matrix, exact: usize) -> Self {
        Self { matrix, exact, sets: SETS, kept: HashMap::new() }
    }

    /// The best question of a set; none where nothing parts it.
    pub(super) fn best(&mut self, woods: Set) -> Option<Split> {
        self.cost(woods);
        self.kept.get(&woods).and_then(|(_, split)| split.clone())
    }

    fn cost(&mut self, woods: Set) -> Cost {
        if woods.count_ones() < 2 {
            return Cost::default();
        }
        if let Some((cost, _)) = self.kept.get(&woods) {
            return *cost;
        }
        if self.kept.len() >= WEIGHED {
            return Cost::default();
        }
        let mut best: Option<(Cost, Split)> = None;
        for split in self.tried(woods) {
            let least = best.as_ref().map(|(cost, _)| *cost);
            if let Some(cost) = self.cost_of(woods, &split, least) {
                best = Some((cost, split));
            }
        }
        let (cost, split) = best.map_or((Cost::default(), None), |(cost, split)| (cost, Some(split)));
        self.kept.insert(woods, (cost, split));
        cost
    }

    /// What a question costs with all that comes after it, where that is less than the least so far.
    fn cost_of(&mut self, woods: Set, split: &Split, least: Option<Cost>) -> Option<Cost> {
        let effort = self.matrix.efforts[split.question];
        let to_refuse = if self.matrix.is_settled(woods) { 0.0 } else { effort };
        let mut cost = Cost { to_refuse, average: effort };
        let is_beaten = |cost: Cost| least.is_some_and(|least| !cost.is_less(least));
        let [first, second] = split.woods;
        let (share, at_stake) = (self.matrix.share(first, second), self.matrix.share_at_stake(first, second));
        for (kept, share, at_stake) in [(first, share, at_stake), (second, 1.0 - share, 1.0 - at_stake)] {
            if is_beaten(cost) {
                return None;
            }
            let rest = self.cost(kept);
            cost.to_refuse += at_stake * rest.to_refuse;
            cost.average += share * rest.average;
        }
        (!is_beaten(cost)).then_some(cost)
    }

    fn tried(&mut self, woods: Set) -> Vec<Split> {
        if woods.count_ones() as usize <= self.exact {
            return self.matrix.splits(woods);
        }
        let splits = self.matrix.of_most_gain(woods);
        // A question that sets kinds to refuse apart is tried though it gains little.
        let is_apart = |split: &&Split| split.woods.iter().any(|woods| *woods & !self.matrix.refused == 0);
        let (wide, beside) = if self.sets > 0 { (TRIED, APART) } else { (1, 0) };
        let apart = splits.iter().skip(TRIED).filter(is_apart).take(beside);
        self.sets = self.sets.saturating_sub(1);
        splits.iter().take(wide).chain(apart).cloned().collect()
    }
}
