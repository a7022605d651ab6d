//! Finds the files of the built-in handbook.

use include_dir::{Dir, include_dir};

use super::Found;

static CONTENT: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/content");

/// The handbook's files, by path.
#[must_use]
pub fn files() -> Vec<Found> {
    let mut found = Vec::new();
    collect(&CONTENT, &mut found);
    found.sort_by(|a, b| a.path.cmp(&b.path));
    found
}

fn collect(folder: &Dir<'_>, found: &mut Vec<Found>) {
    for file in folder.files() {
        let path = file.path().to_string_lossy().replace('\\', "/");
        found.push(Found { path, bytes: Ok(file.contents().to_vec()), handbook: true });
    }
    for inner in folder.dirs() {
        collect(inner, found);
    }
}
