//! All mushrooms, and one of them.

use std::sync::Arc;

use serde::Serialize;

use super::{
    Context, index,
    part::{
        Anchor, capital,
        caution::{self, Caution},
        cite::{Cite, Line},
        date,
        pair::Pair,
        rating::Rating,
        sheet::Sheet,
    },
    rank_words,
};
use crate::{
    book::Mushroom,
    reckon::findings::{Inoculation, Pairing, Word, inoculation, pairing::Reach},
    record::{Kind, caution::Task, wood::Rank},
};

/// The list of mushrooms.
#[derive(Debug, Serialize)]
pub struct Index {
    own: Vec<Entry>,
    others: Vec<Entry>,
    groups: Vec<Entry>,
    strains: String,
}

/// A mushroom in a list.
#[derive(Debug, Serialize)]
struct Entry {
    link: Anchor,
    scientific: String,
    methods: Vec<Anchor>,
    thrives: usize,
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
    lines: Vec<Heading>,
    rests: Vec<Rest>,
    look_alikes: Vec<LookAlike>,
    warnings: Vec<Caution>,
    cautions: Vec<Caution>,
    notes: Vec<Anchor>,
    working: String,
    sheet: Sheet,
}

/// Woods of one rating, each at its working.
#[derive(Debug, Serialize)]
struct Rated {
    rating: Rating,
    woods: Vec<Sourced>,
}

/// A wood at the working of its rating, and how many sources speak of it.
#[derive(Debug, Serialize)]
struct Sourced {
    link: Anchor,
    sources: usize,
    inherited: bool,
}

/// Rows under one heading.
#[derive(Debug, Serialize)]
struct Heading {
    title: &'static str,
    lines: Vec<Line>,
    silence: Option<&'static str>,
}

/// One source's rest, and what it means on this farm.
#[derive(Debug, Serialize)]
pub struct Rest {
    /// The school.
    pub school: &'static str,
    /// The rest in figures, where the source gives them.
    pub figure: String,
    /// Its reason.
    pub says: String,
    /// Who says so.
    pub cite: Cite,
    /// When to fell and to inoculate by it here.
    pub here: Vec<String>,
}

/// A look-alike as pages show it.
#[derive(Debug, Serialize)]
pub struct LookAlike {
    name: String,
    scientific: String,
    deadly: bool,
    print: String,
    planted_print: String,
    print_separates: bool,
    apart: String,
    harm: String,
    cites: Vec<Cite>,
}

/// The view of the list of mushrooms.
#[must_use]
pub fn index(context: &Context<'_>) -> Index {
    let book = context.book;
    let grows = |mushroom: &Mushroom| context.findings.mushrooms().iter().any(|grown| grown.id == mushroom.id);
    let list = |wanted: &dyn Fn(&Mushroom) -> bool| {
        let wanted = book.mushrooms.values().filter(|mushroom| wanted(mushroom));
        wanted.map(|mushroom| entry(mushroom, context)).collect()
    };
    Index {
        own: list(&|mushroom| grows(mushroom)),
        others: list(&|mushroom| !grows(mushroom) && mushroom.is_species()),
        groups: list(&|mushroom| !grows(mushroom) && !mushroom.is_species()),
        strains: context.route.to(&super::Page::Strains),
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
        writer: (writer != crate::book::Writer::Handbook).then(|| writer.words()),
    }
}

fn methods(mushroom: &Mushroom, context: &Context<'_>) -> Vec<Anchor> {
    let link = |id: &str| context.route.record(Kind::Method, id);
    mushroom.methods.iter().map(|method| Anchor { href: link(&method.id), text: method.record.name.clone() }).collect()
}

/// The view of one mushroom.
#[must_use]
pub fn view(mushroom: &Arc<Mushroom>, context: &Context<'_>) -> View {
    let record = &mushroom.record;
    let book = context.book;
    let mut pairs: Vec<&Pairing> =
        context.findings.pairings().iter().filter(|pair| pair.mushroom.id == mushroom.id).collect();
    pairs.sort_by(|a, b| index::order(a).cmp(&index::order(b)));
    let at_hand = |id: &str| context.findings.woods().iter().any(|wood| wood.id == id);
    let (full, bare): (Vec<&Pairing>, Vec<&Pairing>) =
        pairs.into_iter().partition(|pair| pair.consensus.is_some() || pair.is_direct());
    let pick = |wanted: &dyn Fn(&str, bool) -> bool| -> Vec<Pair> {
        let picked = full.iter().filter(|pair| wanted(&pair.wood.id, pair.wood.is_species()));
        picked.map(|pair| Pair::of(pair, context)).collect()
    };
    let members =
        book.mushrooms.values().filter(|other| other.part_of.as_ref().is_some_and(|group| group.id == mushroom.id));
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
        here: pick(&|id, _| at_hand(id)),
        elsewhere: by_rating(full.iter().filter(|pair| !at_hand(&pair.wood.id) && pair.wood.is_species()), context),
        groups: pick(&|id, species| !at_hand(id) && !species),
        bare: bare.into_iter().map(|pair| Pair::of(pair, context)).collect(),
        lines: headings(mushroom, context),
        rests: rests(mushroom, context),
        look_alikes: look_alikes(mushroom, context),
        warnings: caution::of_mushroom(mushroom, context),
        cautions: caution::for_tasks(
            &[Task::Harvest, Task::Eating],
            |found| found.comes_with_mushroom(mushroom) && found.woods.is_empty(),
            context,
        ),
        notes: Anchor::notes_about(Kind::Mushroom, &mushroom.id, context),
        working: context.route.to(&super::Page::WorkingPairings(mushroom.id.clone())),
        sheet: Sheet::behind(Kind::Mushroom, &mushroom.id, &mushroom.origin, context),
    }
}

/// Pairs by their rating, the best first.
fn by_rating<'a>(pairs: impl Iterator<Item = &'a &'a Pairing>, context: &Context<'_>) -> Vec<Rated> {
    let pairs: Vec<&&Pairing> = pairs.collect();
    let rated = |together: &[&&Pairing]| Rated {
        rating: Rating::of(together[0].word),
        woods: together
            .iter()
            .map(|pair| Sourced {
                link: Anchor {
                    href: context.route.pairing(&pair.mushroom.id, &pair.wood.id),
                    text: pair.wood.name().to_owned(),
                },
                sources: pair.sources,
                inherited: pair.reach == Reach::Genus,
            })
            .collect(),
    };
    pairs.chunk_by(|a, b| a.word == b.word).map(rated).collect()
}

fn headings(mushroom: &Mushroom, context: &Context<'_>) -> Vec<Heading> {
    let record = &mushroom.record;
    let said =
        |rows: &[crate::record::said::Said]| rows.iter().map(|row| Line::said("", row, context)).collect::<Vec<_>>();
    let headings = vec![
        Heading {
            title: "Temperatures",
            lines: record.temperatures.iter().map(|band| Line::band(band, context)).collect(),
            silence: Some("No temperature is recorded."),
        },
        Heading {
            title: "From inoculation to the first mushrooms",
            lines: record.spawn_run.iter().map(|span| Line::span("", span, context)).collect(),
            silence: Some("No spawn run is recorded."),
        },
        Heading { title: "Fruiting", lines: said(&record.fruiting), silence: Some("No fruiting season is recorded.") },
        Heading { title: "Soaking and watering", lines: said(&record.soaking), silence: None },
        Heading {
            title: "What a log gives",
            lines: said(&record.yields),
            silence: Some("No yield is published in any source read."),
        },
        Heading {
            title: "When to pick",
            lines: said(&record.picking),
            silence: Some("No source read says when it is ripe."),
        },
        Heading { title: "In the kitchen and at market", lines: said(&record.food), silence: None },
        Heading { title: "What else sources say", lines: said(&record.remarks), silence: None },
    ];
    let shown =
        |heading: &Heading| !heading.lines.is_empty() || (heading.silence.is_some() && record.rank == Rank::Species);
    headings.into_iter().filter(shown).collect()
}

/// The rest rows of a mushroom: with dates of this farm where it grows it, else as the record has them.
#[must_use]
pub fn rests(mushroom: &Mushroom, context: &Context<'_>) -> Vec<Rest> {
    let found: Vec<&Inoculation> =
        context.findings.inoculations().iter().filter(|found| found.mushroom.id == mushroom.id).collect();
    match found.first() {
        Some(first) => (0..first.lines.len()).map(|index| rest_line(&found, index, context)).collect(),
        None => inoculation::rests(mushroom).iter().map(|rest| bare_rest(rest, context)).collect(),
    }
}

fn bare_rest(rest: &crate::record::said::Rest, context: &Context<'_>) -> Rest {
    use crate::reckon::rest::School;
    let (least, _) = inoculation::ends(rest);
    Rest {
        school: least.map_or("no figure given", |least| School::of(least).words()),
        figure: rest_words(rest, context),
        says: rest.says.clone(),
        cite: Cite::of(&rest.source, rest.mark, context),
        here: Vec::new(),
    }
}

fn rest_line(found: &[&Inoculation], index: usize, context: &Context<'_>) -> Rest {
    let line = &found[0].lines[index];
    let here = found.iter().flat_map(|found| {
        let felling = &context.findings.fellings()[found.felling];
        found.lines[index].carried.iter().map(move |carried| {
            let (season, fits) = (context.findings.season, carried.fits);
            let inoculate = date::stretch(carried.inoculation, season);
            let when = format!("fell {}, inoculate {inoculate}", date::stretch(fits, season));
            format!("{}: {when}", super::part::woods::short_woods(felling, context))
        })
    });
    let mut rest = bare_rest(&line.rest, context);
    rest.school = line.school.map_or("no figure given", crate::reckon::rest::School::words);
    rest.here = here.collect();
    rest
}

/// The figures of a rest row in words.
#[must_use]
pub fn rest_words(rest: &crate::record::said::Rest, context: &Context<'_>) -> String {
    let units = context.units();
    let mut parts = Vec::new();
    if let Some(least) = &rest.least {
        parts.push(format!("at least {}", least.show(units)));
    }
    if let Some(best) = &rest.best {
        parts.push(format!("best {} to {}", best.low.show(units), best.high.show(units)));
    }
    if let Some(most) = &rest.most {
        parts.push(format!("at most {}", most.show(units)));
    }
    parts.join("; ")
}

/// What may be taken for a mushroom, the deadly first.
#[must_use]
pub fn look_alikes(mushroom: &Mushroom, context: &Context<'_>) -> Vec<LookAlike> {
    let mut rows: Vec<_> = mushroom.record.look_alikes.iter().collect();
    rows.sort_by_key(|row| !row.deadly);
    rows.into_iter()
        .map(|row| LookAlike {
            name: row.name.clone(),
            scientific: row.scientific.clone(),
            deadly: row.deadly,
            print: row.print.clone(),
            planted_print: row.planted_print.clone(),
            print_separates: row.print_separates,
            apart: row.apart.clone(),
            harm: row.harm.clone(),
            cites: row.sources.iter().map(|source| Cite::of(source, row.mark, context)).collect(),
        })
        .collect()
}
