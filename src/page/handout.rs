//! One handout: the parts that its record asks for, drawn for one file that needs nothing beside it.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use serde::Serialize;

use super::Context;
use super::part::caution::{Along, Caution, Subject};
use super::part::cite::{Cite, Line};
use super::part::help::Rescue;
use super::part::look_alike::LookAlike;
use super::part::matrix::Matrix;
use super::part::step::Step;
use super::part::strip::Strip;
use super::part::table::{Table, or_dash};
use super::part::weight::about_range;
use super::part::{capital, date, help, look_alike, matrix, place, range, step, strip};
use crate::book::{Handout, Mushroom};
use crate::quantity::{Date, count};
use crate::reckon::findings::{Filling, logs};
use crate::reckon::kit::Worn;
use crate::reckon::{kit, life};
use crate::record::caution::Task;
use crate::record::handout::{Ask, Section, Shows, Station};
use crate::record::method;
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
    /// How help finds whoever is hurt, where people work.
    rescue: Option<Rescue>,
    /// The rules that are decided at its tasks, by name, and whom to ask.
    rules: BTreeSet<String>,
    ask: Option<String>,
    unknown: BTreeSet<&'static str>,
}

/// Steps of one task, with what stands above and after them.
#[derive(Debug, Default, Serialize)]
struct Stage {
    leads: Vec<Caution>,
    steps: Vec<Step>,
    others: Vec<Caution>,
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
    /// The cautions above its work, and after it.
    leads: Vec<Caution>,
    others: Vec<Caution>,
    stages: Vec<Stage>,
    /// All cautions of the tasks that the record asks for.
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
    let mut spoken = Spoken::of(handout, context);
    let parts = record.sections.iter().map(|section| part(section, handout, &mut spoken, context)).collect();
    View {
        readers: record.readers.clone(),
        date: record.date.map(|date| date.show(context.units())),
        about: record.about.clone(),
        sheets: record.sheets,
        place: place::words(context),
        dated: record.sections.iter().any(|section| section.shows == Shows::Year),
        moving: moving.map(|found| Caution::of(found, context)),
        file: handout.origin.files().last().map_or_else(String::new, |file| file.name.clone()),
        parts,
        rescue: record.sections.iter().any(|section| works(section, context)).then(|| help::rescue(context)),
        rules: spoken.rules,
        ask: spoken.ask,
        unknown: spoken.unknown,
    }
}

/// The tasks of a day on which people work together with tools that hurt.
const WORK: [Task; 5] = [Task::Felling, Task::Bucking, Task::Hauling, Task::Drilling, Task::Waxing];

/// Whether a part is of a work day.
fn works(section: &Section, context: &Context<'_>) -> bool {
    let steps = || section.shows == Shows::Steps && tasks(section, context).iter().any(|task| WORK.contains(task));
    section.shows == Shows::Stations || steps()
}

/// The tasks whose cautions a part shows.
fn tasks(section: &Section, context: &Context<'_>) -> Vec<Task> {
    match section.shows {
        Shows::Steps => step::tasks(&asked_steps(section, context)).collect(),
        Shows::Cautions if section.tasks.is_empty() => Task::ALL.to_vec(),
        Shows::Cautions => section.tasks.clone(),
        Shows::Picking => vec![Task::Harvest],
        _ => Vec::new(),
    }
}

/// What a handout says of its tasks, each caution once.
struct Spoken {
    along: Along,
    /// The tasks whose cautions the record asks for in a part of their own.
    asked: BTreeSet<Task>,
    /// What has still to be said of tasks that have begun.
    rest: BTreeMap<Task, Vec<Caution>>,
    rules: BTreeSet<String>,
    ask: Option<String>,
    unknown: BTreeSet<&'static str>,
}

impl Spoken {
    fn of(handout: &Handout, context: &Context<'_>) -> Self {
        let subject = Subject {
            woods: handout.woods.iter().map(AsRef::as_ref).collect(),
            mushrooms: handout.mushrooms.iter().map(AsRef::as_ref).collect(),
            ..Subject::default()
        };
        let sections = handout.record.sections.iter();
        let asked = sections.clone().filter(|section| section.shows == Shows::Cautions);
        Self {
            asked: asked.flat_map(|section| tasks(section, context)).collect(),
            along: Along::new(sections.flat_map(|section| tasks(section, context)), &subject, context),
            rest: BTreeMap::new(),
            rules: BTreeSet::new(),
            ask: None,
            unknown: BTreeSet::new(),
        }
    }

    /// The cautions that lead a task, where it begins.
    fn leads(&mut self, task: Task) -> Vec<Caution> {
        // The rule on moving logs stands at the top.
        let said = |caution: &Caution| caution.id != MOVING;
        let of = self.along.take(task);
        self.rest.entry(task).or_default().extend(of.others.into_iter().filter(said));
        self.rules.extend(of.rules.into_iter().map(|rule| rule.name.text));
        self.unknown.extend(of.unknown);
        self.ask = of.ask.or_else(|| self.ask.take());
        of.leads.into_iter().filter(said).collect()
    }

    /// The others, after its work; none where they have a part of their own.
    fn after(&mut self, task: Task) -> Vec<Caution> {
        if self.asked.contains(&task) { Vec::new() } else { self.others(task) }
    }

    fn others(&mut self, task: Task) -> Vec<Caution> {
        self.rest.remove(&task).unwrap_or_default()
    }

    /// The cautions of some tasks in a part of their own, those that lead first.
    fn all(&mut self, tasks: &[Task]) -> Vec<Caution> {
        let leads: Vec<Caution> = tasks.iter().flat_map(|task| self.leads(*task)).collect();
        let others: Vec<Caution> = tasks.iter().flat_map(|task| self.others(*task)).collect();
        leads.into_iter().chain(others).collect()
    }
}

fn part(section: &Section, handout: &Handout, spoken: &mut Spoken, context: &Context<'_>) -> Part {
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
        Shows::Steps => Part { stages: stages(section, spoken, context), ..empty },
        Shows::Cautions => Part { cautions: spoken.all(&tasks(section, context)), ..empty },
        Shows::Picking => Part {
            leads: spoken.leads(Task::Harvest),
            picking: each(mushrooms, |mushroom| Line::all(&mushroom.record.picking, context)),
            others: spoken.after(Task::Harvest),
            ..empty
        },
        Shows::LookAlikes => Part { alike: each(mushrooms, |mushroom| look_alike::all(mushroom, context)), ..empty },
        Shows::Stations => Part { stations: section.stations.clone(), ..empty },
        Shows::Kit => {
            let stations: Vec<&Station> = handout.record.sections.iter().flat_map(|part| &part.stations).collect();
            Part { gear: gear(&stations), tools: tools(&stations), ..empty }
        }
        Shows::Ask => Part { ask: section.ask.clone(), ..empty },
    }
}

/// The picture of a part: where it lies until it is put into the file, and what it shows.
fn picture(section: &Section, handout: &Handout) -> Option<(String, String)> {
    let shown = section.picture.as_ref()?;
    let picture = handout.pictures.get(&shown.file)?;
    Some((picture.shown.clone(), shown.shows.clone()))
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
        Some((mushroom.name().to_owned(), dates.len(), date::between(soonest, latest, context.units())))
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
    let table = Table::of("facts stack", &caption, all.iter().filter(same))
        .head("Thickness", |filling| filling.diameter.show(units))
        .number("Holes a log", Filling::whole_holes)
        .number("Holes, or plugs, in all", Filling::all_holes)
        .number("Or sawdust spawn", |filling| {
            or_dash(filling.all_spawn().map(|[least, most]| range(&least.listed(units), &most.listed(units))))
        });
    Some([table.done(), weights(handout, context)])
}

/// What a green log weighs, wood by wood, in the order of the thicknesses.
fn weights(handout: &Handout, context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let woods = handout.woods.iter().filter(|wood| wood.is_species()).filter_map(|wood| context.findings.weight(wood));
    let known = woods.filter(|of| of.ends.is_ok());
    let table = Table::of("facts stack", "What one green log weighs, from the driest to the wettest", known)
        .head("Wood", |of| capital(of.wood.name()));
    let thicknesses = logs::diameters(context.book, units);
    let columns = thicknesses.iter().enumerate().fold(table, |table, (place, diameter)| {
        let heading = format!("{} thick", diameter.show(units));
        table.number(&heading, |of| of.logs.get(place)?.span(false).ok().map(|ends| about_range(&ends, units)))
    });
    columns.done()
}

/// The steps of a method, of the asked tasks only.
fn asked_steps(section: &Section, context: &Context<'_>) -> Vec<method::Step> {
    let method = section.method.as_ref().and_then(|id| context.book.methods.get(id.as_str()));
    let Some(method) = method else { return Vec::new() };
    let mut asked = section.tasks.is_empty();
    let mut steps = method.record.steps.clone();
    // A step without a task, such as filling the holes, belongs to the one before it.
    steps.retain(|step| {
        asked = section.tasks.is_empty() || step.task.map_or(asked, |task| section.tasks.contains(&task));
        asked
    });
    steps
}

/// The steps of a method, task by task: what leads a task above them, the others after them.
fn stages(section: &Section, spoken: &mut Spoken, context: &Context<'_>) -> Vec<Stage> {
    let steps = asked_steps(section, context);
    let stage = |of: &[method::Step]| {
        let task = of.first().and_then(|step| step.task);
        Stage {
            leads: task.map(|task| spoken.leads(task)).unwrap_or_default(),
            steps: step::all(of, &mut Along::default(), context),
            others: task.map(|task| spoken.after(task)).unwrap_or_default(),
        }
    };
    steps.chunk_by(|_, next| next.task.is_none()).map(stage).collect()
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
