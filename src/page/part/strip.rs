//! The strip of the year for this farm, with its text twin.

use serde::Serialize;

use super::{Figure, and, deadline::grouped, woods::short_woods};
use crate::{
    page::{
        Context, Page,
        figure::strip::{self as drawing, Bar, Family, State, Task as StripTask},
    },
    reckon::{days::Interval, season::of_day},
};

/// The strip of the year with its text twin.
#[derive(Debug, Serialize)]
pub struct Strip {
    /// The drawing.
    pub svg: String,
    /// The same in words: task and dates.
    pub twin: Vec<(String, Figure)>,
}

/// The strip of the year for this farm: felling, no-cut windows and inoculation.
#[must_use]
pub fn of(context: &Context<'_>) -> Option<Strip> {
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
