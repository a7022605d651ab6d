//! Asks about records that can be right but rarely are, one file a question.
//!
//! | file | what is asked about |
//! |---|---|
//! | [`no_where`] | a farm that does not say in which country it lies |
//! | [`other_side`] | a latitude or a longitude whose sign the country does not have |
//! | [`other_scale`] | monthly means that read like the other scale of temperature |
//! | [`other_half`] | monthly means that read like the other half of the globe |
//! | [`window_not_named`] | no-cut windows that hold here and that the farm does not name |
//! | [`window_of_elsewhere`] | a no-cut window that the farm names and that holds elsewhere |
//! | [`old_count`] | a stand that was counted ten years ago or more |
//! | [`thick_for_height`] | trees very thick for their height |
//! | [`felled_in_doubt`] | a tree that was felled while its wood was in doubt |
//! | [`batch_ahead`] | a batch of a winter after the farm's season |
//! | [`batch_without_wood`] | a batch of logs without a wood |
//! | [`waited_long`] | logs that waited over half a year |
//! | [`topped_up_late`] | logs laid to a batch long after its inoculation |
//! | [`soaked_again`] | the same logs soaked twice in two days |
//! | [`soaked_in_frost`] | a soak in a month of frost |
//! | [`picked_early`] | a harvest sooner than any published spawn run |
//! | [`picked_much`] | a harvest above any published yield |
//! | [`nothing_asked`] | an answer to a question that is not asked |
//!
//! A record that is right answers at its top, by `checked: ['QUESTION: reason']`; one answer stands for every question of
//! that name about that record, and one in `farm.yaml` for all records. A question that many records get is told once, with
//! some of the others. Questions stop nothing, and they are few: one is worth asking where nearly all who get it
//! have made a mistake.

pub mod batch_ahead;
pub mod batch_without_wood;
pub mod felled_in_doubt;
pub mod no_where;
pub mod nothing_asked;
pub mod old_count;
pub mod other_half;
pub mod other_scale;
pub mod other_side;
pub mod picked_early;
pub mod picked_much;
pub mod soaked_again;
pub mod soaked_in_frost;
pub mod thick_for_height;
pub mod topped_up_late;
pub mod waited_long;
pub mod window_not_named;
pub mod window_of_elsewhere;

use std::collections::BTreeMap;

use super::lay::Pile;
use super::{Batch, Book, Harvest};
use crate::fault::once::few;
use crate::fault::{self, Fault, Place};
use crate::read::Node;
use crate::record::diary::{Diary, What};
use crate::record::schema::CHECKED;
use crate::record::{Kind, Link};

/// A question: it finds what is odd in a book, whose places the pile knows.
type Ask = fn(&Book, &Pile) -> Vec<Odd>;

/// Every question under its name.
const QUESTIONS: [(&str, Ask); 17] = [
    ("no-where", no_where::ask),
    ("other-side", other_side::ask),
    ("other-scale", other_scale::ask),
    ("other-half", other_half::ask),
    ("window-not-named", window_not_named::ask),
    ("window-of-elsewhere", window_of_elsewhere::ask),
    ("old-count", old_count::ask),
    ("thick-for-height", thick_for_height::ask),
    ("felled-in-doubt", felled_in_doubt::ask),
    ("batch-ahead", batch_ahead::ask),
    ("batch-without-wood", batch_without_wood::ask),
    ("waited-long", waited_long::ask),
    ("topped-up-late", topped_up_late::ask),
    ("soaked-again", soaked_again::ask),
    ("soaked-in-frost", soaked_in_frost::ask),
    ("picked-early", picked_early::ask),
    ("picked-much", picked_much::ask),
];

/// Something odd in a record.
#[derive(Debug)]
struct Odd {
    /// The record that is asked about.
    about: Link,
    /// Where it stands.
    place: Place,
    /// What is odd, in a grower's words.
    what: String,
    /// What to write where it is wrong.
    instead: String,
}

impl Odd {
    /// Something odd in the farm's own record.
    fn of_farm(place: Place, what: impl Into<String>, instead: impl Into<String>) -> Self {
        let about = Link::to(Kind::Farm, Kind::Farm.word());
        Self { about, place, what: what.into(), instead: instead.into() }
    }

    /// Something odd under a key of a record.
    fn under(
        pile: &Pile,
        kind: Kind,
        id: &str,
        key: &str,
        what: impl Into<String>,
        instead: impl Into<String>,
    ) -> Option<Self> {
        let place = pile.node(kind, id)?.place_of(key);
        Some(Self { about: Link::to(kind, id), place, what: what.into(), instead: instead.into() })
    }
}

/// The lines of the day book about one thing, each with a batch that it names, in the order of days.
fn lines(book: &Book, what: What) -> impl Iterator<Item = (&Batch, &Diary)> {
    let lines = book.diary.iter().filter(move |line| line.record.what == what);
    lines.flat_map(|line| line.batches.iter().map(|batch| (batch.as_ref(), &line.record)))
}

/// Every harvest with each batch that it names, in the order of days.
fn picked(book: &Book) -> impl Iterator<Item = (&Batch, &Harvest)> {
    book.harvests.iter().flat_map(|harvest| harvest.batches.iter().map(|batch| (batch.as_ref(), harvest.as_ref())))
}

/// The logs that each batch ever had: those that it began with, and those that were added.
fn ever(book: &Book) -> BTreeMap<&str, u32> {
    let mut ever: BTreeMap<&str, u32> = book.batches.values().map(|batch| (batch.id.as_str(), batch.logs)).collect();
    for (batch, line) in lines(book, What::Added) {
        *ever.entry(&batch.id).or_default() += line.logs.unwrap_or(0);
    }
    ever
}

/// The names of all questions.
pub(super) fn names() -> impl Iterator<Item = &'static str> {
    QUESTIONS.iter().map(|(name, _)| *name).chain([nothing_asked::NAME])
}

/// The name and the reason in an answer; the reason is empty where there is none.
pub(super) fn answer(text: &str) -> (&str, &str) {
    let (name, reason) = text.split_once(':').unwrap_or((text, ""));
    (name.trim(), reason.trim())
}

/// The questions about a book that its records do not answer; only a pile without fault is asked about needless answers.
pub(super) fn open(book: &Book, pile: &Pile, is_whole: bool) -> Vec<Fault> {
    let under = |name| move |odd| (name, odd);
    let mut asked: Vec<(&str, Odd)> =
        QUESTIONS.iter().flat_map(|(name, ask)| ask(book, pile).into_iter().map(under(*name))).collect();
    if is_whole {
        let needless = nothing_asked::ask(&asked, pile);
        asked.extend(needless.into_iter().map(under(nothing_asked::NAME)));
    }
    asked.retain(|(name, odd)| !is_answered(name, &odd.about, pile));
    let mut of_name: BTreeMap<&'static str, Vec<Odd>> = BTreeMap::new();
    for (name, odd) in asked {
        of_name.entry(name).or_default().push(odd);
    }
    let mut questions: Vec<Fault> = of_name.into_iter().flat_map(|(name, odd)| told(name, odd)).collect();
    fault::sort(&mut questions);
    questions
}

/// So many records are asked the same question each by itself.
const APART: usize = 3;

/// The questions of a name: one a place, and one in all where it is asked of more than a few records.
fn told(name: &'static str, mut odd: Vec<Odd>) -> Vec<Fault> {
    odd.sort_by(|a, b| a.place.cmp(&b.place));
    odd.dedup_by(|later, first| later.place == first.place);
    let others: Vec<String> = odd.iter().skip(1).map(|odd| file(&odd.place)).collect();
    if others.len() >= APART {
        let first = odd.swap_remove(0);
        let what = format!("{} (so too in {})", first.what, few(others));
        let instead = format!("{}; an answer in farm.yaml stands for all records", first.instead);
        odd = vec![Odd { what, instead, ..first }];
    }
    let question = |odd: Odd| Fault::new(name, odd.what).instead(odd.instead).at(odd.place).asked();
    odd.into_iter().map(question).collect()
}

/// The file of a record; of a sheet, which holds many, the line too.
fn file(place: &Place) -> String {
    let name = &place.file.name;
    if place.file.is_sheet() { format!("`{name}:{}`", place.line) } else { format!("`{name}`") }
}

/// Whether the record, or the farm for all its records, answers a question.
fn is_answered(question: &str, about: &Link, pile: &Pile) -> bool {
    let of_record = pile.node(about.kind, &about.id).filter(|_| about.kind != Kind::Farm);
    let answers = of_record.into_iter().chain(pile.farm()).flat_map(|node| node.items(CHECKED));
    answers.filter_map(Node::text).any(|text| {
        let (name, reason) = answer(text);
        name == question && !reason.is_empty()
    })
}
