//! The year: when to fell, when not to cut, when to inoculate, with the schools of rest side by side.

use std::sync::Arc;

use serde::Serialize;

use super::{
    Context, Page,
    figure::strip::{self as drawing, Bar, Family, State, Task as StripTask},
    mushroom,
    part::{
        Anchor, Figure, and,
        caution::{self, Caution},
        cite::Cite,
        date,
    },
};
use crate::{
    book::{Wood, Writer},
    quantity::Event,
    reckon::{
        days::Interval,
        findings::{Felling, Inoculation, WindowFinding, Word},
        season::{Basis, Side, of_day, usual},
    },
    record::{caution::Task, window::WindowKind, wood::Leaf},
};

/// The year.
#[derive(Debug, Serialize)]
pub struct View {
    strip: Option<Strip>,
    deadlines: Vec<Deadline>,
    remarks: Vec<String>,
    fellings: Vec<FellingView>,
    schools: Vec<Schools>,
    rest: String,
    chosen: bool,
    observed: Vec<Seen>,
    windows: Vec<WindowView>,
    cautions: Vec<Caution>,
    working: String,
    record: String,
    climate: Option<Climate>,
}

/// Monthly means of the air as the farm wrote them.
#[derive(Debug, Serialize)]
struct Climate {
    station: Option<String>,
    means: Vec<(&'static str, String)>,
}

/// The strip of the year with its text twin.
#[derive(Debug, Serialize)]
pub struct Strip {
    /// The drawing.
    pub svg: String,
    /// The same in words: task and dates.
    pub twin: Vec<(String, Figure)>,
}

/// By when a thing must be done for one mushroom on some woods.
#[derive(Debug, Serialize)]
pub struct Deadline {
    /// The woods.
    pub woods: String,
    /// The mushrooms that share the dates.
    pub mushrooms: String,
    /// The first day on which a tree may come down and not rest too long.
    pub fell_from: Figure,
    /// The last day on which a tree may come down and still rest long enough.
    pub down_by: Figure,
    /// The first day of inoculation.
    pub inoculate_from: Figure,
    /// The last day of inoculation.
    pub inoculated_by: Figure,
}

/// When trees of some woods may come down.
#[derive(Debug, Serialize)]
struct FellingView {
    woods: Vec<Anchor>,
    when: Vec<Figure>,
    gap: Option<String>,
    cut: Vec<Anchor>,
    taken: Vec<Anchor>,
    basis: &'static str,
}

/// The schools of rest for one mushroom.
#[derive(Debug, Serialize)]
struct Schools {
    mushroom: Anchor,
    own: Vec<String>,
    working: String,
    rows: Vec<mushroom::Rest>,
    gaps: Vec<String>,
}

/// An event that the farm has observed.
#[derive(Debug, Serialize)]
struct Seen {
    event: &'static str,
    dates: Vec<String>,
    median: Option<String>,
    spread: Option<String>,
}

/// A season window as pages show it.
#[derive(Debug, Serialize)]
struct WindowView {
    id: String,
    name: String,
    kind: &'static str,
    when: Option<String>,
    days: Option<u16>,
    basis: Option<&'static str>,
    written: String,
    gap: Option<String>,
    region: Option<String>,
    woods: Vec<Anchor>,
    mushrooms: Vec<Anchor>,
    says: String,
    counts: bool,
    own: bool,
    cite: Cite,
}

/// The view of the year.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let findings = context.findings;
    let farm = &context.book.farm.record;
    let rest = findings.inoculations.first().map(|found| (&found.rest, found.chosen));
    View {
        strip: strip(context),
        deadlines: deadlines(context),
        remarks: remarks(context),
        fellings: findings.fellings.iter().map(|felling| felling_view(felling, context)).collect(),
        schools: schools(context),
        rest: rest.map_or_else(String::new, |(rest, _)| {
            format!("{} to {}", rest.low.show(context.units()), rest.high.show(context.units()))
        }),
        chosen: rest.is_some_and(|(_, chosen)| chosen),
        observed: observed(context),
        windows: findings.windows.iter().map(|found| window_view(found, context)).collect(),
        cautions: caution::for_tasks(&[Task::Felling], caution::is_general, context),
        working: context.route.to(&Page::WorkingSeasons),
        record: context.route.at(&Page::Index, "record"),
        climate: farm.climate.as_ref().map(|climate| Climate {
            station: climate.station.clone(),
            means: (1..=12)
                .zip(&climate.monthly_means)
                .map(|(month, mean)| (crate::quantity::date::month_name(month), mean.show(context.units())))
                .collect(),
        }),
    }
}

/// Whether a wood is refused for every mushroom in the usual list: conifers.
#[must_use]
pub fn is_refused(wood: &Wood) -> bool {
    wood.record.leaf == Leaf::Needle
}

/// What a reader of the dates must know and the dates do not say.
#[must_use]
pub fn remarks(context: &Context<'_>) -> Vec<String> {
    let findings = context.findings;
    let mut remarks = Vec::new();
    let known = findings
        .windows
        .iter()
        .filter(|found| found.window.record.kind == WindowKind::NoCut && !found.window.woods.is_empty());
    for felling in &findings.fellings {
        let windows = known.clone().map(|found| &found.window);
        let about = |wood: &&Arc<Wood>| windows.clone().any(|window| window.speaks_of_wood(wood));
        let named = |wood: &&Arc<Wood>| {
            felling.taken.iter().any(|(window, _)| !window.woods.is_empty() && window.speaks_of_wood(wood))
        };
        let open: Vec<Arc<Wood>> = felling.woods.iter().filter(about).filter(|wood| !named(wood)).cloned().collect();
        if !open.is_empty() {
            remarks.push(format!(
                "No no-cut window is named for {}, though some regions have one: ask your forester, and name the window \
                 that holds here in farm.yaml under [no_cut]({}).",
                wood_words(&open),
                context.route.at(&Page::Seasons, "windows")
            ));
        }
    }
    if findings.inoculations.iter().any(|found| found.windows.is_empty()) {
        remarks.push("This farm names no inoculation season, so frost and weather are not counted.".to_owned());
    }
    remarks
}

/// Woods in words, for headings: all of them by name where they are few.
#[must_use]
pub fn wood_words(woods: &[Arc<Wood>]) -> String {
    let names: Vec<String> = woods.iter().map(|wood| wood.name().to_owned()).collect();
    and(&names)
}

/// The strip of the year for this farm: felling, no-cut windows and inoculation.
#[must_use]
pub fn strip(context: &Context<'_>) -> Option<Strip> {
    let findings = context.findings;
    let mut tasks = Vec::new();
    for felling in findings.fellings.iter().filter(|felling| felling.gap.is_none()) {
        tasks.push(task(
            &format!("Fell {}", short_woods(felling, context)),
            Family::Cut,
            State::Best,
            &felling.intervals,
            context,
        ));
    }
    let mut taken: Vec<_> = findings.fellings.iter().flat_map(|felling| &felling.taken).collect();
    taken.sort_by(|a, b| a.0.id.cmp(&b.0.id));
    taken.dedup_by(|a, b| a.0.id == b.0.id);
    for (window, told) in taken {
        let mut barred = task(&window_words(window), Family::Cut, State::Never, &[told.interval()], context);
        barred.bars.iter_mut().for_each(|bar| bar.dates = format!("{} ({})", bar.dates, window.record.name));
        tasks.push(barred);
    }
    for group in grouped(context) {
        let intervals: Vec<Interval> = group.first.carried.iter().map(|carried| carried.inoculation).collect();
        let name = if group.woods_matter {
            format!("Inoculate {}", short_woods(&findings.fellings[group.first.felling], context))
        } else {
            "Inoculate".to_owned()
        };
        tasks.push(task(&name, Family::Inoculate, State::Best, &intervals, context));
    }
    if tasks.is_empty() {
        return None;
    }
    let begins = findings.fellings.iter().find_map(|felling| felling.intervals.first());
    let dormant = if findings.season.south { 5 } else { 11 };
    let month = begins.map_or(dormant, |interval| of_day(interval.from).month());
    let title = format!("The year of {}, from the month in which felling may begin", context.book.farm.record.name);
    let anchor = |task: &StripTask| match task.family {
        Family::Inoculate => "inoculation",
        Family::Cut | Family::Fruit | Family::Rest | Family::Soak => "felling",
    };
    let working = |task: &StripTask| context.route.at(&Page::WorkingSeasons, anchor(task));
    let twin = tasks.iter().map(|task| (task.name.clone(), Figure::worked(twin_words(task), working(task)))).collect();
    Some(Strip { svg: drawing::svg("year", &title, month, &tasks), twin })
}

fn twin_words(task: &StripTask) -> String {
    let dates: Vec<String> = task.bars.iter().map(|bar| bar.dates.clone()).collect();
    and(&dates)
}

fn task(name: &str, family: Family, state: State, intervals: &[Interval], context: &Context<'_>) -> StripTask {
    let bars = intervals.iter().map(|interval| {
        let (from, to) = context.findings.season.dates(*interval);
        Bar {
            from: interval.from,
            days: interval.days(),
            state,
            dates: format!("{} to {}", from.day_of_year().show(), to.day_of_year().show()),
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

/// The woods of a felling in a few words.
#[must_use]
pub fn short_woods(felling: &Felling, context: &Context<'_>) -> String {
    let all = context.findings.woods.len();
    match felling.woods.as_slice() {
        woods if woods.len() == all => "all woods".to_owned(),
        [one] => one.name().to_owned(),
        woods if common_group(woods).is_some() => common_group(woods).unwrap_or_default(),
        _ => "other woods".to_owned(),
    }
}

/// The short name of a group to which all of some woods belong: "oaks".
fn common_group(woods: &[Arc<Wood>]) -> Option<String> {
    let (first, rest) = woods.split_first()?;
    let mut group = first.part_of.as_ref();
    while let Some(candidate) = group {
        if rest.iter().all(|wood| wood.line().any(|id| id == candidate.id)) {
            return candidate.record.names.get(1).cloned().or_else(|| Some(candidate.name().to_owned()));
        }
        group = candidate.part_of.as_ref();
    }
    None
}

/// Inoculations of one felling that fall on the same days.
struct Group<'a> {
    first: &'a Inoculation,
    mushrooms: Vec<&'a str>,
    woods_matter: bool,
}

fn grouped<'a>(context: &'a Context<'_>) -> Vec<Group<'a>> {
    let mut groups: Vec<Group<'a>> = Vec::new();
    let inoculations = &context.findings.inoculations;
    let spoken_of = |found: &&Inoculation| {
        let woods = &context.findings.fellings[found.felling].woods;
        let word = |wood: &Arc<Wood>| context.findings.pairing(&found.mushroom.id, &wood.id).map(|pair| pair.word);
        woods.iter().filter_map(word).any(|word| !matches!(word, Word::Untried | Word::Fails))
    };
    for found in inoculations.iter().filter(|found| !found.carried.is_empty()).filter(spoken_of) {
        match groups
            .iter_mut()
            .find(|group| group.first.felling == found.felling && group.first.carried == found.carried)
        {
            Some(group) => group.mushrooms.push(found.mushroom.name()),
            None => groups.push(Group { first: found, mushrooms: vec![found.mushroom.name()], woods_matter: false }),
        }
    }
    let many = groups.len() > 1;
    for group in &mut groups {
        group.woods_matter = many;
    }
    groups.sort_by_key(|group| group.first.felling);
    groups
}

/// By when trees must be down and logs inoculated, mushrooms with the same dates together.
#[must_use]
pub fn deadlines(context: &Context<'_>) -> Vec<Deadline> {
    let findings = context.findings;
    let season = findings.season;
    let mut rows = Vec::new();
    for group in grouped(context) {
        let felling = &findings.fellings[group.first.felling];
        for carried in &group.first.carried {
            let working = || context.route.at(&Page::WorkingSeasons, &format!("inoculate-{}", group.first.mushroom.id));
            let (first, down) = season.dates(carried.fits);
            let (from, by) = season.dates(carried.inoculation);
            rows.push(Deadline {
                woods: wood_words(&felling.woods),
                mushrooms: and(&group.mushrooms.iter().map(|&name| name.to_owned()).collect::<Vec<_>>()),
                fell_from: Figure::worked(first.show(), working()),
                down_by: Figure::worked(down.show(), working()),
                inoculate_from: Figure::worked(from.show(), working()),
                inoculated_by: Figure::worked(by.show(), working()),
            });
        }
    }
    rows
}

fn felling_view(felling: &Felling, context: &Context<'_>) -> FellingView {
    let season = context.findings.season;
    let working = || context.route.at(&Page::WorkingSeasons, "felling");
    let windows = |windows: &[(Arc<crate::book::Window>, crate::reckon::season::Told)]| {
        windows
            .iter()
            .map(|(window, told)| Anchor {
                href: format!("#{}", window.id),
                text: format!("{} ({})", window.record.name, date::stretch(told.interval(), season)),
            })
            .collect()
    };
    FellingView {
        woods: felling.woods.iter().map(|wood| Anchor::wood(wood, context)).collect(),
        when: felling
            .intervals
            .iter()
            .map(|interval| Figure::worked(date::stretch(*interval, season), working()))
            .collect(),
        gap: felling.gap.as_ref().map(ToString::to_string),
        cut: windows(&felling.cut),
        taken: windows(&felling.taken),
        basis: felling.cut.iter().map(|(_, told)| told.basis()).min().unwrap_or(Basis::Dated).word(),
    }
}

fn schools(context: &Context<'_>) -> Vec<Schools> {
    let findings = context.findings;
    findings
        .mushrooms
        .iter()
        .filter_map(|grown| {
            let found: Vec<&Inoculation> =
                findings.inoculations.iter().filter(|found| found.mushroom.id == grown.id).collect();
            let first = found.first()?;
            let own = found.iter().flat_map(|found| {
                let woods = short_woods(&findings.fellings[found.felling], context);
                found
                    .carried
                    .iter()
                    .map(move |carried| format!("{woods}: {}", date::stretch(carried.inoculation, findings.season)))
            });
            Some(Schools {
                mushroom: Anchor::mushroom(grown, context),
                own: own.collect(),
                working: context.route.at(&Page::WorkingSeasons, &format!("inoculate-{}", grown.id)),
                rows: mushroom::rests(grown, context),
                gaps: first.gaps.iter().map(|(window, gap)| format!("{}: {gap}", window.record.name)).collect(),
            })
        })
        .collect()
}

/// The end of the dormant window that an event makes.
#[must_use]
pub const fn side(event: Event) -> Side {
    match event {
        Event::LeafColour => Side::Opening,
        Event::BudSwell => Side::Closing,
    }
}

fn observed(context: &Context<'_>) -> Vec<Seen> {
    crate::reckon::findings::season::observations(context.book)
        .iter()
        .map(|seen| {
            let usual = usual(&seen.dates, side(seen.event));
            Seen {
                event: match seen.event {
                    Event::LeafColour => "Leaf colour at 30 %",
                    Event::BudSwell => "Bud swell",
                },
                dates: seen.dates.iter().map(super::super::quantity::date::Date::show).collect(),
                median: usual.map(|usual| of_day(usual.median).show()),
                spread: usual
                    .map(|usual| format!("{} to {}", of_day(usual.earliest).show(), of_day(usual.latest).show())),
            }
        })
        .collect()
}

fn window_view(found: &WindowFinding, context: &Context<'_>) -> WindowView {
    let window = &found.window;
    let record = &window.record;
    let told = found.told.as_ref().ok();
    let farm = &context.book.farm;
    let counts = match record.kind {
        WindowKind::NoCut => {
            record.region.is_none()
                || window.origin.writer != Writer::Handbook
                || farm.no_cut.iter().any(|named| named.id == window.id)
        }
        _ => record.region.is_none() || window.origin.writer != Writer::Handbook,
    };
    WindowView {
        id: window.id.clone(),
        name: record.name.clone(),
        kind: record.kind.words(),
        when: told.map(|told| date::stretch(told.interval(), context.findings.season)),
        days: told.map(|told| told.interval().days()),
        basis: told.map(|told| told.basis().word()),
        written: format!("{} to {}", end_words(&record.from), end_words(&record.to)),
        gap: found.told.as_ref().err().map(ToString::to_string),
        region: record.region.clone(),
        woods: window.woods.iter().map(|wood| Anchor::wood(wood, context)).collect(),
        mushrooms: window.mushrooms.iter().map(|mushroom| Anchor::mushroom(mushroom, context)).collect(),
        says: record.says.clone(),
        counts,
        own: window.origin.writer != Writer::Handbook,
        cite: Cite::of(&record.source, record.mark, context),
    }
}

/// An end of a window in words.
#[must_use]
pub fn end_words(end: &crate::quantity::SeasonEnd) -> String {
    match end {
        crate::quantity::SeasonEnd::Day(day) => day.show(),
        other => other.written(),
    }
}
