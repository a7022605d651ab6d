//! What logs weigh, in words: ranges of two figures that matter, and what they rest on.

use std::cmp::Ordering;

use crate::book::Wood;
use crate::page::Context;
use crate::page::part::range;
use crate::quantity::measure::rounded;
use crate::quantity::{Mass, Units, count};
use crate::reckon::findings::logs::stem_beside_its_parts;
use crate::reckon::findings::{Stale, WoodWeight};
use crate::reckon::weight::{ENOUGH, FRESH};

/// A weight with the two figures that matter.
pub fn about(mass: &Mass, units: Units) -> String {
    let number = units.pick(mass.pounds(), mass.base());
    let number = match number {
        number if number >= 99.5 => rounded((number / 10.0).round() * 10.0, 0),
        number if number >= 9.95 => rounded(number, 0),
        number => format!("{number:.1}"),
    };
    format!("{number} {}", units.pick("lb", "kg"))
}

/// The least and the most of a weight, with two figures each.
pub fn about_range([least, most]: &[Mass; 2], units: Units) -> String {
    range(&about(least, units), &about(most, units))
}

/// What the weights of a wood rest on.
pub fn weight_note(of: &WoodWeight) -> &'static str {
    match (of.is_own(), of.green.bark) {
        (true, _) => "by logs weighed here",
        (false, Some(_)) => "wood and bark",
        (false, None) => {
            "wood alone: no source gives its bark, so the log is heavier and its lift worse than this says"
        }
    }
}

/// What the farm's own logs say of a wood, where any was weighed and measured.
pub fn own_words(of: &WoodWeight, context: &Context<'_>) -> Option<String> {
    let stale = of.weighed.iter().filter(|log| log.density.is_err()).count();
    let stale = (stale > 0).then(|| {
        let logs = count(stale as f64, "log does", "logs do");
        format!(" {logs} not count, not known to have been weighed within {FRESH} days of felling.")
    });
    let Some(own) = of.own else { return stale.map(|words| words.trim_start().to_owned()) };
    let [least, mean, most] = own.densities;
    let beside = of.reckoned.result.as_ref().ok().map(|by| {
        let times = [least, mean, most].map(|density| rounded((density / *by).value, 2));
        format!(", {} times the handbook’s weight ({})", times[1], range(&times[0], &times[2]))
    });
    let logs = count(own.logs as f64, "fresh log", "fresh logs");
    let mean = context.units().density(mean);
    let use_of = if own.is_enough() {
        "They stand in place of the handbook’s figures.".to_owned()
    } else {
        format!("From {ENOUGH} on they stand in place of the handbook’s figures.")
    };
    Some(format!(
        "This farm weighed {logs}: {mean}{}. {use_of}{}",
        beside.unwrap_or_default(),
        stale.unwrap_or_default()
    ))
}

/// What a source’s whole stem is, where it is wetter or drier than heartwood and sapwood alike.
pub fn stem(wood: &Wood) -> Option<String> {
    let order = stem_beside_its_parts(&wood.record)?;
    let wetter = if order == Ordering::Greater { "wetter" } else { "drier" };
    let parts = wood.record.moisture.as_ref().and_then(|moisture| moisture.parts_source.as_ref());
    let whose = if parts.is_some() { ", which another source measured" } else { "" };
    Some(format!("its source’s figure for the whole stem, {wetter} than heartwood and sapwood alike{whose}"))
}

/// Why a log that was weighed does not count.
pub fn stale_words(stale: Stale) -> String {
    match stale {
        Stale::NoFelling => "does not count: no day of felling is written".to_owned(),
        Stale::Late(days) => format!("does not count: weighed {days} days after felling"),
    }
}
