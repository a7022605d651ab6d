//! Writes a whole folder and swaps it in.
//!
//! The files go into a hidden sibling first. On Linux one exchanging rename swaps it with the earlier guide; elsewhere, or
//! where the file system cannot exchange, the earlier guide is moved aside and back again by the next run if this one is cut
//! short. A folder without the marker file is never replaced, nor is one that
//! holds a file the marker does not list, nor a mount point.

use std::{
    collections::BTreeSet,
    fs::{self, File, TryLockError},
    io::{self, Write},
    path::{Path, PathBuf},
};

use walkdir::WalkDir;

use super::Files;
use crate::{error::Error, read::folder::MARKER};

/// What the marker file says to whoever opens it.
const MARKER_TEXT: &str =
    "This folder was written by Hostwood, and is replaced whole the next time it is published. Its files:\n";

/// Writes files as a folder in place of an earlier guide.
///
/// # Errors
///
/// A refusal ([`Error::is_refusal`]) where the target is not a guide of ours or holds files of somebody else; any other
/// [`Error`] where the machine fails. Until the new guide is swapped in, the target stands as it was.
pub fn write(target: &Path, files: &Files) -> Result<(), Error> {
    let target = settle(target)?;
    refuse_strangers(&target)?;
    let siblings = Siblings::of(&target)?;
    let _lock = siblings.lock()?;
    siblings.mend(&target)?;
    refuse_strangers(&target)?;
    let written = fill(&siblings.new, &target, files).and_then(|()| swap(&siblings, &target));
    let cleared = siblings.clear(&target);
    written.and(cleared)
}

/// The target's real path, its parent made where it is missing.
fn settle(target: &Path) -> Result<PathBuf, Error> {
    if fs::symlink_metadata(target).is_ok() {
        return target.canonicalize().map_err(|error| Error::path("find", target, error));
    }
    let name = target.file_name().ok_or_else(|| Error::refusal(format!("{} names no folder", target.display())))?;
    let parent = match target.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    fs::create_dir_all(parent).map_err(|error| Error::path("make", parent, error))?;
    let parent = parent.canonicalize().map_err(|error| Error::path("find", parent, error))?;
    Ok(parent.join(name))
}

/// The hidden folders and the lock beside a target.
struct Siblings {
    new: PathBuf,
    old: PathBuf,
    lock: PathBuf,
}

impl Siblings {
    fn of(target: &Path) -> Result<Self, Error> {
        let name = target.file_name().map(|name| name.to_string_lossy().into_owned());
        let (Some(name), Some(parent)) = (name, target.parent()) else {
            return Err(Error::refusal(format!("{} cannot be replaced", target.display())));
        };
        let beside = |word: &str| parent.join(format!(".{name}.hostwood-{word}"));
        Ok(Self { new: beside("new"), old: beside("old"), lock: beside("lock") })
    }

    /// Keeps a second run out while this one writes; the lock's file goes with it.
    fn lock(&self) -> Result<Lock, Error> {
        let file = File::create(&self.lock).map_err(|error| Error::path("write", &self.lock, error))?;
        match file.try_lock() {
            Ok(()) => Ok(Lock { _file: file, path: self.lock.clone() }),
            Err(TryLockError::WouldBlock) => {
                Err(Error::refusal("another run is publishing into this folder just now".to_owned()))
            }
            Err(TryLockError::Error(error)) => Err(Error::path("lock", &self.lock, error)),
        }
    }

    /// Ends what an earlier run left half done.
    fn mend(&self, target: &Path) -> Result<(), Error> {
        if !target.exists() && self.old.exists() {
            fs::rename(&self.old, target).map_err(|error| Error::path("put back", target, error))?;
        }
        self.clear(target)
    }

    /// Takes away what lies beside a target that stands.
    fn clear(&self, target: &Path) -> Result<(), Error> {
        let left = [&self.new, &self.old];
        let left = left.into_iter().filter(|left| left.exists() && (*left == &self.new || target.exists()));
        for path in left {
            remove(path).map_err(|error| Error::path("remove", path, error))?;
        }
        Ok(())
    }
}

/// Removes a folder of ours, even one whose folders were made read-only.
fn remove(folder: &Path) -> io::Result<()> {
    fs::remove_dir_all(folder).or_else(|_| {
        for entry in WalkDir::new(folder).into_iter().filter_map(Result::ok).filter(|entry| entry.file_type().is_dir())
        {
            make_writable(entry.path())?;
        }
        fs::remove_dir_all(folder)
    })
}

#[cfg(unix)]
fn make_writable(folder: &Path) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    fs::set_permissions(folder, fs::Permissions::from_mode(0o755))
}

#[cfg(not(unix))]
fn make_writable(_: &Path) -> io::Result<()> {
    Ok(())
}

/// A lock that is let go, and whose file is taken away, when it goes out of scope.
struct Lock {
    _file: File,
    path: PathBuf,
}

impl Drop for Lock {
    fn drop(&mut self) {
        let _ = fs::remove_file(&self.path);
    }
}

fn refuse_strangers(target: &Path) -> Result<(), Error> {
    if !target.exists() {
        return Ok(());
    }
    if !target.is_dir() {
        return Err(Error::refusal(format!("{} is a file, not a folder", target.display())));
    }
    if is_mount_point(target) {
        return Err(Error::refusal(format!("{} is a mount point; name a folder inside it", target.display())));
    }
    let mut entries = fs::read_dir(target).map_err(|error| Error::path("read", target, error))?;
    if entries.next().is_none() {
        return Ok(());
    }
    let Ok(marker) = fs::read_to_string(target.join(MARKER)) else {
        return Err(Error::refusal(format!(
            "{} holds files that Hostwood did not write; name another folder with --to, or empty this one",
            target.display()
        )));
    };
    match stranger(target, &marker) {
        Some(file) => Err(Error::refusal(format!(
            "{} was put into the guide by somebody else and would be lost; move it out first",
            target.join(file).display()
        ))),
        None => Ok(()),
    }
}

/// A file in a guide that its marker does not list.
fn stranger(target: &Path, marker: &str) -> Option<String> {
    let ours: BTreeSet<&str> = marker.lines().chain([MARKER]).collect();
    let files = WalkDir::new(target).into_iter().filter_map(Result::ok).filter(|entry| !entry.file_type().is_dir());
    let paths = files.filter_map(|entry| {
        let inside = entry.path().strip_prefix(target).ok()?;
        Some(inside.to_string_lossy().replace('\\', "/"))
    });
    paths.filter(|path| !ours.contains(path.as_str())).min()
}

#[cfg(unix)]
fn is_mount_point(folder: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let device = |path: &Path| fs::metadata(path).map(|data| data.dev()).ok();
    folder.parent().is_some_and(|parent| device(folder) != device(parent))
}

#[cfg(not(unix))]
const fn is_mount_point(_: &Path) -> bool {
    false
}

/// Writes the files; one whose bytes did not change keeps its modification time.
fn fill(new: &Path, earlier: &Path, files: &Files) -> Result<(), Error> {
    for (path, bytes) in files {
        write_file(&new.join(path), &earlier.join(path), bytes)?;
    }
    let list: Vec<&str> = files.keys().map(String::as_str).collect();
    let marker = format!("{MARKER_TEXT}{}\n", list.join("\n"));
    write_file(&new.join(MARKER), &earlier.join(MARKER), marker.as_bytes())
}

fn write_file(path: &Path, earlier: &Path, bytes: &[u8]) -> Result<(), Error> {
    let failed = |error| Error::path("write", path, error);
    if let Some(parent) = path.parent() {
        fs::create_dir_all(parent).map_err(failed)?;
    }
    let mut file = File::create(path).map_err(failed)?;
    file.write_all(bytes).map_err(failed)?;
    if fs::read(earlier).is_ok_and(|old| old == bytes)
        && let Ok(modified) = fs::metadata(earlier).and_then(|data| data.modified())
    {
        file.set_modified(modified).map_err(failed)?;
    }
    Ok(())
}

fn swap(siblings: &Siblings, target: &Path) -> Result<(), Error> {
    let failed = |error| Error::path("put the new guide at", target, error);
    if !target.exists() {
        return fs::rename(&siblings.new, target).map_err(failed);
    }
    if exchange(&siblings.new, target) {
        return Ok(());
    }
    fs::rename(target, &siblings.old).map_err(failed)?;
    fs::rename(&siblings.new, target).map_err(|error| {
        let _ = fs::rename(&siblings.old, target);
        failed(error)
    })
}

/// Swaps two folders in one step, where the system can.
#[cfg(target_os = "linux")]
fn exchange(one: &Path, other: &Path) -> bool {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE).is_ok()
}

#[cfg(not(target_os = "linux"))]
const fn exchange(_: &Path, _: &Path) -> bool {
    false
}
