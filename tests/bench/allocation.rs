//! How far the allocation is exact within two seconds: `cargo bench --bench allocation`.
//!
//! Prints, for winters of growing size, the slowest of several and how many were proven. The winters are random and always
//! the same: trees of one wood and 1 to 12 logs in one of three stands whose limits bite, strains that may have two thirds of the
//! woods, and wishes that together ask for about what the trees give.

mod dice;

use std::time::{Duration, Instant};

use dice::Dice;
use hostwood::reckon::allocation::{Candidate, Pair, Question, Wanted, solve};

/// Winters tried at each size.
const WINTERS: u64 = 10;

fn winter(seed: u64, trees: usize, woods: usize, strains: usize) -> Question {
    let mut dice = Dice::of(seed);
    let trees: Vec<Candidate> = (0..trees)
        .map(|_| Candidate {
            wood: dice.roll(woods as u64) as usize,
            logs: 1 + dice.roll(12) as u32,
            stand: Some(dice.roll(3) as usize),
            basal_area: 0.1 + dice.roll(60) as f64 / 100.0,
        })
        .collect();
    let area =
        |stand: usize| trees.iter().filter(|tree| tree.stand == Some(stand)).map(|tree| tree.basal_area).sum::<f64>();
    let allowances = (0..3).map(|stand| Some(area(stand) * (0.4 + 0.2 * stand as f64))).collect();
    let logs: u32 = trees.iter().map(|tree| tree.logs).sum();
    let share = u64::from(logs) / strains as u64;
    let wishes = (0..strains)
        .map(|_| Wanted {
            logs: (share / 2 + dice.roll(share.max(1))) as u32,
            pairs: (0..woods)
                .map(|_| (dice.roll(3) > 0).then(|| Pair { rating: dice.roll(4) as u8, from_trees: true }))
                .collect(),
        })
        .collect();
    let ready = (0..woods).map(|_| dice.roll(10) as u32).collect();
    Question { woods, ready, trees, allowances, wishes }
}

fn main() {
    println!("trees  woods  strains  slowest     proven");
    for (trees, woods, strains) in
        [(20, 4, 4), (40, 6, 6), (60, 8, 8), (80, 10, 10), (120, 12, 12), (160, 12, 12), (200, 12, 12)]
    {
        let mut slowest = Duration::ZERO;
        let mut proven = 0;
        for seed in 1..=WINTERS {
            let question = winter(seed, trees, woods, strains);
            let begun = Instant::now();
            let answer = solve(&question);
            slowest = slowest.max(begun.elapsed());
            proven += u64::from(answer.is_ok_and(|answer| answer.gap == 0.0));
        }
        println!("{trees:>5}  {woods:>5}  {strains:>7}  {:>7.2} s  {proven} of {WINTERS}", slowest.as_secs_f64());
    }
}
