//! All strains, and one of them.

use serde::Serialize;

use super::part::caution::Caution;
use super::part::cite::Line;
use super::part::fruiting::Fruits;
use super::part::sheet::Sheet;
use super::part::table::{Part, Table, cell, list, or_dash, or_gap};
use super::part::{Anchor, caution};
use super::{Context, Page};
use crate::book::{Strain, Writer};
use crate::record::Kind;
use crate::record::caution::Task;
use crate::record::said::Stage;
use crate::record::strain::{Class, SpawnForm};

/// The list of strains.
#[derive(Debug, Serialize)]
pub struct Index {
    own: Option<Table>,
    handbook: Option<Table>,
}

/// One strain.
#[derive(Debug, Serialize)]
pub struct View {
    mushroom: Anchor,
    class: Option<&'static str>,
    about: Option<String>,
    own: bool,
    spawn: Vec<&'static str>,
    temperatures: Vec<Line>,
    soaks: Option<bool>,
    fruits: Option<Fruits>,
    table: String,
    batches: Vec<Anchor>,
    remarks: Vec<Line>,
    cautions: Vec<Caution>,
    safety: Anchor,
    notes: Vec<Anchor>,
    sheet: Sheet,
}

/// The view of the list of strains.
pub fn index(context: &Context<'_>) -> Index {
    let titled = |title: &str, own: bool| {
        let strains = context.book.strains.values();
        Table::of("facts stack", title, strains.filter(|strain| (strain.origin.writer != Writer::Handbook) == own))
            .head("Strain", |strain| Anchor::strain(strain, context))
            .column("Mushroom", |strain| mushroom(strain, context))
            .column("Class", |strain| or_dash(strain.record.class.map(Class::words)))
            .column("Fruits at", |strain| {
                let bands = strain.record.temperatures.iter().filter(|band| band.stage == Stage::Fruiting);
                let lines = bands.map(|band| Line::band(band, context));
                let lines = lines.map(|line| cell![line.figure, " ", Part::Small(line.cites.into())]);
                or_gap(list("; ", lines), "no band is published")
            })
            .done()
    };
    Index { own: titled("Our own strains", true), handbook: titled("Classes in the handbook", false) }
}

fn mushroom(strain: &Strain, context: &Context<'_>) -> Anchor {
    Anchor::mushroom(&strain.mushroom, context)
}

/// The view of one strain.
pub fn view(strain: &Strain, context: &Context<'_>) -> View {
    let record = &strain.record;
    let found = context.findings.fruiting().iter().find(|found| found.id() == strain.id);
    View {
        mushroom: mushroom(strain, context),
        class: record.class.map(Class::words),
        about: record.about.clone(),
        own: strain.origin.writer != Writer::Handbook,
        spawn: record.spawn.iter().copied().map(SpawnForm::words).collect(),
        temperatures: record.temperatures.iter().map(|band| Line::band(band, context)).collect(),
        soaks: strain.answers_to_soaking(),
        fruits: found.map(|found| Fruits::of_strain(found, context)),
        table: format!("{}tables/fruiting.csv", context.route.root()),
        batches: context
            .book
            .batches
            .values()
            .filter(|batch| batch.strain.id == strain.id)
            .map(|batch| Anchor::batch(batch, context))
            .collect(),
        remarks: Line::all(&record.remarks, context),
        cautions: caution::of_mushroom(&strain.mushroom, context),
        safety: Anchor::to(context.route.at(&Page::Safety, Task::Harvest.id()), Task::Harvest.words(), context),
        notes: Anchor::notes_about(Kind::Strain, &strain.id, context),
        sheet: Sheet::behind(Kind::Strain, &strain.id, &strain.origin, context),
    }
}
