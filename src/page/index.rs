//! This season at a glance.

use std::collections::BTreeSet;

use serde::Serialize;

use super::{
    Context, Page,
    part::{
        Anchor,
        caution::{self, Caution},
        deadline::{self, Deadline},
        month::{self, Month},
        pair::Pair,
        sheet::Sheet as RecordSheet,
        sheets,
        strip::{self, Strip},
    },
};
use crate::{
    reckon::findings::{Pairing, Word, pairing::Reach},
    record::Kind,
};

/// Best woods shown for each mushroom.
const BEST: usize = 4;
/// Notes shown.
const NOTES: usize = 4;

/// The front page.
#[derive(Debug, Serialize)]
pub struct View {
    about: Option<String>,
    place: String,
    strip: Option<Strip>,
    months: Vec<Month>,
    calendar: String,
    deadlines: Vec<Deadline>,
    gaps: BTreeSet<String>,
    remarks: Vec<String>,
    best: Vec<Best>,
    sheets: Vec<Sheet>,
    handouts: Vec<Handout>,
    notes: Vec<Note>,
    mushrooms: Vec<Anchor>,
    woods: Vec<Anchor>,
    all_pairings: String,
    seasons: String,
    own_list: bool,
    sheet: RecordSheet,
}

/// The best woods for one mushroom among those at hand.
#[derive(Debug, Serialize)]
struct Best {
    mushroom: Anchor,
    pairs: Vec<Pair>,
    warnings: Vec<Caution>,
}

/// A sheet to take out of the door.
#[derive(Debug, Serialize)]
struct Sheet {
    link: Anchor,
    about: &'static str,
}

/// A handout by its title.
#[derive(Debug, Serialize)]
pub struct Handout {
    link: Anchor,
    readers: Option<String>,
    sheets: u32,
}

/// A note by its title and date.
#[derive(Debug, Serialize)]
struct Note {
    link: Anchor,
    date: String,
}

/// The front page's view.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let Context { book, findings, route } = context;
    let farm = &book.farm.record;
    let mut notes: Vec<_> = book.notes.values().collect();
    notes.sort_by_key(|note| std::cmp::Reverse(note.record.date));
    let anchor = |kind: Kind, id: &str, text: &str| Anchor { href: route.record(kind, id), text: text.to_owned() };
    let mut woods: Vec<Anchor> = book
        .woods
        .values()
        .filter(|wood| wood.is_species())
        .map(|wood| anchor(Kind::Wood, &wood.id, wood.name()))
        .collect();
    woods.sort_by_key(|wood| wood.text.to_lowercase());
    View {
        about: farm.about.clone(),
        place: place(context),
        strip: strip::of(context),
        months: month::all(context),
        calendar: format!("{}calendar.ics", route.root()),
        deadlines: deadline::all(context),
        remarks: deadline::remarks(context),
        gaps: findings.fellings().iter().filter_map(|felling| felling.gap.as_ref()).map(ToString::to_string).collect(),
        best: findings
            .mushrooms()
            .iter()
            .map(|mushroom| Best {
                mushroom: anchor(Kind::Mushroom, &mushroom.id, mushroom.name()),
                pairs: best(&mushroom.id, context).into_iter().map(|pair| Pair::of(pair, context)).collect(),
                warnings: caution::of_mushroom(mushroom, context),
            })
            .collect(),
        sheets: sheets::all()
            .into_iter()
            .map(|(page, title, about)| Sheet { link: Anchor { href: route.to(&page), text: title.to_owned() }, about })
            .collect(),
        handouts: handouts(context),
        notes: notes
            .into_iter()
            .take(NOTES)
            .map(|note| Note { link: anchor(Kind::Note, &note.id, &note.record.title), date: note.record.date.show() })
            .collect(),
        mushrooms: book
            .mushrooms
            .values()
            .filter(|mushroom| mushroom.is_species())
            .map(|mushroom| anchor(Kind::Mushroom, &mushroom.id, mushroom.name()))
            .collect(),
        woods,
        all_pairings: route.to(&Page::Pairings),
        seasons: route.to(&Page::Seasons),
        own_list: !book.farm.grows.is_empty(),
        sheet: RecordSheet::of(&book.farm.origin),
    }
}

/// Every handout, with whom it is for.
#[must_use]
pub fn handouts(context: &Context<'_>) -> Vec<Handout> {
    let handouts = context.book.handouts.values();
    let one = |handout: &std::sync::Arc<crate::book::Handout>| Handout {
        link: Anchor { href: context.route.record(Kind::Handout, &handout.id), text: handout.record.title.clone() },
        readers: handout.record.readers.clone(),
        sheets: handout.record.sheets,
    };
    handouts.map(one).collect()
}

/// The best pairings of a mushroom among the woods at hand, those said of the wood itself first.
fn best<'a>(mushroom: &str, context: &'a Context<'_>) -> Vec<&'a Pairing> {
    let findings = context.findings;
    let mut pairs: Vec<&Pairing> = findings
        .woods()
        .iter()
        .filter_map(|wood| findings.pairing(mushroom, &wood.id))
        .filter(|pair| matches!(pair.word, Word::Thrives | Word::DoesWell))
        .collect();
    pairs.sort_by(|a, b| order(a).cmp(&order(b)));
    pairs.truncate(BEST);
    pairs
}

/// Best rating first, direct before inherited, more sources before fewer.
#[must_use]
pub fn order(pair: &Pairing) -> (Word, bool, std::cmp::Reverse<usize>, &str) {
    (pair.word, pair.reach == Reach::Genus, std::cmp::Reverse(pair.sources), pair.wood.name())
}

/// The place of the farm in words.
#[must_use]
pub fn place(context: &Context<'_>) -> String {
    let place = &context.book.farm.record.place;
    let side = |value: f64, plus: &str, minus: &str| {
        let word = if value < 0.0 { minus } else { plus };
        format!("{:.1}° {word}", value.abs())
    };
    let mut words = vec![side(place.latitude, "N", "S"), side(place.longitude, "E", "W")];
    if let Some(name) = &place.name {
        words.insert(0, name.clone());
    }
    if let Some(elevation) = &place.elevation {
        words.push(format!("{} above the sea", elevation.show(context.units())));
    }
    words.join(", ")
}
