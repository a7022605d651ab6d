//! The record behind a page.

use serde::Serialize;

use crate::book::{Origin, Writer};

/// The files behind a page, each with its text.
#[derive(Debug, Clone, Serialize)]
pub struct Sheet {
    /// Who wrote the record.
    pub writer: &'static str,
    /// Whether this farm had a hand in it.
    pub own: bool,
    /// The files, the handbook's first.
    pub files: Vec<Leaf>,
}

/// A file behind a page.
#[derive(Debug, Clone, Serialize)]
pub struct Leaf {
    /// Its name.
    pub name: String,
    /// Its text.
    pub text: String,
}

impl Sheet {
    /// The record behind a page.
    #[must_use]
    pub fn of(origin: &Origin) -> Self {
        let files = origin.files().map(|file| Leaf { name: file.name.clone(), text: file.text.clone() }).collect();
        Self { writer: origin.writer.words(), own: origin.writer != Writer::Handbook, files }
    }
}
