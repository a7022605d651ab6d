//! The plan: who gets which wood, how many logs a wish needs, and what a log costs and may bring.

use serde::Serialize;

use crate::page::part::cite::Cite;
use crate::page::part::growth::whole;
use crate::page::part::rating::Rating;
use crate::page::part::table::{Cell, Part, Table, below, cell, list, or_dash};
use crate::page::part::{Anchor, Figure, capital, logs_words, other_work, purchase, range, waits};
use crate::page::{Context, Page};
use crate::quantity::measure::rounded;
use crate::quantity::{Duration, Length, Mass, count};
use crate::reckon::findings::shortage::Cure;
use crate::reckon::findings::winter::WishFinding;
use crate::reckon::formula::Place;
use crate::reckon::money::PUBLISHED;
use crate::reckon::season::Season;
use crate::reckon::table::{in_doubt, why};
use crate::reckon::{Gap, Topic};
use crate::record::mushroom::{LogYield, Over};
use crate::record::plan::Floor;
use crate::record::tree::Tag;
use crate::record::{Id, Kind};

/// The plan.
#[derive(Debug, Serialize)]
pub struct View {
    wishes: Option<Table>,
    no_plan: bool,
    trees: Figure,
    lead: Lead,
    waits: Vec<String>,
    doubt: Option<String>,
    key: String,
    fell_short: Option<String>,
    rows: Option<Table>,
    money: Option<Table>,
    no_money: bool,
    published: Option<Table>,
    for_good: Option<Table>,
    asked: String,
    felling: String,
    sales: String,
    ledger: String,
    working: String,
    yields: String,
}

/// What the plan asks for still, and what it gets.
#[derive(Debug, Serialize)]
struct Lead {
    asked: String,
    placed: u32,
    from_lots: Option<String>,
    missing: Option<String>,
    floors: Vec<String>,
}

/// The view of the sheet.
pub fn view(context: &Context<'_>) -> View {
    let winter = context.findings.winter();
    View {
        wishes: wishes(context),
        no_plan: winter.wishes.is_empty(),
        trees: Figure::worked(
            count(winter.number(), "tree", "trees"),
            &Place::new(Topic::Allocation, "result"),
            context,
        ),
        lead: lead(context),
        waits: waits::lines(context.findings.trees(), context),
        doubt: left_in_doubt(context),
        key: context.route.to(&Page::KeyWinter),
        fell_short: fell_short(context),
        rows: planning(context),
        money: money(context),
        no_money: context.book.farm.record.money.is_none(),
        published: published(context),
        for_good: for_good(context),
        asked: count(winter.wanted(), "log", "logs"),
        felling: context.route.to(&Page::Felling),
        sales: context.route.to(&Page::Sales),
        ledger: context.route.to(&Page::Ledger),
        working: context.route.to(&Page::Working(Topic::Allocation)),
        yields: context.route.at(&Page::Working(Topic::Supply), "planning"),
    }
}

fn lead(context: &Context<'_>) -> Lead {
    let winter = context.findings.winter();
    let missing = winter.missing();
    let from_lots = winter.value.as_ref().map_or(0, |value| value.from_lots);
    let mut floors: Vec<Floor> =
        winter.wishes.iter().filter(|wish| wish.short.is_some()).map(|wish| wish.plan.record.floor).collect();
    floors.dedup();
    Lead {
        asked: logs_words(f64::from(winter.left())),
        placed: winter.placed(),
        from_lots: (from_lots > 0).then(|| logs_words(f64::from(from_lots))),
        missing: (missing > 0).then(|| count(missing, "is", "are")),
        floors: floors.into_iter().map(|floor| floor.words().to_owned()).collect(),
    }
}

/// Which marked trees are left until it is known what they are.
fn left_in_doubt(context: &Context<'_>) -> Option<String> {
    let doubtful = context.findings.trees().iter().filter(|tree| tree.is_left_in_doubt());
    let tags: Vec<Tag> = doubtful.map(|tree| tree.tree.tag().clone()).collect();
    (!tags.is_empty()).then(|| in_doubt(&tags))
}

/// What is asked for again, since logs of this winter were not filled or a tree gave fewer than were counted in it.
fn fell_short(context: &Context<'_>) -> Option<String> {
    let findings = context.findings;
    let winter = findings.winter();
    if winter.wishes.is_empty() || winter.is_done() {
        return None;
    }
    let gone = context.book.lots.values().flat_map(|lot| lot.record.gone.iter().map(move |gone| (lot, gone)));
    let gone = gone.filter(|(_, gone)| Season::holding(gone.date, findings.season.south) == findings.season);
    let gone = gone.map(|(lot, gone)| {
        let why = gone.why.as_ref().map_or_else(String::new, |why| format!(" ({why})"));
        format!("{} of {} {}{why}", logs_words(f64::from(gone.logs)), lot.record.name, gone.how.words())
    });
    let trees = findings.trees().iter().filter(|tree| findings.is_of_this_winter(tree));
    let trees = trees.filter_map(|tree| {
        let cut = tree.tree.record.logs_cut.filter(|cut| *cut < tree.logs())?;
        Some(format!("{} gave {cut} of {}", tree.tree.tag(), logs_words(f64::from(tree.logs()))))
    });
    let short: Vec<String> = gone.chain(trees).collect();
    (!short.is_empty()).then(|| short.join("; "))
}

/// How many logs each stand gives for good, beside what comes out of it this winter.
fn for_good(context: &Context<'_>) -> Option<Table> {
    let findings = context.findings;
    Table::of("facts stack", "Each stand, a year", findings.stands().iter().zip(findings.growth()))
        .wide("What the woods give for good")
        .head("Stand", |(stand, _)| Anchor::record(Kind::Stand, &stand.measured.stand.id, context))
        .number("Gives for good, logs", |(_, growth)| match &growth.logs {
            Ok(ends) => Figure::worked(whole(*ends), &growth.place, context),
            Err(gap) => Figure::gap(gap.to_string()),
        })
        .number("This winter’s plan, logs", |(stand, _)| stand.logs.to_string())
        .done()
}

fn wishes(context: &Context<'_>) -> Option<Table> {
    let findings = context.findings;
    Table::of("facts stack", "Which wood goes to which strain", findings.winter().wishes.iter().zip(findings.days()))
        .head("Strain", |(found, _)| cell![Anchor::strain(&found.strain, context), ", ", found.wish.spawn.words()])
        .column("Wanted", |(found, _)| {
            found.wanted.as_ref().map(|logs| match logs {
                0 => "no drilled logs".to_owned(),
                logs => logs_words(f64::from(*logs)),
            })
        })
        .column("Made", |(found, _)| made(found, context))
        .column("Assigned", |(found, day)| {
            let placed = found.placed.iter().map(|placed| {
                let logs = Figure::worked(
                    placed.logs.to_string(),
                    &Place::new(Topic::Allocation, placed.wood.id.clone()),
                    context,
                );
                let pairing = context.route.pairing(&found.strain.mushroom.id, &placed.wood.id);
                let rated = Part::Rated(Rating::of(placed.word), pairing);
                let by = placed.stands_in.map(|way| format!(", by {}", way.words()));
                cell![logs, " of ", Anchor::wood(&placed.wood, context), " ", rated, by]
            });
            let other = day.other.iter().map(|work| other_work::words(work, context));
            or_dash(cell![list(", ", placed), list("", other)])
        })
        .column("Missing", |(found, _)| {
            or_dash(found.short.as_ref().map(|short| {
                let cure = short.cure.as_ref().map(|of| format!(" To fill it: {}.", cure(short.logs, of, context)));
                cell![format!("{} missing: {}.", logs_words(f64::from(short.logs)), why(short)), cure]
            }))
        })
        .done()
}

/// What batches have made of a wish, and those whose spawn never took.
fn made(found: &WishFinding, context: &Context<'_>) -> Cell {
    let done = &found.done;
    let batches = done.batches.iter().map(|(batch, logs)| {
        let number = batch.is_counted().then(|| format!("{logs} in "));
        cell![number, Anchor::batch(batch, context)]
    });
    let failed = done.failed.iter().map(|batch| {
        cell![Part::Paragraph(cell![
            "The spawn of ",
            Anchor::batch(batch, context),
            " failed; its logs are asked for again."
        ])]
    });
    let word = found.is_done().then_some("Done: ");
    or_dash(cell![word, list(", ", batches), list("", failed)])
}

/// What would cure a shortage, in words: "eight more logs of red oak: two trees of 8 in".
fn cure(logs: u32, cure: &Cure, context: &Context<'_>) -> String {
    let more = count(logs, "more log", "more logs");
    let trees = count(cure.trees, "tree", "trees");
    let inches = Length::of_inches(cure.diameter.inches().round()).show(context.units());
    format!("{more} of {}: {trees} of {inches}, at {} each", cure.wood.name(), logs_words(f64::from(cure.logs_each)))
}

fn planning(context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let worked = |place: usize, text: String| {
        Figure::worked(text, &Place::new(Topic::Supply, format!("planning-{place}")), context)
    };
    let a_log = |of: &LogYield, a_log: &Mass| {
        let years = of.years.as_ref().map_or_else(String::new, |years| {
            format!(" of {} years", range(&rounded(years.low, 1), &rounded(years.high, 1)))
        });
        format!("{} over {}{years}", a_log.show(units), of.over.words())
    };
    let found = context.findings.planning().iter().enumerate();
    Table::of("facts stack", "Each published yield by itself; they are not averaged", found)
        .wide("How many logs a wish needs")
        .head("Wish", |(_, found)| cell![found.asks.words(units), ", ", Anchor::strain(&found.strain, context)])
        .column("A log gives", |(_, found)| {
            or_dash(found.by.as_ref().map(|(of, each)| {
                let cite = Part::Small(Cite::by(of, context).into());
                cell![a_log(of, each), " ", cite, below(of.note.clone())]
            }))
        })
        .number("Logs", |(place, found)| found.logs.as_ref().map(|[all, _]| worked(place, all.to_string())))
        .column("New each year, or soaked each week", |(place, found)| {
            let ([_, each], (of, _)) = found.logs.as_ref().ok().zip(found.by.as_ref())?;
            let turn = if of.over == Over::Flush { "soaked each week" } else { "new each year" };
            Some(worked(place, format!("{each} {turn}")))
        })
        .number("Trees", |(place, found)| found.trees.map(|trees| worked(place, trees.to_string())))
        .number("Tank", |(place, found)| found.tank.map(|tank| worked(place, units.volume_words(tank))))
        .number("Ground", |(place, found)| found.ground.as_ref().map(|ground| worked(place, ground.show(units))))
        .done()
}

fn money(context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let coins = |number: f64| purchase::money(number, context);
    let worked = |place: usize, text: String| {
        Figure::worked(text, &Place::new(Topic::Supply, format!("money-{place}")), context)
    };
    let minutes = |work: &Duration| format!("{} min", rounded(work.hours() * 60.0, 0));
    let cost = |place: usize, part: &Result<f64, Gap>| part.clone().map(|cost| worked(place, coins(cost)));
    Table::of("facts stack", "By this farm’s own prices", context.findings.money().iter().enumerate())
        .wide("What a log costs and may bring")
        .head("Strain", |(_, found)| {
            cell![Anchor::strain(&found.strain, context), ", ", count(found.logs, "log", "logs")]
        })
        .number("Spawn", |(place, found)| cost(place, &found.spawn))
        .number("Wax", |(place, found)| cost(place, &found.wax))
        .number("Work", |(place, found)| found.work.as_ref().map(|work| worked(place, minutes(work))))
        .number("Cost of a log", |(place, found)| cost(place, &found.cost))
        .column("Sales over its life", |(place, found)| {
            let returns = found.returns.iter().map(|(of, [low, high])| {
                let brings = worked(place, range(&coins(*low), &coins(*high)));
                let cite = Part::Small(Cite::by(of, context).into());
                Part::Paragraph(cell![brings, Part::Break, cite])
            });
            let silence =
                if found.price.is_some() { "no yield over a life is published" } else { "no price is recorded" };
            cell![list("", returns), found.returns.is_empty().then(|| Part::Gap(silence.to_owned()))]
        })
        .column("Breaks even at", |(place, found)| {
            let mass = found.break_even.as_ref()?;
            let price = found.price.as_ref();
            let price = price.map(|price| format!(", {} for {}", coins(price.price), price.per.show(units)));
            Some(cell![worked(place, mass.show(units)), " a log", price])
        })
        .done()
}

fn published(context: &Context<'_>) -> Option<Table> {
    let dollars = |dollars: f64| format!("${dollars:.2}");
    Table::of("facts stack", "Published budgets, in dollars of their day", &PUBLISHED)
        .head("Who", |budget| Cite::of(&Id::new(budget.source), budget.mark, context))
        .number("Cost of a log", |budget| or_dash(budget.cost.map(dollars)))
        .number("Brings", |budget| or_dash(budget.returns.map(|[low, high]| range(&dollars(low), &dollars(high)))))
        .column("What it says", |budget| format!("{}.", capital(budget.says)))
        .done()
}
