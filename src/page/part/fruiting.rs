//! When the air suits a strain, drawn and in words.

use serde::Serialize;

use super::{Anchor, Figure, date};
use crate::page::Context;
use crate::page::figure::strip as drawing;
use crate::page::figure::strip::{BROAD, Bar, Family, State, Task};
use crate::reckon::Topic;
use crate::reckon::days::{Days, Interval};
use crate::reckon::findings::FruitingFinding;
use crate::reckon::findings::fruiting::BandKind;
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

/// When the air suits one strain.
#[derive(Debug, Serialize)]
pub struct Air {
    link: Anchor,
    kind: &'static str,
    rain: bool,
    rows: Vec<(&'static str, Figure)>,
    gap: Option<String>,
}

impl Air {
    /// When the air suits a strain, seen from a page.
    pub fn of(found: &FruitingFinding, context: &Context<'_>) -> Self {
        Self {
            link: anchor(found, context),
            kind: kind_words(found.kind),
            rain: found.rain_decides(),
            rows: rows(found, context),
            gap: found.weeks.as_ref().err().map(ToString::to_string),
        }
    }
}

/// What kind of bands count, in words.
pub const fn kind_words(kind: BandKind) -> &'static str {
    match kind {
        BandKind::Own => "measured on this farm",
        BandKind::Outdoors => "published for outdoors",
        BandKind::Indoors => "from growing rooms: a hint outdoors",
        BandKind::None => "no temperature is published",
    }
}

/// The stretches of a strain, each with how firmly it is meant.
fn stretches(found: &FruitingFinding, context: &Context<'_>) -> Vec<(State, Interval)> {
    let begins = crate::quantity::DayOfYear::first_of(context.findings.first_month()).number();
    let parts = |days: &Days, state: State| {
        let long = days.intervals(begins).into_iter().filter(|stretch| stretch.days() >= SHORT);
        long.map(move |stretch| (state, stretch)).collect::<Vec<_>>()
    };
    let mut all = match found.kind {
        BandKind::Indoors => parts(&found.best, State::Only),
        BandKind::Own | BandKind::Outdoors | BandKind::None => {
            let mut all = parts(&found.best, State::Best);
            all.extend(parts(&found.possible.minus(&found.best), State::Possible));
            all
        }
    };
    let after = |day: u16| (i32::from(day) - i32::from(begins)).rem_euclid(365);
    all.sort_by_key(|(_, stretch)| after(stretch.from));
    all
}

/// How firmly a stretch is meant, in words.
const fn state_words(state: State) -> &'static str {
    match state {
        State::Best => "the air suits best",
        State::Possible => "possible",
        State::Only => "only if figures from growing rooms hold outdoors",
        State::Never => "never",
    }
}

/// The stretches of a strain in words, the same state together.
pub fn rows(found: &FruitingFinding, context: &Context<'_>) -> Vec<(&'static str, Figure)> {
    let all = stretches(found, context);
    let season = context.findings.season;
    let working = || Place::new(Topic::Fruiting, found.id().to_owned());
    [State::Best, State::Possible, State::Only]
        .into_iter()
        .filter_map(|state| {
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
            (!dates.is_empty()).then(|| (state_words(state), Figure::worked(dates.join("; "), &working(), context)))
        })
        .collect()
}

/// A row of a strip for each of some strains; `None` where none has a stretch.
pub fn strip<'a>(
    id: &str,
    title: &str,
    found: impl Iterator<Item = &'a FruitingFinding>,
    context: &Context<'_>,
) -> Option<String> {
    let row = |found: &FruitingFinding| {
        let bars = stretches(found, context).into_iter().map(|(state, stretch)| {
            let (from, to) = context.findings.season.dates(stretch);
            let firm = state != State::Possible;
            Bar {
                from: stretch.from,
                days: stretch.days(),
                state,
                dates: if firm { date::short(from, to, context.units()) } else { String::new() },
            }
        });
        Task { name: short_name(found), family: Family::Fruit, bars: bars.collect() }
    };
    let rows: Vec<Task> = found.map(row).filter(|row| !row.bars.is_empty()).collect();
    (!rows.is_empty()).then(|| drawing::svg(id, title, context.findings.first_month(), &rows, BROAD))
}

/// The name of a strain without its mushroom's and without the word line, cut to what stands beside a row.
fn short_name(found: &FruitingFinding) -> String {
    let name = found.name();
    let short = name.split_once(", ").map_or(name, |(_, strain)| strain);
    let short = short.strip_suffix(found.mushroom.name()).map_or(short, str::trim_end);
    let short = short.strip_suffix(" line").unwrap_or(short);
    super::strip::short(&super::capital(if found.strain.is_some() { short } else { found.mushroom.name() }))
}
