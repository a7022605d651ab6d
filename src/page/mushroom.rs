//! All mushrooms, and one of them.

use std::sync::Arc;

use serde::Serialize;

use super::Context;
use super::part::caution::{Caution, grown};
use super::part::cite::Line;
use super::part::fruiting::Fruits;
use super::part::look_alike::LookAlike;
use super::part::pair::{Pair, Unspoken};
use super::part::photo::{self, Photo};
use super::part::rating::Rating;
use super::part::rest::Rest;
use super::part::rule::Rule;
use super::part::sheet::Sheet;
use super::part::spread::Spread;
use super::part::{Anchor, capital, caution, label, look_alike, pair, rank_words, rest, rule, spread, table};
use crate::book::Mushroom;
use crate::reckon::findings::pairing::Reach;
use crate::reckon::findings::{Pairing, Word};
use crate::record::Kind;
use crate::record::caution::{Severity, Task};
use crate::record::said::Said;
use crate::record::wood::Rank;

/// Best woods shown of each mushroom of the farm.
const BEST: usize = 3;

/// The list of mushrooms.
#[derive(Debug, Serialize)]
pub struct Index {
    own: Vec<Entry>,
    others: Vec<Entry>,
    groups: Vec<Entry>,
    warnings: Vec<Caution>,
    strains: String,
    key: Anchor,
}

/// A mushroom in a list.
#[derive(Debug, Serialize)]
struct Entry {
    link: Anchor,
    scientific: String,
    methods: Vec<Anchor>,
    thrives: usize,
    /// The best of the woods at hand.
    best: Vec<Pair>,
    writer: Option<&'static str>,
}

/// One mushroom.
#[derive(Debug, Serialize)]
pub struct View {
    name: String,
    also: Vec<String>,
    scientific: String,
    formerly: Vec<String>,
    rank: Option<&'static str>,
    part_of: Option<Anchor>,
    members: Vec<Anchor>,
    about: String,
    own: bool,
    soaking: Option<bool>,
    methods: Vec<Anchor>,
    strains: Vec<Anchor>,
    here: Vec<Pair>,
    elsewhere: Vec<Rated>,
    groups: Vec<Pair>,
    bare: Vec<Pair>,
    fruits: Fruits,
    /// Woods that we have and of which nobody speaks, but of a kindred one.
    unspoken: Vec<Unspoken>,
    /// The six lines of its label.
    label: [label::Line; 6],
    lines: Vec<Heading>,
    rests: Vec<Rest>,
    rest_spread: Option<Spread>,
    look_alikes: Vec<LookAlike>,
    /// What each part of it looks like, and its print.
    looks: Option<table::Table>,
    /// Whether a look-alike can kill.
    deadly: bool,
    /// What holds of it here.
    rules: Vec<Rule>,
    /// That the list may lack those of the place.
    others: Option<&'static str>,
    cautions: Vec<Caution>,
    safety: [Anchor; 2],
    photos: Vec<Photo>,
    notes: Vec<Anchor>,
    working: String,
    sheet: Sheet,
}

/// Woods of one rating, each at its working: how many sources speak of it, and whether by its genus.
type Rated = (Rating, Vec<(Anchor, usize, bool)>);

/// What sources say of one matter: side by side on one axis where they give figures, and each in its own words.
#[derive(Debug, Serialize)]
pub struct Heading {
    id: &'static str,
    title: &'static str,
    spread: Option<Spread>,
    lines: Vec<Line>,
    /// What is said where there is no line.
    silence: Option<&'static str>,
}

/// The view of the list of mushrooms.
pub fn index(context: &Context<'_>) -> Index {
    let book = context.book;
    let grows = |mushroom: &Mushroom| context.findings.mushrooms().iter().any(|grown| grown.id == mushroom.id);
    let list = |wanted: &dyn Fn(&Mushroom) -> bool| {
        let wanted = book.mushrooms.values().filter(|mushroom| wanted(mushroom));
        wanted.map(|mushroom| entry(mushroom, context)).collect()
    };
    Index {
        own: list(&|mushroom| grows(mushroom)),
        warnings: warnings(context),
        others: list(&|mushroom| !grows(mushroom) && mushroom.is_species()),
        groups: list(&|mushroom| !grows(mushroom) && !mushroom.is_species()),
        strains: context.route.to(&super::Page::Strains),
        key: Anchor::page(&super::Page::KeyMushroom, context),
    }
}

fn entry(mushroom: &Mushroom, context: &Context<'_>) -> Entry {
    let thrives =
        context.findings.pairings().iter().filter(|pair| pair.mushroom.id == mushroom.id && pair.word == Word::Thrives);
    let writer = mushroom.origin.writer;
    Entry {
        link: Anchor::mushroom(mushroom, context),
        scientific: mushroom.record.scientific.clone(),
        methods: methods(mushroom, context),
        thrives: thrives.filter(|pair| pair.wood.is_species()).count(),
        best: best(&mushroom.id, context).into_iter().map(|pair| Pair::of(pair, context)).collect(),
        writer: (writer != crate::book::Writer::Handbook).then(|| writer.words()),
    }
}

/// The best pairings of a mushroom among the woods at hand, those said of the wood itself first.
fn best<'a>(mushroom: &str, context: &'a Context<'_>) -> Vec<&'a Pairing> {
    let findings = context.findings;
    let at_hand = findings.woods().iter().filter_map(|wood| findings.pairing(mushroom, &wood.id));
    let mut pairs: Vec<&Pairing> = at_hand.filter(|pair| matches!(pair.word, Word::Thrives | Word::DoesWell)).collect();
    pairs.sort_by_key(|&pair| pair::order(pair));
    pairs.truncate(BEST);
    pairs
}

/// What is grave about growing a mushroom of the farm at all; what threatens at picking stands above the picking.
fn warnings(context: &Context<'_>) -> Vec<Caution> {
    let grown = grown(context);
    let at_table = |task: &Task| matches!(task, Task::Harvest | Task::Eating);
    let grave = |found: &crate::book::Caution| {
        found.record.severity == Severity::Grave && !found.mushrooms.is_empty() && grown.is_met_by(found)
    };
    caution::some(|found| grave(found) && !found.record.tasks.iter().any(at_table), context)
}

fn methods(mushroom: &Mushroom, context: &Context<'_>) -> Vec<Anchor> {
    mushroom.methods.iter().map(|method| Anchor::record(Kind::Method, &method.id, context)).collect()
}

/// The view of one mushroom.
pub fn view(mushroom: &Arc<Mushroom>, context: &Context<'_>) -> View {
    let record = &mushroom.record;
    let book = context.book;
    let mut pairs: Vec<&Pairing> =
        context.findings.pairings().iter().filter(|pair| pair.mushroom.id == mushroom.id).collect();
    pairs.sort_by_key(|&pair| pair::order(pair));
    let at_hand = |id: &str| context.findings.woods().iter().any(|wood| wood.id == id);
    let (full, bare): (Vec<&Pairing>, Vec<&Pairing>) =
        pairs.into_iter().partition(|pair| pair.consensus().is_some() || pair.is_direct());
    let pick = |wanted: &dyn Fn(&str, bool) -> bool| -> Vec<Pair> {
        let picked = full.iter().filter(|pair| wanted(&pair.wood.id, pair.wood.is_species()));
        picked.map(|pair| Pair::of(pair, context)).collect()
    };
    let here = pick(&|id, _| at_hand(id));
    let members =
        book.mushrooms.values().filter(|other| other.part_of.as_ref().is_some_and(|group| group.id == mushroom.id));
    let look_alikes = look_alike::all(mushroom, context);
    View {
        name: capital(mushroom.name()),
        also: record.names.iter().skip(1).cloned().collect(),
        scientific: record.scientific.clone(),
        formerly: record.formerly.clone(),
        rank: (record.rank != Rank::Species).then(|| rank_words(record.rank)),
        part_of: mushroom.part_of.as_ref().map(|group| Anchor::mushroom(group, context)),
        members: members.map(|member| Anchor::mushroom(member, context)).collect(),
        about: record.about.clone(),
        own: mushroom.origin.writer != crate::book::Writer::Handbook,
        soaking: record.answers_to_soaking,
        methods: methods(mushroom, context),
        strains: book
            .strains
            .values()
            .filter(|strain| strain.mushroom.id == mushroom.id)
            .map(|strain| Anchor::strain(strain, context))
            .collect(),
        label: label::of(mushroom, &here, context),
        here,
        elsewhere: by_rating(full.iter().filter(|pair| !at_hand(&pair.wood.id) && pair.wood.is_species()), context),
        groups: pick(&|id, species| !at_hand(id) && !species),
        bare: bare.into_iter().map(|pair| Pair::of(pair, context)).collect(),
        fruits: Fruits::of(mushroom, context),
        unspoken: context
            .findings
            .woods()
            .iter()
            .filter_map(|wood| Unspoken::of(Anchor::wood(wood, context), mushroom, wood, context))
            .collect(),
        lines: headings(mushroom, context),
        rests: rest::all(mushroom, context),
        rest_spread: spread::rest(mushroom, context),
        deadly: look_alikes.iter().any(|look_alike| look_alike.deadly),
        look_alikes,
        looks: look_alike::looks(mushroom),
        others: rule::look_alikes(context),
        rules: rule::of_mushroom(mushroom, context),
        cautions: caution::of_mushroom(mushroom, context),
        safety: [Task::Harvest, Task::Eating]
            .map(|task| Anchor::to(context.route.at(&super::Page::Safety, task.id()), task.words(), context)),
        photos: photo::all(&record.photos, context),
        notes: Anchor::notes_about(Kind::Mushroom, &mushroom.id, context),
        working: context.route.to(&super::Page::WorkingPairings(mushroom.id.clone())),
        sheet: Sheet::behind(Kind::Mushroom, &mushroom.id, &mushroom.origin, context),
    }
}

/// Pairs by their rating, the best first.
fn by_rating<'a>(pairs: impl Iterator<Item = &'a &'a Pairing>, context: &Context<'_>) -> Vec<Rated> {
    let pairs: Vec<&&Pairing> = pairs.collect();
    let wood = |pair: &&&Pairing| {
        let working = context.route.pairing(&pair.mushroom.id, &pair.wood.id);
        (Anchor::to(working, pair.wood.name(), context), pair.sources, pair.reach == Reach::Genus)
    };
    let rated = |together: &[&&Pairing]| (Rating::of(together[0].word), together.iter().map(wood).collect());
    pairs.chunk_by(|a, b| a.word == b.word).map(rated).collect()
}

fn headings(mushroom: &Mushroom, context: &Context<'_>) -> Vec<Heading> {
    let record = &mushroom.record;
    let said = |rows: &[Said]| Line::all(rows, context);
    let temperatures = record.temperatures.iter().map(|band| Line::band(band, context)).collect();
    let spawn_run = record.spawn_run.iter().map(|span| Line::span("", span, context)).collect();
    let heading = |id, title, lines, silence| Heading { id, title, spread: None, lines, silence };
    let drawn = |spread, heading| Heading { spread, ..heading };
    let mut headings = vec![
        drawn(
            spread::first(mushroom, context),
            heading("first", "From inoculation to the first mushrooms", spawn_run, Some("No spawn run is recorded.")),
        ),
        drawn(
            spread::fruiting(mushroom, context),
            heading("temperatures", "Temperatures", temperatures, Some("No temperature is recorded.")),
        ),
        drawn(
            spread::gives(mushroom, context),
            heading("gives", "What a log gives", said(&record.yields), Some("None of our sources gives a yield.")),
        ),
        heading("ripe", "When to pick", said(&record.picking), Some("None of our sources says when it is ripe.")),
        heading("flushes", "How it fruits", said(&record.fruiting), None),
        heading("soaking", "Soaking and watering", said(&record.soaking), None),
        heading("kitchen", "In the kitchen and at market", said(&record.food), None),
        heading("else", "What else sources say", said(&record.remarks), None),
    ];
    let is_species = record.rank == Rank::Species;
    headings.retain(|heading| !heading.lines.is_empty() || (heading.silence.is_some() && is_species));
    headings
}
