//! The search index, as a script: a page opened from a folder can load a script, but cannot fetch.
//!
//! An index is one statement that pushes an object to `globalThis.finder`. Where it would pass [`SHARD`] bytes it is parted
//! into several scripts, each a whole index over consecutive entries; the first names the others.
//!
//! | key | meaning |
//! |---|---|
//! | `more` | the names of the other scripts, in the first |
//! | `kinds`, `skip`, `pages` | words for kinds of entries; words too common to look for; paths from the top of the guide |
//! | `entries` | title, kind, page and, where there is one, anchor, the best known first |
//! | `words` | groups parted by `;`, each `forms names also text` |
//!
//! The forms of a group share a stem, by the Snowball stemmer for English, so that the script need not know it. Each form is
//! coded against the one before it: a digit in base 36 tells how many letters they share. `names`, `also` and `text` list
//! the entries in whose title, other names or text the word stands, in base 36, each as its distance from the one before.

use std::collections::{BTreeMap, BTreeSet};

use frostem::{Algorithm, Stemmer};
use serde_json::{Value, json};
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

use super::Files;
use crate::book::Book;
use crate::page::part::entry;
use crate::page::part::entry::Entry;
use crate::page::route::Route;
use crate::page::{Context, Page};
use crate::reckon::Findings;

/// The most bytes of one script.
pub const SHARD: usize = 1_000_000;
/// Bytes of the first script in which it names the others.
const OTHERS: usize = 20_000;
/// The most letters of a word that are kept; a word that is looked for is found by fewer.
const LETTERS: usize = 60;
/// The most letters of a title, and of all other names of an entry, that are kept.
const NAMES: [usize; 2] = [300, 3000];
/// The most stems of a text that are kept, those first that few other texts have.
const STEMS: usize = 20;
/// Words too common to look for.
const SKIP: &str = "a about after all an and are as at be been but by can do does each for from has have how i if in into is it \
                    its may more most my not of on one or other our put so some such than that the their them then there \
                    these they this to too up was we what when where which who why will with without you your";

/// The scripts of the search index, by path.
pub fn scripts(book: &Book, findings: &Findings) -> Files {
    let context = Context { book, findings, route: Route::of(&Page::AToZ.path()).within(book) };
    of_entries(&entry::all(&context))
}

/// The scripts for some entries.
pub fn of_entries(entries: &[Entry]) -> Files {
    let parts = parts(entries);
    let more: Vec<String> = (1..parts.len()).map(name).collect();
    let scripts = parts.into_iter().enumerate();
    scripts.map(|(index, part)| (name(index), script(part, (index == 0).then_some(&more)).into_bytes())).collect()
}

/// The name of the script with a number, counted from nought.
fn name(index: usize) -> String {
    if index == 0 { "finder.js".to_owned() } else { format!("finder-{}.js", index + 1) }
}

/// Indexes over entries, in as many parts as their bytes ask for; a part that has no room even so is parted again.
fn parts(entries: &[Entry]) -> Vec<Value> {
    let index = index(entries);
    let asked = index.to_string().len().div_ceil(SHARD - OTHERS);
    if entries.len() < 2 || asked < 2 {
        return vec![index];
    }
    // One part more, since words that stand in several parts are told in each.
    entries.chunks(entries.len().div_ceil(asked + 1)).flat_map(parts).collect()
}

/// A script; the first names the others.
fn script(mut index: Value, more: Option<&Vec<String>>) -> String {
    if let (Some(more), Some(index)) = (more, index.as_object_mut()) {
        index.insert("more".to_owned(), json!(more));
    }
    format!("(globalThis.finder ??= []).push({index});\n")
}

fn index(entries: &[Entry]) -> Value {
    let (mut kinds, mut pages) = (Numbered::default(), Numbered::default());
    let rows: Vec<_> = entries
        .iter()
        .map(|entry| {
            let (page, anchor) = entry.href.split_once('#').map_or((entry.href.as_str(), None), |(p, a)| (p, Some(a)));
            let (kind, page) = (kinds.number(entry.kind), pages.number(page));
            match anchor {
                Some(anchor) => json!([first(&entry.title, NAMES[0]), kind, page, anchor]),
                None => json!([first(&entry.title, NAMES[0]), kind, page]),
            }
        })
        .collect();
    json!({ "kinds": kinds.words, "skip": SKIP, "pages": pages.words, "entries": rows, "words": words(entries) })
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
fn words(entries: &[Entry]) -> String {
    let stemmer = Stemmer::new(Algorithm::English);
    let stem = |word: &str| stemmer.stem(word).into_owned();
    let mut groups: BTreeMap<String, Group> = BTreeMap::new();
    let skip: BTreeSet<&str> = SKIP.split_whitespace().collect();
    let telling = telling(entries, &stem, &skip);
    for (number, entry) in entries.iter().enumerate() {
        let also = entry.also.join(" ");
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
    coded(groups.values())
}

/// The stems of each entry's text that tell most about it: those that fewest other texts have.
fn telling(entries: &[Entry], stem: &dyn Fn(&str) -> String, skip: &BTreeSet<&str>) -> Vec<BTreeSet<String>> {
    let stems = |entry: &Entry| -> BTreeSet<String> {
        folded(&entry.text)
            .filter(|word| word.len() > 2 && !skip.contains(word.as_str()))
            .map(|word| stem(&word))
            .collect()
    };
    let all: Vec<BTreeSet<String>> = entries.iter().map(stems).collect();
    let mut common: BTreeMap<&String, usize> = BTreeMap::new();
    for stem in all.iter().flatten() {
        *common.entry(stem).or_default() += 1;
    }
    let rarest = |stems: &BTreeSet<String>| {
        let mut stems: Vec<&String> = stems.iter().collect();
        stems.sort_by_cached_key(|stem| (common.get(stem).copied().unwrap_or(0), stem.as_str()));
        stems.into_iter().take(STEMS).cloned().collect()
    };
    all.iter().map(rarest).collect()
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
