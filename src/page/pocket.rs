//! The whole guide for the pocket: small pages to print and bind, in which codes such as `W-07` stand for links.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::part::caution::Caution;
use super::part::entry::{mushrooms_in_order, woods_in_order};
use super::part::rating::Rating;
use super::part::strip::Strip;
use super::part::{Anchor, capital, caution, entry, place, strip};
use super::route::{Code, Href, Route};
use super::winter::inoculation;
use super::yard::trouble;
use super::{Context, Page, figure, method, mushroom, safety, seasons, sources, terms, wood};
use crate::book::Book;
use crate::reckon::Findings;
use crate::reckon::findings::{Pairing, Word};
use crate::record::Kind;
use crate::record::caution::Task;
use crate::record::evidence::Way;

/// The letters of the codes, each with its section.
const LETTERS: [(char, &str); 10] = [
    ('A', "the season at a glance"),
    ('M', "mushrooms"),
    ('W', "woods"),
    ('P', "pairs"),
    ('Y', "windows of the year"),
    ('J', "jobs, step by step"),
    ('S', "safety"),
    ('R', "rules that hold here"),
    ('T', "trouble"),
    ('N', "notes of this farm"),
];

/// The pocket edition.
#[derive(Debug, Serialize)]
pub struct View {
    letters: [(char, &'static str); 10],
    ratings: Vec<(Rating, &'static str)>,
    place: String,
    strip: Option<Strip>,
    mushrooms: Vec<Coded<mushroom::View>>,
    other_mushrooms: Vec<Brief>,
    woods: Vec<Coded<wood::View>>,
    other_woods: Vec<Brief>,
    /// The ways of growing, each with its letter.
    ways: Vec<(&'static str, &'static str)>,
    matrix: String,
    year: seasons::View,
    methods: Vec<Coded<method::View>>,
    day: inoculation::View,
    safety: Vec<ByTask>,
    /// Whom one calls, how help finds the farm, and the rules that hold here.
    here: safety::View,
    troubles: Vec<Coded<trouble::View>>,
    notes: Vec<Coded<Note>>,
    terms: terms::View,
    sources: sources::View,
    index: Vec<Line>,
    codes: BTreeMap<String, Code>,
}

/// A thing with its code.
#[derive(Debug, Serialize)]
struct Coded<T> {
    at: Href,
    page: T,
}

/// A mushroom or a wood that is not the farm's own, in a few lines.
#[derive(Debug, Serialize)]
struct Brief {
    at: Href,
    name: String,
    scientific: String,
    about: Option<String>,
    best: Vec<(Rating, Vec<Anchor>)>,
}

/// The cautions of a task: those that stand here for the first time, and the codes of the others.
#[derive(Debug, Serialize)]
struct ByTask {
    title: String,
    cautions: Vec<Coded<Caution>>,
    before: Vec<Href>,
}

/// A note.
#[derive(Debug, Serialize)]
struct Note {
    title: String,
    date: String,
    text: String,
    file: String,
}

/// A line of the index by name.
#[derive(Debug, Serialize)]
struct Line {
    title: String,
    at: Code,
}

/// Every code, by the path from the top of the guide to what it stands for.
pub fn codes(book: &Book, findings: &Findings) -> BTreeMap<String, Code> {
    let route = Route::of(&Page::Pocket.path());
    let mut codes = BTreeMap::new();
    let mut give = |letter: char, hrefs: Vec<String>| {
        let width = hrefs.len().to_string().len().max(2);
        for (index, href) in hrefs.into_iter().enumerate() {
            let code = format!("{letter}-{:0width$}", index + 1);
            codes.insert(href, Code { id: code.to_lowercase(), code });
        }
    };
    let record = |kind: Kind, ids: Vec<String>| ids.iter().map(|id| route.record(kind, id)).collect::<Vec<_>>();
    give('A', vec![route.to(&Page::Index)]);
    give(
        'M',
        record(Kind::Mushroom, mushrooms_in_order(book, findings).iter().map(|found| found.id.clone()).collect()),
    );
    give('W', record(Kind::Wood, woods_in_order(book, findings).iter().map(|found| found.id.clone()).collect()));
    give('P', vec![route.to(&Page::Pairings)]);
    give('Y', record(Kind::Window, findings.windows().iter().map(|found| found.window.id.clone()).collect()));
    give('J', record(Kind::Method, book.methods.keys().cloned().collect()));
    give('S', record(Kind::Caution, cautions_in_order(book)));
    give('R', record(Kind::Rule, book.rules.keys().cloned().collect()));
    give('T', record(Kind::Trouble, book.troubles.keys().cloned().collect()));
    give('N', record(Kind::Note, book.notes.keys().cloned().collect()));
    codes
}

/// Cautions by the first task at which they hold, the gravest first.
fn cautions_in_order(book: &Book) -> Vec<String> {
    let mut cautions: Vec<_> = book.cautions.values().collect();
    cautions.sort_by_key(|found| (found.record.tasks.iter().min().copied(), found.record.severity, found.id.clone()));
    cautions.into_iter().map(|found| found.id.clone()).collect()
}

/// The view of the pocket edition.
pub fn view(context: &Context<'_>) -> View {
    let (book, findings) = (context.book, context.findings);
    let at = |kind: Kind, id: &str| context.route.href(context.route.record(kind, id));
    let mushrooms = mushrooms_in_order(book, findings);
    let (own_mushrooms, other_mushrooms) = mushrooms.split_at(findings.mushrooms().len());
    let woods = woods_in_order(book, findings);
    let (own_woods, other_woods) = woods.split_at(findings.woods().len());
    View {
        letters: LETTERS,
        ratings: ratings(),
        place: place::words(context),
        strip: strip::pocket(context),
        mushrooms: own_mushrooms
            .iter()
            .map(|found| Coded { at: at(Kind::Mushroom, &found.id), page: mushroom::view(found, context) })
            .collect(),
        other_mushrooms: other_mushrooms
            .iter()
            .map(|found| Brief {
                at: at(Kind::Mushroom, &found.id),
                name: capital(found.name()),
                scientific: found.record.scientific.clone(),
                about: Some(found.record.about.clone()),
                best: best(&|pair| (pair.mushroom.id == found.id).then(|| Anchor::wood(&pair.wood, context)), context),
            })
            .collect(),
        woods: own_woods
            .iter()
            .map(|found| Coded { at: at(Kind::Wood, &found.id), page: wood::view(found, context) })
            .collect(),
        other_woods: other_woods
            .iter()
            .map(|found| Brief {
                at: at(Kind::Wood, &found.id),
                name: capital(found.name()),
                scientific: found.record.scientific.clone(),
                about: found.record.about.clone(),
                best: best(
                    &|pair| (pair.wood.id == found.id).then(|| Anchor::mushroom(&pair.mushroom, context)),
                    context,
                ),
            })
            .collect(),
        ways: Way::ALL.map(|way| (way.letter(), way.words())).into(),
        matrix: figure::matrix::svg("pocket-matrix", "What grows on what", &table(context)),
        year: seasons::view(context),
        methods: book
            .methods
            .values()
            .map(|found| Coded { at: at(Kind::Method, &found.id), page: method::view(found, context) })
            .collect(),
        day: inoculation::view(context),
        safety: by_task(context),
        here: safety::view(context),
        troubles: book
            .troubles
            .values()
            .map(|found| Coded { at: at(Kind::Trouble, &found.id), page: trouble::view(found, context) })
            .collect(),
        notes: book
            .notes
            .values()
            .map(|note| Coded {
                at: at(Kind::Note, &note.id),
                page: Note {
                    title: note.record.title.clone(),
                    date: note.record.date.show(context.units()),
                    text: note.text.markdown.clone(),
                    file: note.origin.files().last().map_or_else(String::new, |file| file.name.clone()),
                },
            })
            .collect(),
        terms: terms::view(context),
        sources: sources::view(context),
        index: names(context),
        codes: codes(book, findings).into_iter().map(|(href, code)| (anchor(&href), code)).collect(),
    }
}

/// What stands after the last mark of a path: the anchor of a record, by which a template asks for its code.
fn anchor(href: &str) -> String {
    href.rsplit(['#', '/']).next().unwrap_or(href).to_owned()
}

/// Every rating with what it means, for the key to the signs.
fn ratings() -> Vec<(Rating, &'static str)> {
    [
        (Word::Thrives, "three rings inked"),
        (Word::DoesWell, "two rings"),
        (Word::GetsBy, "one ring"),
        (Word::Fails, "no ring, and a crack"),
        (Word::Mentioned, "named without a grade that counts here"),
        (Word::Untried, "no source we read mentions it on logs"),
    ]
    .map(|(word, says)| (Rating::of(word), says))
    .into()
}

/// What is rated as thriving or doing well, the best first.
fn best(of: &dyn Fn(&Pairing) -> Option<Anchor>, context: &Context<'_>) -> Vec<(Rating, Vec<Anchor>)> {
    let rated = |word: Word| {
        let found = context.findings.pairings().iter().filter(|pair| pair.word == word);
        (Rating::of(word), found.filter_map(of).collect::<Vec<_>>())
    };
    [Word::Thrives, Word::DoesWell].map(rated).into_iter().filter(|(_, found)| !found.is_empty()).collect()
}

/// The farm's pairing table as words and signs.
fn table(context: &Context<'_>) -> figure::matrix::Table {
    let findings = context.findings;
    let word = |mushroom: &str, wood: &str| {
        let pair = findings.pairing(mushroom, wood);
        let way = pair.and_then(Pairing::by).map_or("", Way::letter);
        (pair.map_or(Word::Untried, |pair| pair.word), way)
    };
    figure::matrix::Table {
        columns: findings.mushrooms().iter().map(|mushroom| capital(mushroom.name())).collect(),
        rows: findings
            .woods()
            .iter()
            .map(|wood| {
                let words = findings.mushrooms().iter().map(|mushroom| word(&mushroom.id, &wood.id)).collect();
                (capital(wood.name()), words)
            })
            .collect(),
    }
}

fn by_task(context: &Context<'_>) -> Vec<ByTask> {
    let mut seen = BTreeSet::new();
    let tasks = Task::ALL.into_iter().map(|task| {
        let all = caution::all_of(task, context).into_iter().map(|caution| {
            let at = context.route.href(context.route.record(Kind::Caution, &caution.id));
            Coded { at, page: caution }
        });
        let (new, before): (Vec<_>, Vec<_>) = all.partition(|coded| seen.insert(coded.page.id.clone()));
        ByTask {
            title: capital(task.words()),
            cautions: new,
            before: before.into_iter().map(|coded| coded.at).collect(),
        }
    });
    tasks.collect()
}

/// Every name that has a code, in the order of the alphabet.
fn names(context: &Context<'_>) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::new();
    for entry in entry::all(context) {
        if let Href::Coded(at) = context.route.href(entry.href) {
            let named = [entry.title].into_iter().chain(entry.also);
            lines.extend(named.map(|title| Line { title, at: at.clone() }));
        }
    }
    lines.sort_by_key(|line| line.title.to_lowercase());
    lines.dedup_by(|a, b| a.title.to_lowercase() == b.title.to_lowercase() && a.at == b.at);
    lines
}
