//! Finds the files of a farm on disk, or of a demo farm inside the binary.

use std::{fs, path::Path, sync::Arc};

use include_dir::{Dir, include_dir};
use walkdir::{DirEntry, WalkDir};

use super::{Found, yaml};
use crate::{error::Error, fault::File};

/// The name of the file that marks a folder as written by this program.
pub const MARKER: &str = ".hostwood-guide";

static DEMO: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/examples/sorrel-hollow");

/// Files at the top of a farm's folder that are not records and are passed over.
const PASSED_OVER: [&str; 3] = ["README.md", "LICENSE", "LICENSE.md"];

/// The files of a farm's folder, by path.
///
/// Hidden files, published guides and the farm's own theme are passed over; links are followed.
///
/// # Errors
///
/// An [`Error`] where the folder or a file in it cannot be read.
pub fn files(folder: &Path) -> Result<Vec<Found>, Error> {
    let look = look_of(folder);
    let home = folder.canonicalize().map_err(|error| Error::path("read", folder, error))?;
    let inside = |path: &Path| path.strip_prefix(folder).unwrap_or(path).to_string_lossy().replace('\\', "/");
    let mut walk = WalkDir::new(folder).follow_links(true).sort_by_file_name().into_iter();
    let mut found = Vec::new();
    while let Some(entry) = walk.next() {
        let entry = match entry {
            Ok(entry) => entry,
            Err(error) => {
                let path = error.path().filter(|path| path.is_symlink()).map(inside);
                let path = path.ok_or_else(|| Error::path("read", folder, error))?;
                found.push(Found { path, bytes: None, handbook: false });
                continue;
            }
        };
        let path = inside(entry.path());
        if !wanted(&entry, look.as_deref() == Some(path.as_str())) {
            if entry.file_type().is_dir() {
                walk.skip_current_dir();
            }
        } else if leaves(&entry, &home) {
            found.push(Found { path, bytes: None, handbook: false });
            walk.skip_current_dir();
        } else if entry.file_type().is_file() {
            let bytes = fs::read(entry.path()).map_err(|error| Error::path("read", entry.path(), error))?;
            found.push(Found { path, bytes: Some(bytes), handbook: false });
        } else if !entry.file_type().is_dir() {
            found.push(Found { path, bytes: None, handbook: false });
        }
    }
    found.sort_by(|a, b| a.path.cmp(&b.path));
    Ok(found)
}

/// Whether an entry is a link to a folder outside the farm's.
fn leaves(entry: &DirEntry, home: &Path) -> bool {
    let linked = entry.path_is_symlink() && entry.file_type().is_dir();
    linked && entry.path().canonicalize().is_ok_and(|target| !target.starts_with(home))
}

fn wanted(entry: &DirEntry, look: bool) -> bool {
    if entry.depth() == 0 {
        return true;
    }
    let name = entry.file_name().to_string_lossy();
    let passed_over = entry.depth() == 1 && PASSED_OVER.contains(&name.as_ref());
    let published = entry.file_type().is_dir() && entry.path().join(MARKER).exists();
    !name.starts_with('.') && !passed_over && !published && !look
}

/// The folder that `farm.yaml` names as its look, read before anything is checked.
fn look_of(folder: &Path) -> Option<String> {
    let path = folder.join("farm.yaml");
    let text = path.is_file().then(|| fs::read_to_string(path).ok()).flatten()?;
    let file = Arc::new(File::new("farm.yaml".to_owned(), text, false));
    let node = yaml::parse(&file, &file.text, 1, &mut Vec::new()).ok()?;
    let look = node.get("look")?.text()?;
    Some(look.trim_start_matches("./").trim_end_matches('/').to_owned())
}

/// The files of the demo farm that travels inside the binary, without a guide that was published there before it was
/// built.
#[must_use]
pub fn demo() -> Vec<Found> {
    let mut found = Vec::new();
    let mut folders = vec![&DEMO];
    while let Some(folder) = folders.pop() {
        folders.extend(folder.dirs().filter(|inner| !inner.contains(inner.path().join(MARKER))));
        for file in folder.files() {
            let path = file.path().to_string_lossy().replace('\\', "/");
            found.push(Found { path, bytes: Some(file.contents().to_vec()), handbook: false });
        }
    }
    found.retain(|file| !PASSED_OVER.contains(&file.path.as_str()));
    found.sort_by(|a, b| a.path.cmp(&b.path));
    found
}
