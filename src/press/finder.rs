//! The search index, as a script: a page opened from a folder can load a script, but cannot fetch.
//!
//! The script says one statement on its first line, which sets `globalThis.finder` to the index; the theme's `search.js`
//! follows, and puts in its place what looks words up in it.
//!
//! | key | meaning |
//! |---|---|
//! | `kinds`, `worth` | words for kinds of entries, and what an entry of each is worth beside one to work by |
//! | `skip`, `pages` | words too common to look for; paths from the top of the guide |
//! | `entries` | title, coded as a form is, kind, page and, where there is one, anchor, the best known first; for an anchor that is a wood's id, the number of its page |
//! | `ways` | for each everyday word or phrase the entry to which it leads |
//! | `words` | groups parted by `;`, each `forms names also text` |
//!
//! The forms of a group share a stem, by the Snowball stemmer for English, so that the script need not know it. Each form is
//! coded against the one before it: a digit in base 36 tells how many letters they share. `names`, `also` and `text` list
//! the entries in whose title, other names or text the word stands, in base 36, each as its distance from the one before; an
//! everyday phrase is a title whose number follows those of the entries.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

use frostem::{Algorithm, Stemmer};
use rayon::prelude::*;
use serde_json::{Value, json};
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

use super::{Files, text};
use crate::book::Book;
use crate::page::part::entry;
use crate::page::part::entry::{Entry, Way};
use crate::page::route::Route;
use crate::page::{Context, Page};
use crate::reckon::Findings;
use crate::record::Kind;

/// The most letters of a word that are kept; a word that is looked for is found by fewer.
const LETTERS: usize = 60;
/// The most letters of a title, and of all other names of an entry, that are kept.
const NAMES: [usize; 2] = [300, 3000];
/// The most stems of a text that are kept: of what stands on a page with others, and of a whole page. Those first that are
/// said often there and seldom elsewhere.
const STEMS: [usize; 2] = [24, 60];
/// Words too common to look for.
const SKIP: &str = "a about after all am an and any are as at be been before best but by can cant could did do does dont \
                    each for from get getting go goes got had has have how i id if im in into is isnt it its just kind \
                    kinds let many may me more most much must my named need needs not of on one or other per our ours out \
                    put should so some someone something such than that the their them then there these they thing \
                    things this till to too until up us use want was way we what whats when where which who why will \
                    with without would you your";

/// The script of the search index over the pages as they were drawn; what looks words up in it follows the index.
pub fn script(book: &Book, findings: &Findings, files: &Files, search: &str) -> String {
    let context = Context { book, findings, route: Route::of(&Page::AToZ.path()).within(book) };
    let mut entries = entry::all(&context);
    let mut whole = BTreeSet::new();
    for entry in &mut entries {
        let page = files.get(&entry.href).and_then(|page| std::str::from_utf8(page).ok());
        if let Some(page) = page.filter(|_| whole.insert(entry.href.clone())) {
            entry.text = text::of(page);
        }
    }
    of_entries(&entries, &entry::ways(&context), search)
}

/// The script for some entries and the everyday words that lead to them.
pub fn of_entries(entries: &[Entry], ways: &[Way], search: &str) -> String {
    format!("globalThis.finder = {};\n{search}", index(entries, ways))
}

fn index(entries: &[Entry], ways: &[Way]) -> Value {
    let (mut kinds, mut pages) = (Numbered::default(), Numbered::default());
    let mut before = String::new();
    let rows: Vec<_> = entries
        .iter()
        .map(|entry| {
            let (page, anchor) = entry.href.split_once('#').map_or((entry.href.as_str(), None), |(p, a)| (p, Some(a)));
            let (kind, page) = (kinds.number(entry.kind), pages.number(page));
            let title = front(first(&entry.title, NAMES[0]), &mut before);
            match anchor.map(|anchor| (anchor, pages.numbers.get(&wood(anchor)))) {
                Some((_, Some(wood))) => json!([title, kind, page, wood]),
                Some((anchor, None)) => json!([title, kind, page, anchor]),
                None => json!([title, kind, page]),
            }
        })
        .collect();
    let ways = leading(entries, ways);
    let goals: Vec<usize> = ways.iter().map(|(_, goal)| *goal).collect();
    let words = words(entries, &ways);
    let worth: Vec<f64> = kinds.words.iter().map(|kind| worth(kind)).collect();
    json!({ "kinds": kinds.words, "worth": worth, "skip": SKIP, "pages": pages.words, "entries": rows, "ways": goals, "words": words })
}

/// The page of the wood of an id, by which a pair's anchor is told for short.
fn wood(id: &str) -> String {
    Page::Wood(id.to_owned()).path()
}

/// The phrases, each with the entry to which it leads: the one of its address, or else of its page.
fn leading<'a>(entries: &[Entry], ways: &'a [Way]) -> Vec<(&'a str, usize)> {
    let mut numbers: BTreeMap<&str, usize> = BTreeMap::new();
    for (number, entry) in entries.iter().enumerate() {
        numbers.entry(&entry.href).or_insert(number);
    }
    let page = |href: &'a str| href.split('#').next().unwrap_or(href);
    let goal = |way: &'a Way| numbers.get(way.href.as_str()).or_else(|| numbers.get(page(&way.href)));
    ways.iter().filter_map(|way| Some((way.words.as_str(), *goal(way)?))).collect()
}

/// What an entry of a kind is worth beside one that a grower works by: what lies behind a page comes after it.
fn worth(kind: &str) -> f64 {
    const BEHIND: [(Kind, f64); 5] =
        [(Kind::Caution, 0.7), (Kind::LookAlike, 0.3), (Kind::Source, 0.2), (Kind::Term, 0.8), (Kind::Rule, 0.8)];
    let behind = BEHIND.into_iter().find(|(behind, _)| entry::called(*behind) == kind);
    match behind {
        Some((_, worth)) => worth,
        None if kind == entry::WORKING => 0.8,
        None if kind == entry::LEFT => 0.6,
        None => 1.0,
    }
}

/// Words by the order in which they first came.
#[derive(Default)]
struct Numbered {
    words: Vec<String>,
    numbers: BTreeMap<String, usize>,
}

impl Numbered {
    fn number(&mut self, word: &str) -> usize {
        *self.numbers.entry(word.to_owned()).or_insert_with(|| {
            self.words.push(word.to_owned());
            self.words.len() - 1
        })
    }
}

/// The words of one stem, and where they stand: in titles, in other names, in texts.
#[derive(Default)]
struct Group {
    forms: BTreeSet<String>,
    places: [Vec<usize>; 3],
}

/// Every group of words, coded.
fn words(entries: &[Entry], ways: &[(&str, usize)]) -> String {
    let stemmer = Stemmer::new(Algorithm::English);
    let stem = |word: &str| stemmer.stem(word).into_owned();
    let mut groups: BTreeMap<String, Group> = BTreeMap::new();
    let skip: BTreeSet<&str> = SKIP.split_whitespace().collect();
    let telling = telling(entries, &stem, &skip);
    for (number, entry) in entries.iter().enumerate() {
        let also = [entry.also.as_slice(), &entry.typed].concat().join(" ");
        let parts = [first(&entry.title, NAMES[0]), first(&also, NAMES[1]), entry.text.as_str()];
        let mut seen: BTreeSet<String> = BTreeSet::new();
        for (place, part) in parts.into_iter().enumerate() {
            for word in folded(part) {
                let stem = stem(&word);
                let kept = place < 2 || (!skip.contains(word.as_str()) && telling[number].contains(&stem));
                if !kept || (place == 2 && seen.contains(&stem)) {
                    continue;
                }
                let group = groups.entry(stem.clone()).or_default();
                group.forms.insert(word);
                if group.places[place].last() != Some(&number) && !seen.contains(&stem) {
                    group.places[place].push(number);
                }
                seen.insert(stem);
            }
        }
    }
    for (place, (phrase, _)) in ways.iter().enumerate() {
        for word in folded(phrase) {
            let group = groups.entry(stem(&word)).or_default();
            group.forms.insert(word);
            if group.places[0].last() != Some(&(entries.len() + place)) {
                group.places[0].push(entries.len() + place);
            }
        }
    }
    coded(groups.values())
}

/// The stems of each entry's text that tell most about it: those that it says often and few other texts say.
fn telling(entries: &[Entry], stem: &(dyn Fn(&str) -> String + Sync), skip: &BTreeSet<&str>) -> Vec<BTreeSet<String>> {
    let stems = |entry: &Entry| -> BTreeMap<String, usize> {
        let mut counts = BTreeMap::new();
        for word in folded(&entry.text).filter(|word| word.len() > 2 && !skip.contains(word.as_str())) {
            *counts.entry(stem(&word)).or_default() += 1;
        }
        counts
    };
    let all: Vec<BTreeMap<String, usize>> = entries.par_iter().map(stems).collect();
    let mut common: BTreeMap<&String, usize> = BTreeMap::new();
    for stem in all.iter().flat_map(BTreeMap::keys) {
        *common.entry(stem).or_default() += 1;
    }
    let most = |entry: &Entry| STEMS[usize::from(!entry.href.contains('#'))];
    let kept = |(entry, counts): (&Entry, &BTreeMap<String, usize>)| {
        let mut stems: Vec<(&String, &usize)> = counts.iter().collect();
        stems
            .sort_by_cached_key(|(stem, count)| (Reverse(weight(**count, common[stem], entries.len())), stem.as_str()));
        stems.into_iter().take(most(entry)).map(|(stem, _)| stem.clone()).collect()
    };
    entries.iter().zip(&all).map(kept).collect()
}

/// How much a stem tells of a text that says it so often, of all texts: in thousandths, so that it can be sorted by.
fn weight(count: usize, texts: usize, all: usize) -> u64 {
    let [count, texts, all] = [count, texts, all].map(|number| number as f64);
    ((1.0 + libm::log(count)) * libm::log(all / texts) * 1000.0) as u64
}

/// The words of a text as the script folds them too: without marks and apostrophes, in small letters.
///
/// ```
/// use hostwood::press::finder::folded;
/// assert_eq!(folded("Lion’s mane, Coprinus comatus (O.F.Müll.)").collect::<Vec<_>>()[..2], ["lions", "mane"]);
/// ```
pub fn folded(text: &str) -> impl Iterator<Item = String> {
    let plain: String = text
        .nfd()
        .filter(|c| !is_combining_mark(*c) && !matches!(c, '\'' | '’'))
        .flat_map(char::to_lowercase)
        .collect();
    let words: Vec<String> = plain
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(|word| first(word, LETTERS).to_owned())
        .collect();
    words.into_iter()
}

/// The first so many letters of a text.
fn first(text: &str, letters: usize) -> &str {
    text.char_indices().nth(letters).map_or(text, |(end, _)| &text[..end])
}

fn coded<'a>(groups: impl Iterator<Item = &'a Group>) -> String {
    let mut before = String::new();
    let coded = groups.map(|group| {
        let forms: Vec<String> = group.forms.iter().map(|form| front(form, &mut before)).collect();
        let places = group.places.each_ref().map(|entries| distances(entries));
        format!("{} {}", forms.join(","), places.join(" "))
    });
    coded.collect::<Vec<_>>().join(";")
}

/// A word coded against the one before it.
fn front(word: &str, before: &mut String) -> String {
    let shared = word.chars().zip(before.chars()).take_while(|(a, b)| a == b && a.len_utf16() == 1).count().min(35);
    let rest: String = word.chars().skip(shared).collect();
    word.clone_into(before);
    base_36(shared) + &rest
}

/// Rising numbers as their distances.
fn distances(numbers: &[usize]) -> String {
    let mut last = 0;
    let coded = numbers.iter().map(|number| {
        let distance = number - last;
        last = *number;
        base_36(distance)
    });
    coded.collect::<Vec<_>>().join(".")
}

fn base_36(mut number: usize) -> String {
    const DIGITS: &[u8; 36] = b"0123456789abcdefghijklmnopqrstuvwxyz";
    let mut digits = Vec::new();
    loop {
        digits.push(char::from(DIGITS[number % 36]));
        number /= 36;
        if number == 0 {
            return digits.into_iter().rev().collect();
        }
    }
}
