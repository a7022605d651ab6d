//! Where a thing stands in the records.

use std::{cmp::Ordering, sync::Arc};

/// A file of records as it was read.
#[derive(Debug, PartialEq, Eq)]
pub struct File {
    /// The name by which faults call it: relative to the farm's folder, or `handbook/…`.
    pub name: String,
    /// Its whole text.
    pub text: String,
    /// Whether it belongs to the built-in handbook.
    pub handbook: bool,
}

impl File {
    /// Whether it is a sheet of a spreadsheet (CSV).
    #[must_use]
    pub fn is_sheet(&self) -> bool {
        self.name.to_ascii_lowercase().ends_with(".csv")
    }

    /// The text of a line, counted from 1; empty where there is none.
    #[must_use]
    pub fn line(&self, number: usize) -> &str {
        self.text.lines().nth(number.saturating_sub(1)).unwrap_or("")
    }
}

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
    #[must_use]
    pub const fn start(file: Arc<File>) -> Self {
        Self { file, line: 1, column: 1 }
    }

    /// The place of a byte offset in a file.
    #[must_use]
    pub fn of_offset(file: Arc<File>, offset: usize) -> Self {
        let before = file.text.get(..offset).unwrap_or(&file.text);
        let line = before.matches('\n').count() + 1;
        let column = before.rsplit('\n').next().unwrap_or("").chars().count() + 1;
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
