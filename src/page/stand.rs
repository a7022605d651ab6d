//! A stand: its map, its tagged trees, and how dense it is before and after the winter.

use serde::Serialize;

use super::figure::{bars, map};
use super::part::caution::{Cautions, Subject};
use super::part::help::Spot;
use super::part::sheet::Sheet;
use super::part::table::{Table, or_dash};
use super::part::{Anchor, Figure, capital, tree};
use super::{Context, Page};
use crate::book::Listed;
use crate::quantity::measure::rounded;
use crate::quantity::{Units, count};
use crate::reckon::Topic;
use crate::reckon::density::Density;
use crate::reckon::findings::stands::standing;
use crate::reckon::findings::{StandFinding, TreeFinding};
use crate::reckon::formula::Place;
use crate::reckon::release::SIDES;
use crate::record::caution::Task;
use crate::record::stand::Stand;

/// A stand.
#[derive(Debug, Serialize)]
pub struct View {
    about: Option<String>,
    area: Option<String>,
    corner: Option<Spot>,
    map: Option<String>,
    bars: Option<String>,
    facts: Option<Table>,
    gaps: Vec<String>,
    rows: Option<Table>,
    felled: Figure,
    cautions: Cautions,
    notes: Vec<Anchor>,
    felling: String,
    working: String,
    sheet: Sheet,
}

/// The view of a stand.
pub fn view(stand: &Listed<Stand>, context: &Context<'_>) -> Option<View> {
    let findings = context.findings;
    let place = findings.stands().binary_search_by(|found| found.measured.stand.id.as_str().cmp(&stand.id)).ok()?;
    let found = &findings.stands()[place];
    let record = &found.measured.stand.record;
    let units = context.units();
    let trees: Vec<&TreeFinding> = found.trees.iter().map(|index| &findings.trees()[*index]).collect();
    let gaps = [found.measured.density.as_ref().err(), found.measured.area.as_ref().err()];
    Some(View {
        about: record.about.clone(),
        area: record.area.as_ref().map(|area| area.show(units)),
        corner: Spot::corner(record, context.units()),
        map: drawn(&stand.id, &trees, context),
        bars: before_and_after(&stand.id, found, units),
        facts: facts(found, context),
        gaps: gaps.into_iter().flatten().map(ToString::to_string).collect(),
        rows: table(found, &trees, context),
        felled: Figure::worked(
            match found.felled.len() {
                1 => format!("1 tree comes down this winter and gives {}", count(found.logs, "log", "logs")),
                trees => format!("{trees} trees come down this winter and give {}", count(found.logs, "log", "logs")),
            },
            &Place::limit(&stand.id),
            context,
        ),
        cautions: Cautions::of(Task::Survey, &Subject::woods(trees.iter().map(|tree| &tree.tree.wood)), context),
        notes: Anchor::notes_about(crate::record::Kind::Stand, &stand.id, context),
        felling: context.route.to(&Page::Felling),
        working: context.route.at(&Page::Working(Topic::Stands), &stand.id),
        sheet: Sheet::of(&found.measured.stand.origin),
    })
}

/// How many sides of a tree that stays are open now and then, and which it gains.
fn room(found: &StandFinding, tree: &TreeFinding, context: &Context<'_>) -> Option<Figure> {
    let place = found.released.binary_search_by(|released| released.tag.cmp(tree.tree.tag())).ok()?;
    let released = &found.released[place];
    let count = |sides: &[bool; 4]| sides.iter().filter(|open| **open).count();
    let (before, after) = (count(&released.before), count(&released.after));
    let gained: Vec<String> = released.gained().into_iter().map(|side| capital(&SIDES[side][..1])).collect();
    let words = if gained.is_empty() {
        format!("{before}, as before")
    } else {
        format!("{before}, then {after}: {}", gained.join(", "))
    };
    Some(Figure::worked(words, &Place::new(Topic::Stands, "release"), context))
}

fn drawn(id: &str, trees: &[&TreeFinding], context: &Context<'_>) -> Option<String> {
    let spots: Vec<map::Spot> = trees
        .iter()
        .filter(|tree| !tree.is_down)
        .filter_map(|tree| {
            let place = standing(tree)?;
            let fate = match (context.findings.winter().falls(tree.tree.tag()), tree.may_fall()) {
                (true, _) => map::Fate::Falls,
                (false, true) => map::Fate::Spared,
                (false, false) => map::Fate::Stays,
            };
            Some(map::Spot {
                tag: tree.tree.tag().to_string(),
                at: [place.east, place.north],
                inches: place.inches,
                fate,
            })
        })
        .collect();
    (!spots.is_empty()).then(|| map::svg(&format!("map-{id}"), "Tagged trees of the stand", &spots, context.units()))
}

fn before_and_after(id: &str, found: &StandFinding, units: Units) -> Option<String> {
    let (before, after) = (found.measured.density.as_ref().ok()?, found.after.as_ref().ok()?);
    let bar = |name: &str, density: &Density, foreseen| bars::Bar {
        name: name.to_owned(),
        value: density.basal_area.base(),
        words: density.basal_area.show(units),
        foreseen,
    };
    let keep = found.measured.target().map(|target| (target.base(), "to keep"));
    let bars = [bar("before", before, false), bar("after", after, true)];
    Some(bars::svg(&format!("bars-{id}"), "Basal area before and after this winter", &bars, keep))
}

fn facts(found: &StandFinding, context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let working = Place::new(Topic::Stands, found.measured.stand.id.clone());
    let figure = |density: Option<&Density>, show: Shown<'_>| match density.and_then(show) {
        Some(text) => Figure::worked(text, &working, context),
        None => Figure::gap("no diameters were measured"),
    };
    let facts: [(String, Shown<'_>); 4] = [
        (format!("Basal area {}", units.land()), &|density| Some(density.basal_area.show(units))),
        (format!("Trees {}", units.land()), &|density| {
            density.stems.map(|stems| rounded(units.on_land(stems.an_acre), 0))
        }),
        ("Quadratic mean diameter".to_owned(), &|density| density.quadratic_mean().map(|mean| mean.show(units))),
        ("Stocking (upland central hardwoods, from memory)".to_owned(), &|density| {
            density.stocking().map(|stocking| format!("{} %", rounded(stocking.base(), 0)))
        }),
    ];
    Table::of("facts", "Before and after this winter", &facts)
        .wide("Before and after this winter")
        .head("Figure", |(name, _)| name.clone())
        .number("Before", |(_, show)| figure(found.measured.density.as_ref().ok(), show))
        .number("After", |(_, show)| figure(found.after.as_ref().ok(), show))
        .done()
}

/// How a figure of a stand is printed, where it can be told.
type Shown<'a> = &'a dyn Fn(&Density) -> Option<String>;

/// Its tagged trees.
fn table(stand: &StandFinding, trees: &[&TreeFinding], context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let unit = if units == Units::Us { "ft" } else { "m" };
    let tagged = count(trees.len(), "tagged tree", "tagged trees");
    let table = Table::of("facts walk", &tagged, trees.iter().copied()).wide("Tagged trees");
    tree::columns(table, context)
        .column("This winter", |found| tree::fate(found, context))
        .column(&format!("East / north, {unit}"), |found| or_dash(tree::place(found, units)))
        .column("Sides free", |found| room(stand, found, context))
        .column("Why", tree::why)
        .done()
}
