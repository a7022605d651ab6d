//! Lays each table out.

use super::{Cell, Grid};
use crate::{
    book::Book,
    quantity::{Date, Length, Mass, Temperature, Units},
    reckon::{Findings, days::Stretch, season::Basis},
    record::{said::Stage, table::Table},
};

pub(super) fn text(text: impl Into<String>) -> Cell {
    Cell::Text(text.into())
}

pub(super) fn words(words: impl IntoIterator<Item = impl Into<String>>) -> Cell {
    Cell::Text(words.into_iter().map(Into::into).collect::<Vec<String>>().join(" "))
}

pub(super) fn grid(table: Table, columns: &[&str], rows: Vec<Vec<Cell>>) -> Grid {
    Grid { table, columns: columns.iter().map(|&name| name.to_owned()).collect(), rows }
}

/// The unit of a length column and the number in it.
pub(super) const fn length_unit(units: Units) -> &'static str {
    match units {
        Units::Us => "in",
        Units::Metric => "cm",
    }
}

pub(super) fn length(length: &Length, units: Units) -> Cell {
    match units {
        Units::Us => Cell::Number(length.inches(), 1),
        Units::Metric => Cell::Number(length.millimetres() / 10.0, 1),
    }
}

pub(super) const fn mass_unit(units: Units) -> &'static str {
    match units {
        Units::Us => "lb",
        Units::Metric => "kg",
    }
}

pub(super) fn mass(mass: Option<&Mass>, units: Units) -> Cell {
    Cell::number(
        mass.map(|mass| match units {
            Units::Us => mass.pounds(),
            Units::Metric => mass.base(),
        }),
        2,
    )
}

fn temperature(temperature: &Temperature, units: Units) -> Cell {
    match units {
        Units::Us => Cell::Number(temperature.fahrenheit(), 1),
        Units::Metric => Cell::Number(temperature.celsius(), 1),
    }
}

pub fn mushrooms(book: &Book) -> Grid {
    let rows = book
        .mushrooms
        .values()
        .map(|mushroom| {
            vec![
                text(&mushroom.id),
                text(mushroom.name()),
                text(&mushroom.record.scientific),
                Cell::text(mushroom.part_of.as_ref().map(|group| group.id.as_str())),
                words(mushroom.methods.iter().map(|method| method.id.as_str())),
                mushroom.record.answers_to_soaking.map_or(Cell::Empty, Cell::Flag),
                Cell::Number(mushroom.record.look_alikes.len() as f64, 0),
            ]
        })
        .collect();
    let columns = ["mushroom", "name", "scientific", "part_of", "methods", "answers_to_soaking", "look_alikes"];
    grid(Table::Mushrooms, &columns, rows)
}

pub fn woods(book: &Book) -> Grid {
    let rows = book
        .woods
        .values()
        .map(|wood| {
            let record = &wood.record;
            let (density, bark) = (record.density.as_ref(), record.bark.as_ref());
            let green = record.moisture.as_ref().and_then(|moisture| moisture.green.as_ref());
            vec![
                text(&wood.id),
                text(wood.name()),
                text(&record.scientific),
                Cell::text(record.symbol.as_deref()),
                Cell::text(wood.part_of.as_ref().map(|group| group.id.as_str())),
                Cell::Flag(!wood.is_conifer()),
                Cell::number(density.map(|density| density.basic), 3),
                Cell::number(green.map(crate::quantity::measure::Percent::base), 1),
                Cell::number(bark.map(|bark| bark.share.base()), 1),
                Cell::text(density.map(|density| density.source.as_str())),
                Cell::text(density.map(|density| density.mark.words())),
            ]
        })
        .collect();
    let columns = [
        "wood",
        "name",
        "scientific",
        "symbol",
        "part_of",
        "broadleaved",
        "basic_density",
        "green_moisture_percent",
        "bark_percent",
        "source",
        "mark",
    ];
    grid(Table::Woods, &columns, rows)
}

pub fn pairings(findings: &Findings) -> Grid {
    let rows = findings
        .pairings()
        .iter()
        .map(|pair| {
            vec![
                text(&pair.mushroom.id),
                text(&pair.wood.id),
                Cell::number(pair.rating().map(f64::from), 0),
                text(pair.word.words()),
                Cell::number(pair.agreement(), 2),
                Cell::Number(pair.sources as f64, 0),
                text(pair.reach.word()),
            ]
        })
        .collect();
    grid(Table::Pairings, &["mushroom", "wood", "rating", "word", "agreement", "sources", "basis"], rows)
}

pub fn seasons(findings: &Findings) -> Grid {
    let mut rows = Vec::new();
    for found in findings.windows() {
        if let Some((dates, told)) = found.dates(findings.season).zip(found.told.as_ref().ok()) {
            let kind = kind_word(found.window.record.kind);
            rows.push(dated_row(found.window.id.clone(), kind, dates, told.basis()));
        }
    }
    for felling in findings.fellings() {
        for wood in &felling.woods {
            for interval in &felling.intervals {
                rows.push(season_row(
                    findings,
                    format!("fell {}", wood.id),
                    "cut",
                    *interval,
                    felling.basis(*interval),
                ));
            }
        }
    }
    for inoculation in findings.inoculations() {
        let felling = &findings.fellings()[inoculation.felling];
        for carried in &inoculation.carried {
            for wood in &felling.woods {
                let name = format!("inoculate {} on {}", inoculation.mushroom.id, wood.id);
                rows.push(season_row(
                    findings,
                    name,
                    "inoculate",
                    carried.inoculation,
                    inoculation.basis(felling, carried),
                ));
            }
        }
    }
    grid(Table::Seasons, &["window", "kind", "from", "to", "days", "basis"], rows)
}

fn season_row(findings: &Findings, name: String, kind: &str, stretch: impl Into<Stretch>, basis: Basis) -> Vec<Cell> {
    dated_row(name, kind, findings.season.dates(stretch), basis)
}

fn dated_row(name: String, kind: &str, (from, to): (Date, Date), basis: Basis) -> Vec<Cell> {
    let days = (to.0 - from.0).get_days() + 1;
    vec![
        Cell::Text(name),
        text(kind),
        Cell::Text(from.written()),
        Cell::Text(to.written()),
        Cell::Number(f64::from(days), 0),
        text(basis.word()),
    ]
}

fn kind_word(kind: crate::record::window::WindowKind) -> &'static str {
    use crate::record::window::WindowKind;
    match kind {
        WindowKind::Cut => "cut",
        WindowKind::NoCut => "no-cut",
        WindowKind::Inoculate => "inoculate",
        WindowKind::Fruit => "fruit",
        WindowKind::Soak => "soak",
        WindowKind::Other => "other",
    }
}

pub fn strains(book: &Book, findings: &Findings) -> Grid {
    let units = findings.choice.units;
    let unit = if units == Units::Us { "f" } else { "c" };
    let mut rows = Vec::new();
    for strain in book.strains.values() {
        let head = || {
            vec![
                text(&strain.id),
                text(&strain.record.name),
                text(&strain.mushroom.id),
                Cell::text(strain.record.class.map(crate::record::strain::Class::words)),
            ]
        };
        let bands =
            strain.record.temperatures.iter().filter(|band| matches!(band.stage, Stage::Fruiting | Stage::Pinning));
        let before = rows.len();
        for band in bands {
            let mut row = head();
            row.extend([
                text(band.stage.words()),
                temperature(&band.range.low, units),
                temperature(&band.range.high, units),
                text(band.source.as_str()),
                text(band.mark.words()),
            ]);
            rows.push(row);
        }
        if rows.len() == before {
            let mut row = head();
            row.extend([Cell::Empty, Cell::Empty, Cell::Empty, Cell::Empty, Cell::Empty]);
            rows.push(row);
        }
    }
    let (low, high) = (format!("low_{unit}"), format!("high_{unit}"));
    grid(Table::Strains, &["strain", "name", "mushroom", "class", "stage", &low, &high, "source", "mark"], rows)
}

pub fn weights(findings: &Findings) -> Grid {
    let units = findings.choice.units;
    let rows = findings
        .weights()
        .iter()
        .map(|weight| {
            let basis = if weight.green.bark.is_some() { "wood and bark" } else { "wood alone" };
            vec![
                text(&weight.wood.id),
                length(&weight.diameter, units),
                length(&weight.length, units),
                mass(weight.mass.as_ref().ok(), units),
                mass(weight.range.as_ref().map(|[low, _]| low), units),
                mass(weight.range.as_ref().map(|[_, high]| high), units),
                text(match &weight.mass {
                    Ok(_) => basis.to_owned(),
                    Err(gap) => gap.to_string(),
                }),
            ]
        })
        .collect();
    let unit = length_unit(units);
    let (diameter, length) = (format!("diameter_{unit}"), format!("length_{unit}"));
    let [mass, low, high] = ["mass", "mass_least", "mass_most"].map(|name| format!("{name}_{}", mass_unit(units)));
    grid(Table::Weights, &["wood", &diameter, &length, &mass, &low, &high, "basis"], rows)
}

pub fn inoculation(findings: &Findings) -> Grid {
    let units = findings.choice.units;
    let rows = findings
        .fillings()
        .iter()
        .map(|filling| {
            let need = filling.need.as_ref().ok();
            let [least, most] = filling.all_spawn().map_or([None, None], |both| both.map(Some));
            vec![
                text(&filling.pattern.name),
                text(filling.form.id()),
                length(&filling.diameter, units),
                length(&filling.length, units),
                Cell::Number(f64::from(filling.logs), 0),
                Cell::Number(f64::from(filling.whole_holes()), 0),
                Cell::Number(f64::from(filling.all_holes()), 0),
                mass(least.as_ref(), units),
                mass(most.as_ref(), units),
                Cell::number(need.map(|need| f64::from(need.packages_least)), 0),
                Cell::number(need.map(|need| f64::from(need.packages_most)), 0),
                text(filling.pattern.source.as_str()),
                text(filling.pattern.mark.words()),
            ]
        })
        .collect();
    let unit = length_unit(units);
    let (diameter, length) = (format!("diameter_{unit}"), format!("length_{unit}"));
    let (least, most) = (format!("spawn_least_{}", mass_unit(units)), format!("spawn_most_{}", mass_unit(units)));
    let columns = [
        "pattern",
        "spawn",
        &diameter,
        &length,
        "logs",
        "holes_per_log",
        "holes",
        &least,
        &most,
        "packages_least",
        "packages_most",
        "source",
        "mark",
    ];
    grid(Table::Inoculation, &columns, rows)
}

pub fn cautions(book: &Book) -> Grid {
    let rows = book
        .cautions
        .values()
        .map(|caution| {
            let record = &caution.record;
            vec![
                text(&caution.id),
                text(&record.hazard),
                words(record.tasks.iter().map(|task| task.id())),
                text(match record.severity {
                    crate::record::caution::Severity::Grave => "grave",
                    crate::record::caution::Severity::Harm => "harm",
                    crate::record::caution::Severity::Watch => "watch",
                }),
                text(record.protects.join(", ")),
                Cell::Flag(record.defer),
                text(&record.says),
                words(record.sources.iter().map(crate::record::Id::as_str)),
                text(record.mark.words()),
            ]
        })
        .collect();
    let columns = ["caution", "hazard", "tasks", "severity", "protects", "defer", "says", "sources", "mark"];
    grid(Table::Cautions, &columns, rows)
}

pub fn sources(book: &Book) -> Grid {
    let rows = book
        .sources
        .values()
        .map(|source| {
            let record = &source.record;
            vec![
                text(&source.id),
                text(&record.short),
                text(&record.authors),
                Cell::number(record.year.map(f64::from), 0),
                text(&record.title),
                Cell::text(record.number.as_deref()),
                text(record.kind.words()),
                Cell::text(record.team.as_deref()),
                Cell::text(record.read.as_deref()),
            ]
        })
        .collect();
    let columns = ["source", "short", "authors", "year", "title", "number", "kind", "team", "read"];
    grid(Table::Sources, &columns, rows)
}
