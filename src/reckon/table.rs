//! Findings as flat rows: one table a question, columns with their unit in the name.

mod build;
mod outlook;
mod winter;
mod yard;
mod year;

use std::fmt;

pub use outlook::over;
pub use winter::{basal_area, why};
pub use year::BASE;

use super::Findings;
use crate::{
    book::Book,
    quantity::measure::rounded,
    record::table::{Query, Table},
};

/// A value in a table.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Text.
    Text(String),
    /// A number and the decimals it is printed with.
    Number(f64, usize),
    /// True or false.
    Flag(bool),
    /// Not known.
    Empty,
}

impl Cell {
    /// A text, or nothing.
    #[must_use]
    pub fn text(text: Option<impl Into<String>>) -> Self {
        text.map_or(Self::Empty, |text| Self::Text(text.into()))
    }

    /// A number, or nothing.
    #[must_use]
    pub fn number(number: Option<f64>, decimals: usize) -> Self {
        number.map_or(Self::Empty, |number| Self::Number(number, decimals))
    }
}

impl fmt::Display for Cell {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Text(text) => f.write_str(text),
            Self::Number(number, decimals) => f.write_str(&rounded(*number, *decimals)),
            Self::Flag(true) => f.write_str("yes"),
            Self::Flag(false) => f.write_str("no"),
            Self::Empty => Ok(()),
        }
    }
}

/// A computed table: named columns over flat rows.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    /// Which table it is.
    pub table: Table,
    /// Names of the columns.
    pub columns: Vec<String>,
    /// Rows, each with a cell for every column.
    pub rows: Vec<Vec<Cell>>,
}

impl Grid {
    /// Lays a table out from findings.
    #[must_use]
    pub fn of(table: Table, book: &Book, findings: &Findings) -> Self {
        match table {
            Table::Mushrooms => build::mushrooms(book),
            Table::Woods => build::woods(book),
            Table::Pairings => build::pairings(findings),
            Table::Seasons => build::seasons(findings),
            Table::Strains => build::strains(book, findings),
            Table::Weights => build::weights(findings),
            Table::Inoculation => build::inoculation(findings),
            Table::Trees => winter::trees(findings),
            Table::Bolts => winter::bolts(findings),
            Table::Lifting => winter::lifting(book, findings),
            Table::Moisture => winter::moisture(findings),
            Table::Supply => winter::supply(findings),
            Table::Allocation => winter::allocation(findings),
            Table::Planning => outlook::planning(findings),
            Table::Thinning => winter::thinning(findings),
            Table::Money => outlook::money(findings),
            Table::Climate => year::climate(book, findings),
            Table::Fruiting => year::fruiting(findings),
            Table::Calendar => year::calendar(findings),
            Table::SoakRota => yard::soak_rota(findings),
            Table::Batches => yard::batches(findings),
            Table::Harvests => yard::harvests(book, findings),
            Table::Yields => yard::yields(findings),
            Table::Troubles => yard::troubles(book),
            Table::Cautions => build::cautions(book),
            Table::Sources => build::sources(book),
        }
    }

    /// The rows that a query picks; a cell with several words matches any of them.
    #[must_use]
    pub fn picked(mut self, query: &Query) -> Self {
        for (column, value) in &query.filters {
            let Some(index) =
                self.columns.iter().position(|name| name == column || name.trim_end_matches('s') == column)
            else {
                continue;
            };
            self.rows.retain(|row| {
                row.get(index).is_some_and(|cell| {
                    let text = cell.to_string();
                    text == *value || text.replace(' ', "-") == *value || text.split(' ').any(|word| word == value)
                })
            });
        }
        self
    }
}
