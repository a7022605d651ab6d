//! The year: when to fell, when not to cut, when to inoculate, with the schools of rest side by side.

use std::sync::Arc;

use serde::Serialize;

use super::part::cite::Cite;
use super::part::deadline::Deadline;
use super::part::fruiting::Fruits;
use super::part::month::Month;
use super::part::rest::Rest;
use super::part::strip::{Captioned, Drawn, Strip};
use super::part::woods::short_woods;
use super::part::{Anchor, Figure, air, brief, date, deadline, holding, month, rest, strip};
use super::{Context, Page};
use crate::book::Writer;
use crate::quantity::Event;
use crate::quantity::date::month_name;
use crate::reckon::findings::{Felling, Inoculation, WindowFinding};
use crate::reckon::formula::Place;
use crate::reckon::season::{Basis, of_day};
use crate::reckon::{Gap, Topic};

/// A felling season and its source, as a farm writes them where no model of the handbook holds; each begins with the name of
/// its file.
const EXAMPLE: [&str; 2] = [
    "# seasons/our-felling.yaml
name: Our felling season
kind: cut
from: '01-10'  # put your own first day here
to: '02-20'    # and your own last day
says: The weeks in which growers near us fell for logs, as they told us.
source: our-notes
",
    "# sources.yaml
our-notes: {short: Our notes, authors: Our farm, title: What we saw and were told, kind: this-farm}
",
];

/// The year.
#[derive(Debug, Serialize)]
pub struct View {
    strip: Option<Strip>,
    deadlines: Vec<Deadline>,
    months: Vec<Month>,
    calendar: String,
    remarks: Vec<String>,
    fellings: Vec<FellingView>,
    schools: Vec<Schools>,
    rest: String,
    chosen: bool,
    observed: Vec<Seen>,
    /// An example of seasons of one's own, where none can be told.
    example: Option<[&'static str; 2]>,
    windows: Vec<WindowView>,
    every: Option<Drawn>,
    working: String,
    record: String,
    /// Where the air was measured, and its monthly means as the farm wrote them.
    station: Option<String>,
    means: Vec<(&'static str, String)>,
    fruiting: Vec<Fruits>,
    air: Option<&'static str>,
    assumed: Option<String>,
    working_air: String,
    working_fruiting: String,
}

/// When trees of some woods may come down.
#[derive(Debug, Serialize)]
struct FellingView {
    woods: Vec<Anchor>,
    when: Vec<Figure>,
    short: Vec<String>,
    gap: Option<String>,
    cut: Vec<Anchor>,
    taken: Vec<Anchor>,
    basis: String,
}

/// The schools of rest for one mushroom.
#[derive(Debug, Serialize)]
struct Schools {
    mushroom: Anchor,
    own: Vec<String>,
    short: Vec<String>,
    working: String,
    strip: Option<Captioned>,
    rows: Vec<Rest>,
    gaps: Vec<String>,
}

/// An event that the farm has observed.
#[derive(Debug, Serialize)]
struct Seen {
    event: &'static str,
    /// The date of this season.
    now: Option<String>,
    /// Those of others.
    dates: Vec<String>,
    median: Option<String>,
    years: usize,
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
    basis: Option<String>,
    short: Option<String>,
    written: String,
    gap: Option<String>,
    place: Option<String>,
    woods: Vec<Anchor>,
    mushrooms: Vec<Anchor>,
    says: String,
    counts: bool,
    own: bool,
    cite: Cite,
}

/// The view of the year.
pub fn view(context: &Context<'_>) -> View {
    let findings = context.findings;
    let farm = &context.book.farm.record;
    let rest = findings.inoculations().first().map(|found| (&found.rest, found.chosen));
    View {
        strip: strip::of(context),
        deadlines: deadline::all(context),
        months: month::all(context),
        calendar: format!("{}calendar.ics", context.route.root()),
        remarks: deadline::remarks(context),
        fellings: findings.fellings().iter().map(|felling| felling_view(felling, context)).collect(),
        schools: schools(context),
        rest: rest.map_or_else(String::new, |(rest, _)| {
            format!("{} to {}", rest.low.show(context.units()), rest.high.show(context.units()))
        }),
        chosen: rest.is_some_and(|(_, chosen)| chosen),
        observed: observed(context),
        windows: findings.windows().iter().map(|found| window_view(found, context)).collect(),
        example: (findings.fellings().iter())
            .any(|felling| felling.gap.as_ref().is_some_and(Gap::has_no_dormancy))
            .then_some(EXAMPLE),
        every: strip::windows(context),
        fruiting: findings.mushrooms().iter().map(|mushroom| Fruits::of(mushroom, context)).collect(),
        air: findings.known().air.is_none().then_some(
            "The air of the farm is not recorded: write the twelve monthly means into farm.yaml under climate.",
        ),
        assumed: findings.known().air.as_ref().filter(|air| air.assumed).map(|_| air::deviation(context)),
        working_air: context.route.to(&Page::Working(Topic::Climate)),
        working_fruiting: context.route.to(&Page::Working(Topic::Fruiting)),
        working: context.route.to(&Page::Working(Topic::Seasons)),
        record: context.route.at(&Page::Index, "record"),
        station: farm.climate.as_ref().and_then(|climate| climate.station.clone()),
        means: (1..=12)
            .zip(farm.climate.iter().flat_map(|climate| &climate.monthly_means))
            .map(|(month, mean)| (month_name(month), mean.show(context.units())))
            .collect(),
    }
}

fn felling_view(felling: &Felling, context: &Context<'_>) -> FellingView {
    let season = context.findings.season;
    let working = || Place::new(Topic::Seasons, "felling");
    let windows = |windows: &[(Arc<crate::book::Window>, crate::reckon::season::Told)]| {
        windows
            .iter()
            .map(|(window, told)| Anchor {
                text: format!("{} ({})", window.record.name, date::stretch(told.interval(), season, context.units())),
                ..Anchor::window(window, context)
            })
            .collect()
    };
    FellingView {
        woods: felling.woods.iter().map(|wood| Anchor::wood(wood, context)).collect(),
        when: felling
            .intervals
            .iter()
            .map(|interval| Figure::worked(date::stretch(*interval, season, context.units()), &working(), context))
            .collect(),
        short: felling.intervals.iter().filter_map(|part| brief::felling(felling, *part, context)).collect(),
        gap: felling.gap.as_ref().map(ToString::to_string),
        cut: windows(&felling.cut),
        taken: windows(&felling.taken),
        basis: date::basis_words(
            felling.intervals.iter().map(|part| felling.basis(*part)).min().unwrap_or(Basis::Dated),
        ),
    }
}

fn schools(context: &Context<'_>) -> Vec<Schools> {
    let findings = context.findings;
    findings
        .mushrooms()
        .iter()
        .filter_map(|grown| {
            let found: Vec<&Inoculation> =
                findings.inoculations().iter().filter(|found| found.mushroom.id == grown.id).collect();
            let first = found.first()?;
            let own = found.iter().flat_map(|found| {
                let felling = &findings.fellings()[found.felling];
                let woods = short_woods(&felling.woods, context);
                found.carried.iter().map(move |carried| {
                    let dates = date::stretch(carried.inoculation, findings.season, context.units());
                    format!("{woods}: {}", date::with_basis(dates, found.basis(felling, carried)))
                })
            });
            let short = found.iter().flat_map(|found| {
                let felling = &findings.fellings()[found.felling];
                let woods = short_woods(&felling.woods, context);
                let short = found.carried.iter().filter_map(|of| brief::inoculation(found, felling, of, context));
                short.map(move |short| format!("{woods}: {short}"))
            });
            Some(Schools {
                short: short.collect(),
                mushroom: Anchor::mushroom(grown, context),
                own: own.collect(),
                working: context.route.at(&Page::Working(Topic::Seasons), &format!("inoculate-{}", grown.id)),
                strip: strip::schools(&found, context),
                rows: rest::all(grown, context),
                gaps: first.gaps.iter().map(|(window, gap)| format!("{}: {gap}", window.record.name)).collect(),
            })
        })
        .collect()
}

fn observed(context: &Context<'_>) -> Vec<Seen> {
    let units = context.units();
    context
        .findings
        .known()
        .observed
        .iter()
        .map(|seen| {
            let usual = seen.usual();
            Seen {
                event: match seen.event {
                    Event::LeafColour => "Leaves turned, 30 %",
                    Event::BudSwell => "Buds swollen",
                },
                now: seen.now.map(|date| date.show(units)),
                dates: seen.others.iter().map(|date| date.show(units)).collect(),
                years: usual.map_or(0, |usual| usual.years),
                median: usual.map(|usual| of_day(usual.median).show(units)),
                spread: usual.map(|usual| {
                    format!("{} to {}", of_day(usual.earliest).show(units), of_day(usual.latest).show(units))
                }),
            }
        })
        .collect()
}

fn window_view(found: &WindowFinding, context: &Context<'_>) -> WindowView {
    let window = &found.window;
    let record = &window.record;
    let told = found.told.as_ref().ok();
    WindowView {
        id: window.id.clone(),
        name: record.name.clone(),
        kind: record.kind.words(),
        when: found.dates(context.findings.season).map(|(from, to)| date::between(from, to, context.units())),
        days: told.map(|told| told.interval().days()),
        basis: told.map(|told| date::basis_words(told.basis())),
        short: brief::window(found, context),
        written: format!("{} to {}", record.from.show(context.units()), record.to.show(context.units())),
        gap: found.told.as_ref().err().map(ToString::to_string),
        place: holding::standing(&record.holds, record.mark, context),
        woods: window.woods.iter().map(|wood| Anchor::wood(wood, context)).collect(),
        mushrooms: window.mushrooms.iter().map(|mushroom| Anchor::mushroom(mushroom, context)).collect(),
        says: record.says.clone(),
        counts: found.counts(context.book),
        own: window.origin.writer != Writer::Handbook,
        cite: Cite::by(record, context),
    }
}
