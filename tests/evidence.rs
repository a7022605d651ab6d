//! The handbook against the yardstick `tests/reckon/evidence.csv`, which holds the published rows one by one.

use std::collections::BTreeMap;
use std::fs;

use hostwood::book;
use hostwood::book::{Book, Writer};
use hostwood::read::folder;
use hostwood::record::wood::Rank;
use serde::Deserialize;

use crate::harness::root;

#[derive(Debug, Deserialize)]
pub struct Row {
    #[serde(rename = "row")]
    pub number: u32,
    pub source: String,
    pub norm: Option<u8>,
    pub status: String,
    pub our_mushroom: String,
    pub our_wood: String,
    pub our_grown: String,
}

/// The published rows.
pub fn published() -> Vec<Row> {
    let mut reader = csv::Reader::from_path(root().join("tests/reckon/evidence.csv")).unwrap();
    reader.deserialize().map(Result::unwrap).collect()
}

/// The demo farm's book.
pub fn demo() -> Book {
    book::bind(folder::demo()).expect("the demo farm is without fault")
}

/// A source's key as an id: small letters, runs of other characters as one hyphen.
fn source_id(key: &str) -> String {
    match key {
        "LEA82?" => "lea82-unsigned".to_owned(),
        key => {
            let words: Vec<&str> =
                key.split(|c: char| !c.is_ascii_alphanumeric()).filter(|word| !word.is_empty()).collect();
            words.join("-").to_lowercase()
        }
    }
}

type Key = (String, String, String, String, Option<u8>, String);

#[test]
fn every_published_row_is_in_the_handbook_and_no_other() {
    let book = demo();
    let mut counts: BTreeMap<Key, i32> = BTreeMap::new();
    for row in published() {
        let mark = match row.status.as_str() {
            "seen" => "read",
            "seen-copy" => "copy",
            "memory" => "memory",
            other => panic!("row {}: {other}", row.number),
        };
        let key = (row.our_mushroom, row.our_wood, row.our_grown, source_id(&row.source), row.norm, mark.to_owned());
        *counts.entry(key).or_default() += 1;
    }
    let handbook = book.evidence.iter().filter(|row| row.origin.writer == Writer::Handbook);
    let mut total = 0;
    for row in handbook {
        let word = |value: &dyn erased::Word| value.word();
        let key = (
            row.mushroom.id.clone(),
            row.wood.id.clone(),
            word(&row.record.grown),
            row.source.id.clone(),
            row.record.rating,
            word(&row.record.mark),
        );
        *counts.entry(key).or_default() -= 1;
        total += 1;
    }
    let unequal: Vec<_> = counts.into_iter().filter(|(_, count)| *count != 0).collect();
    assert!(unequal.is_empty(), "above 0 is missing, below 0 is too many: {unequal:#?}");
    assert_eq!(total, 265);
}

/// The word by which a record writes a choice.
mod erased {
    use serde::Serialize;

    pub trait Word {
        fn word(&self) -> String;
    }

    impl<T: Serialize> Word for T {
        fn word(&self) -> String {
            serde_json::to_value(self).unwrap().as_str().unwrap().to_owned()
        }
    }
}

#[test]
fn no_word_of_the_wild_or_of_sawdust_has_a_rating_in_the_handbook() {
    let book = demo();
    let apart = || book.evidence.iter().filter(|row| row.record.grown.way().is_none());
    assert!(apart().count() > 20);
    for row in apart() {
        assert_eq!(row.record.rating, None, "{}", row.id);
    }
}

#[test]
fn the_handbooks_reference_woods_are_those_of_the_rule() {
    let book = demo();
    let refers = |mushroom: &str, wood: &str| book.mushrooms[mushroom].refers_to(&book.woods[wood]);
    for (mushroom, wood) in [
        ("shiitake", "white-oak"),
        ("tree-oyster", "quaking-aspen"),
        ("blue-oyster", "european-beech"),
        ("lions-mane", "american-beech"),
    ] {
        assert!(refers(mushroom, wood), "{mushroom} on {wood}");
    }
    assert!(!refers("shiitake", "red-oak") && !refers("tree-oyster", "american-beech"));
    assert!(!refers("phoenix-oyster", "poplar"), "no word of tree oysters speaks for it");
}

#[test]
fn the_handbook_is_whole() {
    let book = demo();
    let species = |rank: Rank| rank == Rank::Species;
    assert!(book.mushrooms.values().filter(|mushroom| species(mushroom.record.rank)).count() >= 20);
    assert!(book.woods.values().filter(|wood| species(wood.record.rank)).count() >= 60);
    assert!(book.terms.len() >= 60);
    // The table of cautions in the safety figures has 74 rows; some hold elsewhere, and more have come.
    assert!(book.cautions.len() + book.elsewhere.cautions.len() >= 74);
    for method in ["rack-log", "totem", "buried-log", "stump", "chip-bed", "resting-and-stacking"] {
        let steps = &book.methods[method].record.steps;
        assert!(steps.len() >= 5, "{method}");
        assert!(steps.iter().all(|step| !step.done_when.is_empty()));
    }
    for strain in ["shiitake-cold", "shiitake-wide-range", "shiitake-warm"] {
        assert!(book.strains.contains_key(strain), "{strain}");
    }
}

#[test]
fn every_mushroom_to_grow_says_how_and_what_may_be_taken_for_it() {
    // No source that was read says how wood ear is grown on logs.
    for mushroom in demo().mushrooms.values().filter(|mushroom| mushroom.is_species()) {
        let id = mushroom.id.as_str();
        assert!(!mushroom.methods.is_empty() || id == "wood-ear", "{id} has no method");
        assert!(!mushroom.record.look_alikes.is_empty(), "{id} has no look-alike");
    }
}

#[test]
fn every_row_says_the_sources_own_word() {
    assert!(demo().evidence.iter().all(|row| row.record.says.chars().count() > 3));
}

#[test]
fn no_text_of_the_handbook_teaches_felling_or_promises_health() {
    for (path, bytes) in crate::harness::files(&root().join("content")) {
        let text = String::from_utf8(bytes).unwrap().to_lowercase();
        for phrase in ["400 f", "boosts immun", "anti-cancer", "cures cancer", "safe to eat"] {
            assert!(!text.contains(phrase), "{path}: {phrase}");
        }
    }
}

#[test]
fn no_team_is_called_by_a_persons_name() {
    let sources = fs::read_to_string(root().join("content/sources.yaml")).unwrap();
    let of = |key: &str| -> Vec<&str> { sources.lines().filter_map(|line| line.trim().strip_prefix(key)).collect() };
    // A person is written with the family name before the initials, as in `Bruhn J.N.`.
    let initials =
        |word: &str| word.len() > 1 && word.ends_with('.') && word.starts_with(|c: char| c.is_ascii_uppercase());
    let mut people = std::collections::BTreeSet::new();
    for authors in of("authors: ") {
        for author in authors.split(',') {
            let words: Vec<&str> = author.split_whitespace().collect();
            people.extend(words.windows(2).filter(|pair| initials(pair[1])).map(|pair| pair[0].to_lowercase()));
        }
    }
    assert!(people.contains("bruhn") && people.len() > 20, "{people:?}");
    for team in of("team: ") {
        assert!(!people.contains(team), "the team {team} bears a person's name");
    }
}
