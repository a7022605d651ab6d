//! From views to files on disk.
//!
//! | file | what it does |
//! |---|---|
//! | [`template`] | the built-in theme, with the farm's own files standing in one by one |
//! | [`text`] | the words that a drawn page says |
//! | [`finder`] | the search index, as a script |
//! | [`photo`] | what the guide shows of pictures |
//! | [`paper`] | what of the styles depends on the paper |
//! | [`policy`] | what a page may load |
//! | [`markdown`] | Markdown to HTML, record links resolved, computed tables set in |
//! | [`highlight`] | shows a record with its keys, texts and numbers set apart |
//! | [`calendar`] | all dated work of the season as a calendar file |
//! | [`table`] | computed tables as CSV, JSON, aligned text and HTML |
//! | [`folder`] | writes a whole folder and swaps it in |

pub mod calendar;
pub mod finder;
pub mod folder;
pub mod highlight;
pub mod markdown;
pub mod paper;
pub mod photo;
pub mod policy;
pub mod table;
pub mod template;
pub mod text;

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use rayon::prelude::*;

use crate::book::Book;
use crate::error::Error;
use crate::fault::Fault;
use crate::page::Page;
use crate::read::Found;
use crate::reckon::Findings;
use crate::reckon::table::Grid;
use crate::record::handout::Paper;
use crate::record::table::Table;

/// The files of a guide, by path.
pub type Files = BTreeMap<String, Vec<u8>>;

/// Why a guide could not be drawn.
#[derive(Debug)]
pub enum Stopped {
    /// The farm's own theme has faults.
    Faults(Vec<Fault>),
    /// The machine failed.
    Error(Error),
}

impl From<Error> for Stopped {
    fn from(error: Error) -> Self {
        Self::Error(error)
    }
}

/// Draws every file of a guide; what an earlier one in a folder shows of pictures is taken from there.
///
/// # Errors
///
/// [`Stopped`] where a template of the farm's own look or a picture is broken, or the machine fails.
pub fn draw(
    book: &Arc<Book>,
    findings: &Arc<Findings>,
    paper: Paper,
    look: Vec<Found>,
    earlier: &Path,
) -> Result<Files, Stopped> {
    let theme = template::Theme::load(book, findings, paper, look)?;
    let pages = Page::all(book, findings);
    let drawn: Vec<(String, Vec<u8>)> = pages
        .par_iter()
        .map(|page| theme.draw(page, book, findings).map(|html| (page.path(), html.into_bytes())))
        .collect::<Result<_, Stopped>>()?;
    let mut files: Files = drawn.into_iter().collect();
    let photos = photo::shown(&book.pictures, &files, earlier).map_err(Stopped::Faults)?;
    for handout in book.handouts.values().filter(|handout| !handout.pictures.is_empty()) {
        if let Some(page) = files.get_mut(&Page::Handout(handout.id.clone()).path()) {
            *page = photo::put_into(page, &photos);
        }
    }
    files.extend(photos);
    files.extend(theme.assets());
    files.insert("look/paper.css".to_owned(), paper::sheet(paper).into_bytes());
    files.entry("look/pocket.css".to_owned()).or_default().extend(paper::pocket(paper).into_bytes());
    files.entry("look/saddle.css".to_owned()).or_default().extend(paper::saddle(paper).into_bytes());
    let finder = finder::script(book, findings, &files, &theme.search());
    files.insert("finder.js".to_owned(), finder.into_bytes());
    files.insert("calendar.ics".to_owned(), calendar::ics(book, findings).into_bytes());
    for &name in Table::ALL {
        let grid = Grid::of(name, book, findings);
        files.insert(format!("tables/{}.csv", name.word()), table::csv(&grid)?);
        files.insert(format!("tables/{}.json", name.word()), table::json(&grid).into_bytes());
    }
    Ok(files)
}
