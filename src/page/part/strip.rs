//! The strip of the year for this farm, with its text twin.

use std::sync::Arc;

use serde::Serialize;

use super::woods::short_woods;
use super::{Figure, and, brief, date};
use crate::book::{Mushroom, Wood};
use crate::page::Context;
use crate::page::figure::strip as drawing;
use crate::page::figure::strip::{BROAD, Bar, Family, Measure, NARROW, State, Task as StripTask};
use crate::reckon::Topic;
use crate::reckon::days::Interval;
use crate::reckon::findings::season::taken;
use crate::reckon::findings::{Felling, Inoculation, WindowFinding};
use crate::reckon::formula::Place;
use crate::reckon::rest::Carried;
use crate::reckon::season::{Basis, Told};
use crate::record::window::WindowKind;

/// Letters that fit beside a row.
const LABEL: usize = 18;

/// The strip of the year with its text twin.
#[derive(Debug, Serialize)]
pub struct Strip {
    /// The drawing.
    pub svg: String,
    /// The same in words: task and dates.
    pub twin: Vec<(String, Figure)>,
}

/// A drawing and what it shows.
#[derive(Debug, Serialize)]
pub struct Captioned {
    /// The drawing.
    pub svg: String,
    /// What it shows.
    pub caption: String,
}

/// The strip of the year for this farm: felling, no-cut windows and inoculation.
pub fn of(context: &Context<'_>) -> Option<Strip> {
    drawn(&|_| true, &|_| true, BROAD, context)
}

/// The same for pocket pages.
pub fn pocket(context: &Context<'_>) -> Option<Strip> {
    drawn(&|_| true, &|_| true, NARROW, context)
}

/// The strip of the year for some mushrooms on some woods.
pub fn of_some(mushrooms: &[Arc<Mushroom>], woods: &[Arc<Wood>], context: &Context<'_>) -> Option<Strip> {
    let of_wood = |felling: &Felling| felling.woods.iter().any(|wood| woods.iter().any(|other| other.id == wood.id));
    let of_mushroom = |name: &str| mushrooms.iter().any(|mushroom| mushroom.name() == name);
    drawn(&of_wood, &of_mushroom, NARROW, context)
}

fn drawn(
    of_wood: &dyn Fn(&Felling) -> bool,
    of_mushroom: &dyn Fn(&str) -> bool,
    measure: Measure,
    context: &Context<'_>,
) -> Option<Strip> {
    let findings = context.findings;
    let shown = |felling: &&Felling| felling.gap.is_none() && of_wood(felling);
    let mut tasks = Vec::new();
    for felling in findings.fellings().iter().filter(shown) {
        let name = format!("Fell {}", short_woods(felling, context));
        let basis = felling.intervals.iter().map(|part| felling.basis(*part)).min();
        let short = felling.intervals.iter().filter_map(|part| brief::felling(felling, *part, context)).collect();
        tasks.push((task(&name, Family::Cut, State::Best, &felling.intervals, context), basis, short));
    }
    for (window, told) in taken(findings.fellings().iter().filter(shown)) {
        let mut barred = task(&short(&window_words(window)), Family::Cut, State::Never, &[told.interval()], context);
        barred.bars.iter_mut().for_each(|bar| bar.dates = format!("{} ({})", bar.dates, window.record.name));
        tasks.push((barred, Some(told.basis()), Vec::new()));
    }
    let groups = findings.groups();
    for group in &groups {
        let felling = &findings.fellings()[group.first.felling];
        if !of_wood(felling) || !group.mushrooms.iter().any(|mushroom| of_mushroom(mushroom.name())) {
            continue;
        }
        let intervals: Vec<Interval> =
            group.first.carried.iter().map(|carried| carried.inoculation.interval()).collect();
        let name = if groups.len() > 1 {
            format!("Inoculate {}", short_woods(felling, context))
        } else {
            "Inoculate".to_owned()
        };
        let basis = group.first.carried.iter().map(|carried| group.first.basis(felling, carried)).min();
        let short = group.first.carried.iter().filter_map(|of| brief::inoculation(group.first, felling, of, context));
        tasks.push((task(&name, Family::Inoculate, State::Best, &intervals, context), basis, short.collect()));
    }
    let mut soaks: Vec<Interval> = findings
        .rotas()
        .iter()
        .filter(|rota| of_mushroom(rota.strain.mushroom.name()))
        .filter_map(|rota| rota.season.as_ref().ok())
        .map(|season| Interval {
            from: season.dates.0.day_of_year().number(),
            to: season.dates.1.day_of_year().number(),
        })
        .collect();
    soaks.dedup();
    if !soaks.is_empty() {
        tasks.push((task("Soak", Family::Soak, State::Best, &soaks, context), None, Vec::new()));
    }
    let title = format!("The year of {}, from the month in which felling may begin", context.book.farm.record.name);
    let working = |task: &StripTask| match task.family {
        Family::Soak => Place::new(Topic::Yard, "rota"),
        Family::Inoculate => Place::new(Topic::Seasons, "inoculation"),
        Family::Cut | Family::Fruit | Family::Rest => Place::new(Topic::Seasons, "felling"),
    };
    let twin = |(task, basis, short): &(StripTask, Option<Basis>, Vec<String>)| {
        let words = date::with_basis(twin_words(task), basis.unwrap_or(Basis::Dated));
        let words = [words].iter().chain(short).cloned().collect::<Vec<_>>().join(". ");
        (task.name.clone(), Figure::worked(words, &working(task), context))
    };
    let twin: Vec<(String, Figure)> = tasks.iter().map(twin).collect();
    let tasks: Vec<StripTask> = tasks.into_iter().map(|(task, ..)| task).collect();
    let svg = drawing::svg("year", &title, findings.first_month(), &tasks, measure);
    (!tasks.is_empty()).then_some(Strip { svg, twin })
}

/// Every window that can be told, one below the other: those that count here solid or crossed, the others dashed.
pub fn windows(context: &Context<'_>) -> Option<String> {
    let mut told: Vec<(&WindowFinding, Told)> =
        context.findings.windows().iter().filter_map(|found| Some((found, found.told.clone().ok()?))).collect();
    told.sort_by_key(|(found, _)| (found.window.record.kind, found.window.id.clone()));
    let rows = told.iter().map(|(found, told)| {
        let kind = found.window.record.kind;
        let (family, here) = match kind {
            WindowKind::Cut => (Family::Cut, State::Best),
            WindowKind::NoCut => (Family::Cut, State::Never),
            WindowKind::Inoculate => (Family::Inoculate, State::Best),
            WindowKind::Fruit => (Family::Fruit, State::Best),
            WindowKind::Soak => (Family::Soak, State::Best),
            WindowKind::Other => (Family::Rest, State::Best),
        };
        let state = if found.counts(context.book) { here } else { State::Only };
        let mut row = task(&short(kind.words()), family, state, &[told.interval()], context);
        row.bars.iter_mut().for_each(|bar| bar.dates = format!("{} ({})", bar.dates, found.window.record.name));
        row
    });
    let rows: Vec<StripTask> = rows.collect();
    let title = "Every season window of the handbook and of this farm";
    (!rows.is_empty()).then(|| drawing::svg("every", title, context.findings.first_month(), &rows, BROAD))
}

/// The schools of rest for one mushroom, side by side: the farm's choice solid, each source hatched.
///
/// Where the farm names its inoculation season, the rows tell when to fell for it, which is where the schools part; else
/// they tell when to inoculate.
pub fn schools(found: &[&Inoculation], context: &Context<'_>) -> Option<Captioned> {
    let fellings = context.findings.fellings();
    let widest = found.iter().max_by_key(|found| fellings[found.felling].woods.len())?;
    let (family, verb) =
        if widest.windows.is_empty() { (Family::Inoculate, "inoculate") } else { (Family::Cut, "fell") };
    let stretch = |carried: &Carried| {
        if family == Family::Cut { carried.fits.interval() } else { carried.inoculation.interval() }
    };
    let stretches = |carried: &[Carried]| carried.iter().map(stretch).collect::<Vec<_>>();
    let own = task("Our choice", family, State::Best, &stretches(&widest.carried), context);
    let told = widest.lines.iter().filter(|line| !line.carried.is_empty());
    let sources = told.map(|line| {
        let name = short(context.book.short(&line.rest.source));
        task(&name, family, State::Possible, &stretches(&line.carried), context)
    });
    let rows: Vec<StripTask> = [own].into_iter().chain(sources).collect();
    let woods = short_woods(&fellings[widest.felling], context);
    let caption = format!("When to {verb} {woods} for {}, by each source's rest", widest.mushroom.name());
    let id = format!("rest-{}", widest.mushroom.id);
    (rows.len() > 1)
        .then(|| Captioned { svg: drawing::svg(&id, &caption, context.findings.first_month(), &rows, BROAD), caption })
}

/// A name cut to what stands beside a row.
pub fn short(name: &str) -> String {
    if name.chars().count() <= LABEL {
        return name.to_owned();
    }
    name.chars().take(LABEL - 1).collect::<String>().trim_end().to_owned() + "…"
}

fn twin_words(task: &StripTask) -> String {
    and(&task.bars.iter().map(|bar| bar.dates.clone()).collect::<Vec<_>>())
}

fn task(name: &str, family: Family, state: State, intervals: &[Interval], context: &Context<'_>) -> StripTask {
    let bars = intervals.iter().map(|interval| {
        let (from, to) = context.findings.season.dates(*interval);
        Bar {
            from: interval.from,
            days: interval.days(),
            state,
            dates: format!(
                "{} to {}",
                from.day_of_year().show(context.units()),
                to.day_of_year().show(context.units())
            ),
        }
    });
    StripTask { name: name.to_owned(), family, bars: bars.collect() }
}

/// What a no-cut window forbids, in a few words.
fn window_words(window: &crate::book::Window) -> String {
    let names =
        window.woods.iter().map(|wood| wood.record.names.get(1).map_or_else(|| wood.name().to_owned(), Clone::clone));
    match names.collect::<Vec<_>>() {
        names if names.is_empty() => "Do not cut".to_owned(),
        names => format!("Do not cut {}", and(&names)),
    }
}
