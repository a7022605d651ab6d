//! How many logs a tree gives that nobody has tagged, by its diameter and its height.

use super::table::{Cell, Part, Table, below, cell};
use super::weight::about;
use crate::book::Wood;
use crate::page::Context;
use crate::quantity::{Length, Units};
use crate::reckon::findings::trees::{Untagged, untagged};

/// Diameters at breast height, in inches or centimetres.
const ACROSS: [[f64; 8]; 2] =
    [[4.0, 5.0, 6.0, 7.0, 8.0, 10.0, 12.0, 14.0], [10.0, 12.5, 15.0, 17.5, 20.0, 25.0, 30.0, 35.0]];
/// Heights, in feet or metres.
const TALL: [[f64; 4]; 2] = [[40.0, 50.0, 60.0, 70.0], [12.0, 15.0, 18.0, 21.0]];

/// The logs of a stem of a wood, from those of one 5 % thinner, with the most that the heaviest of them weighs.
pub fn table(wood: &Wood, context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let across = units.pick(ACROSS[0], ACROSS[1]).map(|number| match units {
        Units::Us => Length::of_inches(number),
        Units::Metric => Length::of_metres(number / 100.0),
    });
    let tall = units.pick(TALL[0], TALL[1]).map(|number| match units {
        Units::Us => (format!("{number} ft tall"), Length::of_feet(number)),
        Units::Metric => (format!("{number} m tall"), Length::of_metres(number)),
    });
    let rows: Vec<(&Length, Vec<Option<Untagged>>)> = across
        .iter()
        .map(|dbh| (dbh, tall.iter().map(|(_, height)| untagged(context.findings, wood, dbh, height).ok()).collect()))
        .filter(|(_, found): &(_, Vec<Option<Untagged>>)| found.iter().flatten().any(|found| found.logs[1] > 0))
        .collect();
    let length = context.book.farm.record.log.length.show(units);
    let caption = format!("Logs {length} long of a tree without a tag, and what the heaviest weighs at the most");
    let table = Table::of("facts", &caption, rows.iter()).head("At breast height", |(dbh, _)| dbh.show(units));
    let columns = tall.iter().enumerate().fold(table, |table, (place, (heading, _))| {
        table.number(heading, |(_, found)| told(found[place].as_ref(), units))
    });
    columns.done()
}

fn told(found: Option<&Untagged>, units: Units) -> Cell {
    let Some(found) = found.filter(|found| found.logs[1] > 0) else { return Part::Nothing.into() };
    let [least, most] = found.logs.map(|logs| logs.to_string());
    cell![super::range(&least, &most), below(found.heaviest.as_ref().map(|mass| about(mass, units)))]
}
