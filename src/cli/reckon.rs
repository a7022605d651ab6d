//! `hostwood reckon`: print a computed table.

use std::fmt::Write;
use std::path::PathBuf;
use std::sync::Arc;

use clap::{Args, ValueEnum};

use super::{Ended, farm};
use crate::press::table;
use crate::quantity::Units;
use crate::reckon::Findings;
use crate::reckon::table::Grid;
use crate::record::table::Table;

/// What `reckon` takes.
#[derive(Debug, Args)]
pub struct Reckon {
    /// The table; left out, the tables are listed.
    table: Option<String>,
    /// The farm's folder; left out, the current folder if it has a farm.yaml, else the demo farm.
    farm: Option<PathBuf>,
    /// The units of the table.
    #[arg(long, value_enum)]
    units: Option<Units>,
    /// The form of the table.
    #[arg(long = "as", value_enum, default_value = "text", value_name = "FORM")]
    form: Form,
}

/// The form of a table.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum Form {
    /// Columns of text.
    Text,
    /// Comma-separated, for spreadsheets.
    Csv,
    /// An array of flat objects.
    Json,
}

impl Reckon {
    /// Runs the command.
    ///
    /// # Errors
    ///
    /// How it ended, where it did not end well.
    pub fn run(self) -> Result<Ended, Ended> {
        let Some(name) = self.table else { return Ok(Ended::text(list())) };
        let wanted =
            Table::of_word(&name).ok_or_else(|| Ended::unknown("table", &name, Table::WORDS.iter().copied()))?;
        let at = farm::find(self.farm.as_deref())?;
        let book = Arc::new(farm::bind(&at, self.units).map_err(Ended::unasked)?);
        let findings = Findings::of(&book, farm::choice(&book, None)?);
        let grid = Grid::of(wanted, &book, &findings);
        Ok(Ended::text(match self.form {
            Form::Text => table::text(&grid),
            Form::Csv => String::from_utf8_lossy(&table::csv(&grid)?).into_owned(),
            Form::Json => table::json(&grid),
        }))
    }
}

fn list() -> String {
    let mut out = String::new();
    for table in Table::ALL {
        let _ = writeln!(out, "{:<12}  {}", table.word(), table.about());
    }
    out
}
