//! Pictures beside the handouts: the only files of a farm that are not text.

use std::sync::Arc;

use super::{Found, Unread};
use crate::fault::{Fault, File, Place};

/// The folder in which pictures may lie.
const FOLDER: &str = "handouts/";
/// The endings of a picture's name.
const ENDINGS: [&str; 4] = [".png", ".jpg", ".jpeg", ".webp"];
/// The most bytes of a picture, since a handout is sent as one file.
pub(super) const MOST: u64 = 3_000_000;

/// A picture beside a handout.
#[derive(Debug, PartialEq, Eq)]
pub struct Picture {
    /// Its name in the folder of handouts.
    pub name: String,
    /// What kind of picture it is, as an internet media type.
    pub media: &'static str,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// Whether a path is that of a picture beside a handout.
pub(super) fn is_picture(path: &str) -> bool {
    let path = path.to_ascii_lowercase();
    path.starts_with(FOLDER) && ENDINGS.iter().any(|ending| path.ends_with(ending))
}

/// Reads a picture.
///
/// # Errors
///
/// A [`Fault`] where the file cannot be read, is no picture of a known kind, or is too heavy to be sent.
pub(super) fn read(found: Found) -> Result<Arc<Picture>, Fault> {
    let name = found.path.trim_start_matches(FOLDER).to_owned();
    let file = File::new(found.path, String::new(), found.handbook);
    let place = Place::start(Arc::new(file));
    let fault = |wrong: &str, instead: &str| Fault::new("not-a-picture", wrong).instead(instead).at(place.clone());
    let bytes = found.bytes.map_err(|unread| match unread {
        Unread::TooLarge { .. } => {
            fault("this picture is too heavy for a handout", "save it smaller, with at most 3 MB")
        }
        Unread::Elsewhere | Unread::Stray => unread.fault(Arc::clone(&place.file)),
    })?;
    let media = media(&bytes).ok_or_else(|| {
        fault(
            "its name is that of a picture, but its contents are not",
            "save the picture itself as PNG, JPEG or WebP; another name is not enough",
        )
    })?;
    Ok(Arc::new(Picture { name, media, bytes }))
}

/// The kind of a picture by its first bytes.
fn media(bytes: &[u8]) -> Option<&'static str> {
    match bytes {
        [0x89, b'P', b'N', b'G', ..] => Some("image/png"),
        [0xff, 0xd8, 0xff, ..] => Some("image/jpeg"),
        [b'R', b'I', b'F', b'F', _, _, _, _, b'W', b'E', b'B', b'P', ..] => Some("image/webp"),
        _ => None,
    }
}
