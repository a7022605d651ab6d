//! The strip of the year for this farm, with its text twin.

use std::sync::Arc;

use serde::Serialize;

use super::woods::short_woods;
use super::{Figure, and, brief, date};
use crate::book::{Mushroom, Wood};
use crate::page::Context;
use crate::page::figure::strip as drawing;
use crate::page::figure::strip::{BROAD, Bar, Family, State, THUMB, Task as StripTask};
use crate::quantity::Date;
use crate::reckon::Topic;
use crate::reckon::days::{Days, Interval};
use crate::reckon::findings::inoculation::Group;
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
    pub drawn: Drawn,
    /// The same in words: task and dates.
    pub twin: Vec<(String, Figure)>,
    /// How stretches of less than a week came about.
    pub short: Vec<String>,
    /// Whether days are hatched on which felling is in season, and yet logs would not rest as long as they should.
    pub is_hatched: bool,
}

/// Rows of the year, drawn once for a thumb, and where there is room for it once more.
#[derive(Debug, Serialize)]
pub struct Drawn {
    broad: Option<String>,
    thumb: String,
}

impl Drawn {
    /// Draws rows for screens and paper of any breadth.
    fn both(id: &str, title: &str, rows: &[StripTask], context: &Context<'_>) -> Self {
        let broad = drawing::svg(&format!("{id}-broad"), title, context.findings.first_month(), rows, BROAD);
        Self { broad: Some(broad), ..Self::of(id, title, rows, context) }
    }

    /// Draws rows as small as a telephone, one of several drawings of a page.
    pub fn of(id: &str, title: &str, rows: &[StripTask], context: &Context<'_>) -> Self {
        Self { broad: None, thumb: drawing::svg(id, title, context.findings.first_month(), rows, THUMB) }
    }
}

/// A drawing and what it shows.
#[derive(Debug, Serialize)]
pub struct Captioned {
    /// The drawing.
    pub drawn: Drawn,
    /// What it shows.
    pub caption: String,
}

/// A row of the strip, what its dates rest on, and how the short of them came about.
struct Row {
    task: StripTask,
    basis: Basis,
    short: Vec<String>,
}

/// The strip of the year for this farm: felling, no-cut windows and inoculation.
pub fn of(context: &Context<'_>) -> Option<Strip> {
    drawn(&|_| true, &|_| true, Drawn::both, context)
}

/// The same for pocket pages.
pub fn pocket(context: &Context<'_>) -> Option<Strip> {
    drawn(&|_| true, &|_| true, Drawn::of, context)
}

/// The strip of the year for some mushrooms on some woods.
pub fn of_some(mushrooms: &[Arc<Mushroom>], woods: &[Arc<Wood>], context: &Context<'_>) -> Option<Strip> {
    let of_wood = |felling: &Felling| felling.woods.iter().any(|wood| woods.iter().any(|other| other.id == wood.id));
    let of_mushroom = |name: &str| mushrooms.iter().any(|mushroom| mushroom.name() == name);
    drawn(&of_wood, &of_mushroom, Drawn::of, context)
}

fn drawn(
    of_wood: &dyn Fn(&Felling) -> bool,
    of_mushroom: &dyn Fn(&str) -> bool,
    draw: impl Fn(&str, &str, &[StripTask], &Context<'_>) -> Drawn,
    context: &Context<'_>,
) -> Option<Strip> {
    let findings = context.findings;
    let shown = findings.fellings().iter().enumerate().filter(|(_, felling)| felling.gap.is_none() && of_wood(felling));
    let mut rows: Vec<Row> = shown.clone().map(|(index, felling)| fell(index, felling, context)).collect();
    let crossed = taken(shown.map(|(_, felling)| felling)).into_iter().map(|(window, told)| {
        let mut barred = task(&short(&window_words(window)), Family::Cut, State::Never, &[told.interval()], context);
        barred.bars.iter_mut().for_each(|bar| bar.dates = format!("{} ({})", bar.dates, window.record.name));
        Row { task: barred, basis: told.basis(), short: Vec::new() }
    });
    let never: Vec<Row> = crossed.collect();
    let groups = findings.groups();
    let of_group = |group: &&Group<'_>| {
        of_wood(&findings.fellings()[group.first.felling])
            && group.mushrooms.iter().any(|mushroom| of_mushroom(mushroom.name()))
    };
    rows.extend(groups.iter().filter(of_group).map(|group| inoculate(group, groups.len() > 1, context)));
    rows.extend(soak(of_mushroom, context));
    let title = format!("The year of {}, from the month in which felling may begin", context.book.farm.record.name);
    let twin = rows.iter().chain(&never).map(|row| twin(row, context)).collect();
    let short = rows.iter().flat_map(|row| row.short.clone()).collect();
    let tasks: Vec<StripTask> = rows.into_iter().map(|row| row.task).collect();
    let is_hatched = tasks.iter().flat_map(|task| &task.bars).any(|bar| bar.state == State::Possible);
    (!tasks.is_empty()).then(|| Strip { drawn: draw("year", &title, &tasks, context), twin, short, is_hatched })
}

/// The row of a felling: all its days hatched, those after which logs rest as long as they should solid, those that are
/// taken from it crossed out.
fn fell(index: usize, felling: &Felling, context: &Context<'_>) -> Row {
    let (findings, units) = (context.findings, context.units());
    let days = |of: &[Interval], state| task("", Family::Cut, state, of, context).bars;
    let rested: Vec<(Date, Date)> =
        felling.intervals.iter().filter_map(|part| findings.well_rested(index, *part)).collect();
    let whole: Vec<(Date, Date)> = felling.intervals.iter().map(|part| findings.season.dates(*part)).collect();
    let name = format!("Fell {}", short_woods(&felling.woods, context));
    let basis = felling.intervals.iter().map(|part| felling.basis(*part)).min().unwrap_or(Basis::Dated);
    let short = felling.intervals.iter().filter_map(|part| brief::felling(felling, *part, context)).collect();
    let forbidden = felling.taken.iter().map(|(_, told)| Days::of(told.interval()));
    let forbidden = forbidden.reduce(|one, other| one.or(&other)).map(|days| days.intervals(1)).unwrap_or_default();
    let unnamed = |bars: Vec<Bar>| bars.into_iter().map(|bar| Bar { dates: String::new(), ends: None, ..bar });
    let mut bars =
        days(&felling.intervals, if rested.is_empty() || rested == whole { State::Best } else { State::Possible });
    let mut aside = String::new();
    if !rested.is_empty() && rested != whole {
        let between =
            |(from, to): &(Date, Date)| Interval { from: from.day_of_year().number(), to: to.day_of_year().number() };
        let best: Vec<Interval> = rested.iter().map(between).collect();
        aside = format!(
            "best {}",
            and(&rested.iter().map(|(from, to)| date::short(*from, *to, units)).collect::<Vec<_>>())
        );
        let words = and(&days(&best, State::Best).iter().map(|bar| bar.dates.clone()).collect::<Vec<_>>());
        if let Some(last) = bars.last_mut() {
            last.dates = format!("{}, best {words}", last.dates);
        }
        bars.extend(unnamed(days(&best, State::Best)));
    }
    bars.extend(unnamed(days(&forbidden, State::Never)));
    Row { task: StripTask { name, family: Family::Cut, aside, bars }, basis, short }
}

fn inoculate(group: &Group<'_>, is_one_of_several: bool, context: &Context<'_>) -> Row {
    let felling = &context.findings.fellings()[group.first.felling];
    let carried = &group.first.carried;
    let intervals: Vec<Interval> = carried.iter().map(|carried| carried.inoculation.interval()).collect();
    let woods = if is_one_of_several { format!(" {}", short_woods(&felling.woods, context)) } else { String::new() };
    let short = carried.iter().filter_map(|of| brief::inoculation(group.first, felling, of, context)).collect();
    Row {
        task: task(&format!("Inoculate{woods}"), Family::Inoculate, State::Best, &intervals, context),
        basis: carried.iter().map(|of| group.first.basis(felling, of)).min().unwrap_or(Basis::Dated),
        short,
    }
}

fn soak(of_mushroom: &dyn Fn(&str) -> bool, context: &Context<'_>) -> Option<Row> {
    let rotas = context.findings.rotas().iter().filter(|rota| of_mushroom(rota.strain.mushroom.name()));
    let seasons = rotas.filter_map(|rota| rota.season.as_ref().ok());
    let mut soaks: Vec<Interval> = seasons
        .map(|season| Interval {
            from: season.dates.0.day_of_year().number(),
            to: season.dates.1.day_of_year().number(),
        })
        .collect();
    soaks.dedup();
    let row = task("Soak", Family::Soak, State::Best, &soaks, context);
    (!soaks.is_empty()).then_some(Row { task: row, basis: Basis::Dated, short: Vec::new() })
}

/// A row in words, leading to its working.
fn twin(row: &Row, context: &Context<'_>) -> (String, Figure) {
    let working = match row.task.family {
        Family::Soak => Place::new(Topic::Yard, "rota"),
        Family::Inoculate => Place::new(Topic::Seasons, "inoculation"),
        Family::Cut | Family::Fruit | Family::Rest => Place::new(Topic::Seasons, "felling"),
    };
    let words = date::with_basis(twin_words(&row.task), row.basis);
    let words = [words].iter().chain(&row.short).cloned().collect::<Vec<_>>().join(". ");
    (row.task.name.clone(), Figure::worked(words, &working, context))
}

/// Every window that can be told, one below the other: those that count here solid or crossed, the others dashed.
pub fn windows(context: &Context<'_>) -> Option<Drawn> {
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
    (!rows.is_empty()).then(|| Drawn::of("every", title, &rows, context))
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
    let woods = short_woods(&fellings[widest.felling].woods, context);
    let caption = format!("When to {verb} {woods} for {}, by each source's rest", widest.mushroom.name());
    let id = format!("rest-{}", widest.mushroom.id);
    (rows.len() > 1).then(|| Captioned { drawn: Drawn::of(&id, &caption, &rows, context), caption })
}

/// A name cut to what stands beside a row.
pub fn short(name: &str) -> String {
    if name.chars().count() <= LABEL {
        return name.to_owned();
    }
    name.chars().take(LABEL - 1).collect::<String>().trim_end().to_owned() + "…"
}

fn twin_words(task: &StripTask) -> String {
    let told = task.bars.iter().filter(|bar| !bar.dates.is_empty());
    and(&told.map(|bar| bar.dates.clone()).collect::<Vec<_>>())
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
            ends: Some([from, to].map(|date| date::short_day(date, context.units()))),
        }
    });
    StripTask { name: name.to_owned(), family, aside: String::new(), bars: bars.collect() }
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
