//! Writes a whole folder and swaps it in.
//!
//! The files go into a hidden sibling first. On Linux one exchanging rename swaps it with the earlier guide; elsewhere, or
//! where the file system cannot exchange, the earlier guide is moved aside and back again by the next run if this one is cut
//! short. A folder without the marker file is never replaced, nor is one that
//! holds a file the marker does not list, nor a mount point, nor the folder in which the caller stands. What lies beside the
//! target under a name of ours and is not ours is refused: no link is followed, and nothing is emptied.

use std::collections::BTreeSet;
use std::fs::{File, TryLockError};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::{fs, io};

use walkdir::WalkDir;

use super::Files;
use crate::error::Error;
use crate::read::folder::MARKER;

/// What the marker file says to whoever opens it.
const MARKER_TEXT: &str =
    "This folder was written by Hostwood, and is replaced whole the next time it is published. Its files:\n";

/// Writes files as a folder in place of an earlier guide.
///
/// # Errors
///
/// A refusal ([`Error::is_refusal`]) where the target is not a guide of ours or holds files of somebody else; any other
/// [`Error`] where the machine fails. Until the new guide is swapped in, the target stands as it was.
pub fn write(target: &Path, files: &Files) -> Result<Written, Error> {
    let target = settle(target)?;
    refuse_where_one_stands(&target)?;
    refuse_strangers(&target)?;
    let siblings = Siblings::of(&target)?;
    let _lock = siblings.lock()?;
    siblings.refuse_strangers()?;
    siblings.mend(&target)?;
    refuse_strangers(&target)?;
    let written = fill(&siblings.new, &target, files).and_then(|()| swap(&siblings, &target));
    match written {
        Ok(()) => siblings.clear(&target).map(|left| Written { left }),
        Err(error) => {
            let _ = siblings.clear(&target);
            Err(error)
        }
    }
}

/// What became of the earlier guide when a new one was put in its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Written {
    /// Earlier guides that could not be removed, since they belong to somebody else, and that stand aside.
    pub left: Vec<PathBuf>,
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
    ///
    /// The file is empty. One that is a link, or that holds anything, is somebody else's and stays as it is.
    fn lock(&self) -> Result<Lock, Error> {
        let ours = |data: &fs::Metadata| data.is_file() && data.len() == 0;
        let refused = || Error::refusal(format!("{} is not Hostwood's lock; move it away first", self.lock.display()));
        if fs::symlink_metadata(&self.lock).is_ok_and(|data| !ours(&data)) {
            return Err(refused());
        }
        let file = open_unfollowed(&self.lock).map_err(|error| Error::path("write", &self.lock, error))?;
        if !file.metadata().is_ok_and(|data| ours(&data)) {
            return Err(refused());
        }
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
        self.clear(target).map(|_| ())
    }

    /// Refuses what lies under the names of the hidden folders and was not left there by an earlier run.
    fn refuse_strangers(&self) -> Result<(), Error> {
        let not_ours = |path: &&PathBuf| match fs::symlink_metadata(path) {
            Ok(data) if data.is_dir() => !is_empty(path) && !path.join(MARKER).is_file(),
            Ok(_) => true,
            Err(_) => false,
        };
        match [&self.new, &self.old].into_iter().find(not_ours) {
            Some(path) => Err(Error::refusal(format!(
                "{} was not put there by Hostwood, which needs the name; move it away first",
                path.display()
            ))),
            None => Ok(()),
        }
    }

    /// Takes away what lies beside a target that stands; tells what could not be removed and was put aside.
    fn clear(&self, target: &Path) -> Result<Vec<PathBuf>, Error> {
        let left = [&self.new, &self.old];
        let left = left.into_iter().filter(|left| left.exists() && (*left == &self.new || target.exists()));
        left.filter_map(|path| match remove(path) {
            Ok(()) => None,
            Err(error) => Some(self.put_aside(path).map_err(|_| Error::path("remove", path, error))),
        })
        .collect()
    }

    /// Gives a folder that cannot be removed a name that no run needs.
    fn put_aside(&self, folder: &Path) -> io::Result<PathBuf> {
        let mut aside = (1..).map(|number| self.old.with_extension(format!("hostwood-left-{number}")));
        let free = aside.find(|path| fs::symlink_metadata(path).is_err());
        let free = free.ok_or(io::ErrorKind::AlreadyExists)?;
        fs::rename(folder, &free)?;
        Ok(free)
    }
}

/// Opens a file to write without following a link and without emptying it; makes it where it is missing.
fn open_unfollowed(path: &Path) -> io::Result<File> {
    let mut options = File::options();
    options.write(true).create(true).truncate(false);
    #[cfg(unix)]
    {
        use rustix::fs::OFlags;
        use std::os::unix::fs::OpenOptionsExt;
        // Without waiting, since a pipe would wait for a reader.
        let flags = OFlags::NOFOLLOW | OFlags::NONBLOCK;
        options.custom_flags(flags.bits() as i32);
    }
    options.open(path)
}

fn is_empty(folder: &Path) -> bool {
    fs::read_dir(folder).is_ok_and(|mut entries| entries.next().is_none())
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

/// Refuses to exchange the folder in which the caller stands, who would be left in one that is gone.
fn refuse_where_one_stands(target: &Path) -> Result<(), Error> {
    let here = std::env::current_dir().and_then(|here| here.canonicalize());
    if here.is_ok_and(|here| here.starts_with(target)) {
        return Err(Error::refusal(format!(
            "you stand in {}, which would be replaced whole; go out of it and name it from there",
            target.display()
        )));
    }
    Ok(())
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
    let list: Vec<&str> = files.keys().map(String::as_str).collect();
    let marker = format!("{MARKER_TEXT}{}\n", list.join("\n"));
    // The marker comes first, so that what a run cut short leaves behind is known as ours.
    write_file(&new.join(MARKER), &earlier.join(MARKER), marker.as_bytes())?;
    for (path, bytes) in files {
        write_file(&new.join(path), &earlier.join(path), bytes)?;
    }
    Ok(())
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
