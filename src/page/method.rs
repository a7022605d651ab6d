//! All methods, and one of them, step by step.

use serde::Serialize;

use super::part::caution::{Along, Subject, grown};
use super::part::cite::{Cite, Line};
use super::part::handouts::Handout;
use super::part::sheet::Sheet;
use super::part::step::Step;
use super::part::table::{Part, Table, cell, or_gap};
use super::part::{Anchor, handouts, step};
use super::{Context, Page};
use crate::book::{Listed, Mushroom, Writer};
use crate::record::{Kind, method};

/// The list of methods.
#[derive(Debug, Serialize)]
pub struct Index {
    methods: Vec<Entry>,
    sheets: Vec<(Anchor, &'static str)>,
    stands: Vec<Anchor>,
    handouts: Vec<Handout>,
}

/// A method in a list.
#[derive(Debug, Serialize)]
struct Entry {
    link: Anchor,
    about: String,
    mushrooms: Vec<Anchor>,
}

/// One method.
#[derive(Debug, Serialize)]
pub struct View {
    name: String,
    about: String,
    own: bool,
    mushrooms: Vec<Anchor>,
    steps: Vec<Step>,
    sizes: Vec<Line>,
    patterns: Option<Table>,
    remarks: Vec<Line>,
    inoculation: Option<String>,
    sheet: Sheet,
}

/// The view of the list of methods.
pub fn index(context: &Context<'_>) -> Index {
    let methods = context.book.methods.values().map(|method| Entry {
        link: Anchor::record(Kind::Method, &method.id, context),
        about: method.record.about.clone(),
        mushrooms: mushrooms(&method.id, context),
    });
    Index {
        methods: methods.collect(),
        sheets: Page::sheets()
            .filter(|(page, _)| !matches!(page, Page::Methods | Page::Safety))
            .map(|(page, about)| (Anchor::page(page, context), about))
            .collect(),
        handouts: handouts::all(context),
        stands: context.book.stands.values().map(|stand| Anchor::record(Kind::Stand, &stand.id, context)).collect(),
    }
}

fn mushrooms(method: &str, context: &Context<'_>) -> Vec<Anchor> {
    let grown =
        context.book.mushrooms.values().filter(|mushroom| mushroom.methods.iter().any(|other| other.id == method));
    grown.map(|mushroom| Anchor::mushroom(mushroom, context)).collect()
}

/// The view of one method.
pub fn view(found: &Listed<method::Method>, context: &Context<'_>) -> View {
    let record = &found.record;
    let mut along = Along::new(step::tasks(&record.steps), &subject(&found.id, context), context);
    View {
        name: record.name.clone(),
        about: record.about.clone(),
        own: found.origin.writer != Writer::Handbook,
        mushrooms: mushrooms(&found.id, context),
        steps: step::all(&record.steps, &mut along, context),
        sizes: Line::all(&record.sizes, context),
        patterns: patterns(&record.patterns, context),
        remarks: Line::all(&record.remarks, context),
        inoculation: (!record.patterns.is_empty()).then(|| context.route.to(&Page::Inoculation)),
        sheet: Sheet::behind(Kind::Method, &found.id, &found.origin, context),
    }
}

/// The mushrooms of the farm that are grown by a method; where it is nobody's own, all that the farm grows.
fn subject<'a>(method: &str, context: &Context<'a>) -> Subject<'a> {
    let mut subject = grown(context);
    let by_method = |mushroom: &&Mushroom| mushroom.methods.iter().any(|other| other.id == method);
    if context.book.mushrooms.values().any(|mushroom| by_method(&mushroom.as_ref())) {
        subject.mushrooms.retain(by_method);
    }
    subject
}

fn patterns(patterns: &[method::Pattern], context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let hole = |pattern: &method::Pattern| match (&pattern.hole_diameter, &pattern.hole_depth) {
        (Some(diameter), Some(depth)) => Some(format!("{} × {}", diameter.show(units), depth.show(units))),
        (Some(diameter), None) => Some(diameter.show(units)),
        (None, Some(depth)) => Some(format!("{} deep", depth.show(units))),
        (None, None) => None,
    };
    Table::of("facts stack", "Patterns that sources give", patterns)
        .head("Pattern", |pattern| {
            let note = pattern.note.clone().map(|note| cell![" ", Part::Note(note.into())]);
            cell![pattern.name.clone(), note]
        })
        .column("Along", |pattern| pattern.along.show(units))
        .column("Between rows", |pattern| {
            or_gap(pattern.between.as_ref().map(|between| between.show(units)), "not given")
        })
        .column("Hole", |pattern| or_gap(hole(pattern), "not given"))
        .column("Source", |pattern| Cite::by(pattern, context))
        .done()
}
