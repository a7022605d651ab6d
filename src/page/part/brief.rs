//! How a stretch of less than a week came about: what meets at its two ends.

use std::sync::Arc;

use crate::book::Window;
use crate::page::Context;
use crate::quantity::{Duration, SeasonEnd, count};
use crate::reckon::days::{Interval, Stretch, day};
use crate::reckon::findings::{Felling, Inoculation, WindowFinding};
use crate::reckon::rest::Carried;
use crate::reckon::season::{End, Told, of_day};

/// Days from which a stretch needs no words.
const WEEK: u16 = 7;

/// How a short stretch of felling came about.
pub fn felling(found: &Felling, stretch: Interval, context: &Context<'_>) -> Option<String> {
    said(stretch, &first_felled(found, stretch.from, context), &last_felled(found, stretch.to, context))
}

/// How a short stretch of inoculation came about.
pub fn inoculation(found: &Inoculation, felled: &Felling, carried: &Carried, context: &Context<'_>) -> Option<String> {
    let Carried { felling, inoculation, .. } = carried;
    let stretch = inoculation.interval();
    let days = |rest: &Duration| rest.days().round() as i32;
    let opens = if inoculation.first == days(&found.rest.low) {
        let first = first_felled(felled, felling.from, context);
        format!("the least rest, {}, after felling may begin with {first}", found.rest.low.show(context.units()))
    } else {
        start(&found.windows, stretch.from, context)
    };
    let closes = if inoculation.last == i32::from(felling.days()) - 1 + days(&found.rest.high) {
        let last = last_felled(felled, felling.to, context);
        format!("the most rest, {}, after felling stops at {last}", found.rest.high.show(context.units()))
    } else {
        end(&found.windows, stretch.to, context)
    };
    said(stretch, &opens, &closes)
}

/// How a short window came about whose ends are no dates of the year.
pub fn window(found: &WindowFinding, context: &Context<'_>) -> Option<String> {
    let (record, told) = (&found.window.record, found.told.as_ref().ok()?);
    let moves = |end: &SeasonEnd| !matches!(end, SeasonEnd::Day(_));
    let words = |written, end| when(written, end, context);
    let short = said(told.interval(), &words(&record.from, told.from), &words(&record.to, told.to));
    short.filter(|_| moves(&record.from) || moves(&record.to))
}

fn said(stretch: impl Into<Stretch>, opens: &str, closes: &str) -> Option<String> {
    let days = stretch.into().interval().days();
    (days < WEEK).then(|| format!("Only {}: from {opens} to {closes}.", count(days, "day", "days")))
}

/// What the first day of a felling stretch comes from: the end of a no-cut window, or the start of a felling window.
fn first_felled(found: &Felling, first: u16, context: &Context<'_>) -> String {
    let before = day(i32::from(first) - 1);
    let taken = found.taken.iter().find(|(_, told)| told.to.day == before);
    let forbidden = |(window, told): &(Arc<Window>, Told)| {
        format!("the end of the no-cut window {}", named(window, &window.record.to, told.to, context))
    };
    taken.map_or_else(|| start(&found.cut, first, context), forbidden)
}

/// What the last day of a felling stretch comes from: the start of a no-cut window, or the end of a felling window.
fn last_felled(found: &Felling, last: u16, context: &Context<'_>) -> String {
    let after = day(i32::from(last) + 1);
    let taken = found.taken.iter().find(|(_, told)| told.from.day == after);
    let forbidden = |(window, told): &(Arc<Window>, Told)| {
        format!("the start of the no-cut window {}", named(window, &window.record.from, told.from, context))
    };
    taken.map_or_else(|| end(&found.cut, last, context), forbidden)
}

/// The start of the window that starts on a day; else the day.
fn start(windows: &[(Arc<Window>, Told)], first: u16, context: &Context<'_>) -> String {
    let starts = windows.iter().find(|(_, told)| told.from.day == first);
    let words = |(window, told): &(Arc<Window>, Told)| {
        format!("the start of {}", named(window, &window.record.from, told.from, context))
    };
    starts.map_or_else(|| of_day(first).show(context.units()), words)
}

/// The end of the window that ends on a day; else the day.
fn end(windows: &[(Arc<Window>, Told)], last: u16, context: &Context<'_>) -> String {
    let ends = windows.iter().find(|(_, told)| told.to.day == last);
    let words = |(window, told): &(Arc<Window>, Told)| {
        format!("the end of {}", named(window, &window.record.to, told.to, context))
    };
    ends.map_or_else(|| of_day(last).show(context.units()), words)
}

/// A window with one of its ends.
fn named(window: &Window, written: &SeasonEnd, end: End, context: &Context<'_>) -> String {
    format!("“{}” ({})", window.record.name, when(written, end, context))
}

/// An end of a window by its day, and by what makes it where that is no date.
fn when(written: &SeasonEnd, end: End, context: &Context<'_>) -> String {
    let day = of_day(end.day).show(context.units());
    match written {
        SeasonEnd::Day(_) => day,
        other => format!("{}, {day}", other.show(context.units())),
    }
}
