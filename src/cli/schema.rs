//! `hostwood schema`: print the JSON Schema of a kind of record, for editors.

use std::fmt::Write;

use clap::Args;

use super::Ended;
use crate::record::{Kind, Layout, schema};

/// What `schema` takes.
#[derive(Debug, Args)]
pub struct Schema {
    /// The kind of record; left out, the kinds are listed.
    kind: Option<String>,
}

impl Schema {
    /// Runs the command.
    ///
    /// # Errors
    ///
    /// How it ended, where it did not end well.
    pub fn run(self) -> Result<Ended, Ended> {
        let text = match self.kind {
            None => list(),
            Some(word) => {
                let kind = Kind::of_word(&word);
                let unknown = || Ended::unknown("kind", &word, Kind::ALL.into_iter().map(Kind::word));
                format!("{:#}\n", schema::of(kind.ok_or_else(unknown)?))
            }
        };
        Ok(Ended::text(text))
    }
}

fn list() -> String {
    let mut out = String::new();
    for kind in Kind::ALL {
        let inside = match kind.layout() {
            Layout::Single => "",
            Layout::Each => "/ID.yaml",
            Layout::Rows => "/NAME.yaml, each row",
            Layout::Sheets => "/NAME.yaml or .csv, each row",
            Layout::ById => ", under each id",
            Layout::Markdown => "/ID.md, the header",
        };
        let _ = writeln!(out, "{:<10}  {}{inside}", kind.word(), kind.at());
    }
    out
}
