//! The ledger: where every log is, in two balances.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::page::figure::balance::{self, Look, Part as Bar, Row};
use crate::page::part::table::{Cell, Table, cell, or_dash};
use crate::page::part::{Anchor, and, logs_words};
use crate::page::{Context, Page};
use crate::quantity::count;
use crate::reckon::findings::Ledger;
use crate::reckon::findings::ledger::{Line, WoodRow, YardRow};
use crate::record::evidence::Way;
use crate::record::lot::{How, Pieces};

/// The ledger.
#[derive(Debug, Serialize)]
pub struct View {
    now: Option<String>,
    places: Option<Table>,
    winter: String,
    chart: Option<String>,
    wood: Option<Table>,
    yard_total: Option<String>,
    yard: Option<Table>,
    earlier: Vec<(String, Option<Table>)>,
    uncounted: String,
    planning: String,
    batches: String,
    felling: String,
}

/// The view of the sheet.
pub fn view(context: &Context<'_>) -> View {
    let ledger = context.findings.ledger();
    let year = context.findings.season.year;
    let this: Vec<&WoodRow> = ledger.wood.iter().filter(|row| row.winter == year).collect();
    let mut winters: Vec<i16> = ledger.wood.iter().map(|row| row.winter).filter(|winter| *winter != year).collect();
    winters.dedup();
    let uncounted: Vec<String> = ledger.uncounted.iter().map(ToString::to_string).collect();
    View {
        now: now(ledger, &this),
        places: places(&this, context),
        winter: winter_words(year, context),
        chart: chart(&this),
        wood: wood(&this, context),
        yard_total: yard_total(ledger),
        yard: yard(ledger, context),
        earlier: winters.iter().rev().map(|winter| earlier(*winter, ledger, context)).collect(),
        uncounted: and(&uncounted),
        planning: context.route.to(&Page::Planning),
        batches: context.route.to(&Page::Batches),
        felling: context.route.to(&Page::Felling),
    }
}

/// What waits and what lies in the yard, in words.
fn now(ledger: &Ledger, this: &[&WoodRow]) -> Option<String> {
    let waiting: u32 = this.iter().map(|row| row.balance.waiting).sum();
    let yard: u32 = ledger.yard.iter().filter(|row| row.is_of_logs()).map(|row| row.balance.yard).sum();
    let waits = if waiting == 1 { "waits" } else { "wait" };
    let lies = if yard == 1 { "lies" } else { "lie" };
    let said = [
        (waiting > 0).then(|| format!("{} {waits} to be filled", logs_words(f64::from(waiting)))),
        (yard > 0).then(|| format!("{} {lies} in the yard", logs_words(f64::from(yard)))),
    ];
    let said: Vec<String> = said.into_iter().flatten().collect();
    (!said.is_empty()).then(|| format!("{}.", said.join(", and ")))
}

/// Where the logs are, place by place: those that wait by their wood, the others by their yard.
fn places(this: &[&WoodRow], context: &Context<'_>) -> Option<Table> {
    let waiting =
        |row: &&WoodRow| (row.balance.waiting > 0).then(|| (format!("{}, to be filled", name(row)), pieces_words(row)));
    let mut yards: BTreeMap<&str, [u32; 2]> = BTreeMap::new();
    for found in context.findings.batches().iter().filter(|found| found.batch.is_counted()) {
        let yard = yards.entry(found.yard.as_deref().unwrap_or("The yard")).or_default();
        yard[usize::from(found.batch.record.way == Way::Totem)] += found.left();
    }
    let lie = yards.into_iter().filter(|(_, logs)| logs.iter().any(|logs| *logs > 0)).map(|(yard, [logs, totems])| {
        let logs = (logs > 0).then(|| logs_words(f64::from(logs)));
        let said: Vec<String> = logs.into_iter().chain((totems > 0).then(|| totems_words(totems))).collect();
        (yard.to_owned(), said.join(", "))
    });
    let rows: Vec<(String, String)> = this.iter().filter_map(waiting).chain(lie).collect();
    Table::of("facts", "Where they are now", rows.iter())
        .head("Place", |(place, _)| place.clone())
        .column("Logs", |(_, logs)| logs.clone())
        .done()
}

fn pieces_words(row: &WoodRow) -> String {
    match row.pieces {
        Pieces::Log => logs_words(f64::from(row.balance.waiting)),
        _ => count(f64::from(row.balance.waiting), "piece", "pieces"),
    }
}

fn totems_words(totems: u32) -> String {
    count(f64::from(totems), "totem", "totems")
}

/// A winter in words: that of two calendar years in the north, of one in the south.
fn winter_words(year: i16, context: &Context<'_>) -> String {
    if context.findings.season.south {
        format!("The winter of {year}")
    } else {
        format!("The winter of {year} to {}", year + 1)
    }
}

fn earlier(winter: i16, ledger: &Ledger, context: &Context<'_>) -> (String, Option<Table>) {
    let rows: Vec<&WoodRow> = ledger.wood.iter().filter(|row| row.winter == winter).collect();
    (winter_words(winter, context), wood(&rows, context))
}

fn name(row: &WoodRow) -> String {
    match row.pieces {
        Pieces::Log => row.wood.name().to_owned(),
        pieces => format!("{}, {}", row.wood.name(), pieces.words()),
    }
}

fn chart(rows: &[&WoodRow]) -> Option<String> {
    let row = |row: &&WoodRow| {
        let (came, is): (Vec<Line>, Vec<Line>) = row.lines().into_iter().partition(|line| line.is_in);
        Row { name: name(row), came: came.iter().map(bar).collect(), is: is.iter().map(bar).collect() }
    };
    let rows: Vec<Row> = rows.iter().map(row).collect();
    (!rows.is_empty()).then(|| balance::svg("wood", "What came in this winter, and where it is", &rows))
}

fn bar(line: &Line) -> Bar {
    let look = match line.name {
        "waiting" => Look::Waiting,
        _ if How::ALL.iter().any(|how| how.id() == line.name) => Look::Gone,
        _ => Look::Solid,
    };
    Bar { logs: u32::try_from(line.logs).unwrap_or(0), words: format!("{} {}", line.logs, line.words), look }
}

/// Several lines in words: "24 cut here, 18 brought in".
fn words(lines: &[Line], is_in: bool) -> Cell {
    let said: Vec<String> =
        lines.iter().filter(|line| line.is_in == is_in).map(|line| format!("{} {}", line.logs, line.words)).collect();
    or_dash((!said.is_empty()).then(|| said.join(", ")))
}

fn wood(rows: &[&WoodRow], context: &Context<'_>) -> Option<Table> {
    Table::of("facts", "Carried over + cut here + brought in = filled + waiting + left unfilled", rows.iter().copied())
        .head("Wood", |row| {
            let pieces =
                Some(row.pieces).filter(|pieces| *pieces != Pieces::Log).map(|pieces| format!(", {}", pieces.words()));
            cell![Anchor::wood(&row.wood, context), pieces]
        })
        .column("Came", |row| words(&row.lines(), true))
        .column("Are now", |row| words(&row.lines(), false))
        .done()
}

fn yard(ledger: &Ledger, context: &Context<'_>) -> Option<Table> {
    Table::of(
        "facts",
        "Filled + added = in the yard + retired + sold + given away + lost + not accounted for",
        ledger.yard.iter(),
    )
    .head("Batch", |row| Anchor::batch(&row.batch, context))
    .column("Came", |row| words(&row.lines(), true))
    .column("Are now", |row| words(&row.lines(), false))
    .done()
}

/// The logs of the whole yard in words, and its totems by themselves.
fn yard_total(ledger: &Ledger) -> Option<String> {
    let of = |is_of_logs: bool| ledger.yard.iter().filter(move |row| row.is_of_logs() == is_of_logs);
    let all = |is_of_logs| of(is_of_logs).map(|row| row.balance.all()).sum::<u32>();
    let logs = (all(true) > 0).then(|| total(&logs_words(f64::from(all(true))), of(true)));
    let totems = (all(false) > 0).then(|| total(&totems_words(all(false)), of(false)));
    let said: Vec<String> = logs.into_iter().chain(totems).collect();
    (!said.is_empty()).then(|| said.join(" "))
}

fn total<'a>(all: &str, rows: impl Iterator<Item = &'a YardRow> + Clone) -> String {
    let sum = |of: fn(&YardRow) -> i64| rows.clone().map(of).sum::<i64>();
    let parts = [
        (sum(|row| i64::from(row.balance.yard)), "in the yard"),
        (sum(|row| i64::from(row.balance.retired)), "retired"),
        (sum(|row| i64::from(row.balance.sold)), "sold"),
        (sum(|row| i64::from(row.balance.given)), "given away"),
        (sum(|row| i64::from(row.balance.lost)), "lost"),
        (sum(|row| row.balance.unaccounted), "not accounted for"),
    ];
    let said: Vec<String> =
        parts.iter().filter(|(logs, _)| *logs != 0).map(|(logs, words)| format!("{logs} {words}")).collect();
    format!("{all} filled or added in all: {}.", said.join(", "))
}
