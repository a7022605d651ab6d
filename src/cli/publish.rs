//! `hostwood publish`: read the records and write the guide.

use std::path::PathBuf;
use std::sync::Arc;

use clap::Args;

use super::{Ended, FarmAt, farm};
use crate::fault::unseen::written_out;
use crate::press;
use crate::press::folder;
use crate::quantity::Units;
use crate::reckon::Findings;
use crate::record::handout::Paper;

/// The folder into which a guide is written where the call names none.
pub const GUIDE: &str = "guide";

/// What `publish` takes.
#[derive(Debug, Args)]
pub struct Publish {
    /// The farm's folder; left out, the current folder if it has a farm.yaml, else the demo farm.
    farm: Option<PathBuf>,
    /// The folder to write.
    #[arg(long, value_name = "DIR", default_value = GUIDE)]
    to: PathBuf,
    /// The year in which the season's dormant period begins.
    #[arg(long, value_name = "YEAR", value_parser = clap::value_parser!(i16).range(1900..=2200))]
    season: Option<i16>,
    /// The units of the guide.
    #[arg(long, value_enum)]
    units: Option<Units>,
    /// The paper on which it is printed.
    #[arg(long, value_enum)]
    paper: Option<Paper>,
}

impl Publish {
    /// Runs the command.
    ///
    /// # Errors
    ///
    /// How it ended, where it did not end well.
    pub fn run(self) -> Result<Ended, Ended> {
        let at = farm::find(self.farm.as_deref())?;
        let book = Arc::new(farm::bind(&at, self.units)?);
        let choice = farm::choice(&book, self.season)?;
        let findings = Arc::new(Findings::of(&book, choice));
        let look = farm::look(&at, &book).map_err(|ended| ended.asking(&book))?;
        let paper = self.paper.unwrap_or(choice.units.pick(Paper::Letter, Paper::A4));
        let files = press::draw(&book, &findings, paper, look, &self.to)
            .map_err(|stopped| Ended::from(stopped).asking(&book))?;
        let written = folder::write(&self.to, &files)?;
        let pages = files.keys().filter(|path| path.ends_with(".html")).count();
        let what = match at {
            FarmAt::Demo => format!("the demo farm {} (it is invented)", book.farm.record.name),
            FarmAt::Folder(_) => book.farm.record.name.clone(),
        };
        let open = self.to.join("index.html");
        Ok(Ended::Done {
            text: String::new(),
            remark: format!(
                "Published {what}: {pages} pages.\n{}Open {} in a browser.",
                left_aside(&written.left),
                written_out(&open.to_string_lossy())
            ),
            questions: book.questions.clone(),
        })
    }
}

/// What is to be said of earlier guides that could not be removed.
fn left_aside(left: &[PathBuf]) -> String {
    let line = |path: &PathBuf| {
        let path = path.to_string_lossy();
        format!(
            "The earlier guide belongs to somebody else and could not be removed; it stands aside as {}.\n",
            written_out(&path)
        )
    };
    left.iter().map(line).collect()
}
