//! Findings as flat rows: one table a question, columns with their unit in the name.
//!
//! A column is said once: its name, and how it is read from a row. What it is read as tells the unit in its name and
//! its decimals, so that a row can neither be short nor be in another unit than its head.

mod handbook;
mod key;
mod logs;
mod outlook;
mod winter;
mod yard;
mod year;

use uom::si::f64 as si;

pub use winter::{NAMED, in_doubt, why};

use super::Findings;
use crate::book::Book;
use crate::quantity::{Area, Date, Length, Mass, Percent, Temperature, TemperatureStep, Units, Value};
use crate::reckon::formula::Figure;
use crate::record::table::{Query, Table};

/// A computed table: named columns over flat rows.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    /// Names of the columns.
    pub columns: Vec<String>,
    /// Rows, each with a cell for every column: a text, a bare number, yes or no, or nothing where it is not known.
    pub rows: Vec<Vec<Option<Value>>>,
}

impl Grid {
    /// Lays a table out from findings.
    pub fn of(table: Table, book: &Book, findings: &Findings) -> Self {
        let units = findings.choice.units;
        match table {
            Table::Mushrooms => handbook::mushrooms(book, units),
            Table::Woods => handbook::woods(book, units),
            Table::Pairings => handbook::pairings(findings),
            Table::Seasons => year::seasons(findings),
            Table::Strains => handbook::strains(book, units),
            Table::Weights => logs::weights(book, findings),
            Table::Inoculation => logs::inoculation(findings),
            Table::Trees => winter::trees(findings),
            Table::TreeKey => key::tree_key(findings),
            Table::Bolts => winter::bolts(findings),
            Table::Lifting => logs::lifting(book, findings),
            Table::Moisture => logs::moisture(findings),
            Table::Supply => outlook::supply(findings),
            Table::Allocation => winter::allocation(findings),
            Table::Planning => outlook::planning(findings),
            Table::Ledger => winter::ledger(findings),
            Table::Thinning => winter::thinning(findings),
            Table::Money => outlook::money(findings),
            Table::Climate => year::climate(book, findings),
            Table::Fruiting => year::fruiting(findings),
            Table::Calendar => year::calendar(findings),
            Table::SoakRota => yard::soak_rota(findings),
            Table::Batches => yard::batches(findings),
            Table::Harvests => yard::harvests(book, units),
            Table::Sales => yard::sales(findings),
            Table::Yields => yard::yields(findings),
            Table::Troubles => handbook::troubles(book, units),
            Table::Cautions => handbook::cautions(book, units),
            Table::Sources => handbook::sources(book, units),
        }
    }

    /// The rows that a query picks; a cell with several words matches any of them.
    pub fn picked(mut self, query: &Query) -> Self {
        for (column, value) in &query.filters {
            let Some(index) =
                self.columns.iter().position(|name| name == column || name.trim_end_matches('s') == column)
            else {
                continue;
            };
            self.rows.retain(|row| {
                let text = text(row[index].as_ref());
                text == *value || text.replace(' ', "-") == *value || text.split(' ').any(|word| word == value)
            });
        }
        self
    }
}

/// A cell as text: a number without its unit, which stands in the name of the column.
pub fn text(cell: Option<&Value>) -> String {
    cell.map_or_else(String::new, |cell| cell.show(Units::default()))
}

/// A table while its columns are said one by one.
struct Sheet<R> {
    rows: Vec<R>,
    columns: Vec<(&'static str, Unit)>,
    cells: Vec<Vec<Option<Value>>>,
}

impl<R: Copy> Sheet<R> {
    fn of(rows: impl IntoIterator<Item = R>) -> Self {
        let rows: Vec<R> = rows.into_iter().collect();
        Self { cells: vec![Vec::new(); rows.len()], rows, columns: Vec::new() }
    }

    /// A column, and how its cells are read from a row.
    fn column<C: Cell>(mut self, name: &'static str, read: impl Fn(R) -> C) -> Self {
        self.columns.push((name, C::UNIT));
        for (cells, row) in self.cells.iter_mut().zip(&self.rows) {
            cells.push(read(*row).value());
        }
        self
    }

    /// A column of numbers whose unit, if any, stands in its name in both unit systems.
    fn number<N: Into<Option<f64>>>(self, name: &'static str, decimals: usize, read: impl Fn(R) -> N) -> Self {
        self.column(name, |row| read(row).into().map(|number| (number, decimals)))
    }

    /// Gives the last column other decimals than its kind has.
    fn to(mut self, decimals: usize) -> Self {
        if let Some((_, unit)) = self.columns.last_mut() {
            unit.decimals = decimals;
        }
        self
    }

    fn grid(self, units: Units) -> Grid {
        let bare = |(cell, (_, unit)): (Option<Value>, &(_, Unit))| cell.map(|cell| unit.bare(cell, units));
        let columns = &self.columns;
        Grid {
            rows: self.cells.into_iter().map(|row| row.into_iter().zip(columns).map(bare).collect()).collect(),
            columns: columns.iter().map(|(name, unit)| unit.after(name, units)).collect(),
        }
    }
}

/// The unit of a column in both systems, and its decimals.
#[derive(Clone, Copy)]
struct Unit {
    us: &'static str,
    metric: &'static str,
    decimals: usize,
}

impl Unit {
    /// The name of a column with this unit.
    fn after(self, name: &str, units: Units) -> String {
        match units {
            Units::Us if !self.us.is_empty() => format!("{name}_{}", self.us),
            Units::Metric if !self.metric.is_empty() => format!("{name}_{}", self.metric),
            _ => name.to_owned(),
        }
    }

    /// A quantity as the bare number that its column holds, a date as ISO 8601 writes it.
    fn bare(self, value: Value, units: Units) -> Value {
        match (&value, value.number(units)) {
            (Value::Date(date), _) => Value::Text(date.written()),
            (Value::Count(_) | Value::Number(..), _) | (_, None) => value,
            (_, Some(number)) => Value::Number(number, self.decimals),
        }
    }
}

/// What a column can be read as: a kind of value with a unit, known before there is a row.
trait Cell {
    const UNIT: Unit;

    fn value(self) -> Option<Value>;
}

impl<C: Cell> Cell for Option<C> {
    const UNIT: Unit = C::UNIT;

    fn value(self) -> Option<Value> {
        self.and_then(C::value)
    }
}

impl<C: Cell + Clone> Cell for &C {
    const UNIT: Unit = C::UNIT;

    fn value(self) -> Option<Value> {
        self.clone().value()
    }
}

impl<C: Cell + Clone> Cell for Figure<C> {
    const UNIT: Unit = C::UNIT;

    fn value(self) -> Option<Value> {
        self.result.ok().and_then(C::value)
    }
}

/// A length in feet or metres.
struct Height(Length);

impl From<Height> for Value {
    fn from(height: Height) -> Self {
        Self::Height(height.0)
    }
}

macro_rules! cells {
    ($($($cell:ty),+: $us:literal, $metric:literal, $decimals:literal;)+) => {
        $($(impl Cell for $cell {
            const UNIT: Unit = Unit { us: $us, metric: $metric, decimals: $decimals };

            fn value(self) -> Option<Value> {
                Some(self.into())
            }
        })+)+
    };
}

cells! {
    &str, String, bool, Date, u32, usize, (f64, usize): "", "", 0;
    Percent: "percent", "percent", 1;
    Length: "in", "cm", 1;
    Height: "ft", "m", 1;
    Mass: "lb", "kg", 2;
    Temperature: "f", "c", 1;
    TemperatureStep: "f", "c", 3;
    si::Volume: "ft3", "l", 4;
    Area: "ft2", "m2", 1;
}

/// Money for a pound or a kilogram, as the units of its table have it.
struct AWeight(f64);

impl Cell for AWeight {
    const UNIT: Unit = Unit { us: "lb", metric: "kg", decimals: 2 };

    fn value(self) -> Option<Value> {
        Some(Value::Number(self.0, Self::UNIT.decimals))
    }
}

/// Several words in one cell.
fn words<'a>(words: impl IntoIterator<Item = &'a str>) -> String {
    words.into_iter().collect::<Vec<_>>().join(" ")
}
