//! The working behind the dates.

use std::sync::Arc;

use crate::book::Window;
use crate::page::Context;
use crate::page::part::cite::Cite;
use crate::page::part::rest::words as rest_words;
use crate::page::part::woods::wood_words;
use crate::page::part::worked::{Block, Part};
use crate::page::part::{Anchor, date};
use crate::quantity::{Units, count};
use crate::reckon::days::Stretch;
use crate::reckon::findings::{Felling, Inoculation, WindowFinding};
use crate::reckon::formula::Formula;
use crate::reckon::rest::{Carried, REST};
use crate::reckon::season::{Observations, Told, USUAL, of_day};

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&USUAL, &REST];

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let findings = context.findings;
    let fellings = findings.fellings().iter().enumerate();
    let inoculations = findings.inoculations().chunk_by(|a, b| a.mushroom.id == b.mushroom.id);
    let inoculations = inoculations.flat_map(|of_one| of_one.iter().enumerate());
    vec![
        Part::new("formulas", "Formulas").by(FORMULAS, context),
        Part::new("events", "Events").blocks([findings
            .known()
            .observed
            .iter()
            .fold(Block::default(), |block, seen| event(block, seen, context.units()))
            .made_by(&[&USUAL])]),
        Part::new("felling", "Felling").blocks(fellings.map(|(place, found)| felling(place, found, context))),
        Part::new("inoculation", "Inoculation")
            .blocks(inoculations.map(|(place, found)| inoculation(place == 0, found, context))),
        Part::new("windows", "Every window")
            .says("The number of days counts both ends.")
            .blocks(findings.windows().iter().map(|found| told(found, context))),
    ]
}

/// The block with an event's usual day.
fn event(block: Block, seen: &Observations, units: Units) -> Block {
    let name = seen.event.said();
    let now = seen.now.map(|date| format!("{name}: {}, observed this season, which decides", date.show(units)));
    let usual = seen.usual().map(|usual| {
        let dates: Vec<String> = seen.others.iter().map(|date| date.show(units)).collect();
        format!("{name}: the middle of {} is {}, observed", dates.join("; "), of_day(usual.median).show(units))
    });
    let gap = (now.is_none() && usual.is_none()).then(|| format!("{name}: not observed here"));
    now.into_iter().chain(usual).fold(block, Block::line).gap(gap)
}

/// The block with a window put in.
fn window(block: Block, (window, told): &(Arc<Window>, Told), context: &Context<'_>) -> Block {
    let record = &window.record;
    let [from, to] = [&record.from, &record.to].map(|end| end.show(context.units()));
    let dates = date::stretch(told.interval(), context.findings.season, context.units());
    let days = count(told.interval().days(), "day", "days");
    let says = format!("{}: {from} to {to}, which is {dates}: {days}, {}", record.name, told.basis().words());
    let link = Cite { short: "the window".to_owned(), href: Anchor::window(window, context).href, mark: None };
    block.line(says).cites([link, Cite::by(record, context)])
}

fn told(found: &WindowFinding, context: &Context<'_>) -> Block {
    let (record, block) = (&found.window.record, Block::default().named(format!("window-{}", found.window.id)));
    match &found.told {
        Ok(told) => window(block, &(Arc::clone(&found.window), *told), context),
        Err(gap) => block.gap(Some(format!("{}: {gap}", record.name))).cites([Cite::by(record, context)]),
    }
}

/// Stretches of this season in words.
fn stretches<S: Into<Stretch>>(stretches: impl IntoIterator<Item = S>, context: &Context<'_>) -> String {
    let words = stretches.into_iter().map(|stretch| date::stretch(stretch, context.findings.season, context.units()));
    words.collect::<Vec<_>>().join("; ")
}

fn felling(place: usize, found: &Felling, context: &Context<'_>) -> Block {
    let id = format!("felling-{place}");
    let block = Block::of(Anchor::here(&id, wood_words(&found.woods))).named(id);
    let block = found.cut.iter().fold(block, |block, of| window(block, of, context));
    let block = if found.taken.is_empty() { block } else { block.line("taken away:") };
    let block = found.taken.iter().fold(block, |block, of| window(block, of, context)).made_by(&[&USUAL]);
    match &found.gap {
        None => block.line(format!("result: {}", stretches(found.intervals.iter().copied(), context))),
        gap => block.gap(gap.as_ref()),
    }
}

fn inoculation(first: bool, found: &Inoculation, context: &Context<'_>) -> Block {
    let felling = &context.findings.fellings()[found.felling];
    let felled = stretches(felling.intervals.iter().copied(), context);
    let [low, high] = [&found.rest.low, &found.rest.high].map(|rest| rest.show(context.units()));
    let whose =
        if found.chosen { "this farm’s choice" } else { "common practice, since the farm has chosen nothing" };
    let on = format!("{} on {}", found.mushroom.name(), wood_words(&felling.woods));
    let block = Block::of(Anchor { text: on, ..Anchor::mushroom(&found.mushroom, context) });
    let block = if first { block.named(format!("inoculate-{}", found.mushroom.id)) } else { block };
    let block = block.line(format!("felled {felled}; rest {low} to {high} ({whose})"));
    let block = found.windows.iter().fold(block, |block, of| window(block, of, context));
    let gaps = found.gaps.iter().map(|(window, gap)| format!("{}: {gap}", window.record.name));
    let block = gaps.fold(block, |block, gap| block.gap(Some(gap))).made_by(&[&REST]);
    let carried = |carried: &[Carried]| {
        let inoculate = stretches(carried.iter().map(|carried| carried.inoculation), context);
        let fits = stretches(carried.iter().map(|carried| carried.fits), context);
        format!("inoculate {inoculate}; trees that fit come down {fits}")
    };
    let block = match found.carried.as_slice() {
        [] => block.gap(Some("result: no day fits both the rest and the window")),
        found => block.line(format!("result: {}", carried(found))),
    };
    found.lines.iter().fold(block, |block, line| {
        let rest = rest_words(&line.rest, context);
        let says = match line.carried.as_slice() {
            _ if rest.is_empty() => "a source’s rest: no figure".to_owned(),
            [] => format!("a source’s rest, {rest}: no day fits"),
            found => format!("a source’s rest, {rest}, carried forward in the same way: {}", carried(found)),
        };
        block.line(says).cites([Cite::by(&line.rest, context)])
    })
}
