//! What one carries in a season, on pages for a pocket, in which codes such as `W-07` stand for links.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use serde::Serialize;

use super::part::batch::Row;
use super::part::caution::{Caution, Subject, grown_by};
use super::part::entry::Entry;
use super::part::month::Month;
use super::part::rating::Rating;
use super::part::strip::Strip;
use super::part::table::Table;
use super::part::{capital, entry, lift, matrix, month, place, strip};
use super::route::{Code, Href, Route};
use super::yard::trouble;
use super::{Context, Page, method, mushroom, safety, seasons, wood};
use crate::book;
use crate::book::{Book, Listed, Mushroom, Trouble, Wood, Writer};
use crate::reckon::Findings;
use crate::reckon::findings::{WindowFinding, Word};
use crate::record::Kind;
use crate::record::caution::Task;
use crate::record::evidence::Way;
use crate::record::method as record;

/// The letters of the codes, each with its section.
const LETTERS: [(char, &str); 9] = [
    ('A', "the dates of the season"),
    ('Y', "windows of the year"),
    ('J', "jobs, step by step"),
    ('P', "what grows on what"),
    ('M', "mushrooms"),
    ('W', "woods"),
    ('S', "cautions"),
    ('R', "rules that hold here"),
    ('T', "trouble"),
];
/// So many mushrooms and woods have a card each. Of more than that the first few have one, and the others a line each.
const MUSHROOMS: [usize; 2] = [7, 5];
const WOODS: [usize; 2] = [14, 8];
/// Ways of growing that are told step by step; of others stands what their steps come to.
const WAYS: usize = 3;
/// The most lines of a month, and of the lists of stands and batches.
const WORK: usize = 6;
const STANDS: usize = 8;
const BATCHES: usize = 16;
/// Methods of no way of growing that every season asks for, told by what their steps come to.
const SEASONAL: [&str; 5] = ["resting-and-stacking", "shade-and-water", "soaking", "picking", "retiring"];

/// The pocket edition.
#[derive(Debug, Serialize)]
pub struct View {
    letters: [(char, &'static str); 9],
    ratings: Vec<(Rating, &'static str)>,
    place: String,
    strip: Option<Strip>,
    year: seasons::View,
    /// The work of the months, as far as there is room, and how much more there is.
    months: Vec<(Month, usize)>,
    /// The windows that count here, by their ids.
    windows: BTreeSet<String>,
    /// The farm's ways of growing, and after them what every season asks for.
    jobs: Vec<Coded<method::View>>,
    chores: Vec<Coded<method::View>>,
    /// The ways of growing, each with its letter.
    ways: Vec<(&'static str, &'static str)>,
    matrix: matrix::Matrix,
    mushrooms: Vec<Coded<mushroom::View>>,
    other_mushrooms: Vec<Coded<mushroom::View>>,
    woods: Vec<Coded<wood::View>>,
    other_woods: Vec<Coded<wood::View>>,
    lifts: Option<Table>,
    cautions: Vec<ByTask>,
    /// Whom one calls, how help finds the farm, and the rules that hold here.
    here: safety::View,
    troubles: Vec<Coded<trouble::View>>,
    stands: Short<(String, u32, usize)>,
    batches: Short<Row>,
    index: Vec<Line>,
    codes: BTreeMap<String, Code>,
}

/// A thing with its code.
#[derive(Debug, Serialize)]
struct Coded<T> {
    at: Href,
    page: T,
}

/// The cautions of a task: those that stand here for the first time, and the codes of the others.
#[derive(Debug, Serialize)]
struct ByTask {
    title: String,
    cautions: Vec<Coded<Caution>>,
    before: Vec<Href>,
}

/// The first rows of a list, and how many more there are.
#[derive(Debug, Serialize)]
struct Short<T> {
    rows: Vec<T>,
    more: usize,
}

impl<T> Short<T> {
    fn of(rows: impl IntoIterator<Item = T>, most: usize) -> Self {
        let mut rows: Vec<T> = rows.into_iter().collect();
        let more = rows.len().saturating_sub(most);
        rows.truncate(most);
        Self { rows, more }
    }
}

/// A line of the index by name.
#[derive(Debug, Serialize)]
struct Line {
    title: String,
    at: Code,
}

/// What of the book and the handbook goes into the pocket, in its order.
struct Packed<'a> {
    mushrooms: Vec<Arc<Mushroom>>,
    woods: Vec<Arc<Wood>>,
    windows: Vec<&'a WindowFinding>,
    jobs: Vec<&'a Listed<record::Method>>,
    chores: Vec<&'a Listed<record::Method>>,
    cautions: Vec<(Task, Vec<&'a Arc<book::Caution>>)>,
    troubles: Vec<&'a Arc<Trouble>>,
}

impl<'a> Packed<'a> {
    fn of(book: &'a Book, findings: &'a Findings) -> Self {
        let mushrooms = filled_first(findings);
        let woods = used_first(book, findings);
        let (mut jobs, mut chores) = (own_ways(book, findings), Vec::new());
        chores.extend(jobs.split_off(jobs.len().min(WAYS)));
        chores.extend(seasonal(book, findings));
        let subject = Subject { woods: woods.iter().map(AsRef::as_ref).collect(), ..grown_by(findings) };
        let steps = jobs.iter().chain(&chores).flat_map(|method| &method.record.steps);
        let tasks: BTreeSet<Task> = steps.filter_map(|step| step.task).chain([Task::Harvest, Task::Eating]).collect();
        let at = |task: Task| {
            let found = book.cautions_at(task, &subject);
            (task, found.leads.into_iter().chain(found.others).collect())
        };
        let concerns = |trouble: &&Arc<Trouble>| {
            let mut of = trouble.mushrooms.iter();
            of.len() == 0 || of.any(|of| mushrooms.iter().any(|own| own.id == of.id))
        };
        Self {
            windows: findings.windows().iter().filter(|found| found.counts(book) && found.told.is_ok()).collect(),
            cautions: tasks.into_iter().map(at).collect(),
            troubles: book.troubles.values().filter(concerns).collect(),
            jobs,
            chores,
            mushrooms,
            woods,
        }
    }

    /// Every caution once, in the order in which it stands there.
    fn cautions_once(&self) -> Vec<String> {
        let mut seen = BTreeSet::new();
        let all = self.cautions.iter().flat_map(|(_, cautions)| cautions);
        all.filter(|found| seen.insert(&found.id)).map(|found| found.id.clone()).collect()
    }
}

/// The farm's mushrooms, those first that live in a batch or are planned.
fn filled_first(findings: &Findings) -> Vec<Arc<Mushroom>> {
    let living = findings.batches().iter().filter(|found| found.left() > 0);
    let batches = living.map(|found| &found.batch.strain.mushroom.id);
    let filled: BTreeSet<&String> = batches.chain(findings.days().iter().map(|day| &day.strain.mushroom.id)).collect();
    let mut mushrooms = findings.mushrooms().to_vec();
    mushrooms.sort_by_key(|mushroom| !filled.contains(&mushroom.id));
    mushrooms
}

/// The farm's woods, those first that a batch, a lot, a tree to fell or a plan uses, those without a card by their names.
fn used_first(book: &Book, findings: &Findings) -> Vec<Arc<Wood>> {
    let living = findings.batches().iter().filter(|found| found.left() > 0);
    let batches = living.filter_map(|found| Some(&found.batch.wood.as_ref()?.id));
    let lots = book.lots.values().map(|lot| &lot.wood.id);
    let trees = findings.felled().map(|found| &found.tree.wood.id);
    let planned = findings.days().iter().flat_map(|day| &day.woods).filter_map(|of| Some(&of.wood.as_ref()?.id));
    let used: BTreeSet<&String> = batches.chain(lots).chain(trees).chain(planned).collect();
    let mut woods = findings.woods().to_vec();
    woods.sort_by_key(|wood| !used.contains(&wood.id));
    let carded = cards(woods.len(), WOODS);
    woods[carded..].sort_by_key(|wood| wood.name().to_lowercase());
    woods
}

/// The methods of the ways by which the farm grows, those with most batches first; where it has none, of all its mushrooms.
fn own_ways<'a>(book: &'a Book, findings: &'a Findings) -> Vec<&'a Listed<record::Method>> {
    let mut batches: BTreeMap<Way, usize> = BTreeMap::new();
    for found in findings.batches().iter().filter(|found| found.left() > 0 || found.batch.record.way == Way::ChipBed) {
        *batches.entry(found.batch.record.way).or_default() += 1;
    }
    let fits = |method: &&Listed<record::Method>| {
        let of_mushroom = |mushroom: &Arc<Mushroom>| mushroom.methods.iter().any(|other| other.id == method.id);
        let way = method.record.way.filter(|way| batches.is_empty() || batches.contains_key(way));
        way.is_some() && findings.mushrooms().iter().any(of_mushroom)
    };
    let mut methods: Vec<_> = book.methods.values().map(AsRef::as_ref).filter(fits).collect();
    let used = |method: &Listed<record::Method>| method.record.way.and_then(|way| batches.get(&way).copied());
    methods.sort_by_key(|method| std::cmp::Reverse(used(method)));
    methods
}

/// What every season asks for, and what the farm has written of its own; soaking where logs are soaked.
fn seasonal<'a>(book: &'a Book, findings: &'a Findings) -> Vec<&'a Listed<record::Method>> {
    let soaks = !findings.rotas().is_empty();
    let wanted = |method: &&Listed<record::Method>| {
        let named = SEASONAL.contains(&method.id.as_str()) && (method.id != "soaking" || soaks);
        method.record.way.is_none() && (named || method.origin.writer != Writer::Handbook)
    };
    book.methods.values().map(AsRef::as_ref).filter(wanted).collect()
}

/// Every code, by the path from the top of the guide to what it stands for.
pub fn codes(book: &Book, findings: &Findings) -> BTreeMap<String, Code> {
    let route = Route::of(&Page::Pocket.path());
    let packed = Packed::of(book, findings);
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
    give('P', vec![route.to(&Page::Pairings)]);
    give('M', record(Kind::Mushroom, packed.mushrooms.iter().map(|found| found.id.clone()).collect()));
    give('W', record(Kind::Wood, packed.woods.iter().map(|found| found.id.clone()).collect()));
    give('Y', record(Kind::Window, packed.windows.iter().map(|found| found.window.id.clone()).collect()));
    let methods = packed.jobs.iter().chain(&packed.chores);
    give('J', record(Kind::Method, methods.map(|found| found.id.clone()).collect()));
    give('S', record(Kind::Caution, packed.cautions_once()));
    give('R', record(Kind::Rule, book.rules.keys().cloned().collect()));
    give('T', record(Kind::Trouble, packed.troubles.iter().map(|found| found.id.clone()).collect()));
    codes
}

/// The view of the pocket edition.
pub fn view(context: &Context<'_>) -> View {
    let (book, findings) = (context.book, context.findings);
    let packed = Packed::of(book, findings);
    let at = |kind: Kind, id: &str| context.route.href(context.route.record(kind, id));
    let mushroom =
        |found: &Arc<Mushroom>| Coded { at: at(Kind::Mushroom, &found.id), page: mushroom::view(found, context) };
    let wood = |found: &Arc<Wood>| Coded { at: at(Kind::Wood, &found.id), page: wood::view(found, context) };
    let method =
        |found: &&Listed<record::Method>| Coded { at: at(Kind::Method, &found.id), page: method::view(found, context) };
    let (mushrooms, other_mushrooms) = packed.mushrooms.split_at(cards(packed.mushrooms.len(), MUSHROOMS));
    let (woods, other_woods) = packed.woods.split_at(cards(packed.woods.len(), WOODS));
    let year = seasons::view(context);
    View {
        letters: LETTERS,
        ratings: ratings(),
        place: place::words(context),
        strip: strip::pocket(context),
        months: month::all(context).into_iter().map(|month| month.first(WORK)).collect(),
        windows: packed.windows.iter().map(|found| found.window.id.clone()).collect(),
        year,
        jobs: packed.jobs.iter().map(method).collect(),
        chores: packed.chores.iter().map(method).collect(),
        ways: Way::ALL.map(|way| (way.letter(), way.words())).into(),
        matrix: matrix::of(mushrooms, woods, context),
        mushrooms: mushrooms.iter().map(mushroom).collect(),
        other_mushrooms: other_mushrooms.iter().map(mushroom).collect(),
        woods: woods.iter().map(wood).collect(),
        other_woods: other_woods.iter().map(wood).collect(),
        lifts: lift::limits(&findings.lifts().iter().collect::<Vec<_>>(), context),
        cautions: by_task(&packed, context),
        here: safety::view(context),
        troubles: packed
            .troubles
            .iter()
            .map(|found| Coded { at: at(Kind::Trouble, &found.id), page: trouble::view(found, context) })
            .collect(),
        stands: stands(context),
        batches: batches(context),
        index: names(other_woods, context),
        codes: codes(book, findings).into_iter().map(|(href, code)| (anchor(&href), code)).collect(),
    }
}

/// How many of so many have a card.
const fn cards(all: usize, [most, few]: [usize; 2]) -> usize {
    if all <= most { all } else { few }
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

fn by_task(packed: &Packed<'_>, context: &Context<'_>) -> Vec<ByTask> {
    let mut seen = BTreeSet::new();
    let coded = |caution: &&Arc<book::Caution>| Coded {
        at: context.route.href(context.route.record(Kind::Caution, &caution.id)),
        page: Caution::of(caution, context),
    };
    let tasks = packed.cautions.iter().map(|(task, cautions)| {
        let all = cautions.iter().map(coded);
        let (new, before): (Vec<_>, Vec<_>) = all.partition(|coded| seen.insert(coded.page.id.clone()));
        ByTask {
            title: capital(task.words()),
            cautions: new,
            before: before.into_iter().map(|coded| coded.at).collect(),
        }
    });
    tasks.collect()
}

/// The stands, those first in which trees come down this winter: the logs that these give, and how many they are.
fn stands(context: &Context<'_>) -> Short<(String, u32, usize)> {
    let found = context.findings.stands().iter();
    let mut rows: Vec<_> =
        found.map(|found| (found.measured.stand.record.name.clone(), found.logs, found.felled.len())).collect();
    rows.sort_by_key(|(_, _, trees)| *trees == 0);
    Short::of(rows, STANDS)
}

/// The batches of which something is left, the last first.
fn batches(context: &Context<'_>) -> Short<Row> {
    let living = context.findings.batches().iter().filter(|found| found.left() > 0).rev();
    let rows: Vec<Row> = living.map(|found| Row::of(found, context)).collect();
    Short::of(rows, BATCHES)
}

/// Every name that has a code, in the order of the alphabet, but cautions, which stand by their tasks, and woods that have
/// but a line, which stand by their names. What has a card is there by its other names too, where nothing else is without.
fn names(lined: &[Arc<Wood>], context: &Context<'_>) -> Vec<Line> {
    let lined: BTreeSet<String> = lined.iter().map(|wood| context.route.record(Kind::Wood, &wood.id)).collect();
    let by_all = lined.is_empty() && context.findings.mushrooms().len() <= MUSHROOMS[0];
    let wanted = |entry: &Entry| entry.kind != Kind::Caution.word() && !lined.contains(&entry.href);
    let mut lines: Vec<Line> = Vec::new();
    for entry in entry::all(context).into_iter().filter(wanted) {
        if let Href::Coded(at) = context.route.href(entry.href) {
            let also = entry.also.into_iter().filter(|_| by_all);
            lines.extend([entry.title].into_iter().chain(also).map(|title| Line { title, at: at.clone() }));
        }
    }
    lines.sort_by_key(|line| line.title.to_lowercase());
    lines.dedup_by(|a, b| a.title.to_lowercase() == b.title.to_lowercase() && a.at == b.at);
    lines
}
