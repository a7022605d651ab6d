//! The search index: read back by a decoder of its own, and parted where it would be too heavy.

use std::collections::BTreeMap;

use hostwood::page::part::entry::Entry;
use hostwood::press::{Files, finder};
use proptest::prelude::*;
use serde_json::Value;

use crate::harness::{demo_guide, files};

/// One script of the index as plain data.
struct Shard {
    index: Value,
    /// For each form of a word, the entries that have it in title, other names and text.
    words: BTreeMap<String, [Vec<usize>; 3]>,
}

/// The scripts of an index, in their order.
fn shards(files: &Files) -> Vec<Shard> {
    let mut names: Vec<String> = vec!["finder.js".to_owned()];
    let first = shard(&files["finder.js"]);
    names.extend(first.index["more"].as_array().unwrap().iter().map(|name| name.as_str().unwrap().to_owned()));
    names.iter().map(|name| shard(&files[name])).collect()
}

fn shard(bytes: &[u8]) -> Shard {
    let text = std::str::from_utf8(bytes).unwrap();
    let json = text.strip_prefix("(globalThis.finder ??= []).push(").unwrap().strip_suffix(");\n").unwrap();
    let index: Value = serde_json::from_str(json).unwrap();
    let mut words = BTreeMap::new();
    let mut before: Vec<char> = Vec::new();
    for group in index["words"].as_str().unwrap().split(';').filter(|group| !group.is_empty()) {
        let fields: Vec<&str> = group.split(' ').collect();
        assert_eq!(fields.len(), 4, "{group}");
        let places = [1, 2, 3].map(|field| numbers(fields[field]));
        for coded in fields[0].split(',') {
            let (shared, rest) = coded.split_at(1);
            before.truncate(usize::from_str_radix(shared, 36).unwrap());
            before.extend(rest.chars());
            words.insert(before.iter().collect(), places.clone());
        }
    }
    Shard { index, words }
}

fn numbers(coded: &str) -> Vec<usize> {
    let mut at = 0;
    let steps = coded.split('.').filter(|step| !step.is_empty());
    steps
        .map(|step| {
            at += usize::from_str_radix(step, 36).unwrap();
            at
        })
        .collect()
}

fn entry(title: &str, also: &str, text: &str) -> Entry {
    Entry {
        title: title.to_owned(),
        kind: "wood",
        href: format!("woods/{}.html#a", title.len()),
        also: vec![also.to_owned()],
        text: text.to_owned(),
    }
}

#[test]
fn every_name_in_the_demo_guide_is_found_by_its_words() {
    let guide = files(demo_guide());
    let index = &shards(&guide)[0];
    let entries = index.index["entries"].as_array().unwrap();
    assert!(entries.len() > 1000);
    for (number, row) in entries.iter().enumerate() {
        let title = row[0].as_str().unwrap();
        for word in finder::folded(title) {
            assert!(index.words[&word][0].contains(&number), "{word} does not find {title}");
        }
        let page = index.index["pages"][row[2].as_u64().unwrap() as usize].as_str().unwrap();
        let html = std::str::from_utf8(&guide[page]).unwrap();
        let anchor = row[3].as_str().map(|anchor| format!("id=\"{anchor}\""));
        assert!(anchor.is_none_or(|anchor| html.contains(&anchor)), "{page} has no {}", row[3]);
    }
}

#[test]
fn scientific_and_other_names_and_forms_of_a_stem_lead_to_the_same_entry() {
    let guide = files(demo_guide());
    let index = &shards(&guide)[0];
    let title = |number: &usize| index.index["entries"][*number][0].as_str().unwrap();
    assert_eq!(title(&index.words["edodes"][1][0]), "Shiitake");
    assert!(index.words["quercus"][1].iter().any(|number| title(number) == "Red oak"));
    assert_eq!(index.words["soak"], index.words["soaking"]);
    let kinds: Vec<&str> = index.index["kinds"].as_array().unwrap().iter().map(|kind| kind.as_str().unwrap()).collect();
    assert_eq!(kinds[..2], ["mushroom", "wood"], "names come first");
    assert_eq!(title(&0), "Shiitake", "what the farm grows comes before the rest");
}

#[test]
fn an_index_that_would_be_too_heavy_is_parted_and_keeps_its_order() {
    let entries: Vec<Entry> = (0..30_000)
        .map(|n| entry(&format!("Wood {n} of the far hill"), &format!("Arbor collis{n}"), "dense"))
        .collect();
    let files = finder::of_entries(&entries);
    assert!(files.len() > 1 && files.values().all(|script| script.len() <= finder::SHARD));
    let shards = shards(&files);
    assert_eq!(shards.len(), files.len());
    let titles: Vec<&Value> = shards.iter().flat_map(|shard| shard.index["entries"].as_array().unwrap()).collect();
    assert_eq!(titles.len(), entries.len());
    assert!(titles.iter().zip(&entries).all(|(row, entry)| row[0] == entry.title.as_str()));
    assert!(shards[1..].iter().all(|shard| shard.index.get("more").is_none()));
}

#[test]
fn an_empty_index_is_still_a_script() {
    assert!(shards(&finder::of_entries(&[]))[0].words.is_empty());
}

proptest! {
    #[test]
    fn what_is_coded_is_read_back(names in prop::collection::vec("[a-zäéß'’ -]{0,24}", 1..30)) {
        let entries: Vec<Entry> = names.iter().map(|name| entry(name, "", "")).collect();
        let index = &shards(&finder::of_entries(&entries))[0];
        for (number, name) in names.iter().enumerate() {
            for word in finder::folded(name) {
                prop_assert!(index.words[&word][0].contains(&number), "{} in {}", word, name);
            }
        }
    }
}
