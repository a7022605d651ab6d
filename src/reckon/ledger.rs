//! Where are the logs now?
//!
//! Two balances, each a partition of all logs that there ever were:
//!
//! | balance | in | out |
//! |---|---|---|
//! | wood, by winter, wood and kind of pieces | carried over + cut here + brought in | filled + waiting + left unfilled |
//! | yard, by batch | filled + added | in the yard + retired + sold + given away + lost + not accounted for |
//!
//! What waits at a winter's end is carried over into the next. Logs that left a pile before the winter of their felling are
//! counted in it, and a pile gives no more than it holds. A count of a batch sets its number in the yard; what it differs by
//! is not accounted for, less than nought where more were counted than written. Of lines of one day logs are added first and
//! counted last, so that the order in which lines are written changes nothing. Whole logs throughout; source: bookkeeping.

use std::collections::BTreeMap;

use crate::quantity::Date;
use crate::record::lot::How;

/// A pile of logs of one kind `K`.
#[derive(Debug, Clone)]
pub struct Heap<K> {
    /// What they are.
    pub of: K,
    /// The winter in which they were felled.
    pub winter: i16,
    /// Whether they were cut from the farm's own trees.
    pub is_cut_here: bool,
    /// How many there were.
    pub logs: u32,
    /// Those that left it: in which winter, how (`None` where they were filled), and how many.
    pub left: Vec<(i16, Option<How>, u32)>,
}

impl<K> Heap<K> {
    /// Logs that wait at the end of a winter.
    pub fn waiting(&self, winter: i16) -> u32 {
        let left = self.left.iter().filter(|(when, ..)| *when <= winter).map(|(.., logs)| logs);
        self.logs.saturating_sub(left.sum())
    }
}

/// The balance of one kind of logs in one winter.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Wood {
    /// Those that waited when it began.
    pub carried: u32,
    /// Those cut from the farm's own trees.
    pub cut: u32,
    /// Those from elsewhere.
    pub brought: u32,
    /// Those that were filled.
    pub filled: u32,
    /// Those that wait at its end.
    pub waiting: u32,
    /// Those that were not filled and are gone, by how they went.
    pub unfilled: BTreeMap<How, u32>,
}

impl Wood {
    /// All that came in.
    pub const fn came(&self) -> u32 {
        self.carried + self.cut + self.brought
    }

    /// All that is told of them.
    pub fn told(&self) -> u32 {
        self.filled + self.waiting + self.left_unfilled()
    }

    /// Those that were not filled and are gone, however they went.
    pub fn left_unfilled(&self) -> u32 {
        self.unfilled.values().sum()
    }
}

/// The balance of every kind of logs, winter by winter up to the last.
///
/// ```
/// use hostwood::reckon::ledger::{Heap, wood};
/// // Of 24 logs cut in one winter 10 are filled in it and 14 in the next.
/// let heap = Heap { of: "oak", winter: 2025, is_cut_here: true, logs: 24, left: vec![(2026, None, 14), (2025, None, 10)] };
/// let balances = wood(&[heap], 2026);
/// assert_eq!((balances[&(2025, "oak")].cut, balances[&(2025, "oak")].waiting), (24, 14));
/// assert_eq!((balances[&(2026, "oak")].carried, balances[&(2026, "oak")].waiting), (14, 0));
/// ```
pub fn wood<K: Ord + Clone>(heaps: &[Heap<K>], last: i16) -> BTreeMap<(i16, K), Wood> {
    let mut balances: BTreeMap<(i16, K), Wood> = BTreeMap::new();
    for heap in heaps {
        let mut left: Vec<(i16, Option<How>, u32)> =
            heap.left.iter().map(|(when, how, logs)| ((*when).max(heap.winter), *how, *logs)).collect();
        left.sort_unstable();
        let mut waiting = heap.logs;
        for winter in heap.winter..=last {
            let own = winter == heap.winter;
            if waiting == 0 && !own {
                break;
            }
            let balance = balances.entry((winter, heap.of.clone())).or_default();
            match (own, heap.is_cut_here) {
                (false, _) => balance.carried += waiting,
                (true, true) => balance.cut += waiting,
                (true, false) => balance.brought += waiting,
            }
            for (_, how, logs) in left.iter().filter(|(when, ..)| *when == winter) {
                let gone = waiting.min(*logs);
                waiting -= gone;
                match how {
                    None => balance.filled += gone,
                    Some(how) => *balance.unfilled.entry(*how).or_default() += gone,
                }
            }
            balance.waiting += waiting;
        }
    }
    balances
}

/// How logs leave a yard.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Exit {
    /// They are spent.
    Retired,
    /// They are sold.
    Sold,
    /// They are given away.
    Given,
    /// They are lost.
    Lost,
}

/// What changes the number of a batch, in the order in which the lines of one day count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Change {
    /// So many were laid to it.
    Added(u32),
    /// So many left.
    Left(Exit, u32),
    /// So many were counted.
    Counted(u32),
    /// The rest left.
    Rest(Exit),
}

/// The balance of one batch.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Yard {
    /// Logs that it began with.
    pub filled: u32,
    /// Logs laid to it later.
    pub added: u32,
    /// Logs in the yard.
    pub yard: u32,
    /// Spent logs.
    pub retired: u32,
    /// Sold logs.
    pub sold: u32,
    /// Logs given away.
    pub given: u32,
    /// Lost logs.
    pub lost: u32,
    /// Logs of which nobody wrote where they went; below nought where more were counted than written.
    pub unaccounted: i64,
}

impl Yard {
    /// Everything that was ever laid to the batch.
    pub const fn all(&self) -> u32 {
        self.filled + self.added
    }

    fn leaves(&mut self, exit: Exit, logs: u32) {
        let gone = self.yard.min(logs);
        self.yard -= gone;
        match exit {
            Exit::Retired => self.retired += gone,
            Exit::Sold => self.sold += gone,
            Exit::Given => self.given += gone,
            Exit::Lost => self.lost += gone,
        }
    }
}

/// The balance of a batch that began with so many logs.
///
/// ```
/// use hostwood::{quantity::Date, reckon::ledger::{Change, Exit, yard}};
/// let day = |text| Date::read(text).unwrap();
/// let lines = [
///     (day("2027-06-01"), Change::Counted(25)),
///     (day("2027-05-01"), Change::Left(Exit::Lost, 1)),
///     (day("2027-05-01"), Change::Added(4)),
/// ];
/// let found = yard(24, lines);
/// assert_eq!((found.all(), found.yard, found.lost, found.unaccounted), (28, 25, 1, 2));
/// ```
pub fn yard(filled: u32, changes: impl IntoIterator<Item = (Date, Change)>) -> Yard {
    let mut changes: Vec<(Date, Change)> = changes.into_iter().collect();
    changes.sort_unstable();
    let mut found = Yard { filled, yard: filled, ..Yard::default() };
    for (_, change) in changes {
        match change {
            Change::Added(logs) => {
                found.added += logs;
                found.yard += logs;
            }
            Change::Left(exit, logs) => found.leaves(exit, logs),
            Change::Counted(logs) => {
                found.unaccounted += i64::from(found.yard) - i64::from(logs);
                found.yard = logs;
            }
            Change::Rest(exit) => found.leaves(exit, u32::MAX),
        }
    }
    found
}

/// Gives each batch to wishes: to the first open one that it fits, what is over to the next, and what is over of all to the
/// last; a row of shares for each batch, as the places of wishes and so many logs.
///
/// ```
/// use hostwood::reckon::ledger::shares;
/// // Two wishes of 24 and 12: the first batch fills the first, the second batch what is left of both, and two are over.
/// let batches = [(20, vec![0, 1]), (18, vec![0, 1])];
/// assert_eq!(shares(&[24, 12], &batches), [vec![(0, 20)], vec![(0, 4), (1, 14)]]);
/// ```
pub fn shares(wanted: &[u32], batches: &[(u32, Vec<usize>)]) -> Vec<Vec<(usize, u32)>> {
    let mut open = wanted.to_vec();
    let share = |(logs, fits): &(u32, Vec<usize>)| {
        let mut over = *logs;
        let mut parts: Vec<(usize, u32)> = Vec::new();
        for wish in fits {
            let part = over.min(open[*wish]);
            open[*wish] -= part;
            over -= part;
            parts.extend((part > 0).then_some((*wish, part)));
        }
        match (parts.last_mut(), fits.last()) {
            (Some((_, part)), _) => *part += over,
            (None, Some(last)) if over > 0 => parts.push((*last, over)),
            (None, _) => {}
        }
        parts
    };
    batches.iter().map(share).collect()
}
