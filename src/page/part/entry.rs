//! Everything that can be looked up by its name, best known first: for the index of the alphabet and for the finder.

use std::collections::BTreeSet;
use std::sync::Arc;

use pulldown_cmark::Event;
use strum::IntoEnumIterator;

use super::{capital, holding};
use crate::book::{Book, Listed, Mushroom, Wood};
use crate::page::leaf::Leaf;
use crate::page::name::Offer;
use crate::page::{Context, Page, title};
use crate::read::markdown::events;
use crate::reckon::findings::Pairing;
use crate::reckon::formula::Place;
use crate::reckon::{Findings, Topic};
use crate::record::signpost::Signpost;
use crate::record::{Kind, Link};

/// Something that can be looked up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Its name.
    pub title: String,
    /// What kind of thing it is, as a reader names it.
    pub kind: &'static str,
    /// Where it stands: a path from the top of the guide, with an anchor where it needs one.
    pub href: String,
    /// Its other names and its scientific ones.
    pub also: Vec<String>,
    /// Words by which it is looked up, though nobody calls it so.
    pub typed: Vec<String>,
    /// What is said of it, without marks.
    pub text: String,
}

/// What kind a pairing is called.
pub const PAIR: &str = "how well it grows";
/// What kind a page of the whole guide is called.
const PAGE: &str = "page";
/// What kind a working is called.
pub const WORKING: &str = "how it was reckoned";
/// A kind of which no mushroom is known, and which is left standing.
pub const LEFT: &str = "left standing";

/// What a reader calls a record of a kind.
pub fn called(kind: Kind) -> &'static str {
    match kind {
        Kind::Method => "step by step",
        Kind::Term => "what the word means",
        Kind::Window => "season",
        Kind::Tree => "tagged tree",
        Kind::Lot => "logs cut",
        kind => kind.word(),
    }
}

/// Everyday words that lead to a page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Way {
    /// A word or a phrase that a reader may type.
    pub words: String,
    /// Where it leads: the path of an entry.
    pub href: String,
}

/// The ways that signposts point, in the order of their places; the context must be that of a page at the top of the guide.
pub fn ways(context: &Context<'_>) -> Vec<Way> {
    let one = |signpost: &Arc<Listed<Signpost>>| {
        let found = &signpost.record;
        let page = found.page.map(|page| context.route.to(&Page::at(page)));
        // What holds in other places answers nobody here.
        let here = found.to.iter().filter(|link| !context.book.elsewhere.links.contains(link));
        let hrefs: Vec<String> = page.into_iter().chain(here.map(|link| context.route.link(link))).collect();
        let ways = found.words.iter().flat_map(|words| hrefs.iter().map(move |href| (words.clone(), href.clone())));
        ways.map(|(words, href)| Way { words, href }).collect::<Vec<_>>()
    };
    context.book.signposts.values().flat_map(one).collect()
}

/// Every entry, names of mushrooms and woods first, the farm's own before the handbook's. The context must be that of a
/// page at the top of the guide.
pub fn all(context: &Context<'_>) -> Vec<Entry> {
    let mut entries = mushrooms(context);
    entries.extend(woods(context));
    entries.extend(pages(context));
    entries.extend(pairs(context));
    entries.extend(farm(context));
    entries.extend(handbook(context));
    entries.extend(questions(context));
    entries
}

/// The farm's own mushrooms, and after them the others, species first.
pub fn mushrooms_in_order(book: &Book, findings: &Findings) -> Vec<Arc<Mushroom>> {
    let own = |id: &str| findings.mushrooms().iter().any(|grown| grown.id == id);
    let mut others: Vec<_> = book.mushrooms.values().filter(|mushroom| !own(&mushroom.id)).cloned().collect();
    others.sort_by_key(|mushroom| !mushroom.is_species());
    findings.mushrooms().iter().cloned().chain(others).collect()
}

/// The farm's own woods, and after them the others, groups first.
pub fn woods_in_order(book: &Book, findings: &Findings) -> Vec<Arc<Wood>> {
    let own = |id: &str| findings.woods().iter().any(|wood| wood.id == id);
    let mut others: Vec<_> = book.woods.values().filter(|wood| !own(&wood.id)).cloned().collect();
    others.sort_by_key(|wood| (wood.is_species(), wood.name().to_lowercase()));
    findings.woods().iter().cloned().chain(others).collect()
}

fn entry(title: impl Into<String>, kind: &'static str, href: String) -> Entry {
    Entry { title: title.into(), kind, href, also: Vec::new(), typed: Vec::new(), text: String::new() }
}

/// The entry of a record.
fn record(kind: Kind, id: &str, text: String, context: &Context<'_>) -> Entry {
    let link = Link::to(kind, id);
    let mut typed = vec![id.replace('-', " ")];
    typed.extend((kind == Kind::Handout).then(|| kind.word().to_owned()));
    Entry { typed, text, ..entry(title::heading(&link, context.book), called(kind), context.route.link(&link)) }
}

fn mushrooms(context: &Context<'_>) -> Vec<Entry> {
    let one = |mushroom: &Arc<Mushroom>| {
        let found = &mushroom.record;
        Entry {
            also: names(&found.names, &found.scientific, &found.formerly),
            ..record(Kind::Mushroom, &mushroom.id, plain(&found.about), context)
        }
    };
    mushrooms_in_order(context.book, context.findings).iter().map(one).collect()
}

fn woods(context: &Context<'_>) -> Vec<Entry> {
    let one = |wood: &Arc<Wood>| {
        let found = &wood.record;
        let is_left =
            !found.refuse.is_empty() && !context.findings.pairings().iter().any(|pair| pair.wood.id == wood.id);
        let record = record(Kind::Wood, &wood.id, told(found.about.as_ref()), context);
        let kind = if is_left { LEFT } else { record.kind };
        Entry { also: names(&found.names, &found.scientific, &found.formerly), kind, ..record }
    };
    woods_in_order(context.book, context.findings).iter().map(one).collect()
}

/// The names after the first, and the scientific ones.
fn names(names: &[String], scientific: &str, formerly: &[String]) -> Vec<String> {
    let others = names.iter().skip(1).cloned();
    others.chain([scientific.to_owned()]).chain(formerly.iter().cloned()).collect()
}

/// The pages of the whole guide, its methods and its handouts.
fn pages(context: &Context<'_>) -> Vec<Entry> {
    let pages = Page::ALONE.iter().map(|page| {
        let text = page.offer().map_or("", Offer::about).to_owned();
        Entry { text, ..entry(page.title(context), PAGE, context.route.to(page)) }
    });
    let methods = context.book.methods.values();
    let methods = methods.map(|method| record(Kind::Method, &method.id, plain(&method.record.about), context));
    let handouts =
        context.book.handouts.values().map(|handout| {
            record(Kind::Handout, &handout.id, handout.record.readers.clone().unwrap_or_default(), context)
        });
    let years: BTreeSet<i16> = context.book.batches.values().map(|batch| batch.year).collect();
    let years = years.into_iter().map(|year| {
        let page = Page::BatchesOf(Leaf::first(year));
        entry(page.title(context), PAGE, context.route.to(&page))
    });
    pages.chain(years).chain(methods).chain(handouts).collect()
}

/// What the farm keeps: strains, stands, lots, batches, notes and trees.
fn farm(context: &Context<'_>) -> Vec<Entry> {
    let book = context.book;
    let of = |kind, id: &str, text| record(kind, id, text, context);
    let mut entries = Vec::new();
    entries.extend(book.strains.values().map(|one| of(Kind::Strain, &one.id, told(one.record.about.as_ref()))));
    entries.extend(book.stands.values().map(|one| of(Kind::Stand, &one.id, told(one.record.about.as_ref()))));
    entries.extend(book.notes.values().map(|one| of(Kind::Note, &one.id, plain(&one.text.markdown))));
    entries.extend(book.lots.values().map(|one| of(Kind::Lot, &one.id, told(one.record.from.as_ref()))));
    entries.extend(
        book.batches.values().map(|one| Entry {
            also: vec![one.id.clone()],
            ..of(Kind::Batch, &one.id, told(one.record.about.as_ref()))
        }),
    );
    entries.extend(book.trees.iter().map(|tree| {
        let title = format!("{}, {}", tree.tag().0, tree.wood.name());
        entry(title, called(Kind::Tree), context.route.working(&Place::tree(&tree.tag().0)))
    }));
    entries
}

/// Every pair that anyone has spoken of, at its working; the farm's own first.
fn pairs(context: &Context<'_>) -> Vec<Entry> {
    let findings = context.findings;
    let own = |pair: &Pairing| {
        let grown = findings.mushrooms().iter().any(|mushroom| mushroom.id == pair.mushroom.id);
        grown && findings.woods().iter().any(|wood| wood.id == pair.wood.id)
    };
    let mut all: Vec<_> =
        findings.pairings().iter().filter(|pair| pair.mushroom.is_species() || pair.is_direct()).collect();
    all.sort_by_key(|pair| !own(pair));
    let one = |pair: &&Pairing| {
        let title = format!("{} on {}", capital(pair.mushroom.name()), pair.wood.name());
        entry(title, PAIR, context.route.pairing(&pair.mushroom.id, &pair.wood.id))
    };
    all.iter().map(one).collect()
}

/// Troubles, terms, cautions, windows, rules and sources.
fn handbook(context: &Context<'_>) -> Vec<Entry> {
    let book = context.book;
    let of = |kind, id: &str, text| record(kind, id, text, context);
    let mut entries = Vec::new();
    entries.extend(book.troubles.values().map(|one| of(Kind::Trouble, &one.id, plain(&one.record.sees))));
    entries.extend(
        book.terms
            .values()
            .map(|one| Entry { also: one.record.also.clone(), ..of(Kind::Term, &one.id, plain(&one.record.says)) }),
    );
    entries.extend(
        book.look_alikes.values().map(|one| Entry {
            also: vec![one.record.scientific.clone()],
            ..of(Kind::LookAlike, &one.id, String::new())
        }),
    );
    entries.extend(
        book.windows
            .values()
            .map(|one| of(Kind::Window, &one.id, holding::places(&one.record.holds, context).unwrap_or_default())),
    );
    entries.extend(book.cautions.values().map(|one| of(Kind::Caution, &one.id, plain(&one.record.says))));
    entries.extend(book.rules.values().map(|one| of(Kind::Rule, &one.id, plain(&one.record.says))));
    entries.extend(book.sources.values().map(|one| Entry {
        also: vec![one.record.authors.clone()],
        ..of(Kind::Source, &one.id, one.record.title.clone())
    }));
    entries
}

/// The questions that the working answers.
fn questions(context: &Context<'_>) -> Vec<Entry> {
    Topic::iter().map(|topic| entry(topic.asks(), WORKING, context.route.to(&Page::Working(topic)))).collect()
}

/// What a record tells of itself, without marks.
fn told(about: Option<&String>) -> String {
    about.map(|about| plain(about)).unwrap_or_default()
}

/// Markdown without its marks and the targets of its links.
fn plain(markdown: &str) -> String {
    let words = events(markdown).map(|event| match event {
        Event::Text(text) | Event::Code(text) => text.into_string(),
        _ => " ".to_owned(),
    });
    words.collect()
}

/// The letter under which a name stands; digits and signs stand together before the letters.
pub fn letter(title: &str) -> String {
    let first = title.chars().next().filter(|first| first.is_alphabetic());
    first.map_or_else(|| "0–9".to_owned(), |first| first.to_uppercase().collect())
}
