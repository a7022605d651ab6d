//! What was picked, beside what sources say a log should give.

use serde::Serialize;

use crate::page::part::caution::{Cautions, grown};
use crate::page::part::table::{Table, below, cell, list, or_dash, or_gap};
use crate::page::part::{Anchor, Figure, mass_range, year_words};
use crate::page::{Context, Page};
use crate::reckon::Topic;
use crate::reckon::findings::batches;
use crate::reckon::findings::batches::BatchYear;
use crate::record::caution::Task;

/// What was picked.
#[derive(Debug, Serialize)]
pub struct View {
    rows: Option<Table>,
    days: Option<Table>,
    totals: Vec<(String, String)>,
    cautions: Cautions,
    selling: String,
    batches: String,
    working: String,
}

/// The view of all harvests.
pub fn view(context: &Context<'_>) -> View {
    let south = context.findings.season.south;
    View {
        rows: years(context),
        days: days(context),
        totals: batches::totals(context.book, south)
            .into_iter()
            .map(|(year, mass)| (year_words(year, south), mass.show(context.units())))
            .collect(),
        cautions: Cautions::of(Task::Harvest, &grown(context), context).without_rules(),
        selling: context.route.to(&Page::Selling),
        batches: context.route.to(&Page::Batches),
        working: context.route.at(&Page::Working(Topic::Yard), "life"),
    }
}

/// The growing years of each batch with something picked, or something that should have been.
fn years(context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let rows = context.findings.batches().iter().flat_map(|found| {
        let last = found.years.iter().filter(|year| year.picked.is_some()).map(|year| year.year).max();
        let shown = move |year: &&BatchYear| {
            year.picked.is_some() || (year.crop > 0 && last.is_some_and(|last| year.year < last))
        };
        found.years.iter().filter(shown).map(move |year| (found, year))
    });
    Table::of("facts stack", "What each batch gave", rows)
        .own()
        .head("Batch", |(found, _)| Anchor::batch(&found.batch, context))
        .column("Year", |(_, year)| year_words(year.year, context.findings.season.south))
        .number("Crop year", |(_, year)| year.crop)
        .number("Logs", |(_, year)| year.logs)
        .number("Picked", |(_, year)| or_gap(year.picked.as_ref().map(|mass| mass.show(units)), "nothing written"))
        .number("A log", |(_, year)| or_dash(year.a_log().map(|mass| mass.show(units))))
        .number("Expected", |(found, year)| {
            let expected = year.expected.as_ref().map(|both| mass_range(both, units));
            or_gap(expected.map(|text| Figure::worked(text, &found.life_place(), context)), "not published")
        })
        .column("Beside the sources", |(_, year)| or_dash(year.beside.map(verdict)))
        .done()
}

fn days(context: &Context<'_>) -> Option<Table> {
    Table::of("facts", "Pickings", context.book.harvests.iter().rev())
        .head("Day", |harvest| harvest.record.date.show(context.units()))
        .column("Batch", |harvest| {
            let batches = harvest.batches.iter().map(|batch| Anchor::batch(batch, context));
            cell![list(", ", batches), below(harvest.record.note.clone())]
        })
        .number("Weight", |harvest| harvest.record.weight.show(context.units()))
        .done()
}

/// How a year's picking stands beside the sources, in words.
fn verdict([more, within, less]: [usize; 3]) -> String {
    let all = more + within + less;
    let told = [(within, "within"), (more, "below"), (less, "above")].into_iter().filter(|(count, _)| *count > 0);
    let ranges = |(count, words)| match all {
        1 => format!("{words} the published range"),
        all => format!("{words} {count} of {all} published ranges"),
    };
    told.map(ranges).collect::<Vec<_>>().join(", ")
}
