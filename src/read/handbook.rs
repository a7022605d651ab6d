//! Finds the files of the built-in handbook.

use include_dir::{Dir, include_dir};

use super::{Found, folder};

static CONTENT: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/content");

/// The handbook's files, by path.
pub fn files() -> Vec<Found> {
    folder::packed(&CONTENT, true)
}
