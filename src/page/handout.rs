//! One handout: the parts that its record asks for, drawn for one file that needs nothing beside it.

use std::sync::Arc;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde::Serialize;

use super::Context;
use super::part::caution::{Along, Caution, Subject};
use super::part::cite::{Cite, Line};
use super::part::look_alike::LookAlike;
use super::part::matrix::Matrix;
use super::part::step::Step;
use super::part::strip::Strip;
use super::part::table::{Table, or_dash};
use super::part::{capital, date, look_alike, matrix, place, range, step, strip};
use crate::book::{Handout, Mushroom};
use crate::quantity::{Date, count};
use crate::reckon::findings::{Filling, logs};
use crate::reckon::kit::Worn;
use crate::reckon::{kit, life};
use crate::record::caution::Task;
use crate::record::handout::{Ask, Section, Shows, Station};
use crate::record::strain::SpawnForm;

/// The caution that tells the rule on moving logs, which every handout names.
const MOVING: &str = "move-wood-quarantine";

/// A handout.
#[derive(Debug, Serialize)]
pub struct View {
    readers: Option<String>,
    date: Option<String>,
    about: Option<String>,
    sheets: u32,
    place: String,
    dated: bool,
    moving: Option<Caution>,
    file: String,
    parts: Vec<Part>,
}

/// A part of it, of which only what it shows is filled.
#[derive(Debug, Default, Serialize)]
struct Part {
    title: String,
    says: Option<String>,
    /// A picture, whole, and what it shows.
    picture: Option<(String, String)>,
    matrix: Option<Matrix>,
    strip: Option<Strip>,
    /// When logs of the day first fruit, from the soonest to the latest of all sources, and how many these are.
    firsts: Vec<(String, usize, String)>,
    amounts: Option<[Option<Table>; 2]>,
    steps: Vec<Step>,
    cautions: Vec<Caution>,
    /// When each mushroom is ripe.
    picking: Vec<(String, Vec<Line>)>,
    /// What may be taken for each mushroom.
    alike: Vec<(String, Vec<LookAlike>)>,
    stations: Vec<Station>,
    gear: Vec<(String, u32)>,
    tools: Vec<(String, Vec<String>)>,
    ask: Vec<Ask>,
}

/// The view of a handout.
pub fn view(handout: &Handout, context: &Context<'_>) -> View {
    let record = &handout.record;
    let moving = context.book.cautions.get(MOVING);
    View {
        readers: record.readers.clone(),
        date: record.date.map(|date| date.show()),
        about: record.about.clone(),
        sheets: record.sheets,
        place: place::words(context),
        dated: record.sections.iter().any(|section| section.shows == Shows::Year),
        moving: moving.map(|found| Caution::of(found, context)),
        file: handout.origin.files().last().map_or_else(String::new, |file| file.name.clone()),
        parts: record.sections.iter().map(|section| part(section, handout, context)).collect(),
    }
}

fn part(section: &Section, handout: &Handout, context: &Context<'_>) -> Part {
    let empty = Part {
        title: section.title.clone().unwrap_or_else(|| section.shows.words().to_owned()),
        says: section.says.clone(),
        picture: picture(section, handout),
        ..Part::default()
    };
    let own: Vec<Arc<Mushroom>> =
        section.mushrooms.iter().filter_map(|id| context.book.mushrooms.get(id.as_str())).cloned().collect();
    let mushrooms = if own.is_empty() { &handout.mushrooms } else { &own };
    let woods = &handout.woods;
    match section.shows {
        Shows::Words => empty,
        Shows::Pairings => Part { matrix: Some(matrix::of(mushrooms, woods, context)), ..empty },
        Shows::Year => Part {
            strip: strip::of_some(mushrooms, woods, context),
            firsts: handout.record.date.map(|date| firsts(date, mushrooms, context)).unwrap_or_default(),
            ..empty
        },
        Shows::Amounts => {
            Part { amounts: handout.record.logs.and_then(|logs| amounts(logs, handout, context)), ..empty }
        }
        Shows::Steps => Part { steps: steps(section, handout, context), ..empty },
        Shows::Cautions => Part { cautions: cautions(&section.tasks, handout, context), ..empty },
        Shows::Picking => {
            Part { picking: each(mushrooms, |mushroom| Line::all(&mushroom.record.picking, context)), ..empty }
        }
        Shows::LookAlikes => Part { alike: each(mushrooms, |mushroom| look_alike::all(mushroom, context)), ..empty },
        Shows::Stations => Part { stations: section.stations.clone(), ..empty },
        Shows::Kit => {
            let stations: Vec<&Station> = handout.record.sections.iter().flat_map(|part| &part.stations).collect();
            Part { gear: gear(&stations), tools: tools(&stations), ..empty }
        }
        Shows::Ask => Part { ask: section.ask.clone(), ..empty },
    }
}

fn picture(section: &Section, handout: &Handout) -> Option<(String, String)> {
    let shown = section.picture.as_ref()?;
    let picture = handout.pictures.get(&shown.file)?;
    let src = format!("data:{};base64,{}", picture.media, STANDARD.encode(&picture.bytes));
    Some((src, shown.shows.clone()))
}

/// Whether logs may be inoculated for a mushroom on a day.
fn inoculated_on(date: Date, mushroom: &Mushroom, context: &Context<'_>) -> bool {
    let findings = context.findings;
    let of = findings.inoculations().iter().filter(|found| found.mushroom.id == mushroom.id);
    of.flat_map(|found| &found.carried).any(|carried| {
        let (from, to) = findings.season.dates(carried.inoculation);
        from <= date && date <= to
    })
}

/// When logs of a day on which they may be inoculated first fruit, from the soonest to the latest of what all sources give.
fn firsts(date: Date, mushrooms: &[Arc<Mushroom>], context: &Context<'_>) -> Vec<(String, usize, String)> {
    let first = |mushroom: &Arc<Mushroom>| {
        let spans = mushroom.record.spawn_run.iter();
        let dates: Vec<[Date; 2]> = spans.map(|span| life::first(date, &span.range)).collect();
        let soonest = dates.iter().map(|[from, _]| *from).min()?;
        let latest = dates.iter().map(|[_, to]| *to).max()?;
        Some((mushroom.name().to_owned(), dates.len(), date::between(soonest, latest)))
    };
    mushrooms.iter().filter(|mushroom| inoculated_on(date, mushroom, context)).filter_map(first).collect()
}

/// What the handout's logs take, and what they weigh.
fn amounts(logs: u32, handout: &Handout, context: &Context<'_>) -> Option<[Option<Table>; 2]> {
    let units = context.units();
    let all = logs::fillings(context.book, units, &[logs]);
    let first = all.iter().find(|filling| filling.form == SpawnForm::Sawdust)?;
    let same = |filling: &&Filling| filling.form == first.form && filling.pattern.name == first.pattern.name;
    let (along, between) = (first.pattern.along.show(units), first.between.show(units));
    let (length, by) = (first.length.show(units), Cite::by(&first.pattern, context).words());
    let logs = count(logs, "log", "logs");
    let caption = format!("For {logs} {length} long, holes {along} apart and {between} between rows ({by})");
    let table = Table::of("facts", &caption, all.iter().filter(same))
        .head("Thickness", |filling| filling.diameter.show(units))
        .number("Holes a log", Filling::whole_holes)
        .number("Holes, or plugs, in all", Filling::all_holes)
        .number("Or sawdust spawn", |filling| {
            or_dash(filling.all_spawn().map(|[least, most]| range(&least.show(units), &most.show(units))))
        });
    Some([table.done(), weights(handout, context)])
}

/// What a green log weighs, wood by wood, in the order of the thicknesses.
fn weights(handout: &Handout, context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let woods = handout.woods.iter().filter(|wood| wood.is_species()).filter_map(|wood| context.findings.weight(wood));
    let known = woods.filter(|of| of.density.result.is_ok());
    let table = Table::of("facts", "What one green log weighs", known).head("Wood", |of| capital(of.wood.name()));
    let thicknesses = logs::diameters(context.book, units);
    let columns = thicknesses.iter().enumerate().fold(table, |table, (place, diameter)| {
        let heading = format!("{} thick", diameter.show(units));
        table.number(&heading, |of| of.logs.get(place).map(|log| log.green.show(units)))
    });
    columns.done()
}

/// The steps of a method, of the asked tasks only, each caution where it first holds.
fn steps(section: &Section, handout: &Handout, context: &Context<'_>) -> Vec<Step> {
    let method = section.method.as_ref().and_then(|id| context.book.methods.get(id.as_str()));
    let Some(method) = method else { return Vec::new() };
    let mut asked = section.tasks.is_empty();
    let mut steps = method.record.steps.clone();
    // A step without a task, such as filling the holes, belongs to the one before it.
    steps.retain(|step| {
        asked = section.tasks.is_empty() || step.task.map_or(asked, |task| section.tasks.contains(&task));
        asked
    });
    let mut along = Along::new(step::tasks(&steps), &subject(handout), context);
    let mut steps = step::all(&steps, &mut along, context);
    // The rule on moving logs stands at the top.
    steps.iter_mut().for_each(|step| drop(step.cautions.take(MOVING)));
    steps
}

/// The cautions of some tasks, each once, those that lead a task first.
fn cautions(tasks: &[Task], handout: &Handout, context: &Context<'_>) -> Vec<Caution> {
    let tasks = if tasks.is_empty() { &Task::ALL[..] } else { tasks };
    let mut along = Along::new(tasks.iter().copied(), &subject(handout), context);
    let all = tasks.iter().map(|task| along.take(*task)).flat_map(|of| of.leads.into_iter().chain(of.others));
    all.filter(|caution| caution.id != MOVING).collect()
}

/// The woods and mushrooms of a handout.
fn subject(handout: &Handout) -> Subject<'_> {
    Subject {
        woods: handout.woods.iter().map(AsRef::as_ref).collect(),
        mushrooms: handout.mushrooms.iter().map(AsRef::as_ref).collect(),
    }
}

/// Mushrooms by name, each with what is told of it.
fn each<T>(mushrooms: &[Arc<Mushroom>], told: impl Fn(&Mushroom) -> T) -> Vec<(String, T)> {
    mushrooms.iter().map(|mushroom| (capital(mushroom.name()), told(mushroom))).collect()
}

/// Protective gear by heads, what most wear first.
fn gear(stations: &[&Station]) -> Vec<(String, u32)> {
    let worn: Vec<Worn<'_>> =
        stations.iter().map(|station| Worn { at: &station.at, heads: station.heads, wears: &station.wears }).collect();
    let mut gear: Vec<(String, u32)> = kit::pieces(&worn).into_iter().collect();
    gear.sort_by_key(|(_, pieces)| std::cmp::Reverse(*pieces));
    gear
}

/// The tools of each station.
fn tools(stations: &[&Station]) -> Vec<(String, Vec<String>)> {
    let with = stations.iter().filter(|station| !station.tools.is_empty());
    with.map(|station| (station.name.clone(), station.tools.clone())).collect()
}
