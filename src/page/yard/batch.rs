//! One batch: what to do next with it, where it comes from, what was done, and what it gave beside what sources say.

use std::sync::Arc;

use serde::Serialize;

use crate::book;
use crate::page::figure::life as drawing;
use crate::page::figure::life::Year as Column;
use crate::page::leaf::Leaf;
use crate::page::part::batch::{
    beside, end_words, left_words, sale_line, sold_words, spawn, stage_words, verdict, whole, worked,
};
use crate::page::part::cite::{Cite, Line};
use crate::page::part::photo::{self, Photo};
use crate::page::part::table::{Cell, Part, Table, aside, below, cell, list, or_dash};
use crate::page::part::worked::Part as Worked;
use crate::page::part::{Anchor, Figure, and, capital, date, logs_words, mass_range, range, year_words};
use crate::page::{Context, Page};
use crate::quantity::{Date, Mass, count};
use crate::reckon::findings::BatchFinding;
use crate::reckon::findings::batches::{Stage, YieldLine};
use crate::reckon::findings::wetness::{Reading, SliceReading, of_batch};
use crate::reckon::life;
use crate::record::Kind;
use crate::record::caution::Task;
use crate::record::diary::What;
use crate::record::evidence::Way;

/// Soaks that are told; the rota has the others.
const SOAKS: usize = 3;

/// One batch.
#[derive(Debug, Serialize)]
pub struct View {
    id: String,
    answers: Vec<(&'static str, Cell)>,
    about: Option<String>,
    origin: Vec<(&'static str, Cell)>,
    chart: Option<String>,
    years: Option<Table>,
    first: Option<Table>,
    yields: Vec<Cell>,
    by_inches: Figure,
    done: Vec<(String, Vec<Cell>)>,
    pickings: Vec<(String, Vec<Cell>)>,
    sales: Vec<(String, Vec<Cell>)>,
    readings: Option<Table>,
    slices: Vec<Cell>,
    worked: Worked,
    season: String,
    safety: String,
    troubles: String,
    rota: Option<String>,
    batches: String,
    all_sales: String,
    year: Anchor,
    photos: Vec<Photo>,
    notes: Vec<Anchor>,
}

/// The view of one batch.
pub fn view(batch: &book::Batch, context: &Context<'_>) -> Option<View> {
    let findings = context.findings;
    let all = findings.batches();
    let found = &all[all.binary_search_by(|found| found.batch.id.cmp(&batch.id)).ok()?];
    let route = &context.route;
    let soaked = findings.rotas().iter().any(|rota| rota.strain.id == batch.strain.id);
    let readings = of_batch(findings.readings(), &batch.id, |reading| &reading.batch);
    let slices = of_batch(findings.slices(), &batch.id, |slice| &slice.batch);
    Some(View {
        id: batch.id.clone(),
        answers: answers(found, context),
        about: batch.record.about.clone(),
        origin: origin(found, context),
        chart: chart(found, context),
        years: years(found, context),
        first: firsts(found, context),
        yields: found.yields.iter().map(|line| yield_line(found, line, context)).collect(),
        by_inches: Figure::worked(
            format!("about {}", count(life::years_by_inches(&found.diameter), "year", "years")),
            &found.life_place(),
            context,
        ),
        done: by_year(found.diary.iter().map(|line| (line.record.date, line.as_ref())), diary_line, context),
        pickings: by_year(found.harvests.iter().map(|one| (one.record.date, one.as_ref())), picking, context),
        sales: by_year(found.sales.iter().map(|one| (one.record.date, one.as_ref())), sale_line, context),
        readings: weighed(readings, context),
        slices: slices.iter().map(|found| slice(found, context)).collect(),
        worked: Worked::new("working", "How we got this").blocks(worked(found, context)),
        season: year_words(findings.season.growing_year(), findings.season.south),
        safety: route.at(&Page::Safety, Task::Harvest.id()),
        troubles: route.to(&Page::Troubles),
        rota: soaked.then(|| route.to(&Page::SoakRota)),
        batches: route.to(&Page::Batches),
        all_sales: route.to(&Page::Sales),
        year: Anchor::to(route.to(&Page::BatchesOf(Leaf::first(batch.year))), batch.year.to_string(), context),
        photos: photo::all(&batch.record.photos, context),
        notes: Anchor::notes_about(Kind::Batch, &batch.id, context),
    })
}

/// What a grower who stands before the stack asks first.
fn answers(found: &BatchFinding, context: &Context<'_>) -> Vec<(&'static str, Cell)> {
    let units = context.units();
    let ended = found.batch.record.ended.as_ref().map(|ended| {
        let why = ended.why.as_ref().map(|why| format!(": {why}"));
        cell![end_words(&found.batch, context), why]
    });
    let lives = ended.is_none() && found.stage != Stage::Gone;
    let place = yards_words(found).map(|yards| format!(", {yards}"));
    let here = left_words(found).filter(|_| found.batch.is_counted() || lives);
    let here = here.map(|left| cell![left, place.filter(|_| found.left() > 0)]);
    let picked = found.years.iter().any(|year| year.picked.is_some());
    let gave = picked.then(|| {
        let published = found.a_log().map(|a_log| {
            let all = a_log.each_ref().map(|mass| mass * f64::from(found.balance.all()));
            cell!["; a life is said to give ", Figure::worked(mass_range(&all, units), &found.life_place(), context)]
        });
        cell![found.picked().show(units), published]
    });
    let fruit = found
        .first_span()
        .filter(|_| !picked && lives)
        .map(|[from, to]| cell![Figure::worked(date::between(from, to, units), &found.first_place(), context)]);
    let told = [
        ("Ended", ended),
        ("First mushrooms", fruit),
        ("Next soaks", soaks(found, context).filter(|_| lives)),
        ("Retire", retire(found, context).filter(|_| lives)),
        ("In the yard", here),
        ("Gave", gave),
        ("Sold", sold(found, context)),
        ("Now", Some(cell![stage_words(found, context)])),
    ];
    told.into_iter().filter_map(|(head, said)| Some((head, said?))).collect()
}

/// What was sold of it, with the number by which its spawn is called back.
fn sold(found: &BatchFinding, context: &Context<'_>) -> Option<Cell> {
    let sold = sold_words(found, context)?;
    let lots = (!found.spawn_lots.is_empty()).then(|| format!("; spawn lot {}", found.spawn_lots.join(", ")));
    Some(cell![sold, lots])
}

/// The yards in which its logs lie, with numbers where they lie in several.
fn yards_words(found: &BatchFinding) -> Option<String> {
    let of = |(yard, logs): &(String, u32)| match found.yards.len() {
        1 => yard.clone(),
        _ => format!("{logs} in {yard}"),
    };
    let words: Vec<String> = found.yards.iter().map(of).collect();
    (!words.is_empty()).then(|| and(&words))
}

/// The first soaks of the season, as the rota has them.
fn soaks(found: &BatchFinding, context: &Context<'_>) -> Option<Cell> {
    let turns = context.findings.rotas().iter().flat_map(|rota| &rota.turns);
    let of_it =
        |logs: &[(Arc<book::Batch>, u32)]| logs.iter().find(|(of, _)| of.id == found.batch.id).map(|(_, logs)| *logs);
    let mut days: Vec<(Date, u32)> = turns.filter_map(|turn| Some((turn.date, of_it(&turn.logs)?))).collect();
    days.sort_unstable();
    let more = days.len().checked_sub(SOAKS).filter(|more| *more > 0).map(|more| format!("; {more} more"));
    let day = |(day, logs): &(Date, u32)| format!("{}, {}", day.show(context.units()), logs_words(f64::from(*logs)));
    let told: Vec<String> = days.iter().take(SOAKS).map(day).collect();
    (!told.is_empty()).then(|| cell![told.join("; "), more])
}

/// The years after which its logs are spent by the published lives.
fn retire(found: &BatchFinding, context: &Context<'_>) -> Option<Cell> {
    let begins = found.begins.as_ref().ok()?.0;
    let last = |years: u32| begins + i16::try_from(years).unwrap_or(0) - 1;
    let shortest = found.yields.iter().map(|line| line.life.years[0]).min()?;
    let [from, to] = [shortest, found.longest()?].map(|years| year_words(last(years), context.findings.season.south));
    let span = if from == to { from } else { format!("{from} to {to}") };
    Some(cell![
        "after ",
        Figure::worked(span, &found.life_place(), context),
        ", by published lives; sooner where the signs say so"
    ])
}

/// From which trees, lots and spawn it was made.
fn origin(found: &BatchFinding, context: &Context<'_>) -> Vec<(&'static str, Cell)> {
    let batch = &found.batch;
    let units = context.units();
    let wood = batch.wood.as_ref().map(|wood| cell![Anchor::wood(wood, context)]);
    let lots = batch.lots.iter().map(|(lot, logs)| {
        cell![format!("{} of ", logs_words(f64::from(*logs))), Anchor::record(Kind::Lot, &lot.id, context)]
    });
    let of_lots = batch.lots.iter().flat_map(|(lot, _)| &lot.record.trees);
    let trees = batch.trees.iter().map(|tree| tree.tag()).chain(of_lots);
    let trees: Vec<Anchor> =
        trees.map(|tag| Anchor::to(context.route.record(Kind::Tree, &tag.0), tag.to_string(), context)).collect();
    let told = [
        ("Strain", Some(cell![Anchor::strain(&batch.strain, context)])),
        ("Wood", wood),
        (
            "Size",
            Some(cell![format!(
                "{} thick at the middle, {} long",
                found.diameter.show(units),
                found.length.show(units)
            )]),
        ),
        ("Inoculated", Some(cell![batch.record.inoculated.show(units)])),
        ("Spawn", spawn(batch, context).map(|spawn| cell![spawn])),
        ("Felled", batch.felled().map(|days| cell![days.show(units)])),
        ("Lots", (!batch.lots.is_empty()).then(|| list("; ", lots))),
        ("Trees", (!trees.is_empty()).then(|| list(", ", trees))),
    ];
    told.into_iter().filter_map(|(head, said)| Some((head, said?))).collect()
}

/// Lines by their years, the latest first.
fn by_year<'a, T: 'a>(
    lines: impl DoubleEndedIterator<Item = (Date, &'a T)>,
    say: fn(&T, &Context<'_>) -> Cell,
    context: &Context<'_>,
) -> Vec<(String, Vec<Cell>)> {
    let mut years: Vec<(String, Vec<Cell>)> = Vec::new();
    for (date, line) in lines.rev() {
        let year = date.0.year().to_string();
        match years.last_mut() {
            Some((last, lines)) if *last == year => lines.push(say(line, context)),
            _ => years.push((year, vec![say(line, context)])),
        }
    }
    years
}

/// A picking; of a shared one the whole weight, with a word.
fn picking(harvest: &book::Harvest, context: &Context<'_>) -> Cell {
    let units = context.units();
    let others = harvest.batches.len().saturating_sub(1);
    let shared = (others > 0).then(|| format!(", together with {}", count(others, "other batch", "other batches")));
    let note = harvest.record.note.clone().map(|note| cell![" ", Part::Note(note.into())]);
    cell![
        format!("{}: {}", harvest.record.date.show(units), harvest.record.weight.show(units)),
        shared,
        beside(&harvest.origin),
        note
    ]
}

/// What sample logs weighed.
fn weighed(readings: &[Reading], context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    Table::of("facts stack", "Sample logs", readings)
        .head("Log", |reading| reading.label.to_string())
        .column("Weighed", |reading| reading.date.show(units))
        .number("At inoculation", |reading| reading.then.show(units))
        .number("Then", |reading| reading.now.show(units))
        .number("Lost", |reading| Figure::of(&reading.lost, context))
        .column("Verdict", |reading| reading.too_dry.as_ref().map(verdict))
        .done()
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
    let working = found.first_place();
    Table::of("facts stack", "From inoculation to the first mushrooms", &firsts)
        .head("First mushrooms", |(when, _)| Figure::worked(when.clone(), &working, context))
        .column("By the spawn run of", |(_, lines)| lines.clone())
        .done()
}

fn years(found: &BatchFinding, context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let season = context.findings.season;
    let [one, many] = found.batch.record.way.pieces();
    let table = Table::of("facts", "Year by year", &found.years).head("Year", |year| {
        let now = year.year == season.growing_year();
        let crop = if year.crop > 0 { format!("crop {}", year.crop) } else { "spawn run".to_owned() };
        let crop = if now { format!("{crop}, this season") } else { crop };
        cell![year_words(year.year, season.south), below(Some(crop))]
    });
    let table = if found.batch.logs > 0 { table.number(&capital(many), |year| year.logs) } else { table };
    table
        .number("Said to give", |year| match &year.expected {
            Some([least, most]) => {
                let said = range(&least.listed(units), &most.listed(units));
                Figure::worked(said, &found.life_place(), context).into()
            }
            None if year.crop > 0 => Part::Gap("not published".to_owned()).into(),
            None => Cell::from(Part::Nothing),
        })
        .number("Picked", |year| {
            let a_log = year.a_log().map(|mass| format!("{} a {one}", mass.listed(units)));
            or_dash(year.picked.as_ref().map(|mass| cell![mass.listed(units), below(a_log)]))
        })
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
    let title = format!("{}, year by year", found.batch.name);
    told.then(|| drawing::svg("chart", &title, &columns))
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
fn diary_line(line: &book::Diary, context: &Context<'_>) -> Cell {
    let own = beside(&line.origin);
    let [one, many] = line.batches.first().map_or(Way::Log, |batch| batch.record.way).pieces();
    let (line, units) = (&line.record, context.units());
    let trouble = line.trouble.as_ref().map(|trouble| Anchor::record(Kind::Trouble, trouble.as_str(), context));
    let trouble = trouble.map(|trouble| cell![", ", trouble]);
    let amount = line.amount.as_ref().map(|amount| match line.what {
        What::Fruited => format!("{} mushrooms a log", amount.show(units)),
        _ => amount.show(units),
    });
    let logs = line.logs.map(|logs| count(logs, one, many));
    let words = [logs, line.log.as_ref().map(ToString::to_string), amount].into_iter().flatten();
    let words = words.map(|words| format!(", {words}"));
    let note = line.note.clone().map(|note| cell![" ", Part::Note(note.into())]);
    cell![format!("{}: {}", line.date.show(units), line.what.words()), list("", words), trouble, own, note]
}

fn slice(reading: &SliceReading, context: &Context<'_>) -> Cell {
    let units = context.units();
    let [wet, _] = &reading.water;
    let log = reading.slice.log.as_ref().zip(reading.limits.as_ref()).map(|(log, [well, dead])| {
        format!(
            "; a whole log of {} then ({} wet) comes to {} at 35 % and {} at 23 %",
            log.show(units),
            whole(wet),
            well.show(units),
            dead.show(units)
        )
    });
    let of = format!("Slice of {}: ", reading.slice.date.show(context.units()));
    cell![of, Figure::of(wet, context), " water, wet basis", log]
}
