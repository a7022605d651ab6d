//! What a day of the season asks for, and what comes after it. Every line says from which day to which it holds, so that a
//! script can choose those of a day; without one they stand in their order.

use serde::Serialize;

use super::date::{short, short_day};
use super::purchase::money;
use super::woods::short_woods;
use super::work::page;
use super::{Anchor, and};
use crate::page::{Context, Page};
use crate::quantity::date::month_name;
use crate::quantity::{Date, Units, count};
use crate::reckon::findings::agenda::{What, Work, WorkKind};
use crate::reckon::findings::lying::Lying;
use crate::reckon::findings::title::ware;
use crate::reckon::findings::wetness::{self, Reading};
use crate::reckon::findings::{PurchaseFinding, purchase};

/// Days before the last day of an order from which it is spoken of, and from which it comes before all else.
const ORDER_AHEAD: i32 = 56;
const ORDER_SOON: i32 = 14;
/// The rank of an order that has time.
const AHEAD: u8 = 4;
/// Days of a stretch from which its last day stands in the list of what comes.
const LONG: i32 = 14;
/// Days for which first mushrooms are looked for before the line gives way to others.
const LOOK: i32 = 28;
/// Days for which a weighing that found logs too dry is spoken of.
const DRY: i32 = 90;
/// Works of one kind that a line names before it counts the others.
const NAMED: usize = 2;

/// A line with the days of which it holds.
#[derive(Debug, Clone, Serialize)]
pub struct Line {
    from: String,
    to: String,
    when: String,
    says: Anchor,
    tail: String,
}

/// What stands at the top of the guide.
#[derive(Debug, Serialize)]
pub struct Coming {
    now: Vec<Line>,
    next: Vec<Line>,
    days: Vec<String>,
}

/// A line before its place is known: the lower its rank, the earlier it stands.
struct Draft {
    rank: u8,
    days: (Date, Date),
    says: String,
    tail: String,
    page: Page,
}

/// What every day of the season asks for.
pub fn of(context: &Context<'_>) -> Coming {
    let mut now: Vec<Draft> = orders(context);
    for (rank, kinds) in [
        (1, &[WorkKind::UseUp][..]),
        (2, &[WorkKind::Inoculate]),
        (2, &[WorkKind::Fill]),
        (3, &[WorkKind::Fell]),
        (5, &[WorkKind::NoCut]),
        (6, &[WorkKind::FirstFruit]),
        (7, &[WorkKind::Rested]),
        (8, &[WorkKind::Other]),
    ] {
        now.extend(stretches(rank, kinds, context));
    }
    now.extend(soaks(context));
    now.extend(dry(context));
    now.extend(outside(context));
    now.sort_by_key(|line| (line.rank, line.days));
    let mut next: Vec<Draft> = starts_and_ends(context);
    next.sort_by_key(|line| (line.days, line.rank));
    let units = context.units();
    let days = (1..=12).map(|month| units.pick(format!("{} #", month_name(month)), format!("# {}", month_name(month))));
    Coming {
        now: now.iter().map(|line| line.line(context)).collect(),
        next: next.iter().map(|line| line.line(context)).collect(),
        days: days.collect(),
    }
}

impl Draft {
    fn line(&self, context: &Context<'_>) -> Line {
        let (from, to) = self.days;
        Line {
            from: from.written(),
            to: to.written(),
            when: short_day(from, context.units()),
            says: Anchor::to(context.route.to(&self.page), self.says.clone(), context),
            tail: self.tail.clone(),
        }
    }
}

/// Works of some kinds, with one line for every stretch of days on which they are the same.
fn stretches(rank: u8, kinds: &[WorkKind], context: &Context<'_>) -> Vec<Draft> {
    let works = context.findings.agenda().iter().filter(|work| kinds.contains(&work.kind()));
    let line = |(days, here): ((Date, Date), Vec<&Work>)| {
        let first = here.first()?;
        let (says, tail) = said(&here, context);
        let page = if here.len() == 1 { page_of(first) } else { page(first.kind()) };
        Some(Draft { rank, days, says, tail, page })
    };
    parted(works.map(|work| (work, holds(work)))).into_iter().filter_map(line).collect()
}

/// The page that tells most of one work: that of its lot or its batch, where it has one.
fn page_of(work: &Work) -> Page {
    match &work.what {
        What::Rest(lying) | What::Rested(lying) | What::Fill(lying, _) => Page::Lot(lying.lot.id.clone()),
        What::FirstFruit { batch, .. } => Page::Batch(batch.id.clone()),
        _ => page(work.kind()),
    }
}

/// The stretches of days on which the same things hold, each with those things.
fn parted<'a, T>(things: impl Iterator<Item = (&'a T, (Date, Date))>) -> Vec<((Date, Date), Vec<&'a T>)> {
    let things: Vec<(&T, (Date, Date))> = things.collect();
    let mut edges: Vec<Date> = things.iter().flat_map(|(_, (from, to))| [*from, to.plus(1)]).collect();
    edges.sort_unstable();
    edges.dedup();
    let between = edges.windows(2).map(|edge| {
        let days = (edge[0], edge[1].plus(-1));
        let here = things.iter().filter(|(_, (from, to))| *from <= days.0 && days.1 <= *to);
        (days, here.map(|(thing, _)| *thing).collect())
    });
    between.collect()
}

/// The days on which a work is spoken of.
fn holds(work: &Work) -> (Date, Date) {
    match &work.what {
        What::Fell { whole, .. } => *whole,
        What::UseUp { opened, .. } => (*opened, work.to),
        What::FirstFruit { .. } => (work.from, work.from.plus(LOOK)),
        _ => (work.from, work.to),
    }
}

/// Works of a kind in a line, and what is to be added to it.
fn said(works: &[&Work], context: &Context<'_>) -> (String, String) {
    let units = context.units();
    let mut works = works.to_vec();
    works.sort_by_key(|work| place(work, context));
    let named = |work: &&Work| {
        let (from, to) = holds(work);
        match &work.what {
            What::Fell { woods, rested, .. } => {
                let best = (*rested && (work.from, work.to) != (from, to))
                    .then(|| format!("; best {}", short(work.from, work.to, units)));
                format!("{} ({}{})", short_woods(woods, context), short(from, to, units), best.unwrap_or_default())
            }
            What::UseUp { .. } => format!("{}: {}", work.words(), short_day(to, units)),
            What::Inoculate { woods, .. } => format!("{} ({})", short_woods(woods, context), short(from, to, units)),
            What::FirstFruit { batch, .. } => batch.name.clone(),
            _ => format!("{} ({})", work.words(), short(from, to, units)),
        }
    };
    let doubt = works.iter().find_map(|work| doubt(work));
    let mut words: Vec<String> = works.iter().take(NAMED).map(named).collect();
    if works.len() > NAMED {
        words.push(format!("{} more", works.len() - NAMED));
    }
    match works.first().map(|work| &work.what) {
        Some(What::Fell { .. }) => {
            let best = works.iter().any(|work| matches!(work.what, What::Fell { rested: true, .. }));
            let best = if best { " Best is when logs then rest as we chose." } else { "" };
            let call = format!("Wind, permission and a second person: your call.{best}");
            let doubt = doubt.map_or_else(String::new, |doubt| format!(" {doubt}"));
            (format!("In season for felling: {}", and(&words)), format!("{call}{doubt}"))
        }
        Some(What::Inoculate { .. }) => {
            (format!("In season for inoculating: {}", and(&words)), doubt.unwrap_or_default())
        }
        Some(What::FirstFruit { .. }) => (format!("Look for the first mushrooms: {}", and(&words)), String::new()),
        Some(What::Rested(_)) => (and(&words), until_filled(&works, context)),
        _ => (and(&words), doubt.unwrap_or_default()),
    }
}

/// What is done with logs that have rested before the days in which they are filled.
fn until_filled(works: &[&Work], context: &Context<'_>) -> String {
    let fills = works.iter().filter_map(|work| match &work.what {
        What::Rested(lying) => lying.fills.iter().map(|fill| fill.days.0).filter(|day| *day > work.from).min(),
        _ => None,
    });
    fills.min().map_or_else(String::new, |day| {
        format!("Keep them shaded and off the soil; to be filled from {}.", short_day(day, context.units()))
    })
}

/// The sample logs that were too dry when they were last weighed.
fn dry(context: &Context<'_>) -> Option<Draft> {
    let lives = |reading: &&Reading| reading.batch.record.ended.is_none() && matches!(reading.too_dry, Ok(true));
    let dry: Vec<&Reading> = wetness::latest(context.findings.readings()).filter(lives).collect();
    let last = dry.iter().map(|reading| reading.date).max()?;
    let says = match dry.as_slice() {
        [one] => format!("Log {} was too dry on {}", one.label, short_day(last, context.units())),
        several => format!("{} weighed logs too dry, the last on {}", several.len(), short_day(last, context.units())),
    };
    let tail = "Weigh again, and water overnight where it still is.".to_owned();
    Some(Draft { rank: 5, days: (last, last.plus(DRY)), says, tail, page: Page::Moisture })
}

/// What days of a work rest on that are not sure.
fn doubt(work: &Work) -> Option<String> {
    work.basis.doubt().map(|doubt| format!("({doubt})"))
}

/// Fellings stand in the order in which the strip of the year has them; what else is done keeps the order of its days.
fn place(work: &Work, context: &Context<'_>) -> Option<usize> {
    let What::Fell { woods, .. } = &work.what else { return None };
    let first = woods.first()?;
    context.findings.fellings().iter().position(|felling| felling.woods.iter().any(|wood| wood.id == first.id))
}

/// What is ordered by each of its days, and what should have been.
fn orders(context: &Context<'_>) -> Vec<Draft> {
    let purchases = context.findings.purchases().iter();
    let mut purchases: Vec<(&PurchaseFinding, Date)> =
        purchases.filter_map(|found| Some((found, found.order_by?))).collect();
    purchases.sort_by_key(|(_, last)| *last);
    let draft = |rank, days, says| Draft { rank, days, says, tail: String::new(), page: Page::Supply };
    let in_time = purchases.chunk_by(|one, other| one.1 == other.1).flat_map(|of_day| {
        let last = of_day[0].1;
        let things: Vec<&PurchaseFinding> = of_day.iter().map(|(found, _)| *found).collect();
        let says = format!("Order {} by {}", ordered(&things, context), short_day(last, context.units()));
        let soon = last.plus(-ORDER_SOON);
        [draft(AHEAD, (last.plus(-ORDER_AHEAD), soon.plus(-1)), says.clone()), draft(0, (soon, last), says)]
    });
    let late = purchases.iter().filter_map(|(found, last)| {
        let (_, wanted) = found.window.filter(|(_, wanted)| wanted > last)?;
        Some((*found, (last.plus(1), wanted)))
    });
    let late = parted(late).into_iter().filter(|(_, things)| !things.is_empty()).map(|(days, things)| {
        draft(0, days, format!("Order {} now: too late to have all in time", ordered(&things, context)))
    });
    in_time.chain(late).collect()
}

/// What is ordered by one day, in a few words, with what it costs.
fn ordered(of_day: &[&PurchaseFinding], context: &Context<'_>) -> String {
    let cost = purchase::total(of_day.iter().copied()).map(|cost| money(cost, context));
    let things = match of_day {
        [one] => ware(one.item, one.strain.as_deref()),
        several => format!("spawn and wax, {}", count(several.len(), "item", "items")),
    };
    cost.map_or(things.clone(), |cost| format!("{things} ({cost})"))
}

/// What each day asks for at the tank, and until when nothing goes in.
fn soaks(context: &Context<'_>) -> Vec<Draft> {
    let units = context.units();
    let mut drafts = Vec::new();
    let mut before: Option<Date> = None;
    for (date, logs) in by_day(context) {
        let logs = count(logs, "log", "logs");
        let draft = |rank, days, says| Draft { rank, days, says, tail: String::new(), page: Page::SoakRota };
        let from = before.map_or(context.findings.axis(), |before| before.plus(1));
        let until = match before {
            Some(_) => format!("Next soak: {logs} on {}", short_day(date, units)),
            None => format!("Nothing to soak until {}", short_day(date, units)),
        };
        drafts.push(draft(9, (from, date.plus(-1)), until));
        drafts.push(draft(1, (date, date), format!("Soak {logs} today")));
        before = Some(date);
    }
    drafts.retain(|draft| draft.days.0 <= draft.days.1);
    drafts
}

/// The logs that go in on each day, over all tanks.
fn by_day(context: &Context<'_>) -> Vec<(Date, u32)> {
    let turns = context.findings.agenda().iter().filter_map(|work| match &work.what {
        What::Soak(_, turn) => Some((turn.date, turn.count())),
        _ => None,
    });
    let turns: Vec<(Date, u32)> = turns.collect();
    turns
        .chunk_by(|one, other| one.0 == other.0)
        .map(|day| (day[0].0, day.iter().map(|(_, logs)| logs).sum()))
        .collect()
}

/// What stands there on days that this season's year does not hold.
fn outside(context: &Context<'_>) -> [Draft; 2] {
    let axis = context.findings.axis();
    let ends = context.findings.agenda().iter().map(|work| work.to).chain([axis.a_year_later()]).max();
    let after = ends.unwrap_or(axis).plus(1);
    let season = context.season();
    let far = |from: Date, years: i32| from.plus(365 * years);
    let draft = |days, says| Draft { rank: 0, days, says, tail: String::new(), page: Page::Seasons };
    [
        draft((far(axis, -50), axis.plus(-1)), format!("This guide is of season {season}, which has not begun")),
        draft((after, far(after, 50)), format!("Season {season} is over: publish the guide of the next one")),
    ]
}

/// The days on which something begins or ends.
fn starts_and_ends(context: &Context<'_>) -> Vec<Draft> {
    let units = context.units();
    let mut drafts = Vec::new();
    for work in context.findings.agenda() {
        let (from, to) = (work.from, work.to);
        let draft = |day: Date, says: String| Draft {
            rank: 1,
            days: (day, day),
            says,
            tail: doubt(work).unwrap_or_default(),
            page: page_of(work),
        };
        match work.kind() {
            WorkKind::Rest | WorkKind::Soak | WorkKind::Order => {}
            WorkKind::Fell => {
                let What::Fell { woods, whole, .. } = &work.what else { continue };
                let woods = short_woods(woods, context);
                drafts.push(draft(
                    whole.0,
                    format!("In season for felling {woods}, until {}", short_day(whole.1, units)),
                ));
                if *whole != (from, to) {
                    drafts.push(draft(from, format!("Best days to fell {woods}, until {}", short_day(to, units))));
                }
                drafts.push(draft(whole.1, format!("Last day of the felling season, {woods}")));
            }
            WorkKind::Inoculate => {
                let What::Inoculate { woods, .. } = &work.what else { continue };
                let woods = short_woods(woods, context);
                drafts.push(draft(from, format!("Inoculate {woods}, until {}", short_day(to, units))));
                if to > from {
                    drafts.push(draft(to, format!("Last day to inoculate {woods}")));
                }
            }
            _ => {
                let until = if to > from { format!(", until {}", short_day(to, units)) } else { String::new() };
                drafts.push(draft(from, format!("{}{until}", work.words())));
                if to.since(from) >= LONG && work.kind() != WorkKind::FirstFruit {
                    let last = match &work.what {
                        What::Rested(lying) => rest_ends(lying, to, units),
                        _ => format!("Last day: {}", work.words()),
                    };
                    drafts.push(draft(to, last));
                }
            }
        }
    }
    drafts.extend(last_orders(context));
    drafts.extend(soak_weeks(context));
    drafts
}

/// The end of the longest rest of a lot, and when it is filled where that comes later.
fn rest_ends(lying: &Lying, to: Date, units: Units) -> String {
    let filled = lying.fills.iter().map(|fill| fill.days.0).filter(|day| *day > to).min();
    let filled = filled.map_or_else(String::new, |day| format!("; keep it shaded until {}", short_day(day, units)));
    format!("{}: our longest rest ends{filled}", lying.lot.record.name)
}

fn last_orders(context: &Context<'_>) -> impl Iterator<Item = Draft> {
    orders(context).into_iter().filter(|draft| draft.rank == AHEAD).map(|draft| {
        let last = draft.days.1.plus(ORDER_SOON + 1);
        Draft { rank: 0, days: (last, last), ..draft }
    })
}

/// The weeks of the soak rota, each in one line.
fn soak_weeks(context: &Context<'_>) -> Vec<Draft> {
    let days = by_day(context);
    let Some((first, _)) = days.first() else { return Vec::new() };
    let week = |day: &(Date, u32)| day.0.since(*first) / 7;
    let of_week = days.chunk_by(|one, other| week(one) == week(other)).map(|of_week| {
        let logs: u32 = of_week.iter().map(|(_, logs)| logs).sum();
        let last = of_week[of_week.len() - 1].0;
        let over =
            if of_week.len() > 1 { format!(", until {}", short_day(last, context.units())) } else { String::new() };
        Draft {
            rank: 2,
            days: (of_week[0].0, last),
            says: format!("Soak {}{over}", count(logs, "log", "logs")),
            tail: String::new(),
            page: Page::SoakRota,
        }
    });
    of_week.collect()
}
