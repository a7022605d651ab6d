//! The search index, read back by a decoder of its own, and the everyday words that lead to its entries.

use std::collections::BTreeMap;

use hostwood::page::Page;
use hostwood::page::part::entry::{Entry, Way};
use hostwood::press::finder;
use hostwood::record::signpost::Destination;
use proptest::prelude::*;
use serde_json::Value;

use crate::harness::{Farm, code, demo_guide, files, said};

/// The index as plain data.
struct Index {
    json: Value,
    titles: Vec<String>,
    /// For each form of a word, the entries that have it in title, other names and text.
    words: BTreeMap<String, [Vec<usize>; 3]>,
}

impl Index {
    fn of(script: &str) -> Self {
        let first = script.lines().next().unwrap();
        let json: Value =
            serde_json::from_str(first.strip_prefix("globalThis.finder = ").unwrap().strip_suffix(';').unwrap())
                .unwrap();
        let mut words = BTreeMap::new();
        let mut form = String::new();
        for group in json["words"].as_str().unwrap().split(';').filter(|group| !group.is_empty()) {
            let fields: Vec<&str> = group.split(' ').collect();
            assert_eq!(fields.len(), 4, "{group}");
            let places = [1, 2, 3].map(|field| numbers(fields[field]));
            for coded in fields[0].split(',') {
                unfold(coded, &mut form);
                words.insert(form.clone(), places.clone());
            }
        }
        let mut title = String::new();
        let mut titles = Vec::new();
        for row in json["entries"].as_array().unwrap() {
            unfold(row[0].as_str().unwrap(), &mut title);
            titles.push(title.clone());
        }
        Self { json, titles, words }
    }

    fn of_demo(guide: &BTreeMap<String, Vec<u8>>) -> Self {
        Self::of(std::str::from_utf8(&guide["finder.js"]).unwrap())
    }

    fn entries(&self) -> &[Value] {
        self.json["entries"].as_array().unwrap()
    }

    /// The page of an entry, by its path, and its anchor.
    fn address(&self, entry: usize) -> (&str, Option<&str>) {
        let row = &self.entries()[entry];
        let page = |number: &Value| self.json["pages"][number.as_u64().unwrap() as usize].as_str().unwrap();
        let anchor = match &row[3] {
            Value::Null => None,
            Value::Number(_) => page(&row[3]).strip_prefix("woods/").and_then(|wood| wood.strip_suffix(".html")),
            anchor => anchor.as_str(),
        };
        (page(&row[2]), anchor)
    }

    /// Where everyday words lead.
    fn goal(&self, words: &str) -> Vec<&str> {
        let ways = self.json["ways"].as_array().unwrap();
        let phrase = finder::folded(words).map(|word| &self.words[&word][0]);
        let all: Vec<&Vec<usize>> = phrase.collect();
        let ways = (0..ways.len()).filter(|way| all.iter().all(|found| found.contains(&(self.entries().len() + way))));
        ways.map(|way| self.address(self.json["ways"][way].as_u64().unwrap() as usize).0).collect()
    }
}

/// The search index of a farm.
fn published(farm: &Farm) -> String {
    let output = farm.publish();
    assert_eq!(code(&output), 0, "{}", said(&output));
    farm.page("finder.js")
}

/// Reads a text that says how many letters it shares with the one before.
fn unfold(coded: &str, before: &mut String) {
    let shared = usize::from_str_radix(&coded[..1], 36).unwrap();
    *before = before.chars().take(shared).chain(coded[1..].chars()).collect();
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
        typed: Vec::new(),
        text: text.to_owned(),
    }
}

#[test]
fn every_name_in_the_demo_guide_is_found_by_its_words() {
    let guide = files(demo_guide());
    let index = Index::of_demo(&guide);
    assert!(index.titles.len() > 1000);
    for (number, title) in index.titles.iter().enumerate() {
        for word in finder::folded(title) {
            assert!(index.words[&word][0].contains(&number), "{word} does not find {title}");
        }
        let (page, anchor) = index.address(number);
        let html = std::str::from_utf8(&guide[page]).unwrap();
        assert!(anchor.is_none_or(|anchor| html.contains(&format!("id=\"{anchor}\""))), "{page} has no {anchor:?}");
    }
}

#[test]
fn scientific_and_other_names_and_forms_of_a_stem_lead_to_the_same_entry() {
    let index = Index::of_demo(&files(demo_guide()));
    assert_eq!(index.titles[index.words["edodes"][1][0]], "Shiitake");
    assert!(index.words["quercus"][1].iter().any(|number| index.titles[*number] == "Red oak"));
    assert_eq!(index.words["soak"], index.words["soaking"]);
    let kinds: Vec<&str> = index.json["kinds"].as_array().unwrap().iter().map(|kind| kind.as_str().unwrap()).collect();
    assert_eq!(kinds[..2], ["mushroom", "wood"], "names come first");
    assert!(!kinds.iter().any(|kind| ["pair", "term", "working", "window", "lot"].contains(kind)), "{kinds:?}");
    assert_eq!(index.titles[0], "Shiitake", "what the farm grows comes before the rest");
}

#[test]
fn what_a_page_says_below_its_head_is_found_and_leads_to_the_page() {
    let farm =
        Farm::with(&[("notes/far.md", "---\ntitle: The far corner\ndate: 2026-05-01\n---\nA heron stood there.\n")]);
    let index = Index::of(&published(&farm));
    let [entry] = index.words["heron"][2][..] else { panic!("a heron stands in one text") };
    assert_eq!(index.address(entry), ("notes/far.html", None));
    let words = |entry: &str| finder::folded(entry).next().unwrap();
    assert!(!index.words.contains_key(&words("viewBox")), "no tag is a word");
}

#[test]
fn a_farms_own_words_lead_to_a_page_or_a_record_and_stand_in_for_the_handbooks() {
    let farm = Farm::with(&[(
        "signposts.yaml",
        "kettle:\n  words: [the big kettle, samovar]\n  page: soak-rota\n  to: [method:soaking]\nfridge:\n  words: [icebox]\n",
    )]);
    let index = Index::of(&published(&farm));
    assert_eq!(index.goal("big kettle"), ["yard/soak-rota.html", "methods/soaking.html"]);
    assert_eq!(index.goal("samovar"), ["yard/soak-rota.html", "methods/soaking.html"]);
    assert_eq!(index.goal("icebox")[0], "yard/picking-and-selling.html", "where it leads stays the handbook’s");
    assert!(index.words.get("fridge").is_none_or(|places| places[0].is_empty()), "its words are the farm’s");
    assert_eq!(Index::of_demo(&files(demo_guide())).goal("fridge")[0], "yard/picking-and-selling.html");
}

#[test]
fn every_page_to_which_words_may_lead_is_one_of_the_guide() {
    let guide = files(demo_guide());
    for destination in Destination::ALL {
        let page = Page::at(destination).path();
        assert!(guide.contains_key(&page), "{page}");
    }
    assert_eq!(Destination::ALL.len(), Page::ALONE.len(), "words lead to every page that stands alone");
}

#[test]
fn an_empty_index_is_still_a_script() {
    assert!(Index::of(&finder::of_entries(&[], &[], "")).words.is_empty());
}

proptest! {
    #[test]
    fn what_is_coded_is_read_back(names in prop::collection::vec("[a-zäéß'’ -]{0,24}", 1..30)) {
        let entries: Vec<Entry> = names.iter().map(|name| entry(name, "", "")).collect();
        let ways = [Way { words: "far off".to_owned(), href: entries[0].href.clone() }];
        let index = Index::of(&finder::of_entries(&entries, &ways, ""));
        prop_assert_eq!(&index.titles, &names);
        for (number, name) in names.iter().enumerate() {
            for word in finder::folded(name) {
                prop_assert!(index.words[&word][0].contains(&number), "{} in {}", word, name);
            }
        }
        prop_assert_eq!(index.goal("far").len(), 1);
    }
}
