//! How the time that the program takes grows with a farm: `cargo bench --bench growth`.
//!
//! For farms that are big in one kind of record it prints the seconds of `reckon`, `proof` and `publish` at each size, and the
//! exponents by which they grow from size to size, net of what a small farm and the handbook take: 1 where ten times the records
//! take ten times as long. Pages are
//! drawn by one thread, and the quickest of several runs counts.

#![allow(clippy::expect_used, reason = "a bench that cannot go on has failed")]

#[path = "../harness/big.rs"]
mod big;

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;

use big::Size;
use tempfile::TempDir;

/// An exponent above this is told by a word beside it.
const GOAL: f64 = 1.2;
/// Seconds net of the fixed ones below which an exponent says nothing.
const TELLING: f64 = 0.05;
/// Runs of each command, of which the quickest counts; on the small farm many, since its seconds are taken from all others.
const RUNS: [usize; 2] = [9, 3];
/// Seconds after which a command is not run again.
const ENOUGH: f64 = 10.0;

/// A kind of record: its name, its sizes, and a farm that is big in it.
type Kind = (&'static str, &'static [usize], fn(usize) -> Size);

const KINDS: [Kind; 7] = [
    ("harvests", &[1_000, 10_000, 100_000], |harvests| Size { harvests, ..Size::SMALL }),
    ("day-book", &[1_000, 10_000, 100_000], |diary| Size { diary, ..Size::SMALL }),
    ("fifteen-years", &[2_000, 20_000], |harvests| Size { harvests, ..Size::FIFTEEN_YEARS }),
    ("notes", &[1_000, 10_000, 100_000], |notes| Size { notes, ..Size::SMALL }),
    ("trees", &[1_000, 10_000], |trees| Size { trees, ..Size::SMALL }),
    ("batches", &[1_000, 10_000], |batches| Size { batches, ..Size::SMALL }),
    ("all", &[1_000, 10_000], Size::of),
];

/// The commands, each with a farm's folder and a folder to write.
const COMMANDS: [(&str, &[&str]); 3] = [
    ("reckon", &["reckon", "batches", "farm"]),
    ("proof", &["proof", "farm"]),
    ("publish", &["publish", "farm", "--to", "guide"]),
];

fn main() {
    let asked: Vec<String> = std::env::args().skip(1).filter(|word| !word.starts_with('-')).collect();
    let fixed = seconds(&Size::SMALL, RUNS[0]);
    println!("{:<10}{:>8}  {}", "small", Size::SMALL.records(), row(&fixed));
    for (name, sizes, of) in KINDS.iter().filter(|(name, ..)| asked.is_empty() || asked.iter().any(|word| word == name))
    {
        let mut before: Option<(usize, [f64; 3])> = None;
        for size in *sizes {
            let all = seconds(&of(*size), RUNS[1]);
            let net = [0, 1, 2].map(|at| all[at] - fixed[at]);
            let exponents = before.map(|(smaller, earlier)| {
                let times = *size as f64 / smaller as f64;
                [0, 1, 2].map(|at| told(earlier[at], net[at], times)).join("  ")
            });
            println!("{name:<10}{size:>8}  {}  {}", row(&all), exponents.unwrap_or_default());
            before = Some((*size, net));
        }
    }
}

fn row(seconds: &[f64; 3]) -> String {
    COMMANDS
        .iter()
        .zip(seconds)
        .map(|((name, _), seconds)| format!("{name} {seconds:>7.2} s"))
        .collect::<Vec<_>>()
        .join("  ")
}

/// An exponent in words.
fn told(earlier: f64, later: f64, times: f64) -> String {
    if later < TELLING {
        return "    –".to_owned();
    }
    let exponent = (later / earlier.max(TELLING)).ln() / times.ln();
    format!("{exponent:>5.2}{}", if exponent > GOAL { " too steep" } else { "" })
}

/// The seconds of each command on a farm.
fn seconds(size: &Size, runs: usize) -> [f64; 3] {
    let folder = TempDir::new().expect("a folder can be made");
    size.write(&folder.path().join("farm"));
    COMMANDS.map(|(_, arguments)| {
        let (mut quickest, mut spent) = (f64::INFINITY, 0.0);
        for _ in 0..runs {
            let run = one(folder.path(), arguments);
            quickest = run.min(quickest);
            spent += run;
            if spent > ENOUGH {
                break;
            }
        }
        quickest
    })
}

fn one(folder: &Path, arguments: &[&str]) -> f64 {
    let _ = fs::remove_dir_all(folder.join("guide"));
    let begun = Instant::now();
    let status = Command::new(env!("CARGO_BIN_EXE_hostwood"))
        .current_dir(folder)
        .env("RAYON_NUM_THREADS", "1")
        .args(arguments)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status();
    assert!(status.is_ok_and(|status| status.success()), "{arguments:?} did not end well");
    begun.elapsed().as_secs_f64()
}
