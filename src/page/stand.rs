//! A stand: its map, its tagged trees, and how dense it is before and after the winter.

use std::collections::BTreeMap;

use serde::Serialize;

use super::figure::{bars, map};
use super::part::caution::{Cautions, Subject};
use super::part::cite::Line;
use super::part::growth::Growth;
use super::part::help::Spot;
use super::part::photo::{self, Photo};
use super::part::sheet::Sheet;
use super::part::table::{Table, or_dash};
use super::part::{Anchor, Figure, and, capital, gain, tree};
use super::{Context, Page};
use crate::book::Listed;
use crate::quantity::date::month_name;
use crate::quantity::measure::rounded;
use crate::quantity::{Units, count};
use crate::reckon::Topic;
use crate::reckon::density::{Density, Removal};
use crate::reckon::findings::stands::standing;
use crate::reckon::findings::{Measured, StandFinding, TreeFinding};
use crate::reckon::formula::Place;
use crate::reckon::release::SIDES;
use crate::record::Kind;
use crate::record::caution::Task;
use crate::record::stand::Stand;
use crate::record::tree::Tag;

/// A stand.
#[derive(Debug, Serialize)]
pub struct View {
    about: Option<String>,
    area: Option<String>,
    corner: Option<Spot>,
    map: Option<Map>,
    bars: Option<String>,
    facts: Option<Table>,
    gaps: Vec<String>,
    growth: Option<Growth>,
    pace: String,
    thinned: Option<String>,
    counted: Vec<String>,
    stale: Vec<String>,
    rows: Option<Table>,
    gain: Option<Figure>,
    clumps: Vec<(String, String)>,
    sprouts: Option<Line>,
    sprouts_more: Option<String>,
    felled: Figure,
    cautions: Cautions,
    photos: Vec<Photo>,
    notes: Vec<Anchor>,
    felling: String,
    working: String,
    sheet: Sheet,
}

/// The map of a stand.
#[derive(Debug, Serialize)]
struct Map {
    drawing: String,
    legend: String,
}

/// The view of a stand.
pub fn view(stand: &Listed<Stand>, context: &Context<'_>) -> Option<View> {
    let findings = context.findings;
    let place = findings.stands().binary_search_by(|found| found.measured.stand.id.as_str().cmp(&stand.id)).ok()?;
    let found = &findings.stands()[place];
    let record = &found.measured.stand.record;
    let units = context.units();
    let trees: Vec<&TreeFinding> = found.trees.iter().map(|index| &findings.trees()[*index]).collect();
    let clumps = clumps(found, &trees, context);
    let gaps = [found.measured.density.as_ref().err(), found.measured.area.as_ref().err()];
    Some(View {
        about: record.about.clone(),
        area: record.area.as_ref().map(|area| area.show(units)),
        corner: Spot::corner(record, context.units()),
        map: drawn(&stand.id, &trees, context),
        bars: before_and_after(&stand.id, found, units),
        facts: facts(found, context),
        gaps: gaps.into_iter().flatten().map(ToString::to_string).collect(),
        growth: findings.growth().get(place).map(|growth| Growth::of(growth, context)),
        pace: count(found.logs, "log", "logs"),
        thinned: thinned(found, units),
        counted: counted(found),
        stale: stale(&found.measured),
        rows: table(found, &trees, context),
        gain: gain::words(context),
        sprouts: has_clump(&trees).then(|| sprouts(context)).flatten(),
        sprouts_more: context.book.methods.get(STEMS).map(|_| context.route.record(Kind::Method, STEMS)),
        clumps,
        felled: Figure::worked(
            match found.felled.len() {
                1 => format!("1 tree comes down this winter and gives {}", count(found.logs, "log", "logs")),
                trees => format!("{trees} trees come down this winter and give {}", count(found.logs, "log", "logs")),
            },
            &Place::limit(&stand.id),
            context,
        ),
        cautions: Cautions::of(Task::Survey, &Subject::woods(trees.iter().map(|tree| &tree.tree.wood)), context),
        photos: photo::all(&record.photos, context),
        notes: Anchor::notes_about(Kind::Stand, &stand.id, context),
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

fn drawn(id: &str, trees: &[&TreeFinding], context: &Context<'_>) -> Option<Map> {
    let spots: Vec<map::Spot> = trees
        .iter()
        .filter_map(|tree| {
            let place = standing(tree)?;
            let fate = match (context.findings.winter().falls(tree.tree.tag()), tree.may_fall()) {
                _ if tree.is_down() => map::Fate::Stump,
                (true, _) => map::Fate::Falls,
                _ if tree.is_snag() => map::Fate::Snag,
                _ if tree.is_doubtful() => map::Fate::Doubtful,
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
    (!spots.is_empty()).then(|| Map {
        drawing: map::svg(&format!("map-{id}"), "Tagged trees of the stand", &spots, context.units()),
        legend: map::legend(&spots),
    })
}

/// The stems of each clump that stands, told apart by letters, and what becomes of them.
fn clumps(found: &StandFinding, trees: &[&TreeFinding], context: &Context<'_>) -> Vec<(String, String)> {
    let mut clumps: BTreeMap<&Tag, Vec<&TreeFinding>> = BTreeMap::new();
    for tree in trees.iter().filter(|tree| !tree.is_down()) {
        if let Some(clump) = &tree.tree.record.clump {
            clumps.entry(clump).or_default().push(tree);
        }
    }
    let words = |(clump, stems): (&Tag, Vec<&TreeFinding>)| {
        let is_stool = stems.iter().any(|stem| stem.tree.record.stool);
        let named = stems.iter().zip('a'..='z').map(|(stem, letter)| letter_of(stem, clump, letter));
        let kind = if is_stool { "stool" } else { "clump" };
        let name = if clump.0.to_lowercase().starts_with(kind) { clump.0.clone() } else { format!("{kind} {clump}") };
        let head = format!("{}: {}", capital(&name), and(&named.collect::<Vec<_>>()));
        let becomes = if stems.iter().any(|stem| stem.is_doubtful()) {
            "its wood is in doubt, so all its stems stay until it is known.".to_owned()
        } else if is_stool {
            stool(found, clump, &stems, context)
        } else {
            stays(&stems)
        };
        (head, becomes)
    };
    clumps.into_iter().map(words).collect()
}

/// A stem by its letter and its tag; a tag that is the clump's with a letter says it by itself.
fn letter_of(stem: &TreeFinding, clump: &Tag, letter: char) -> String {
    let tag = stem.tree.tag();
    let own = tag.0.strip_prefix(&clump.0).is_some_and(|rest| rest.len() == 1 && rest.chars().all(char::is_alphabetic));
    if own { tag.to_string() } else { format!("{letter} ({tag})") }
}

/// A stool is cut whole: whether it is its turn, and how long ago it was cut, or else its stand.
fn stool(found: &StandFinding, clump: &Tag, stems: &[&TreeFinding], context: &Context<'_>) -> String {
    let season = context.findings.season;
    let ago = |what: &str, winter: i16| {
        let years = count(season.year - winter, "year", "years");
        format!(" {what} was last cut in the winter of {winter}, {years} ago.")
    };
    let own = found.last_cut(clump, context.findings.trees(), season).map(|winter| ago("It", winter));
    let last = own.or_else(|| found.measured.last_entry(season).map(|winter| ago("The stand", winter)));
    let unknown = || " When it was last cut is not recorded.".to_owned();
    let turn =
        if stems.iter().any(|stem| stem.may_fall()) { "all stems are cut at once" } else { "it waits for its turn" };
    format!("{turn}.{}", last.unwrap_or_else(unknown))
}

/// Which stems of a clump stay.
fn stays(stems: &[&TreeFinding]) -> String {
    let kept: Vec<String> =
        stems.iter().filter(|stem| !stem.may_fall()).map(|stem| stem.tree.tag().to_string()).collect();
    match kept.as_slice() {
        [] => "all its stems are marked; to keep one, choose it as said below.".to_owned(),
        [one] => format!("{one} stays."),
        more if more.len() == stems.len() => "all its stems stay.".to_owned(),
        more => format!("{} stay.", and(more)),
    }
}

/// Whether a clump stands of which some stems may stay; a stool is cut whole.
fn has_clump(trees: &[&TreeFinding]) -> bool {
    let record = |tree: &&&TreeFinding| tree.tree.record.clump.is_some() && !tree.tree.record.stool;
    trees.iter().filter(|tree| !tree.is_down()).any(|tree| record(&tree))
}

/// The handbook's method of choosing stems.
const STEMS: &str = "choosing-stems";

/// The trial on which its step on sprouts rests.
const SPROUTS: &str = "lamson-1983";

/// Which stem of a clump goes, as the handbook advises.
fn sprouts(context: &Context<'_>) -> Option<Line> {
    let steps = &context.book.methods.get(STEMS)?.record.steps;
    let step = steps.iter().find(|step| step.sources.iter().any(|source| source.as_str() == SPROUTS))?;
    Some(Line::advice(&step.says, &step.sources, step.mark, context))
}

/// Why a stand that is denser than its owner wants may give more for a time than it grows.
fn thinned(found: &StandFinding, units: Units) -> Option<String> {
    let over = found.over_target()?.show(units);
    let target = found.measured.target()?.show(units);
    Some(format!(
        "It may give more than that until it is thinned to the {target} to keep; {over} are still over it after this winter."
    ))
}

/// When it was counted, what came out since, and how much growth the count lacks.
fn counted(found: &StandFinding) -> Vec<String> {
    let measured = &found.measured;
    let day = measured.stand.record.measured.map(|day| format!("{} {}", month_name(day.0.month()), day.0.year()));
    let growth = measured.summers.filter(|summers| *summers > 0).map_or_else(String::new, |summers| match summers {
        1 => "; one year of growth is not in it".to_owned(),
        summers => format!("; {summers} years of growth are not in it"),
    });
    let out = |removal: Removal, when: &str| {
        let trees = removal.trees.round();
        (removal.trees > 0.0).then(|| match trees {
            trees if trees <= 1.0 => format!("One tree came out {when}."),
            trees => format!("{trees} trees came out {when}."),
        })
    };
    let is_down = measured.earlier.trees + measured.this_winter.trees > 0.0;
    let no_day = (day.is_none() && is_down && measured.density.is_ok()).then(|| {
        "No day of the count is recorded (`measured`), so it is taken for one before all that came out.".to_owned()
    });
    let again = measured.again().filter(|_| !measured.is_stale());
    let again = again.map_or_else(String::new, |year| format!(" Count again by {year}."));
    let day = day.map(|day| format!("Counted in {day}{growth}.{again}"));
    let earlier =
        out(measured.earlier, if day.is_some() { "between the count and this winter" } else { "before this winter" });
    [day, no_day, earlier, out(measured.this_winter, "this winter already")].into_iter().flatten().collect()
}

/// Why a stand is to be counted again.
fn stale(measured: &Measured) -> Vec<String> {
    let old = measured.is_stale().then(|| {
        let years = Measured::STALE;
        format!("The count is older than {years} years. Measure again, and write the day under `measured`.")
    });
    let hollow = measured.hollow.map(|winter| {
        format!(
            "The stumps of the winter of {winter} have sprouted for {} years and more, and the count knows nothing of it: \
             the density is hollow. Measure again; sprouts are no marked trees.",
            Measured::STALE
        )
    });
    [old, hollow].into_iter().flatten().collect()
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
    let now = found.measured.now.as_ref().ok().filter(|_| found.measured.is_begun());
    let now = now.map(|now| bar("now", now, false));
    let bars: Vec<bars::Bar> =
        [Some(bar("before", before, false)), now, Some(bar("after", after, true))].into_iter().flatten().collect();
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
    let table = Table::of("facts of-rows", "Before and after this winter", &facts)
        .wide("Before and after this winter")
        .head("Figure", |(name, _)| name.clone())
        .number("Before", |(_, show)| figure(found.measured.density.as_ref().ok(), show));
    let table = if found.measured.is_begun() {
        table.number("Now", |(_, show)| figure(found.measured.now.as_ref().ok(), show))
    } else {
        table
    };
    table.number("After", |(_, show)| figure(found.after.as_ref().ok(), show)).done()
}

/// How a figure of a stand is printed, where it can be told.
type Shown<'a> = &'a dyn Fn(&Density) -> Option<String>;

/// Its tagged trees, without those of which it is known that they came down in an earlier winter.
fn table(stand: &StandFinding, trees: &[&TreeFinding], context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let unit = if units == Units::Us { "ft" } else { "m" };
    let is_here = |found: &&&TreeFinding| {
        let day = found.down.and_then(|down| down.day);
        day.is_none() || context.findings.is_of_this_winter(found)
    };
    let trees: Vec<&TreeFinding> = trees.iter().filter(is_here).copied().collect();
    let tagged = count(trees.len(), "tagged tree", "tagged trees");
    let table = Table::of("facts walk stack", &tagged, trees).wide("Tagged trees");
    tree::columns(table, context)
        .column("This winter", |found| tree::fate(found, context))
        .column(&format!("East / north, {unit}"), |found| or_dash(tree::place(found, units)))
        .column("Sides free", |found| room(stand, found, context))
        .column("Why", |found| {
            let falls = context.findings.winter().falls(found.tree.tag());
            if falls { tree::why_and_worth(found, context) } else { tree::why(found) }
        })
        .done()
}
