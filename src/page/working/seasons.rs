//! The working behind the dates.

use std::sync::Arc;

use serde::Serialize;

use crate::page::Context;
use crate::page::part::cite::Cite;
use crate::page::part::rest::words as rest_words;
use crate::page::part::woods::wood_words;
use crate::page::part::worked::Cited;
use crate::page::part::{Anchor, date};
use crate::reckon::findings::{Felling, Inoculation, WindowFinding};
use crate::reckon::formula::Formula;
use crate::reckon::rest::REST;
use crate::reckon::season::{Told as Ends, USUAL, of_day};

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&USUAL, &REST];

/// The working behind the dates.
#[derive(Debug, Serialize)]
pub struct View {
    formulas: Vec<Cited>,
    events: Vec<Event>,
    fellings: Vec<FellingWork>,
    inoculations: Vec<InoculationWork>,
    windows: Vec<Told>,
}

/// A window, told or not.
#[derive(Debug, Serialize)]
struct Told {
    id: String,
    work: Option<WindowWork>,
    days: u16,
    gap: Option<String>,
    name: String,
    cite: Cite,
}

/// A source's rest, carried forward.
#[derive(Debug, Serialize)]
struct LineWork {
    cite: Cite,
    rest: String,
    fits: Vec<String>,
    inoculate: Vec<String>,
}

/// An event's usual day.
#[derive(Debug, Serialize)]
struct Event {
    name: &'static str,
    dates: Vec<String>,
    result: Option<String>,
}

/// How a felling was reckoned.
#[derive(Debug, Serialize)]
struct FellingWork {
    woods: String,
    cut: Vec<WindowWork>,
    taken: Vec<WindowWork>,
    result: Vec<String>,
    gap: Option<String>,
}

/// A window put in.
#[derive(Debug, Serialize)]
struct WindowWork {
    link: Anchor,
    written: String,
    dates: String,
    basis: &'static str,
}

/// How an inoculation was reckoned.
#[derive(Debug, Serialize)]
struct InoculationWork {
    id: Option<String>,
    mushroom: Anchor,
    woods: String,
    felling: Vec<String>,
    rest: String,
    chosen: bool,
    windows: Vec<WindowWork>,
    gaps: Vec<String>,
    result: Vec<String>,
    fits: Vec<String>,
    lines: Vec<LineWork>,
}

/// The view of the working behind the dates.
pub fn view(context: &Context<'_>) -> View {
    let findings = context.findings;
    let events = findings.known().observed.iter().map(|seen| Event {
        name: seen.event.words(),
        dates: seen.dates.iter().map(crate::quantity::date::Date::show).collect(),
        result: seen.usual().map(|usual| of_day(usual.median).show()),
    });
    let mut last = "";
    View {
        formulas: Cited::all(FORMULAS, context),
        events: events.collect(),
        fellings: findings.fellings().iter().map(|felling| self::felling(felling, context)).collect(),
        inoculations: findings
            .inoculations()
            .iter()
            .map(|found| {
                let first = last != found.mushroom.id;
                last = &found.mushroom.id;
                inoculation(found, first, context)
            })
            .collect(),
        windows: findings.windows().iter().map(|found| told(found, context)).collect(),
    }
}

fn told(found: &WindowFinding, context: &Context<'_>) -> Told {
    let ends = found.told.as_ref().ok().map(|ends| (Arc::clone(&found.window), *ends));
    Told {
        id: found.window.id.clone(),
        days: ends.as_ref().map_or(0, |(_, ends)| ends.interval().days()),
        work: ends.and_then(|ends| windows(&[ends], context).pop()),
        gap: found.told.as_ref().err().map(ToString::to_string),
        name: found.window.record.name.clone(),
        cite: Cite::by(&found.window.record, context),
    }
}

fn windows(windows: &[(Arc<crate::book::Window>, Ends)], context: &Context<'_>) -> Vec<WindowWork> {
    let window = |(window, told): &(Arc<crate::book::Window>, Ends)| WindowWork {
        link: Anchor::window(window, context),
        written: format!("{} to {}", window.record.from.show(context.units()), window.record.to.show(context.units())),
        dates: date::stretch(told.interval(), context.findings.season),
        basis: told.basis().word(),
    };
    windows.iter().map(window).collect()
}

fn felling(felling: &Felling, context: &Context<'_>) -> FellingWork {
    FellingWork {
        woods: wood_words(&felling.woods),
        cut: windows(&felling.cut, context),
        taken: windows(&felling.taken, context),
        result: felling.intervals.iter().map(|interval| date::stretch(*interval, context.findings.season)).collect(),
        gap: felling.gap.as_ref().map(ToString::to_string),
    }
}

fn inoculation(found: &Inoculation, first: bool, context: &Context<'_>) -> InoculationWork {
    let season = context.findings.season;
    let units = context.units();
    let felling = &context.findings.fellings()[found.felling];
    let mushroom = &found.mushroom;
    InoculationWork {
        id: first.then(|| format!("inoculate-{}", mushroom.id)),
        mushroom: Anchor::mushroom(mushroom, context),
        woods: wood_words(&felling.woods),
        felling: felling.intervals.iter().map(|interval| date::stretch(*interval, season)).collect(),
        rest: format!("{} to {}", found.rest.low.show(units), found.rest.high.show(units)),
        chosen: found.chosen,
        windows: windows(&found.windows, context),
        gaps: found.gaps.iter().map(|(window, gap)| format!("{}: {gap}", window.record.name)).collect(),
        result: found.carried.iter().map(|carried| date::stretch(carried.inoculation, season)).collect(),
        lines: found
            .lines
            .iter()
            .map(|line| LineWork {
                cite: Cite::by(&line.rest, context),
                rest: rest_words(&line.rest, context),
                fits: line.carried.iter().map(|carried| date::stretch(carried.fits, season)).collect(),
                inoculate: line.carried.iter().map(|carried| date::stretch(carried.inoculation, season)).collect(),
            })
            .collect(),
        fits: found.carried.iter().map(|carried| date::stretch(carried.fits, season)).collect(),
    }
}
