//! When it fruits, in three layers: what sources say of this region and of others, when the air suits, what this farm picked.

use std::sync::Arc;

use serde::Serialize;

use super::cite::Line;
use super::strip::Drawn;
use super::{Anchor, Figure, and, date};
use crate::book::Mushroom;
use crate::page::figure::strip::{Bar, Family, State, Task};
use crate::page::{Context, Page};
use crate::quantity::DayOfYear;
use crate::quantity::date::month_name;
use crate::reckon::Topic;
use crate::reckon::days::{Days, Interval};
use crate::reckon::findings::fruiting::{BandKind, any_strain};
use crate::reckon::findings::outdoors::{Of, PickedMonth, SeasonFinding};
use crate::reckon::findings::{FruitingFinding, OutdoorFinding};
use crate::reckon::formula::Place;

/// Stretches of fewer days are left to the table of weeks.
const SHORT: u16 = 4;

/// A link to the strain, or to the mushroom where no strain of it is recorded.
pub fn anchor(found: &FruitingFinding, context: &Context<'_>) -> Anchor {
    match &found.strain {
        Some(strain) => Anchor::strain(strain, context),
        None => Anchor {
            text: format!("{}, any strain", super::capital(found.mushroom.name())),
            ..Anchor::mushroom(&found.mushroom, context)
        },
    }
}

/// When a mushroom fruits, or one of its strains.
#[derive(Debug, Serialize)]
pub struct Fruits {
    /// The mushroom.
    mushroom: Anchor,
    /// Where the farm lies, where it has said so.
    place: Option<String>,
    /// What sources say of the seasons of this place.
    here: Vec<Line>,
    /// Why nothing is said of this place.
    nowhere: Option<String>,
    /// What they say of other places, the nearest first.
    elsewhere: Vec<Line>,
    /// The drawing, where there is something to draw.
    strip: Option<Drawn>,
    /// When the air suits each strain; where the farm does not grow the mushroom, only why that is not known.
    airs: Vec<Air>,
    /// How often this farm picked it in each month.
    picked: Option<String>,
    harvests: Anchor,
    /// Whether this farm grows it.
    grown: bool,
}

impl Fruits {
    /// When a mushroom fruits, with all its strains, seen from a page.
    pub fn of(mushroom: &Arc<Mushroom>, context: &Context<'_>) -> Self {
        let of = |found: &&FruitingFinding| found.mushroom.id == mushroom.id;
        let found: Vec<&FruitingFinding> = context.findings.fruiting().iter().filter(of).collect();
        let fruits = Self::of_some(mushroom, None, &found, context);
        if fruits.grown {
            return fruits;
        }
        let any = any_strain(context.findings, mushroom);
        Self { airs: any.weeks.is_err().then(|| Air::of(&any, context)).into_iter().collect(), ..fruits }
    }

    /// When one strain fruits.
    pub fn of_strain(found: &FruitingFinding, context: &Context<'_>) -> Self {
        Self::of_some(&found.mushroom, found.strain.as_ref().map(|strain| strain.id.as_str()), &[found], context)
    }

    fn of_some(
        mushroom: &Arc<Mushroom>,
        strain: Option<&str>,
        found: &[&FruitingFinding],
        context: &Context<'_>,
    ) -> Self {
        let outdoors = context.findings.outdoors_of(&mushroom.id);
        let lines = |seasons: &[SeasonFinding]| -> Vec<Line> {
            let speak = |season: &&SeasonFinding| strain.is_none() || season.is_of(strain);
            seasons.iter().filter(speak).map(|season| line(season, context)).collect()
        };
        let here = outdoors.map(|found| lines(&found.here)).unwrap_or_default();
        let elsewhere = outdoors.map(|found| lines(&found.elsewhere)).unwrap_or_default();
        let place = context.book.here.name();
        let named = found.first().filter(|_| strain.is_some()).map_or(mushroom.name(), |found| found.name());
        let title = format!("When {named} fruits here");
        Self {
            mushroom: Anchor::mushroom(mushroom, context),
            nowhere: here.is_empty().then(|| nowhere(place.as_deref(), elsewhere.is_empty())),
            strip: strip(
                &format!("fruit-{}", strain.unwrap_or(&mushroom.id)),
                &title,
                found,
                outdoors,
                strain,
                context,
            ),
            airs: found.iter().map(|found| Air::of(found, context)).collect(),
            picked: outdoors.and_then(|found| picked(found, strain, context)),
            harvests: Anchor::page(&Page::Harvests, context),
            grown: !found.is_empty(),
            place,
            here,
            elsewhere,
        }
    }
}

fn nowhere(place: Option<&str>, anywhere: bool) -> String {
    match (place, anywhere) {
        (_, true) => "None of our sources gives a season outdoors.".to_owned(),
        (Some(place), _) => format!("None of our sources gives a season for {place}."),
        (None, _) => "The farm has not said where it lies (where, under place, in farm.yaml), so no season is its own."
            .to_owned(),
    }
}

/// A season as a source gives it: of which place and of what, when, and what season of the year that is on the other half of
/// the globe.
fn line(found: &SeasonFinding, context: &Context<'_>) -> Line {
    let season = &found.season;
    let places: Vec<String> = season.regions.iter().map(|region| context.book.here.name_of(region.as_str())).collect();
    let of = match &found.of {
        Of::Strain(strain) => format!("; {}", strain.record.name),
        Of::Group(group) => format!("; {} in general", group.name()),
        Of::Mushroom => String::new(),
    };
    let grown = if season.planted { "planted" } else { "wild" };
    let there = found.season_there().map(|there| format!(", {there} there")).unwrap_or_default();
    let head = format!("{}, {grown}{of}", super::capital(&and(&places)));
    Line::season(head, format!("{}{there}", season.words()), season, context)
}

/// How often this farm picked in each month, in words.
fn picked(found: &OutdoorFinding, strain: Option<&str>, context: &Context<'_>) -> Option<String> {
    let months = found.months_picked(strain, context.findings.first_month());
    let words = months.iter().map(|month| {
        let (days, years) = (month.days, month.years);
        let counted = |count: usize, one: &str| format!("{count} {one}{}", if count == 1 { "" } else { "s" });
        format!("{}: {} in {}", month_name(month.month), counted(days, "day"), counted(years, "year"))
    });
    let words: Vec<String> = words.collect();
    (!words.is_empty()).then(|| words.join("; "))
}

/// When the air suits one strain.
#[derive(Debug, Serialize)]
struct Air {
    link: Anchor,
    kind: &'static str,
    rain: bool,
    /// Whether only what lies within the season of the region is told.
    within: bool,
    rows: Vec<(&'static str, Figure)>,
    gap: Option<String>,
}

impl Air {
    /// When the air suits a strain, seen from a page.
    fn of(found: &FruitingFinding, context: &Context<'_>) -> Self {
        Self {
            link: anchor(found, context),
            kind: kind_words(found.kind),
            rain: found.rain_decides(),
            within: found.season.is_some(),
            rows: rows(found, context),
            gap: found.weeks.as_ref().err().map(ToString::to_string),
        }
    }
}

/// What kind of bands count, in words.
pub const fn kind_words(kind: BandKind) -> &'static str {
    match kind {
        BandKind::Own => "by temperatures measured on this farm",
        BandKind::Outdoors => "by temperatures published for outdoors",
        BandKind::Indoors => "growing rooms alone",
        BandKind::None => "no temperature is published",
    }
}

/// The stretches whose air suits a strain within its seasons here, each with how firmly it is meant.
fn stretches(found: &FruitingFinding, context: &Context<'_>) -> Vec<(State, Interval)> {
    let begins = begins(context);
    let parts = |days: &Days, state: State| {
        let long = found.in_season(days).intervals(begins).into_iter().filter(|stretch| stretch.days() >= SHORT);
        long.map(move |stretch| (state, stretch)).collect::<Vec<_>>()
    };
    let mut all = parts(&found.best, State::Possible);
    all.extend(parts(&found.possible.minus(&found.best), State::Only));
    let after = |day: u16| (i32::from(day) - i32::from(begins)).rem_euclid(365);
    all.sort_by_key(|(_, stretch)| after(stretch.from));
    all
}

/// The day of the year with which a strip begins.
fn begins(context: &Context<'_>) -> u16 {
    DayOfYear::first_of(context.findings.first_month()).number()
}

/// The stretches of a strain in words, the same state together.
pub fn rows(found: &FruitingFinding, context: &Context<'_>) -> Vec<(&'static str, Figure)> {
    let all = stretches(found, context);
    let season = context.findings.season;
    let working = || Place::new(Topic::Fruiting, found.id().to_owned());
    [(State::Possible, "the air suits"), (State::Only, "it may suit")]
        .into_iter()
        .filter_map(|(state, words)| {
            let of_state = all.iter().filter(|(other, _)| *other == state);
            let dates: Vec<String> = of_state
                .map(|(_, stretch)| {
                    let (from, to) = season.dates(*stretch);
                    format!(
                        "{} to {}",
                        from.day_of_year().show(context.units()),
                        to.day_of_year().show(context.units())
                    )
                })
                .collect();
            (!dates.is_empty()).then(|| (words, Figure::worked(dates.join("; "), &working(), context)))
        })
        .collect()
}

/// A row for each of some strains, its seasons here or else its air, and one for what was picked; `None` where there is
/// nothing to draw.
fn strip(
    id: &str,
    title: &str,
    found: &[&FruitingFinding],
    outdoors: Option<&OutdoorFinding>,
    strain: Option<&str>,
    context: &Context<'_>,
) -> Option<Drawn> {
    let row = |found: &&FruitingFinding| {
        let bars = match &found.season {
            Some(season) => in_season(season, context),
            None => in_air(found, context),
        };
        Task { name: short_name(found), family: Family::Fruit, aside: String::new(), bars }
    };
    let picked = outdoors.map(|found| in_months(found, strain, context)).unwrap_or_default();
    let picked = Task { name: "Picked here".to_owned(), family: Family::Fruit, aside: String::new(), bars: picked };
    let rows = found.iter().map(row).chain([picked]).filter(|row| !row.bars.is_empty());
    let rows: Vec<Task> = rows.collect();
    (!rows.is_empty()).then(|| Drawn::of(id, title, &rows, context))
}

fn in_season(season: &Days, context: &Context<'_>) -> Vec<Bar> {
    let bar = |stretch: Interval| Bar {
        from: stretch.from,
        days: stretch.days(),
        state: State::Best,
        ends: None,
        dates: date::months(stretch, context.findings.season, context.units()),
    };
    season.intervals(begins(context)).into_iter().map(bar).collect()
}

fn in_air(found: &FruitingFinding, context: &Context<'_>) -> Vec<Bar> {
    let bars = stretches(found, context).into_iter().map(|(state, stretch)| {
        let (from, to) = context.findings.season.dates(stretch);
        let dates = if state == State::Only { String::new() } else { date::short(from, to, context.units()) };
        Bar { from: stretch.from, days: stretch.days(), state, ends: None, dates }
    });
    bars.collect()
}

/// The months in which was picked, each with how many days.
fn in_months(found: &OutdoorFinding, strain: Option<&str>, context: &Context<'_>) -> Vec<Bar> {
    let bar = |month: PickedMonth| {
        let days = DayOfYear::days_of(month.month);
        Bar {
            from: *days.start(),
            days: days.count() as u16,
            state: State::Best,
            ends: None,
            dates: format!("{}×", month.days),
        }
    };
    found.months_picked(strain, context.findings.first_month()).into_iter().map(bar).collect()
}

/// The name of a strain without its mushroom's and without the word line, cut to what stands beside a row.
fn short_name(found: &FruitingFinding) -> String {
    let name = found.name();
    let short = name.split_once(", ").map_or(name, |(_, strain)| strain);
    let short = short.strip_suffix(found.mushroom.name()).map_or(short, str::trim_end);
    let short = short.strip_suffix(" line").unwrap_or(short);
    super::strip::short(&super::capital(if found.strain.is_some() { short } else { found.mushroom.name() }))
}
