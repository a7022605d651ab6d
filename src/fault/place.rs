//! Where a thing stands in the records.

use std::cmp::Ordering;
use std::sync::{Arc, OnceLock};

/// A file of records as it was read.
#[derive(Debug)]
pub struct File {
    /// The name by which faults call it: relative to the farm's folder, or `handbook/…`.
    pub name: String,
    /// Its whole text.
    pub text: String,
    /// Whether it belongs to the built-in handbook.
    pub handbook: bool,
    starts: OnceLock<Vec<usize>>,
}

impl File {
    /// A file of a name, with its text.
    pub const fn new(name: String, text: String, handbook: bool) -> Self {
        Self { name, text, handbook, starts: OnceLock::new() }
    }

    /// Where each line begins, so that a place is found without reading the file again.
    fn starts(&self) -> &[usize] {
        let starts = || std::iter::once(0).chain(self.text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        self.starts.get_or_init(starts)
    }

    /// The byte at which a line begins, counted from 1; the end of the text where there is no such line.
    pub fn start(&self, line: usize) -> usize {
        self.starts().get(line.saturating_sub(1)).copied().unwrap_or(self.text.len())
    }

    /// Whether it is a sheet of a spreadsheet (CSV).
    pub fn is_sheet(&self) -> bool {
        self.name.to_ascii_lowercase().ends_with(".csv")
    }

    /// The text of a line, counted from 1; empty where there is none.
    pub fn line(&self, number: usize) -> &str {
        let line = &self.text[self.start(number)..self.start(number.max(1) + 1)];
        let line = line.strip_suffix('\n').unwrap_or(line);
        line.strip_suffix('\r').unwrap_or(line)
    }
}

impl PartialEq for File {
    fn eq(&self, other: &Self) -> bool {
        (&self.name, &self.text, self.handbook) == (&other.name, &other.text, other.handbook)
    }
}

impl Eq for File {}

/// A line and a column in a file, both counted from 1, columns in characters.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// The file.
    pub file: Arc<File>,
    /// The line.
    pub line: usize,
    /// The column.
    pub column: usize,
}

impl Place {
    /// The first character of a file.
    pub const fn start(file: Arc<File>) -> Self {
        Self { file, line: 1, column: 1 }
    }

    /// The place of a byte offset in a file.
    pub fn of_offset(file: Arc<File>, offset: usize) -> Self {
        let line = file.starts().partition_point(|start| *start <= offset);
        let column = file.text.get(file.start(line)..offset).map_or(0, |before| before.chars().count()) + 1;
        Self { file, line, column }
    }
}

impl Ord for Place {
    fn cmp(&self, other: &Self) -> Ordering {
        (&self.file.name, self.line, self.column).cmp(&(&other.file.name, other.line, other.column))
    }
}

impl PartialOrd for Place {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
