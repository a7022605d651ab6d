//! How far a key to woods is exact within a second: `cargo bench --bench tree_key`.
//!
//! Prints, for growing numbers of the handbook's woods, the slowest and the middle of several keys, and whether every key was
//! weighed. The woods are drawn at random and always the same, with the characters and the efforts of their season; all woods
//! together make one key.

#![allow(clippy::expect_used, reason = "a bench that cannot go on has failed")]

mod dice;

use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};

use dice::Dice;
use hostwood::book::{self, Book, Wood};
use hostwood::read::folder;
use hostwood::reckon::findings::tree_key::{effort, refusals};
use hostwood::reckon::tree_key::{EXACT, Matrix, Taxon};
use hostwood::record::character::{Character, When};

/// Keys made at each size.
const KEYS: u64 = 10;
/// Tagged trees that a wood has fewer than.
const TREES: u64 = 40;

/// The handbook, as it reads on the demo farm Sorrel Hollow.
fn handbook() -> Book {
    let farm = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/sorrel-hollow");
    book::bind(folder::files(&farm).expect("the farm's folder is read")).expect("the farm is without fault")
}

/// So many woods of which characters are told.
fn drawn(book: &Book, count: usize, dice: &mut Dice) -> Vec<Arc<Wood>> {
    let is_told = |wood: &&Arc<Wood>| wood.record.characters.told(Character::Foliage).is_some();
    let mut left: Vec<Arc<Wood>> = book.woods.values().filter(is_told).cloned().collect();
    (0..count).map(|_| left.swap_remove(dice.roll(left.len() as u64) as usize)).collect()
}

fn matrix(book: &Book, count: usize, when: When, seed: u64) -> Matrix {
    let mut dice = Dice::of(seed);
    let (asked, efforts): (Vec<Character>, Vec<f64>) =
        Character::ALL.into_iter().filter_map(|asked| Some((asked, effort(asked, when)?))).unzip();
    let taxa: Vec<Taxon> = drawn(book, count, &mut dice)
        .iter()
        .map(|wood| {
            let told = |asked: &Character| wood.record.characters.told(*asked);
            Taxon {
                weight: 1.0 + dice.roll(TREES) as f64,
                is_refused: !refusals(wood, book).is_empty(),
                states: asked.iter().map(|asked| told(asked).map_or_else(Vec::new, |told| told.states)).collect(),
            }
        })
        .collect();
    Matrix::of(&efforts, &taxa)
}

fn seconds(matrix: &Matrix) -> Duration {
    let begun = Instant::now();
    std::hint::black_box(matrix.key());
    begun.elapsed()
}

fn main() {
    let book = handbook();
    println!("woods  season  slowest     middle     weighed");
    for (count, keys) in [(8, KEYS), (12, KEYS), (16, KEYS), (EXACT, KEYS), (EXACT + 1, KEYS), (32, KEYS), (85, 1)] {
        for when in [When::Winter, When::Summer] {
            let matrices: Vec<Matrix> = (1..=keys).map(|seed| matrix(&book, count, when, seed)).collect();
            let mut times: Vec<Duration> = matrices.iter().map(seconds).collect();
            times.sort();
            let [slowest, middle] = [times.len() - 1, times.len() / 2].map(|at| times[at].as_secs_f64());
            let weighed = if matrices.iter().all(Matrix::is_exact) { "every key" } else { "a few questions" };
            println!("{count:>5}  {:<6}  {slowest:>7.3} s  {middle:>7.3} s  {weighed}", when.id());
        }
    }
}
