//! The tables of the yard: soaks, batches, harvests, yields, troubles.

use super::{
    Cell, Grid,
    build::{grid, mass, mass_unit, text, words},
};
use crate::{
    book::Book,
    reckon::{Findings, findings::batches::Stage},
    record::table::Table,
};

/// Which logs go into the tank on which day.
pub fn soak_rota(findings: &Findings) -> Grid {
    let mut rows = Vec::new();
    for rota in findings.rotas() {
        for turn in &rota.turns {
            rows.push(vec![
                text(turn.date.written()),
                Cell::Number(f64::from(turn.group), 0),
                Cell::Number(f64::from(turn.count()), 0),
                text(&rota.strain.id),
                Cell::Number(f64::from(turn.week), 0),
                text(turn.picked_by().written()),
                words(turn.logs.iter().map(|(batch, logs)| format!("{}:{logs}", batch.id))),
            ]);
        }
    }
    rows.sort_by(|a, b| (a[0].to_string(), a[3].to_string()).cmp(&(b[0].to_string(), b[3].to_string())));
    grid(Table::SoakRota, &["date", "group", "logs", "strain", "week", "picked_by", "batches"], rows)
}

/// The stage of a batch as tables write it.
const fn stage_word(stage: Stage) -> &'static str {
    match stage {
        Stage::NotYet => "not-yet",
        Stage::SpawnRun => "spawn-run",
        Stage::MayFruit => "may-fruit",
        Stage::Cropping(_) => "cropping",
        Stage::Old => "old",
        Stage::Gone => "gone",
        Stage::Unknown => "unknown",
    }
}

/// Where each batch stands in its life this season.
pub fn batches(findings: &Findings) -> Grid {
    let units = findings.choice.units;
    let season = findings.season.growing_year();
    let rows = findings.batches().iter().map(|found| {
        let record = &found.batch.record;
        let span = found.first_span();
        let year = found.years.iter().find(|year| year.year == season);
        let expected = year.and_then(|year| year.expected.as_ref());
        vec![
            text(&found.batch.id),
            text(&found.batch.strain.id),
            Cell::text(found.batch.wood.as_ref().map(|wood| wood.id.as_str())),
            Cell::Number(f64::from(record.logs), 0),
            Cell::Number(f64::from(found.lost), 0),
            text(record.inoculated.written()),
            Cell::text(span.map(|[from, _]| from.written())),
            Cell::text(span.map(|[_, to]| to.written())),
            text(stage_word(found.stage)),
            match found.stage {
                Stage::Cropping(year) => Cell::Number(f64::from(year), 0),
                _ => Cell::Empty,
            },
            mass(Some(&found.picked()), units),
            mass(expected.map(|[least, _]| least), units),
            mass(expected.map(|[_, most]| most), units),
        ]
    });
    let [picked, least, most] =
        ["picked_so_far", "expected_least", "expected_most"].map(|name| format!("{name}_{}", mass_unit(units)));
    let columns = [
        "batch",
        "strain",
        "wood",
        "logs",
        "lost",
        "inoculated",
        "first_from",
        "first_to",
        "stage",
        "crop_year",
        &picked,
        &least,
        &most,
    ];
    grid(Table::Batches, &columns, rows.collect())
}

/// What was picked, day by day.
pub fn harvests(book: &Book, findings: &Findings) -> Grid {
    let units = findings.choice.units;
    let rows = book.harvests.iter().map(|harvest| {
        let logs: u32 = harvest.batches.iter().map(|batch| batch.record.logs).sum();
        vec![
            text(harvest.record.date.written()),
            words(harvest.batches.iter().map(|batch| batch.id.as_str())),
            Cell::Number(f64::from(logs), 0),
            mass(Some(&harvest.record.weight), units),
            Cell::text(harvest.record.note.as_deref()),
        ]
    });
    let picked = format!("picked_{}", mass_unit(units));
    grid(Table::Harvests, &["date", "batch", "logs", &picked, "note"], rows.collect())
}

/// What each batch should give and gave, year by year.
pub fn yields(findings: &Findings) -> Grid {
    let units = findings.choice.units;
    let mut rows = Vec::new();
    for found in findings.batches() {
        for year in &found.years {
            let expected = year.expected.as_ref();
            let end = |index: usize| mass(expected.map(|both| &both[index]), units);
            let crop = (year.crop > 0).then_some(f64::from(year.crop));
            rows.push(vec![
                text(&found.batch.id),
                text(&found.batch.strain.id),
                Cell::Number(f64::from(year.year), 0),
                Cell::number(crop, 0),
                Cell::Number(f64::from(year.logs), 0),
                end(0),
                end(1),
                mass(year.picked.as_ref(), units),
                mass(year.a_log().as_ref(), units),
            ]);
        }
    }
    let [least, most, picked, a_log] = ["expected_least", "expected_most", "picked", "picked_a_log"]
        .map(|name| format!("{name}_{}", mass_unit(units)));
    let columns = ["batch", "strain", "year", "crop_year", "logs", &least, &most, &picked, &a_log];
    grid(Table::Yields, &columns, rows)
}

/// Every trouble.
pub fn troubles(book: &Book) -> Grid {
    let rows = book.troubles.values().map(|trouble| {
        let record = &trouble.record;
        let mut sources: Vec<&str> = record.causes.iter().map(|cause| cause.source.as_str()).collect();
        sources.extend(record.remedies.iter().chain(&record.give_up).map(|said| said.source.as_str()));
        sources.sort_unstable();
        sources.dedup();
        vec![
            text(&trouble.id),
            text(&record.name),
            words(record.shows.iter().map(|part| part.id())),
            words(record.when.iter().map(|stage| stage.id())),
            text(record.causes.iter().map(|cause| cause.cause.as_str()).collect::<Vec<_>>().join(" ")),
            Cell::Flag(record.give_up.is_some()),
            words(trouble.mushrooms.iter().map(|mushroom| mushroom.id.as_str())),
            words(sources),
        ]
    });
    let columns = ["trouble", "name", "shows", "when", "causes", "says_when_to_give_up", "mushrooms", "sources"];
    grid(Table::Troubles, &columns, rows.collect())
}
