//! Finds the files of a farm on disk, or of a demo farm inside the binary.

use std::path::{Component, Path};
use std::sync::Arc;
use std::{fs, io};

use include_dir::{Dir, include_dir};
use walkdir::{DirEntry, WalkDir};

use super::{Found, Unread, contents, picture, sort, yaml};
use crate::error::Error;
use crate::fault::File;

/// The name of the file that marks a folder as written by this program.
pub const MARKER: &str = ".hostwood-guide";

static DEMO: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/examples/sorrel-hollow");

/// Files at the top of a farm's folder that are not records and are passed over.
const PASSED_OVER: [&str; 3] = ["README.md", "LICENSE", "LICENSE.md"];

/// The most bytes of a file of the farm's look.
const LOOK: u64 = 2_000_000;

/// The files of a farm's folder, by path.
///
/// Hidden files, published guides and the farm's own theme are passed over; links are followed inside the farm. A file is
/// read once its name says what it holds and its size is known.
///
/// # Errors
///
/// An [`Error`] where the folder or a file in it cannot be read.
pub fn files(folder: &Path) -> Result<Vec<Found>, Error> {
    let home = folder.canonicalize().map_err(|error| Error::path("read", folder, error))?;
    let look = look_of(folder, &home)?;
    let inside = |path: &Path| path.strip_prefix(folder).unwrap_or(path).to_string_lossy().replace('\\', "/");
    let mut walk = WalkDir::new(folder).follow_links(true).sort_by_file_name().into_iter();
    let mut found = Vec::new();
    while let Some(entry) = walk.next() {
        let entry = match entry {
            Ok(entry) => entry,
            Err(error) => {
                let path = error.path().filter(|path| path.is_symlink()).map(inside);
                let path = path.ok_or_else(|| Error::path("read", folder, error))?;
                found.push(Found { path, bytes: Err(Unread::Elsewhere), at: None, handbook: false });
                continue;
            }
        };
        let path = inside(entry.path());
        let is_folder = entry.file_type().is_dir();
        if !wanted(&entry, look.as_deref() == Some(path.as_str())) {
            if is_folder {
                walk.skip_current_dir();
            }
        } else if !is_folder {
            let is_picture = picture::is_picture(&path);
            let bytes = match sort::most(&path) {
                Some(most) if is_picture => contents::look(entry.path(), &home, most)?.map(|()| Vec::new()),
                Some(most) => contents::read(entry.path(), &home, most)?,
                None => Err(Unread::Stray),
            };
            found.push(Found { path, bytes, at: is_picture.then(|| entry.into_path()), handbook: false });
        } else if entry.depth() > 0 && contents::leaves(entry.path(), &home) {
            found.push(Found { path, bytes: Err(Unread::Elsewhere), at: None, handbook: false });
            walk.skip_current_dir();
        }
    }
    found.sort_by(|a, b| a.path.cmp(&b.path));
    Ok(found)
}

/// The files of a farm's own look, which lies in a folder inside the farm's; `None` where there is no such folder.
///
/// # Errors
///
/// An [`Error`] where a file of it cannot be read.
pub fn look(folder: &Path, name: &str) -> Result<Option<Vec<Found>>, Error> {
    let name = look_name(name);
    let path = folder.join(name);
    let home = folder.canonicalize().map_err(|error| Error::path("read", folder, error))?;
    let mut parts = Path::new(name).components().peekable();
    let below = parts.peek().is_some() && parts.all(|part| matches!(part, Component::Normal(_)));
    if !below || !path.is_dir() || !path.canonicalize().is_ok_and(|real| real.starts_with(&home) && real != home) {
        return Ok(None);
    }
    let failed = |error: io::Error| Error::path("read the look in", &path, error);
    let mut found = Vec::new();
    for entry in fs::read_dir(&path).map_err(failed)? {
        let entry = entry.map_err(failed)?;
        let file = entry.file_name().to_string_lossy().into_owned();
        if !file.starts_with('.') && !entry.path().is_dir() {
            let bytes = contents::read(&entry.path(), &home, LOOK)?;
            found.push(Found { path: format!("{name}/{file}"), bytes, at: None, handbook: false });
        }
    }
    found.sort_by(|a, b| a.path.cmp(&b.path));
    Ok(Some(found))
}

/// The name of a look's folder as it stands in paths.
fn look_name(written: &str) -> &str {
    written.trim_start_matches("./").trim_end_matches('/')
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
fn look_of(folder: &Path, home: &Path) -> Result<Option<String>, Error> {
    let name = "farm.yaml";
    let bytes = sort::most(name).map(|most| contents::read(&folder.join(name), home, most)).transpose()?;
    let Some(Ok(bytes)) = bytes else { return Ok(None) };
    let text = String::from_utf8_lossy(&bytes).into_owned();
    let file = Arc::new(File::new(name.to_owned(), text, false));
    let node = yaml::parse(&file, &file.text, 1, &mut Vec::new()).ok();
    Ok(node.and_then(|node| Some(look_name(node.get("look")?.text()?).to_owned())))
}

/// The files of the demo farm that travels inside the binary, without a guide that was published there before it was
/// built.
pub fn demo() -> Vec<Found> {
    let mut found = packed(&DEMO, false);
    found.retain(|file| !PASSED_OVER.contains(&file.path.as_str()));
    found
}

/// The files of a folder that travels inside the binary, by path, without a guide in it.
pub(super) fn packed(folder: &'static Dir<'_>, handbook: bool) -> Vec<Found> {
    let mut found = Vec::new();
    let mut folders = vec![folder];
    while let Some(folder) = folders.pop() {
        folders.extend(folder.dirs().filter(|inner| !inner.contains(inner.path().join(MARKER))));
        for file in folder.files() {
            let path = file.path().to_string_lossy().replace('\\', "/");
            found.push(Found { path, bytes: Ok(file.contents().to_vec()), at: None, handbook });
        }
    }
    found.sort_by(|a, b| a.path.cmp(&b.path));
    found
}
