//! The label of a mushroom: six lines, each a figure and its spread, before anything is told at length.

use serde::Serialize;

use super::pair::Pair;
use super::table::{Cell, Part, cell};
use super::{Anchor, date, mass_range};
use crate::book::Mushroom;
use crate::page::Context;
use crate::quantity::{Duration, Mass, count};
use crate::reckon::days::Days;
use crate::reckon::findings::{FruitingFinding, Word, inoculation};
use crate::record::mushroom::Over;

/// Woods that the label names.
const WOODS: usize = 3;

/// A line of the label: what it is of, and what it says.
#[derive(Debug, Serialize)]
pub struct Line {
    head: &'static str,
    says: Cell,
}

/// The six lines; the pairs are those on woods of the farm, the best first.
pub fn of(mushroom: &Mushroom, here: &[Pair], context: &Context<'_>) -> [Line; 6] {
    let line = |head, says| Line { head, says };
    [
        line("Woods", woods(mushroom, here, context)),
        line("Rest", rest(mushroom, context)),
        line("First mushrooms", first(mushroom)),
        line("Fruits here", fruits(mushroom, context)),
        line("A log gives", gives(mushroom, context)),
        line("Soak", soak(mushroom)),
    ]
}

fn gap(words: &str) -> Cell {
    Part::Gap(words.to_owned()).into()
}

/// The best woods of the farm; where it has none, how many woods it thrives on.
fn woods(mushroom: &Mushroom, here: &[Pair], context: &Context<'_>) -> Cell {
    let findings = context.findings;
    let good = here.iter().filter(|pair| pair.rating.digit >= Some(2));
    let best: Vec<Anchor> = good.take(WOODS).map(|pair| pair.wood.clone()).collect();
    if !best.is_empty() {
        return super::table::list(", ", best);
    }
    let thrives =
        findings.pairings().iter().filter(|pair| pair.mushroom.id == mushroom.id && pair.word == Word::Thrives);
    match thrives.filter(|pair| pair.wood.is_species()).count() {
        0 => gap("no source puts a wood at the top"),
        number => cell![Anchor::here("woods", format!("thrives on {}", count(number, "wood", "woods")))],
    }
}

/// What the farm keeps to, and how far sources are apart.
fn rest(mushroom: &Mushroom, context: &Context<'_>) -> Cell {
    let rests = inoculation::rests(mushroom);
    let ends = rests.iter().flat_map(|rest| {
        let best = rest.best.as_ref();
        [rest.least.as_ref(), rest.most.as_ref(), best.map(|best| &best.low), best.map(|best| &best.high)]
    });
    let days: Vec<f64> = ends.flatten().map(Duration::days).collect();
    let grown = context.findings.mushrooms().iter().any(|grown| grown.id == mushroom.id);
    let ours = grown.then(|| {
        let ours = context.findings.rest();
        spread(&[ours.low.days(), ours.high.days()]).unwrap_or_default()
    });
    match (ours, spread(&days)) {
        (Some(ours), Some(said)) => cell![format!("{ours} here; "), Anchor::here("rest", format!("sources {said}"))],
        (Some(ours), None) => cell![format!("{ours} here; "), gap("no source says")],
        (None, Some(said)) => cell![Anchor::here("rest", format!("sources {said}"))],
        (None, None) => gap("no source says"),
    }
}

/// Days in the largest unit that keeps their least whole.
fn spread(days: &[f64]) -> Option<String> {
    let (least, most) = (days.iter().copied().reduce(f64::min)?, days.iter().copied().reduce(f64::max)?);
    let (unit, length) = match most {
        most if most >= 120.0 => ("months", 30.4375),
        most if most >= 21.0 => ("weeks", 7.0),
        _ => ("days", 1.0),
    };
    let number = |days: f64| format!("{:.0} {unit}", days / length);
    Some(super::range(&number(least), &number(most)))
}

fn first(mushroom: &Mushroom) -> Cell {
    let runs = mushroom.spawn_runs();
    let days: Vec<f64> = runs.iter().flat_map(|span| [span.range.low.days(), span.range.high.days()]).collect();
    match spread(&days) {
        Some(said) => {
            let by = count(runs.len(), "source", "sources");
            cell![Anchor::here("first", format!("{said} after inoculation")), Part::Small(format!(" {by}").into())]
        }
        None => gap("no source says"),
    }
}

/// The months of its seasons here; else those whose air suits it.
fn fruits(mushroom: &Mushroom, context: &Context<'_>) -> Cell {
    let found: Vec<&FruitingFinding> =
        context.findings.fruiting().iter().filter(|found| found.mushroom.id == mushroom.id).collect();
    let union = |days: &dyn Fn(&FruitingFinding) -> Option<Days>| {
        found.iter().filter_map(|found| days(found)).reduce(|one, other| one.or(&other)).filter(|days| days.count() > 0)
    };
    let words = |days: &Days| {
        let stretches =
            days.intervals(1).into_iter().map(|part| date::months(part, context.findings.season, context.units()));
        super::and(&stretches.collect::<Vec<_>>())
    };
    let season = union(&|found| found.season.clone());
    let air = union(&|found| Some(found.best.clone()));
    match (season, air) {
        (Some(days), _) => cell![Anchor::here("fruiting", words(&days))],
        (None, Some(days)) => cell![Anchor::here("fruiting", format!("{}, by the air", words(&days)))],
        (None, None) => cell![Anchor::here("fruiting", "not known here".to_owned())],
    }
}

fn gives(mushroom: &Mushroom, context: &Context<'_>) -> Cell {
    let of_life: Vec<_> = mushroom.log_yields().iter().filter(|line| line.over == Over::Life).collect();
    let ends = |end: fn(&crate::record::mushroom::LogYield) -> &Mass| of_life.iter().map(move |line| end(line).clone());
    let least = ends(|line| &line.a_log.low).min_by(|one, other| one.base().total_cmp(&other.base()));
    let most = ends(|line| &line.a_log.high).max_by(|one, other| one.base().total_cmp(&other.base()));
    match least.zip(most) {
        Some((least, most)) => {
            let by = count(of_life.len(), "source", "sources");
            let words = format!("{} over its life", mass_range(&[least, most], context.units()));
            cell![Anchor::here("gives", words), Part::Small(format!(" {by}").into())]
        }
        None => gap("no source gives a figure"),
    }
}

fn soak(mushroom: &Mushroom) -> Cell {
    match mushroom.record.answers_to_soaking {
        None => gap("no source says whether it helps"),
        Some(true) => "brings on a flush".into(),
        Some(false) => "does not help: it fruits in its season".into(),
    }
}
