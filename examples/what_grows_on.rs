//! Prints what grows on a wood, best first: `cargo run --example what_grows_on -- red-maple`.

use std::sync::Arc;

use hostwood::book;
use hostwood::read::folder;
use hostwood::reckon::Findings;
use hostwood::reckon::findings::Choice;

fn main() {
    let wood = std::env::args().nth(1).unwrap_or_else(|| "red-maple".to_owned());
    let book = match book::bind(folder::demo()) {
        Ok(book) => Arc::new(book),
        Err(faults) => return eprint!("{}", hostwood::fault::draw::report(&faults, false)),
    };
    let findings = Findings::of(&book, Choice::of(&book));
    let mut pairs: Vec<_> = findings.pairings().iter().filter(|pair| pair.wood.id == wood).collect();
    pairs.sort_by_key(|pair| pair.word);
    for pair in pairs {
        println!("{:<14} {} ({} sources)", pair.word.words(), pair.mushroom.name(), pair.sources);
    }
}
