//! Where each batch stands in its life, what it should have given and what it gave.

use serde::Serialize;

use crate::page::figure::life as drawing;
use crate::page::figure::life::Year as Column;
use crate::page::part::cite::{Cite, Line};
use crate::page::part::table::{Cell, Part, Table, aside, cell, list, or_dash};
use crate::page::part::{Anchor, Figure, and, date, mass_range, ordinal_word, year_words};
use crate::page::{Context, Page};
use crate::quantity::{Mass, count};
use crate::reckon::findings::BatchFinding;
use crate::reckon::findings::batches::{Stage, YieldLine};
use crate::reckon::formula::Place;
use crate::reckon::{Topic, life};
use crate::record::Kind;
use crate::record::caution::Task;
use crate::record::diary::What;

/// Where each batch stands.
#[derive(Debug, Serialize)]
pub struct View {
    season: String,
    batches: Vec<Batch>,
    safety: String,
    troubles: String,
    moisture: String,
    rota: String,
    harvests: String,
    retiring: String,
    ledger: String,
    working: String,
}

/// One batch.
#[derive(Debug, Serialize)]
struct Batch {
    id: String,
    strain: Anchor,
    wood: Option<Anchor>,
    logs: u32,
    left: u32,
    yards: Option<String>,
    inoculated: String,
    size: String,
    about: Option<String>,
    stage: String,
    begins: Figure,
    first: Option<Table>,
    chart: Option<String>,
    years: Option<Table>,
    yields: Vec<Cell>,
    by_inches: Figure,
    lines: Vec<Cell>,
    moisture: String,
    soaked: bool,
}

/// The view of all batches.
pub fn view(context: &Context<'_>) -> View {
    let findings = context.findings;
    let route = &context.route;
    View {
        season: year_words(findings.season.growing_year(), findings.season.south),
        batches: findings.batches().iter().map(|found| batch(found, context)).collect(),
        safety: route.at(&Page::Safety, Task::Harvest.id()),
        troubles: route.to(&Page::Troubles),
        moisture: route.to(&Page::Moisture),
        rota: route.to(&Page::SoakRota),
        harvests: route.to(&Page::Harvests),
        retiring: route.to(&Page::Retiring),
        ledger: route.to(&Page::Ledger),
        working: route.to(&Page::Working(Topic::Yard)),
    }
}

/// When it first fruits, sources with the same dates together.
fn firsts(found: &BatchFinding, context: &Context<'_>) -> Option<Table> {
    let mut firsts: Vec<(String, Cell)> = Vec::new();
    for (span, [from, to]) in &found.first {
        let (line, when) = (Line::span("", span, context), date::between(*from, *to, context.units()));
        let said = cell![line.cites, ", ", line.figure.map(|figure| figure.text), aside(line.note.as_deref())];
        match firsts.iter_mut().find(|(known, _)| *known == when) {
            Some((_, lines)) => *lines = cell![lines.clone(), "; ", said],
            None => firsts.push((when, said)),
        }
    }
    let working = Place::new(Topic::Yard, format!("first-{}", found.batch.id));
    Table::of("facts stack", "From inoculation to the first mushrooms", &firsts)
        .head("First mushrooms", |(when, _)| Figure::worked(when.clone(), &working, context))
        .column("By the spawn run of", |(_, lines)| lines.clone())
        .done()
}

fn batch(found: &BatchFinding, context: &Context<'_>) -> Batch {
    let record = &found.batch.record;
    let units = context.units();
    let season = context.findings.season;
    let working = |part: &str| Place::new(Topic::Yard, format!("{part}-{}", found.batch.id));
    Batch {
        id: found.batch.id.clone(),
        strain: Anchor::strain(&found.batch.strain, context),
        wood: found.batch.wood.as_ref().map(|wood| Anchor::wood(wood, context)),
        logs: found.balance.all(),
        left: found.left(),
        yards: yards_words(found),
        inoculated: record.inoculated.show(context.units()),
        size: format!("{} thick at the middle, {} long", found.diameter.show(units), found.length.show(units)),
        about: record.about.clone(),
        stage: stage_words(found, context),
        begins: match &found.begins {
            Ok((year, true)) => Figure::worked(
                format!("{}, by our own harvests", year_words(*year, season.south)),
                &working("first"),
                context,
            ),
            Ok((year, false)) => Figure::worked(year_words(*year, season.south), &working("first"), context),
            Err(gap) => Figure::gap(gap.to_string()),
        },
        first: firsts(found, context),
        chart: chart(found, context),
        years: years(found, context),
        yields: found.yields.iter().map(|line| yield_line(found, line, context)).collect(),
        by_inches: Figure::worked(
            format!("about {}", count(life::years_by_inches(&found.diameter), "year", "years")),
            &working("life"),
            context,
        ),
        lines: found.diary.iter().map(|line| diary_line(&line.record, context)).collect(),
        moisture: context.route.at(&Page::Moisture, &format!("moisture-{}", found.batch.id)),
        soaked: soaked(found, context),
    }
}

/// The yards in which its logs lie, with numbers where they lie in several.
fn yards_words(found: &BatchFinding) -> Option<String> {
    let of = |(yard, logs): &(String, u32)| match found.yards.len() {
        1 => format!("in the yard “{yard}”"),
        _ => format!("{logs} in the yard “{yard}”"),
    };
    let words: Vec<String> = found.yards.iter().map(of).collect();
    (!words.is_empty()).then(|| and(&words))
}

/// Whether its strain has a rota on this farm.
fn soaked(found: &BatchFinding, context: &Context<'_>) -> bool {
    context.findings.rotas().iter().any(|rota| rota.strain.id == found.batch.strain.id)
}

fn stage_words(found: &BatchFinding, context: &Context<'_>) -> String {
    let year = year_words(context.findings.season.growing_year(), context.findings.season.south);
    match (found.stage, found.longest()) {
        (Stage::NotYet, _) => format!("In {year} it is not inoculated yet."),
        (Stage::SpawnRun, _) => format!("In {year} the spawn still runs; no source has it fruit yet."),
        (Stage::MayFruit, _) => format!("In {year} it may fruit for the first time; crops are likelier a year later."),
        (Stage::Cropping(crop), Some(longest)) => {
            format!("{year} is its {} crop year; published lives run to {longest}.", ordinal_word(crop))
        }
        (Stage::Cropping(crop), None) => {
            format!("{year} is its {} crop year; no source says how long it crops.", ordinal_word(crop))
        }
        (Stage::Old, _) => {
            format!("In {year} it is past every published life. Look for the signs that a log is spent.")
        }
        (Stage::Gone, _) => "Nothing of it is left.".to_owned(),
        (Stage::Unknown, _) => "No source gives its spawn run, and nothing has been picked yet.".to_owned(),
    }
}

fn years(found: &BatchFinding, context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let season = context.findings.season;
    Table::of("facts", "Year by year", &found.years)
        .wide(&format!("{}, year by year", found.batch.id))
        .head("Year", |year| {
            let now = year.year == season.growing_year();
            let mark = now.then(|| cell![" ", Part::Mark("this season")]);
            cell![year_words(year.year, season.south), mark]
        })
        .number("Crop year", |year| if year.crop > 0 { year.crop.to_string() } else { "spawn run".to_owned() })
        .number("Logs", |year| year.logs)
        .number("Expected", |year| match &year.expected {
            Some(both) => Figure::worked(mass_range(both, units), &found.life_place(), context).into(),
            None if year.crop > 0 => Part::Gap("not published".to_owned()).into(),
            None => Cell::from(Part::Nothing),
        })
        .number("Picked", |year| or_dash(year.picked.as_ref().map(|mass| mass.show(units))))
        .number("A log", |year| or_dash(year.a_log().map(|mass| mass.show(units))))
        .done()
}

fn chart(found: &BatchFinding, context: &Context<'_>) -> Option<String> {
    let season = context.findings.season;
    let units = context.units();
    let columns: Vec<Column> = found
        .years
        .iter()
        .map(|year| Column {
            name: year_words(year.year, season.south),
            expected: year.expected.as_ref().map(|both| [both[0].base(), both[1].base()]),
            picked: year.picked.as_ref().map(Mass::base),
            words: year.picked.as_ref().map(|mass| mass.show(units)).unwrap_or_default(),
            spawn_run: year.crop == 0,
            now: year.year == season.growing_year(),
        })
        .collect();
    let told = columns.iter().any(|column| column.expected.is_some() || column.picked.is_some());
    let title = format!("The life of batch {}, year by year", found.batch.id);
    told.then(|| drawing::svg(&format!("life-{}", found.batch.id), &title, &columns))
}

/// What one log should give in its life, by one source.
fn yield_line(found: &BatchFinding, line: &YieldLine, context: &Context<'_>) -> Cell {
    let [shortest, longest] = line.life.years;
    let years = match longest {
        _ if shortest == longest => count(longest, "year", "years"),
        _ => format!("{shortest} to {longest} years"),
    };
    let by_weight = line.by_weight.then_some(", by the green weight of a log this thick");
    let cite = Part::Small(Cite::of(&line.source, line.mark, context).into());
    let figure = Figure::worked(mass_range(&line.life.a_log, context.units()), &found.life_place(), context);
    cell![figure, format!(" over {years}"), by_weight, aside(line.note.as_deref()), " ", cite]
}

/// A line of the day book.
fn diary_line(line: &crate::record::diary::Diary, context: &Context<'_>) -> Cell {
    let units = context.units();
    let trouble = line.trouble.as_ref().map(|trouble| Anchor::record(Kind::Trouble, trouble.as_str(), context));
    let trouble = trouble.map(|trouble| cell![", ", trouble]);
    let amount = line.amount.as_ref().map(|amount| match line.what {
        What::Fruited => format!("{} mushrooms a log", amount.show(units)),
        _ => amount.show(units),
    });
    let logs = line.logs.map(|logs| count(logs, "log", "logs"));
    let words = [logs, line.log.as_ref().map(ToString::to_string), amount].into_iter().flatten();
    let words = words.map(|words| format!(", {words}"));
    let note = line.note.clone().map(|note| cell![" ", Part::Note(note.into())]);
    cell![format!("{}: {}", line.date.show(units), line.what.words()), list("", words), trouble, note]
}
