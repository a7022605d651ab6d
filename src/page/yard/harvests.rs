//! What was picked, beside what sources say a log should give.

use serde::Serialize;

use crate::page::{
    Context, Page,
    part::{Anchor, Figure, mass_range, number_word, year_words},
};
use crate::reckon::Topic;
use crate::reckon::findings::{
    BatchFinding,
    batches::{self, BatchYear},
};

/// What was picked.
#[derive(Debug, Serialize)]
pub struct View {
    rows: Vec<Row>,
    days: Vec<Day>,
    totals: Vec<(String, String)>,
    selling: String,
    batches: String,
    working: String,
}

/// One growing year of one batch with something picked, or something that should have been.
#[derive(Debug, Serialize)]
struct Row {
    batch: Anchor,
    strain: Anchor,
    wood: Option<Anchor>,
    year: String,
    crop: u32,
    logs: u32,
    picked: Option<String>,
    a_log: Option<String>,
    expected: Option<Figure>,
    verdict: Option<String>,
}

/// One day's picking.
#[derive(Debug, Serialize)]
struct Day {
    date: String,
    batches: Vec<Anchor>,
    weight: String,
    note: Option<String>,
}

/// The view of all harvests.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let (book, findings) = (context.book, context.findings);
    let units = context.units();
    let south = findings.season.south;
    View {
        rows: findings.batches().iter().flat_map(|found| rows(found, context)).collect(),
        days: book
            .harvests
            .iter()
            .rev()
            .map(|harvest| Day {
                date: harvest.record.date.show(),
                batches: harvest.batches.iter().map(|batch| Anchor::batch(batch, context)).collect(),
                weight: harvest.record.weight.show(units),
                note: harvest.record.note.clone(),
            })
            .collect(),
        totals: batches::totals(book, south)
            .into_iter()
            .map(|(year, mass)| (year_words(year, south), mass.show(units)))
            .collect(),
        selling: context.route.to(&Page::Selling),
        batches: context.route.to(&Page::Batches),
        working: context.route.at(&Page::Working(Topic::Yard), "life"),
    }
}

fn rows(found: &BatchFinding, context: &Context<'_>) -> Vec<Row> {
    let last = found.years.iter().filter(|year| year.picked.is_some()).map(|year| year.year).max();
    let shown =
        |year: &&BatchYear| year.picked.is_some() || (year.crop > 0 && last.is_some_and(|last| year.year < last));
    found.years.iter().filter(shown).map(|year| row(found, year, context)).collect()
}

fn row(found: &BatchFinding, year: &BatchYear, context: &Context<'_>) -> Row {
    let units = context.units();
    let picked = year.picked.as_ref();
    Row {
        batch: Anchor::batch(&found.batch, context),
        strain: Anchor::strain(&found.batch.strain, context),
        wood: found.batch.wood.as_ref().map(|wood| Anchor::wood(wood, context)),
        year: year_words(year.year, context.findings.season.south),
        crop: year.crop,
        logs: year.logs,
        picked: picked.map(|mass| mass.show(units)),
        a_log: year.a_log().map(|mass| mass.show(units)),
        expected: year
            .expected
            .as_ref()
            .map(|both| Figure::worked(mass_range(both, units), &found.life_place(), context)),
        verdict: year.beside.map(verdict),
    }
}

/// How a year's picking stands beside the sources, in words.
fn verdict([more, within, less]: [usize; 3]) -> String {
    let sources =
        |count: usize| if count == 1 { "one source".to_owned() } else { format!("{} sources", number_word(count)) };
    let parts = [(more, "less than"), (within, "as much as"), (less, "more than")];
    let told = parts.into_iter().filter(|(count, _)| *count > 0);
    told.map(|(count, words)| format!("{words} {} would have it", sources(count))).collect::<Vec<_>>().join("; ")
}
