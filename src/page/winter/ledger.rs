//! The ledger: where every log is, in two balances.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::page::figure::balance::{self, Look, Part as Bar, Row};
use crate::page::part::table::Table;
use crate::page::part::{Anchor, and, logs_words};
use crate::page::{Context, Page};
use crate::quantity::count;
use crate::reckon::findings::Ledger;
use crate::reckon::findings::ledger::{Line, WoodRow, YardRow, sums};
use crate::record::evidence::Way;
use crate::record::lot::{How, Pieces};

/// The ledger.
#[derive(Debug, Serialize)]
pub struct View {
    is_empty: bool,
    waiting: String,
    yard: Option<String>,
    places: Option<Table>,
    now: String,
    chart: Option<String>,
    winters: Vec<Winter>,
    yard_chart: Option<String>,
    totems: Option<String>,
    unaccounted: Vec<Said>,
    batches: Vec<Winter>,
    uncounted: String,
    planning: String,
    felling: String,
    batch_list: String,
}

/// The lines of a winter.
#[derive(Debug, Serialize)]
struct Winter {
    name: String,
    lines: Vec<Said>,
}

/// A balance in words.
#[derive(Debug, Serialize)]
struct Said {
    of: Anchor,
    words: String,
}

/// The view of the sheet.
pub fn view(context: &Context<'_>) -> View {
    let ledger = context.findings.ledger();
    let year = context.findings.season.year;
    let this: Vec<&WoodRow> = ledger.wood.iter().filter(|row| row.winter == year).collect();
    let waiting: u32 = this.iter().map(|row| row.balance.waiting).sum();
    let uncounted: Vec<String> = ledger.uncounted.iter().map(ToString::to_string).collect();
    View {
        is_empty: ledger.wood.is_empty() && ledger.yard.is_empty(),
        waiting: format!("{} to be filled", wait(waiting)),
        yard: total(ledger, true),
        places: places(&this, context),
        now: winter_words(year, context),
        chart: chart(
            "wood",
            "What came in this winter, and where it is",
            this.iter().map(|row| (name(row), row.lines())),
            |line| How::ALL.iter().any(|how| how.id() == line.name),
        ),
        winters: winters(ledger.wood.iter(), |row| row.winter, |row| wood(row, context), context),
        yard_chart: chart(
            "yard",
            "What was filled each winter, and where it is",
            yard_winters(ledger, context),
            |line| matches!(line.name, "lost" | "not-accounted-for"),
        ),
        totems: total(ledger, false),
        unaccounted: ledger
            .yard
            .iter()
            .filter(|row| row.balance.unaccounted != 0)
            .map(|row| batch(row, context))
            .collect(),
        batches: winters(
            ledger.yard.iter().filter(|row| row.balance.yard > 0),
            |row| row.winter,
            |row| batch(row, context),
            context,
        ),
        uncounted: and(&uncounted),
        planning: context.route.to(&Page::Planning),
        felling: context.route.to(&Page::Felling),
        batch_list: context.route.to(&Page::Batches),
    }
}

/// Where the logs are, place by place: those that wait by their wood, the others by their yard.
fn places(this: &[&WoodRow], context: &Context<'_>) -> Option<Table> {
    let waiting = |row: &&WoodRow| {
        let logs = row.balance.waiting;
        (logs > 0).then(|| (format!("{}, to be filled", name(row)), logs.to_string()))
    };
    let mut yards: BTreeMap<&str, [u32; 2]> = BTreeMap::new();
    for found in context.findings.batches().iter().filter(|found| found.batch.is_counted() && found.left() > 0) {
        let yard = yards.entry(found.yard.as_deref().unwrap_or("The yard")).or_default();
        yard[usize::from(found.batch.record.way == Way::Totem)] += found.left();
    }
    let lie = yards.into_iter().map(|(yard, [logs, totems])| {
        let totems = (totems > 0).then(|| count(totems, "totem", "totems"));
        let said: Vec<String> = (logs > 0).then(|| logs.to_string()).into_iter().chain(totems).collect();
        (yard.to_owned(), said.join(", "))
    });
    let rows: Vec<(String, String)> = this.iter().filter_map(waiting).chain(lie).collect();
    Table::of("facts", "Where they are now", rows.iter())
        .head("Place", |(place, _)| place.clone())
        .column("Logs", |(_, logs)| logs.clone())
        .done()
}

fn wait(logs: u32) -> String {
    match logs {
        0 => "No log waits".to_owned(),
        1 => "1 log waits".to_owned(),
        logs => format!("{} wait", logs_words(f64::from(logs))),
    }
}

/// A winter in words: that of two calendar years in the north, of one in the south.
fn winter_words(year: i16, context: &Context<'_>) -> String {
    if context.findings.season.south {
        format!("The winter of {year}")
    } else {
        format!("The winter of {year} to {}", year + 1)
    }
}

/// Rows by their winters, the last first.
fn winters<'a, R: 'a>(
    rows: impl Iterator<Item = &'a R>,
    winter: impl Fn(&R) -> i16,
    said: impl Fn(&R) -> Said,
    context: &Context<'_>,
) -> Vec<Winter> {
    let mut winters: BTreeMap<i16, Vec<Said>> = BTreeMap::new();
    for row in rows {
        winters.entry(winter(row)).or_default().push(said(row));
    }
    let name = |year| winter_words(year, context);
    winters.into_iter().rev().map(|(year, lines)| Winter { name: name(year), lines }).collect()
}

fn name(row: &WoodRow) -> String {
    match row.pieces {
        Pieces::Log => row.wood.name().to_owned(),
        pieces => format!("{}, {}", row.wood.name(), pieces.words()),
    }
}

fn wood(row: &WoodRow, context: &Context<'_>) -> Said {
    let of = Anchor { text: name(row), ..Anchor::wood(&row.wood, context) };
    Said { of, words: words(&row.lines()) }
}

fn batch(row: &YardRow, context: &Context<'_>) -> Said {
    Said { of: Anchor::batch(&row.batch, context), words: words(&row.lines()) }
}

/// A balance in words: "24 cut here, 18 brought in → 42 waiting".
fn words(lines: &[Line]) -> String {
    let side = |is_in: bool| {
        let said = lines.iter().filter(|line| line.is_in == is_in).map(|line| format!("{} {}", line.logs, line.words));
        said.collect::<Vec<_>>().join(", ")
    };
    format!("{} → {}", side(true), side(false))
}

/// The logs of the yard by the winters in which its batches were inoculated, the last first.
fn yard_winters(ledger: &Ledger, context: &Context<'_>) -> impl Iterator<Item = (String, Vec<Line>)> {
    let mut winters: BTreeMap<i16, Vec<&YardRow>> = BTreeMap::new();
    for row in ledger.yard.iter().filter(|row| row.is_of_logs()) {
        winters.entry(row.winter).or_default().push(row);
    }
    winters.into_iter().rev().map(|(year, rows)| (winter_words(year, context), sums(&rows)))
}

fn chart(
    id: &str,
    title: &str,
    rows: impl Iterator<Item = (String, Vec<Line>)>,
    is_gone: fn(&Line) -> bool,
) -> Option<String> {
    let bar = |line: &Line| bar(line, is_gone(line));
    let row = |(name, lines): (String, Vec<Line>)| {
        let (came, is): (Vec<Line>, Vec<Line>) = lines.into_iter().partition(|line| line.is_in);
        Row { name, came: came.iter().map(bar).collect(), is: is.iter().map(bar).collect() }
    };
    let rows: Vec<Row> = rows.map(row).collect();
    (!rows.is_empty()).then(|| balance::svg(id, title, &rows))
}

fn bar(line: &Line, is_gone: bool) -> Bar {
    let look = match (line.name, is_gone) {
        (_, true) => Look::Gone,
        ("waiting", _) => Look::Waiting,
        _ => Look::Solid,
    };
    Bar { logs: u32::try_from(line.logs).unwrap_or(0), words: format!("{} {}", line.logs, line.words), look }
}

/// Where all the logs of the yard are in words, or all its totems.
fn total(ledger: &Ledger, is_of_logs: bool) -> Option<String> {
    let all: Vec<&YardRow> = ledger.yard.iter().filter(|row| row.is_of_logs() == is_of_logs).collect();
    let is: Vec<String> =
        sums(&all).iter().filter(|line| !line.is_in).map(|line| format!("{} {}", line.logs, line.words)).collect();
    (!is.is_empty()).then(|| is.join(", "))
}
