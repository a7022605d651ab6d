//! `hostwood reckon`: print a computed table.

use std::{fmt::Write, path::PathBuf, sync::Arc};

use clap::{Args, ValueEnum};

use super::{Ended, UnitsAsked, farm};
use crate::{
    fault::suggest,
    press::table,
    reckon::{Findings, table::Grid},
    record::table::Table,
};

/// What `reckon` takes.
#[derive(Debug, Args)]
pub struct Reckon {
    /// The table; left out, the tables are listed.
    table: Option<String>,
    /// The farm's folder; left out, the current folder if it has a farm.yaml, else the demo farm.
    farm: Option<PathBuf>,
    /// The units of the table.
    #[arg(long, value_enum)]
    units: Option<UnitsAsked>,
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
        let Some(name) = self.table else { return Ok(done(list())) };
        let wanted = Table::of_word(&name).ok_or_else(|| unknown(&name))?;
        let at = farm::find(self.farm.as_deref())?;
        let book = Arc::new(farm::bind(&at)?);
        let findings = Findings::of(&book, farm::choice(&book, None, self.units.map(Into::into))?);
        let grid = Grid::of(wanted, &book, &findings);
        Ok(done(match self.form {
            Form::Text => table::text(&grid),
            Form::Csv => String::from_utf8_lossy(&table::csv(&grid)?).into_owned(),
            Form::Json => table::json(&grid),
        }))
    }
}

fn done(text: String) -> Ended {
    Ended::Done { text, remark: String::new() }
}

fn list() -> String {
    let mut out = String::new();
    for table in Table::ALL {
        let _ = writeln!(out, "{:<12}  {}", table.word(), table.about());
    }
    out
}

fn unknown(name: &str) -> Ended {
    let words = || Table::WORDS.iter().copied();
    Ended::Usage(match suggest::closest(name, words()) {
        Some(meant) => format!("There is no table `{name}`; is `{meant}` meant?"),
        None => format!("There is no table `{name}`. The tables are {}.", suggest::either(words())),
    })
}
