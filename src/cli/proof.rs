//! `hostwood proof`: read and check everything, and write nothing.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use clap::{Args, ValueEnum};

use super::publish::GUIDE;
use super::{Ended, FarmAt, farm};
use crate::book::Book;
use crate::fault;
use crate::press;
use crate::reckon::Findings;
use crate::reckon::findings::Choice;
use crate::record::handout::Paper;

/// What `proof` takes.
#[derive(Debug, Args)]
pub struct Proof {
    /// The farm's folder; left out, the current folder if it has a farm.yaml, else the demo farm.
    farm: Option<PathBuf>,
    /// For people, or for an editor.
    #[arg(long = "as", value_enum, default_value = "text", value_name = "FORM")]
    form: Form,
}

/// The form of the answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Form {
    /// Text for people.
    Text,
    /// JSON for an editor, on standard output.
    Json,
}

impl Proof {
    /// Runs the command.
    ///
    /// # Errors
    ///
    /// How it ended, where it did not end well.
    pub fn run(self) -> Result<Ended, Ended> {
        let at = farm::find(self.farm.as_deref())?;
        let bound = farm::bind(&at, None).map(Arc::new).and_then(|book| match draw(&at, &book) {
            Ok(()) => Ok(book),
            Err(ended) => Err(ended.asking(&book)),
        });
        match (bound, self.form) {
            (Ok(book), Form::Text) => Ok(Ended::Done {
                text: String::new(),
                remark: format!(
                    "No fault in the records of {}{}: {} woods, {} mushrooms, {} rows of evidence, {} tagged trees, {} notes.",
                    book.farm.record.name,
                    if at == FarmAt::Demo { ", the demo farm" } else { "" },
                    book.woods.len(),
                    book.mushrooms.len(),
                    book.evidence.len(),
                    book.trees.len(),
                    book.notes.len()
                ),
                questions: book.questions.clone(),
            }),
            (Ok(book), Form::Json) => Ok(Ended::text(fault::draw::json(&book.questions))),
            (Err(Ended::Faults(faults)), Form::Json) => Err(Ended::FaultsAsJson(faults)),
            (Err(ended), _) => Err(ended),
        }
    }
}

/// Draws the guide of a farm that has a theme or pictures of its own, to find what is wrong there; the built-in theme draws any.
fn draw(at: &FarmAt, book: &Arc<Book>) -> Result<(), Ended> {
    let look = farm::look(at, book)?;
    if look.is_empty() && book.pictures.is_empty() {
        return Ok(());
    }
    let findings = Arc::new(Findings::of(book, Choice::of(book)));
    press::draw(book, &findings, Paper::A4, look, Path::new(GUIDE))?;
    Ok(())
}
