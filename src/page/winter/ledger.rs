//! The ledger: where every log is, in two balances.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde::Serialize;

use crate::book::{Book, Lot};
use crate::reckon::Findings;

use crate::page::figure::balance::{self, Look, Part as Bar, Row};
use crate::page::leaf::Leaf;
use crate::page::part::batch::Leaves;
use crate::page::part::table::Table;
use crate::page::part::{Anchor, and, logs_words};
use crate::page::{Context, Page, title};
use crate::quantity::count;
use crate::reckon::findings::Ledger;
use crate::reckon::findings::ledger::{Line, WoodRow, YardRow, sums};
use crate::record::Kind;
use crate::record::evidence::Way;
use crate::record::lot::{How, Pieces};

/// Batches with logs of which nobody wrote where they went, as many as the sheet tells.
const UNACCOUNTED: usize = 12;

/// The ledger.
#[derive(Debug, Serialize)]
pub struct View {
    is_empty: bool,
    waiting: Option<String>,
    places: Option<Table>,
    now: String,
    chart: Option<String>,
    winters: Vec<Anchor>,
    yard_total: String,
    yard_chart: Option<String>,
    unaccounted: Vec<Said>,
    more_unaccounted: usize,
    uncounted: String,
    planning: String,
    felling: String,
    batch_list: String,
}

/// The lines of a winter.
#[derive(Debug, Serialize)]
pub struct OfWinter {
    wood: Vec<Said>,
    lots: Vec<Said>,
    batches: Vec<Said>,
    leaves: Leaves,
    ledger: String,
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
    let unaccounted: Vec<&YardRow> = ledger.yard.iter().filter(|row| row.balance.unaccounted != 0).collect();
    let winter = |leaf: Leaf| {
        let text = title::of_winter(leaf.year, context.book);
        Anchor::to(context.route.to(&Page::LedgerOf(leaf)), text, context)
    };
    let uncounted: Vec<String> = ledger.uncounted.iter().map(ToString::to_string).collect();
    View {
        is_empty: ledger.wood.is_empty() && ledger.yard.is_empty(),
        waiting: now(ledger, &this),
        places: places(&this, context),
        yard_total: yard_total(ledger),
        now: title::of_winter(year, context.book),
        chart: chart(
            ["wood", "What came in this winter, and where it is"],
            this.iter().map(|row| (name(row), row.lines(false))),
            is_unfilled,
        ),
        winters: leaves(context.book, context.findings)
            .into_iter()
            .rev()
            .filter(|leaf| leaf.number == 0)
            .map(winter)
            .collect(),
        yard_chart: chart(
            ["yard", "What was filled each winter, and where it is"],
            yard_winters(ledger, context),
            is_lost,
        ),
        unaccounted: unaccounted.iter().take(UNACCOUNTED).map(|row| batch(row, context)).collect(),
        more_unaccounted: unaccounted.len().saturating_sub(UNACCOUNTED),
        uncounted: and(&uncounted),
        planning: context.route.to(&Page::Planning),
        felling: context.route.to(&Page::Felling),
        batch_list: context.route.to(&Page::Batches),
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
    let unfilled: u32 = this.iter().map(|row| row.balance.left_unfilled()).sum();
    let unfilled = match unfilled {
        0 => String::new(),
        one_or_more => format!(" {} of this winter went unfilled.", logs_words(f64::from(one_or_more))),
    };
    (!said.is_empty()).then(|| format!("{}.{unfilled}", said.join(", and ")))
}

/// Where the logs are, place by place: those that wait by their wood, the others by their yard.
fn places(this: &[&WoodRow], context: &Context<'_>) -> Option<Table> {
    let waiting =
        |row: &&WoodRow| (row.balance.waiting > 0).then(|| (format!("{}, to be filled", name(row)), pieces_words(row)));
    let mut yards: BTreeMap<&str, [u32; 2]> = BTreeMap::new();
    for found in context.findings.batches().iter().filter(|found| found.batch.is_counted()) {
        let totems = usize::from(found.batch.record.way == Way::Totem);
        for (yard, logs) in &found.yards {
            yards.entry(yard).or_default()[totems] += logs;
        }
        if found.yards.is_empty() {
            yards.entry("The yard").or_default()[totems] += found.left();
        }
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

/// The winters of the ledger, from the first in which a log was felled or filled to the farm's season, each with its lots
/// and batches in leaves.
pub fn leaves(book: &Book, findings: &Findings) -> Vec<Leaf> {
    let south = findings.season.south;
    let mut winters: BTreeMap<i16, [usize; 2]> = BTreeMap::new();
    for lot in book.lots.values() {
        winters.entry(winter_of(lot, findings)).or_default()[0] += 1;
    }
    for batch in book.batches.values() {
        winters.entry(batch.record.inoculated.winter(south)).or_default()[1] += 1;
    }
    let felled = book.trees.iter().filter_map(|tree| tree.record.felled);
    let season = findings.season.year;
    let first = felled.map(|day| day.winter(south)).chain(winters.keys().copied()).min().unwrap_or(season);
    let last = winters.keys().copied().max().map_or(season, |last| last.max(season));
    let leaves = |winter: i16| {
        let rows = winters.get(&winter).map_or(0, |rows| rows[0].max(rows[1]));
        Leaf::of_year(winter, rows.max(1))
    };
    (first..=last).flat_map(leaves).collect()
}

/// The winter of a lot's felling; of one without a day, the farm's season.
fn winter_of(lot: &Lot, findings: &Findings) -> i16 {
    lot.felled.map_or(findings.season.year, |days| days.from.winter(findings.season.south))
}

/// The view of a leaf of a winter.
pub fn of_winter(leaf: Leaf, context: &Context<'_>) -> OfWinter {
    let (book, ledger) = (context.book, context.findings.ledger());
    let lots: Vec<&Arc<Lot>> = book.lots.values().filter(|lot| winter_of(lot, context.findings) == leaf.year).collect();
    let batches: Vec<&YardRow> = ledger.yard.iter().filter(|row| row.winter == leaf.year).collect();
    let woods = ledger.wood.iter().filter(|row| row.winter == leaf.year && leaf.number == 0);
    let lot = |lot: &&Arc<Lot>| Said {
        of: Anchor::record(Kind::Lot, &lot.id, context),
        words: format!("{} of {} waiting", ledger.waiting(lot), logs_words(f64::from(lot.logs))),
    };
    OfWinter {
        wood: woods.map(|row| wood(row, context)).collect(),
        lots: leaf.rows(&lots).iter().map(lot).collect(),
        batches: leaf.rows(&batches).iter().map(|row| batch(row, context)).collect(),
        leaves: Leaves::of(leaf, lots.len().max(batches.len()), Page::LedgerOf, context),
        ledger: context.route.to(&Page::Ledger),
    }
}

fn name(row: &WoodRow) -> String {
    match row.pieces {
        Pieces::Log => row.wood.name().to_owned(),
        pieces => format!("{}, {}", row.wood.name(), pieces.words()),
    }
}

fn wood(row: &WoodRow, context: &Context<'_>) -> Said {
    let of = Anchor { text: name(row), ..Anchor::wood(&row.wood, context) };
    Said { of, words: words(&row.lines(row.winter < context.findings.season.year)) }
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

/// The yard by the winters in which its batches were inoculated, the last first; totems are counted by themselves.
fn yard_winters(ledger: &Ledger, context: &Context<'_>) -> impl Iterator<Item = (String, Vec<Line>)> {
    let mut winters: BTreeMap<(i16, bool), Vec<&YardRow>> = BTreeMap::new();
    for row in &ledger.yard {
        winters.entry((row.winter, row.is_of_logs())).or_default().push(row);
    }
    winters.into_iter().rev().map(|((year, is_of_logs), rows)| {
        let name = title::of_winter(year, context.book);
        (if is_of_logs { name } else { format!("{name}, totems") }, sums(&rows))
    })
}

fn chart(
    [id, title]: [&str; 2],
    rows: impl Iterator<Item = (String, Vec<Line>)>,
    crossed: fn(&str) -> bool,
) -> Option<String> {
    let part = |line: &Line| bar(line, crossed);
    let row = |(name, lines): (String, Vec<Line>)| {
        let (came, is): (Vec<Line>, Vec<Line>) = lines.into_iter().partition(|line| line.is_in);
        Row { name, came: came.iter().map(part).collect(), is: is.iter().map(part).collect() }
    };
    let rows: Vec<Row> = rows.map(row).collect();
    (!rows.is_empty()).then(|| balance::svg(id, title, &rows))
}

fn bar(line: &Line, crossed: impl Fn(&str) -> bool) -> Bar {
    let look = match line.name {
        "waiting" => Look::Waiting,
        name if crossed(name) => Look::Gone,
        _ => Look::Solid,
    };
    Bar { logs: u32::try_from(line.logs).unwrap_or(0), words: format!("{} {}", line.logs, line.words), look }
}

/// Whether wood is gone without being filled.
fn is_unfilled(name: &str) -> bool {
    How::ALL.iter().any(|how| how.id() == name)
}

/// Whether nobody has any good of logs of the yard.
fn is_lost(name: &str) -> bool {
    matches!(name, "lost" | "not-accounted-for")
}
/// The whole yard in words.
fn yard_total(ledger: &Ledger) -> String {
    let total = |is_of_logs: bool, words: fn(u32) -> String| {
        let rows: Vec<&YardRow> = ledger.yard.iter().filter(|row| row.is_of_logs() == is_of_logs).collect();
        let all: u32 = rows.iter().map(|row| row.balance.all()).sum();
        let is = sums(&rows).into_iter().filter(|line| !line.is_in);
        let is: Vec<String> = is.map(|line| format!("{} {}", line.logs, line.words)).collect();
        (all > 0).then(|| format!("{} filled or added in all: {}.", words(all), is.join(", ")))
    };
    let said = [total(true, |logs| logs_words(f64::from(logs))), total(false, totems_words)];
    said.into_iter().flatten().collect::<Vec<_>>().join(" ")
}
