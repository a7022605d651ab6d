//! The front page: what is to be done now, what comes, and the year.

use std::collections::BTreeSet;

use serde::Serialize;

use super::part::coming::Coming;
use super::part::door::Door;
use super::part::handouts::Handout;
use super::part::help::Help;
use super::part::sheet::Sheet;
use super::part::strip::Strip;
use super::part::{Anchor, coming, deadline, door, handouts, place, rule, strip};
use super::{Context, Page};

/// Notes shown.
const NOTES: usize = 4;

/// The front page.
#[derive(Debug, Serialize)]
pub struct View {
    about: Option<String>,
    place: String,
    unplaced: Option<&'static str>,
    coming: Coming,
    strip: Option<Strip>,
    gaps: BTreeSet<String>,
    undormant: Option<String>,
    doors: [Door; 6],
    /// Where what is asked most often is answered.
    asked: Vec<Anchor>,
    poison: Help,
    handouts: Vec<Handout>,
    notes: Vec<(Anchor, String)>,
    seasons: String,
    calendar: String,
    sheet: Sheet,
}

/// The front page's view.
pub fn view(context: &Context<'_>) -> View {
    let Context { book, findings, route } = context;
    let mut notes: Vec<_> = book.notes.values().collect();
    notes.sort_by_key(|note| std::cmp::Reverse(note.record.date));
    View {
        about: book.farm.record.about.clone(),
        place: place::words(context),
        unplaced: book.here.name().is_none().then(rule::unplaced),
        coming: coming::of(context),
        strip: strip::of(context),
        gaps: findings.fellings().iter().filter_map(|felling| felling.gap.as_ref()).map(ToString::to_string).collect(),
        undormant: deadline::undormant(context),
        doors: door::all(context),
        asked: asked(context),
        poison: Help::poison(context),
        handouts: handouts::all(context),
        notes: notes
            .into_iter()
            .take(NOTES)
            .map(|note| (Anchor::note(note, context), note.record.date.show(context.units())))
            .collect(),
        seasons: route.to(&Page::Seasons),
        calendar: format!("{}calendar.ics", route.root()),
        sheet: Sheet::of(&book.farm.origin),
    }
}

/// What is asked most often and stands in the middle of a page, or on one that no door leads to.
fn asked(context: &Context<'_>) -> Vec<Anchor> {
    let to = |page: Page, block: &str, words: &str| Anchor::to(context.route.at(&page, block), words, context);
    vec![
        to(Page::Bucking, "lifting", "What one person may lift"),
        to(Page::Inoculation, "tables", "How much for any number of logs"),
        Anchor::page(&Page::KeyWinter, context),
        Anchor::page(&Page::Batches, context),
    ]
}
