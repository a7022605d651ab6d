//! The year's work.

use std::collections::BTreeSet;

use serde::Serialize;

use super::part::caution::{Caution, grown};
use super::part::deadline::Deadline;
use super::part::handouts::Handout;
use super::part::month::Month;
use super::part::pair::Pair;
use super::part::sheet::Sheet;
use super::part::strip::Strip;
use super::part::{Anchor, caution, deadline, handouts, month, pair, place, rule, strip};
use super::{Context, Page};
use crate::book::Caution as Found;
use crate::reckon::findings::{Pairing, Word};
use crate::record::caution::{Severity, Task};

/// Best woods shown for each mushroom.
const BEST: usize = 4;
/// Notes shown.
const NOTES: usize = 4;

/// The front page.
#[derive(Debug, Serialize)]
pub struct View {
    about: Option<String>,
    place: String,
    unplaced: Option<&'static str>,
    strip: Option<Strip>,
    months: Vec<Month>,
    calendar: String,
    deadlines: Vec<Deadline>,
    gaps: BTreeSet<String>,
    remarks: Vec<String>,
    best: Vec<Best>,
    warnings: Vec<Caution>,
    sheets: Vec<(Anchor, &'static str)>,
    handouts: Vec<Handout>,
    notes: Vec<(Anchor, String)>,
    mushrooms: Vec<Anchor>,
    woods: Vec<Anchor>,
    all_pairings: String,
    seasons: String,
    own_list: bool,
    sheet: Sheet,
}

/// The best woods for one mushroom among those at hand.
#[derive(Debug, Serialize)]
struct Best {
    mushroom: Anchor,
    pairs: Vec<Pair>,
}

/// The front page's view.
pub fn view(context: &Context<'_>) -> View {
    let Context { book, findings, route } = context;
    let farm = &book.farm.record;
    let mut notes: Vec<_> = book.notes.values().collect();
    notes.sort_by_key(|note| std::cmp::Reverse(note.record.date));
    let mut woods: Vec<Anchor> =
        book.woods.values().filter(|wood| wood.is_species()).map(|wood| Anchor::wood(wood, context)).collect();
    woods.sort_by_key(|wood| wood.text.to_lowercase());
    View {
        about: farm.about.clone(),
        place: place::words(context),
        unplaced: book.here.name().is_none().then(rule::unplaced),
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
                mushroom: Anchor::mushroom(mushroom, context),
                pairs: best(&mushroom.id, context).into_iter().map(|pair| Pair::of(pair, context)).collect(),
            })
            .collect(),
        warnings: warnings(context),
        sheets: Page::sheets().map(|(page, about)| (Anchor::page(page, context), about)).collect(),
        handouts: handouts::all(context),
        notes: notes
            .into_iter()
            .take(NOTES)
            .map(|note| (Anchor::note(note, context), note.record.date.show(context.units())))
            .collect(),
        mushrooms: book
            .mushrooms
            .values()
            .filter(|mushroom| mushroom.is_species())
            .map(|mushroom| Anchor::mushroom(mushroom, context))
            .collect(),
        woods,
        all_pairings: route.to(&Page::Pairings),
        seasons: route.to(&Page::Seasons),
        own_list: !book.farm.grows.is_empty(),
        sheet: Sheet::of(&book.farm.origin),
    }
}

/// What is grave about growing a mushroom of the farm at all; what threatens at picking stands above the picking.
fn warnings(context: &Context<'_>) -> Vec<Caution> {
    let grown = grown(context);
    let at_table = |task: &Task| matches!(task, Task::Harvest | Task::Eating);
    let grave = |found: &Found| {
        found.record.severity == Severity::Grave && !found.mushrooms.is_empty() && grown.is_met_by(found)
    };
    caution::some(|found| grave(found) && !found.record.tasks.iter().any(at_table), context)
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
    pairs.sort_by_key(|&pair| pair::order(pair));
    pairs.truncate(BEST);
    pairs
}
