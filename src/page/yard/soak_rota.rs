//! Which logs go into the tank each week.

use std::sync::Arc;

use serde::Serialize;

use crate::book::{Batch, Book};
use crate::page::leaf::packed;
use crate::page::part::caution::{Cautions, grown};
use crate::page::part::cite::Cite;
use crate::page::part::table::{Cell, Part, Table, cell, list, or_gap};
use crate::page::part::{Anchor, Figure, date, gate, lift, mass_range};
use crate::page::{Context, Page};
use crate::quantity::{Date, Units, count};
use crate::reckon::findings::RotaFinding;
use crate::reckon::findings::rota::FlushLine;
use crate::reckon::findings::tank::{FullWeek, TankDay, full_weeks, tank_days};
use crate::reckon::formula::Place;
use crate::reckon::rota::{loads, picked_by};
use crate::reckon::{Findings, Topic};
use crate::record::Kind;
use crate::record::caution::Task;

/// The most lines of a telephone that the days at the tank fill on a page, and those of a day without its batches.
const LINES: usize = 31;
const DAY: usize = 2;
/// The letters of such a line, and those round the name of a batch.
const LETTERS: usize = 36;
const LETTERS_ROUND: usize = 6;
/// The most batches that a line names one by one.
const NAMED: usize = 12;

/// Which logs go into the tank each week.
#[derive(Debug, Serialize)]
pub struct View {
    soaks: bool,
    days: Option<Table>,
    parts: Vec<Anchor>,
    rotas: Vec<Rota>,
    tanks: Vec<String>,
    overfull: Vec<String>,
    hours: Option<String>,
    every: Option<Figure>,
    gate: Vec<&'static str>,
    lifts: Option<Table>,
    lifting: String,
    cautions: Cautions,
    method: String,
    unsuited: Cell,
    retiring: String,
    working: String,
    calendar: String,
}

/// The rota of one strain.
#[derive(Debug, Serialize)]
struct Rota {
    strain: Anchor,
    tank: Option<String>,
    gap: Option<String>,
    season: Option<Figure>,
    windows: Vec<Anchor>,
    batches: Vec<(Anchor, u32)>,
    of: String,
    young: Vec<(Anchor, String)>,
    old: Cell,
    logs: u32,
    groups: u32,
    most: u32,
    soaks: Figure,
    expected: Cell,
    left: Option<Figure>,
    this_year: Option<Figure>,
    spent: bool,
    remarks: Vec<String>,
}

/// The view of the rota.
pub fn view(context: &Context<'_>) -> View {
    let (book, findings) = (context.book, context.findings);
    let soak = book.farm.record.soak.as_ref();
    let every = findings.rotas().first().map(|rota| rota.every);
    View {
        soaks: !findings.rotas().is_empty() || soak.is_some(),
        days: days(0, context),
        parts: links(0, context),
        rotas: findings.rotas().iter().map(|found| rota(found, context)).collect(),
        tanks: tanks(context),
        overfull: full_weeks(findings.rotas()).iter().map(|week| overfull(week, context)).collect(),
        hours: soak.and_then(|soak| soak.hours.as_ref()).map(|hours| hours.show(context.units())),
        every: every.map(|(weeks, chosen)| {
            let whose = if chosen { "as this farm has chosen" } else { "the nine weeks of Kentucky FOR-85" };
            let weeks = count(weeks, "week", "weeks");
            Figure::worked(format!("{weeks} from soak to soak, {whose}"), &Place::new(Topic::Yard, "rota"), context)
        }),
        gate: gate::of(gate::SOAKING, context),
        lifts: lift::limits(&lift::of_tank(true, context), context),
        lifting: context.route.at(&Page::Bucking, "lifting"),
        cautions: Cautions::of(Task::Soaking, &grown(context), context),
        method: context.route.record(Kind::Method, "soaking"),
        unsuited: unsuited(context),
        retiring: context.route.to(&Page::Retiring),
        working: context.route.at(&Page::Working(Topic::Yard), "rota"),
        calendar: format!("{}calendar.ics", context.route.root()),
    }
}

/// The parts beyond the first page, whose days a telephone no longer holds.
pub fn parts(_: &Book, findings: &Findings) -> Vec<usize> {
    (1..in_parts(&tank_days(findings.rotas())).len()).collect()
}

/// The days of each part; a day stands whole, however many batches it names.
fn in_parts<'a, 'b>(days: &'a [TankDay<'b>]) -> Vec<Vec<&'a TankDay<'b>>> {
    let letters = |day: &TankDay<'_>| -> usize {
        let named = day.turns.iter().flat_map(|(_, turn)| &turn.logs);
        named.map(|(batch, _)| batch.name.chars().count() + LETTERS_ROUND).sum()
    };
    packed(days.iter().collect(), |day| letters(day).div_ceil(LETTERS) + DAY, LINES)
}

/// The view of a part: its days at the tank, and the cautions of the work.
pub fn view_of(part: usize, context: &Context<'_>) -> View {
    View {
        days: days(part, context),
        rotas: Vec::new(),
        overfull: Vec::new(),
        parts: links(part, context),
        ..view(context)
    }
}

/// The other parts, each by its days.
fn links(part: usize, context: &Context<'_>) -> Vec<Anchor> {
    let days = tank_days(context.findings.rotas());
    let link = |(at, days): (usize, &Vec<&TankDay<'_>>)| {
        let page = if at == 0 { Page::SoakRota } else { Page::SoakRotaPart(at) };
        Some(Anchor::to(context.route.to(&page), stretch(days, context)?, context))
    };
    in_parts(&days).iter().enumerate().filter(|(at, _)| *at != part).filter_map(link).collect()
}

/// From the first to the last of some days at the tank.
fn stretch(days: &[&TankDay<'_>], context: &Context<'_>) -> Option<String> {
    Some(date::between(days.first()?.date, days.last()?.date, context.units()))
}

/// The days at the tank of a part, the strains of one day together.
fn days(part: usize, context: &Context<'_>) -> Option<Table> {
    let days = tank_days(context.findings.rotas());
    let parted = context.findings.rotas().iter().any(|found| found.yard.is_some());
    let here = in_parts(&days).into_iter().nth(part).unwrap_or_default();
    let caption = format!("{}: what goes into the tank, and until when to pick", stretch(&here, context)?);
    let short = |date: Date| date.day_of_year().show(context.units());
    Table::of("facts tally walk two turns", &caption, here)
        .id("days")
        .column("Done", |_| Part::Tick)
        .head("Day", |day| short(day.date))
        .number("Logs", |day| in_all(day))
        .column("Pick until about", |day| short(picked_by(day.date)))
        .column("Of", |day| {
            let turns = day.turns.iter().flat_map(|(_, turn)| {
                let of = move |(batch, logs): &(Arc<Batch>, u32)| {
                    cell![format!("{logs} of "), Anchor::batch(batch, context)]
                };
                turn.logs.iter().map(of)
            });
            let tank = parted.then(|| format!("in the tank of {}: ", day.yard.unwrap_or("the farm")));
            cell![tank, list("; ", turns)]
        })
        .done()
}

/// The logs of a day, with the loads where they are more than one.
fn in_all(day: &TankDay<'_>) -> String {
    let loads = day.tank().map_or(1, |tank| loads(day.logs(), tank.holds));
    if loads > 1 { format!("{} in {loads} loads", day.logs()) } else { day.logs().to_string() }
}

/// The tanks of the farm and of its yards, and what they hold.
fn tanks(context: &Context<'_>) -> Vec<String> {
    let farm = &context.book.farm.record;
    let holds = |whose: &str, logs: u32| format!("{whose} holds {}", count(logs, "log", "logs"));
    let own = farm.yards.iter().filter_map(|yard| Some(holds(&format!("that of {}", yard.name), yard.tank?)));
    let shared = farm.soak.as_ref().and_then(|soak| soak.tank).map(|logs| holds("The tank", logs));
    shared.into_iter().chain(own).collect()
}

/// That the logs of one week are more than the tank takes, and what would take them.
fn overfull(week: &FullWeek, context: &Context<'_>) -> String {
    let FullWeek { yard, tank, from, logs, needed } = week;
    let whose = yard.as_ref().map_or_else(String::new, |yard| format!(" of {yard}"));
    let twice = needed.loads_a_day.map(|loads| format!("{loads} loads a day, or "));
    format!(
        "In the week of {} {} have their turn, and the tank{whose} takes {} a week: {} of {}, each {} long. What would do: \
         {}a tank for {} logs, or {} tanks like this one.",
        from.show(context.units()),
        count(*logs, "log", "logs"),
        tank.logs_a_week(),
        count(tank.loads_a_week(), "load", "loads"),
        tank.holds,
        count(tank.hours.round() as u32, "hour", "hours"),
        twice.unwrap_or_default(),
        needed.holds,
        needed.tanks
    )
}

fn rota(found: &RotaFinding, context: &Context<'_>) -> Rota {
    let units = context.units();
    let season = found.season.as_ref().ok();
    let place = Place::new(Topic::Yard, format!("rota-{}", found.id()));
    Rota {
        strain: Anchor::strain(&found.strain, context),
        tank: found.yard.clone(),
        gap: found.season.as_ref().err().map(ToString::to_string),
        season: season.map(|season| {
            let stretches: Vec<String> =
                season.stretches.iter().map(|(from, to)| date::between(*from, *to, context.units())).collect();
            Figure::worked(crate::page::part::and(&stretches), &place, context)
        }),
        windows: season
            .map(|season| season.windows.iter().map(|window| Anchor::window(window, context)).collect())
            .unwrap_or_default(),
        of: count(found.batches.len(), "batch", "batches"),
        batches: (found.batches.iter())
            .filter(|_| found.batches.len() <= NAMED)
            .map(|(batch, logs)| (Anchor::batch(batch, context), *logs))
            .collect(),
        young: found
            .young
            .iter()
            .map(|(batch, from)| (Anchor::batch(batch, context), from.show(context.units())))
            .collect(),
        old: few(found.spent.iter(), context),
        logs: found.logs(),
        groups: found.every.0,
        most: found.most(),
        soaks: Figure::worked(found.soaks().to_string(), &place, context),
        expected: or_gap(
            list("", found.expected.iter().map(|line| expected(line, &place, context))),
            "none of our sources gives a flush in figures",
        ),
        left: found.left.as_ref().map(|left| Figure::worked(mass_range(left, units), &place, context)),
        this_year: found
            .this_year
            .as_ref()
            .map(|year| Figure::worked(mass_range(year, units), &Place::new(Topic::Yard, "life"), context)),
        spent: found.left.as_ref().is_some_and(|[_, left]| left.grams() < 1.0),
        remarks: remarks(found, units),
    }
}

/// What the soaks should give, by one source.
fn expected(line: &FlushLine, place: &Place, context: &Context<'_>) -> Cell {
    let units = context.units();
    let all = Figure::worked(mass_range(&line.capped, units), place, context);
    let capped = "no more than the year and the published lives still hold; the flushes alone, ";
    let a_flush = mass_range(&line.of.a_log.clone().into(), units);
    let cite = Part::Small(Cite::by(&line.of, context).into());
    let note = line.of.note.clone().map(|note| cell![" ", Part::Note(Part::Line(note).into())]);
    cell![all, ", ", line.is_capped().then_some(capped), format!("at {a_flush} a log and flush "), cite, note]
}

/// What a reader of the rota must know of its ends.
fn remarks(found: &RotaFinding, units: Units) -> Vec<String> {
    let Ok(season) = &found.season else { return Vec::new() };
    let (every, weeks, logs) = (found.every.0, season.weeks(), found.logs());
    let mut remarks = Vec::new();
    if weeks < every && logs > 0 {
        remarks.push(format!(
            "The season has {} and the round {every}, so some groups are never soaked.",
            count(weeks, "week", "weeks")
        ));
    }
    if logs > 0 && logs < every {
        remarks.push(format!("There are fewer logs than the {every} weeks of a round, so some weeks stay empty."));
    }
    if let Some(last) = found.turns.last().filter(|turn| turn.picked_by() > season.dates.1) {
        remarks
            .push(format!("The last soak is picked after the season, until about {}.", last.picked_by().show(units)));
    }
    remarks
}

/// Batches that take no part, since their strains do not answer to soaking.
fn unsuited(context: &Context<'_>) -> Cell {
    let batches = context.findings.batches().iter().map(|found| &found.batch);
    few(batches.filter(|batch| batch.strain.answers_to_soaking() != Some(true)), context)
}

/// Batches by their names, or their number where they are many.
fn few<'a>(batches: impl Iterator<Item = &'a Arc<Batch>>, context: &Context<'_>) -> Cell {
    let batches: Vec<_> = batches.collect();
    if batches.len() > NAMED {
        return count(batches.len(), "batch", "batches").into();
    }
    list(", ", batches.into_iter().map(|batch| Anchor::batch(batch, context)))
}
