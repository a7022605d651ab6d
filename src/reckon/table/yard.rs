//! The tables of the yard: soaks, batches, harvests, sales, yields.

use super::{AWeight, Grid, Sheet, words};
use crate::book::Book;
use crate::quantity::Units;
use crate::reckon::Findings;
use crate::reckon::findings::batches::{BatchFinding, Stage};
use crate::reckon::findings::sales::unit;

/// Which logs go into the tank on which day.
pub fn soak_rota(findings: &Findings) -> Grid {
    let rotas = findings.rotas().iter();
    let mut rows: Vec<_> = rotas.flat_map(|rota| rota.turns.iter().map(move |turn| (rota, turn))).collect();
    rows.sort_by_key(|(rota, turn)| (turn.date, &rota.strain.id));
    Sheet::of(rows)
        .column("date", |(_, turn)| turn.date)
        .column("group", |(_, turn)| turn.group)
        .column("logs", |(_, turn)| turn.count())
        .column("strain", |(rota, _)| &rota.strain.id)
        .column("week", |(_, turn)| turn.week)
        .column("picked_by", |(_, turn)| turn.picked_by())
        .column("batches", |(_, turn)| {
            let logs: Vec<String> = turn.logs.iter().map(|(batch, logs)| format!("{}:{logs}", batch.id)).collect();
            logs.join(" ")
        })
        .column("tank", |(rota, _)| rota.yard.as_ref())
        .grid(findings.choice.units)
}

/// Where each batch stands in its life this season.
pub fn batches(findings: &Findings) -> Grid {
    let season = findings.season.growing_year();
    let expected = |of: &BatchFinding| of.years.iter().find(|year| year.year == season)?.expected.clone();
    Sheet::of(findings.batches())
        .column("batch", |of| &of.batch.id)
        .column("strain", |of| &of.batch.strain.id)
        .column("wood", |of| of.batch.wood.as_ref().map(|wood| &wood.id))
        .column("logs", |of| of.batch.logs)
        .column("lost", |of| of.balance.lost)
        .column("inoculated", |of| of.batch.record.inoculated)
        .column("first_from", |of| of.first_span().map(|[from, _]| from))
        .column("first_to", |of| of.first_span().map(|[_, to]| to))
        .column("stage", |of| of.stage.word())
        .column("crop_year", |of| match of.stage {
            Stage::Cropping(year) => Some(year),
            _ => None,
        })
        .column("picked_so_far", BatchFinding::picked)
        .column("expected_least", |of| expected(of).map(|[least, _]| least))
        .column("expected_most", |of| expected(of).map(|[_, most]| most))
        .column("spawn_lots", |of| words(of.spawn_lots.iter().map(String::as_str)))
        .grid(findings.choice.units)
}

/// What was picked, day by day.
pub fn harvests(book: &Book, units: Units) -> Grid {
    Sheet::of(&book.harvests)
        .column("date", |of| of.record.date)
        .column("batch", |of| words(of.batches.iter().map(|batch| batch.id.as_str())))
        .column("logs", |of| of.batches.iter().map(|batch| batch.logs).sum::<u32>())
        .column("picked", |of| &of.record.weight)
        .column("note", |of| of.record.note.as_ref())
        .grid(units)
}

/// What was sold and taken, by strain, wood and lot of spawn.
pub fn sales(findings: &Findings) -> Grid {
    let units = findings.choice.units;
    Sheet::of(findings.sales())
        .column("strain", |of| &of.strain.id)
        .column("wood", |of| of.wood.as_ref().map(|wood| &wood.id))
        .column("spawn_lots", |of| words(of.spawn_lots.iter().map(String::as_str)))
        .column("batches", |of| words(of.batches.iter().map(|batch| batch.id.as_str())))
        .column("first", |of| of.takings.days[0])
        .column("last", |of| of.takings.days[1])
        .column("sold", |of| &of.takings.sold)
        .column("unsold", |of| &of.takings.unsold)
        .number("taken", 2, |of| of.takings.taken)
        .column("taken_a", |of| of.takings.sold_for(&unit(units)).map(AWeight))
        .grid(units)
}

/// What each batch should give and gave, year by year.
pub fn yields(findings: &Findings) -> Grid {
    let batches = findings.batches().iter();
    Sheet::of(batches.flat_map(|of| of.years.iter().map(move |year| (of, year))))
        .column("batch", |(of, _)| &of.batch.id)
        .column("strain", |(of, _)| &of.batch.strain.id)
        .number("year", 0, |(_, year)| f64::from(year.year))
        .column("crop_year", |(_, year)| Some(year.crop).filter(|crop| *crop > 0))
        .column("logs", |(_, year)| year.logs)
        .column("expected_least", |(_, year)| year.expected.as_ref().map(|[least, _]| least))
        .column("expected_most", |(_, year)| year.expected.as_ref().map(|[_, most]| most))
        .column("picked", |(_, year)| year.picked.as_ref())
        .column("picked_a_log", |(_, year)| year.a_log())
        .grid(findings.choice.units)
}
