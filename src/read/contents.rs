//! Reads a file on disk once its kind and its size are known, so that a stray film costs no memory.

use std::fs;
use std::fs::File;
use std::io::Read;
use std::path::Path;
use std::sync::Arc;

use crate::error::Error;
use crate::fault;
use crate::fault::{Fault, Place};

/// Why a file was left unread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unread {
    /// It is no ordinary file, or a link that leads nowhere or out of the farm.
    Elsewhere,
    /// Nothing of its name is read.
    Stray,
    /// It holds more bytes than its kind may.
    TooLarge {
        /// The bytes that it holds.
        holds: u64,
        /// The most that its kind may hold.
        most: u64,
    },
}

impl Unread {
    /// The fault of a file that was left unread.
    pub fn fault(self, file: Arc<fault::File>) -> Fault {
        let fault = match self {
            Self::Elsewhere | Self::Stray => {
                Fault::new("not-a-file", "this is no ordinary file, or a link that leads nowhere or out of the farm")
                    .instead("put the file itself here, or take this away")
            }
            Self::TooLarge { holds, most } => {
                let wrong =
                    format!("this file holds {}, and a file of its kind at most {}", megabytes(holds), megabytes(most));
                Fault::new("too-large", wrong).instead("part it into several files, or take it away if it is not meant")
            }
        };
        fault.at(Place::start(file))
    }
}

/// A number of bytes as people say it, rounded up to a tenth of a megabyte.
fn megabytes(bytes: u64) -> String {
    let tenths = bytes.div_ceil(100_000);
    format!("{}.{} MB", tenths / 10, tenths % 10).replace(".0 MB", " MB")
}

/// The bytes of an ordinary file inside a folder, given by its real path, where it holds no more than `most`.
///
/// # Errors
///
/// An [`Error`] where the file cannot be read.
pub(super) fn read(path: &Path, home: &Path, most: u64) -> Result<Result<Vec<u8>, Unread>, Error> {
    if let Err(unread) = look(path, home, most)? {
        return Ok(Err(unread));
    }
    let mut bytes = Vec::new();
    // The file may grow while it is read.
    let read = File::open(path).and_then(|file| file.take(most + 1).read_to_end(&mut bytes));
    read.map_err(|error| Error::path("read", path, error))?;
    let holds = bytes.len() as u64;
    Ok(if holds > most { Err(Unread::TooLarge { holds, most }) } else { Ok(bytes) })
}

/// Whether a file inside a folder, given by its real path, is an ordinary one that holds no more than `most`.
///
/// # Errors
///
/// An [`Error`] where nothing can be told of the file.
pub(super) fn look(path: &Path, home: &Path, most: u64) -> Result<Result<(), Unread>, Error> {
    if leaves(path, home) || !path.is_file() {
        return Ok(Err(Unread::Elsewhere));
    }
    let holds = fs::metadata(path).map_err(|error| Error::path("read", path, error))?.len();
    Ok(if holds > most { Err(Unread::TooLarge { holds, most }) } else { Ok(()) })
}

/// Whether a path is a link that leads out of a folder, given by its real path.
pub(super) fn leaves(path: &Path, home: &Path) -> bool {
    path.is_symlink() && path.canonicalize().is_ok_and(|target| !target.starts_with(home))
}
