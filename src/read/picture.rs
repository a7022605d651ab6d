//! Pictures: photographs of the farm's own and pictures beside the handouts, the only files of a farm that are not text.
//!
//! What a picture is and how large is looked at here, without decoding it; its bytes stay on disk, since a farm may have
//! hundreds of megabytes of them.

use std::borrow::Cow;
use std::fs;
use std::io::{self, Cursor};
use std::path::PathBuf;
use std::sync::Arc;

use image::codecs::jpeg::JpegDecoder;
use image::codecs::png::PngDecoder;
use image::codecs::webp::WebPDecoder;
use image::error::ImageFormatHint;
use image::metadata::Orientation;
use image::{ImageDecoder, ImageError, ImageFormat, ImageResult, Limits};
use sha2::{Digest, Sha256};

use super::{Found, Unread};
use crate::fault::{Fault, File, Place};

/// The folder of the farm's photographs.
pub const PHOTOS: &str = "photos/";
/// The folders in which pictures may lie.
const FOLDERS: [&str; 2] = ["handouts/", PHOTOS];
/// The endings of a picture's name.
const ENDINGS: [&str; 4] = [".png", ".jpg", ".jpeg", ".webp"];
/// The most bytes of a picture.
pub(super) const MOST: u64 = 100_000_000;
/// The most pixels of a picture: those of the finest cameras, which a small machine still holds.
const PIXELS: u64 = 50_000_000;
/// The longest edge of what the guide shows of a picture, in pixels: enough for a telephone and for half a sheet of paper.
const EDGE: u32 = 1_024;
/// Told with every original, so that a picture that is made smaller in another way gets another name.
const WAY: &[u8] = b"1";

/// A picture, as it was found.
#[derive(Debug, PartialEq, Eq)]
pub struct Picture {
    /// Its path inside the farm.
    pub path: String,
    /// The path of what the guide shows of it, by its name and by what it holds.
    pub shown: String,
    /// The width of that, in pixels.
    pub width: u32,
    /// Its height.
    pub height: u32,
    original: Original,
}

/// Where the bytes of a picture are.
#[derive(Debug, PartialEq, Eq)]
enum Original {
    /// In a file.
    Disk(PathBuf),
    /// In the binary.
    Held(Vec<u8>),
}

/// What the head of a picture says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Head {
    /// What kind of picture it is.
    pub format: ImageFormat,
    /// Width and height as they are stored.
    pub size: [u32; 2],
    /// How it is to be turned.
    pub orientation: Orientation,
    /// Whether it moves.
    moves: bool,
}

impl Head {
    /// Width and height of what the guide shows of it, before it is turned.
    ///
    /// ```
    /// use hostwood::read::picture::Head;
    /// use image::{ImageFormat, metadata::Orientation};
    /// let head = |size| Head::still(ImageFormat::Jpeg, size, Orientation::Rotate90);
    /// assert_eq!(head([4000, 3000]).fitted(), [1024, 768]);
    /// assert_eq!(head([640, 3]).fitted(), [640, 3]);
    /// ```
    pub fn fitted(&self) -> [u32; 2] {
        let longest = self.size.into_iter().max().unwrap_or(1).max(1);
        let fitted = |edge: u32| (u64::from(edge) * u64::from(EDGE)).div_ceil(u64::from(longest)).max(1) as u32;
        self.size.map(|edge| if longest <= EDGE { edge } else { fitted(edge) })
    }

    /// The head of a picture that does not move.
    pub const fn still(format: ImageFormat, size: [u32; 2], orientation: Orientation) -> Self {
        Self { format, size, orientation, moves: false }
    }

    fn read(bytes: &[u8]) -> ImageResult<Self> {
        let format = image::guess_format(bytes)?;
        let bytes = Cursor::new(bytes);
        match format {
            ImageFormat::Jpeg => Self::of(format, JpegDecoder::new(bytes)?, |_| Ok(false)),
            ImageFormat::Png => {
                Self::of(format, PngDecoder::with_limits(bytes, Limits::no_limits())?, PngDecoder::is_apng)
            }
            ImageFormat::WebP => Self::of(format, WebPDecoder::new(bytes)?, |decoder| Ok(decoder.has_animation())),
            other => Err(ImageError::Unsupported(ImageFormatHint::Exact(other).into())),
        }
    }

    fn of<D: ImageDecoder>(
        format: ImageFormat,
        mut decoder: D,
        moves: impl Fn(&D) -> ImageResult<bool>,
    ) -> ImageResult<Self> {
        let (width, height) = decoder.dimensions();
        let moves = moves(&decoder)?;
        // A picture with broken notes of its camera is shown as it lies.
        let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
        Ok(Self { format, size: [width, height], orientation, moves })
    }
}

impl Picture {
    /// Its bytes.
    ///
    /// # Errors
    ///
    /// That of the machine, where its file cannot be read any more.
    pub fn bytes(&self) -> io::Result<Cow<'_, [u8]>> {
        match &self.original {
            Original::Disk(path) => fs::read(path).map(Cow::Owned),
            Original::Held(bytes) => Ok(Cow::Borrowed(bytes)),
        }
    }

    /// What the head of its bytes says; nothing where they are no picture.
    pub fn head(bytes: &[u8]) -> Option<Head> {
        Head::read(bytes).ok()
    }

    /// A fault of the picture.
    pub fn fault(&self, rule: &'static str, wrong: &str, instead: &str) -> Fault {
        Fault::new(rule, wrong).instead(instead).at(start(&self.path, false))
    }
}

/// The beginning of a file that is no text.
fn start(path: &str, handbook: bool) -> Place {
    Place::start(Arc::new(File::new(path.to_owned(), String::new(), handbook)))
}

/// Whether a path is that of a picture, by its folder and its ending.
pub fn is_picture(path: &str) -> bool {
    let path = path.to_lowercase();
    FOLDERS.iter().any(|folder| path.starts_with(folder)) && has_ending(&path)
}

/// Whether a name ends as a picture's does.
pub fn has_ending(name: &str) -> bool {
    let name = name.to_lowercase();
    ENDINGS.iter().any(|ending| name.ends_with(ending))
}

/// Reads what a picture is.
///
/// # Errors
///
/// A [`Fault`] where the file cannot be read, is no picture of a known kind, moves, or has more bytes or pixels than can be shown.
pub(super) fn read(found: Found) -> Result<Arc<Picture>, Fault> {
    let Found { path, bytes, at, handbook } = found;
    let place = start(&path, handbook);
    let fault = |rule, wrong: &str, instead: &str| Fault::new(rule, wrong).instead(instead).at(place.clone());
    let held = bytes.map_err(|unread| match unread {
        Unread::TooLarge { .. } => fault(
            "too-large",
            "this picture holds more than 100 MB",
            "save it smaller: 3 MB are enough for a whole page",
        ),
        Unread::Elsewhere | Unread::Stray => unread.fault(Arc::clone(&place.file)),
    })?;
    let original = at.map_or(Original::Held(held), Original::Disk);
    let mut picture = Picture { path, shown: String::new(), width: 0, height: 0, original };
    let bytes = picture
        .bytes()
        .map_err(|_| fault("not-a-file", "this picture cannot be read", "see who may read it, or take it away"))?;
    let head = Head::read(&bytes).ok().filter(|head| head.format != ImageFormat::Jpeg || is_whole(&bytes));
    let head = head.ok_or_else(|| {
        fault(
            "not-a-picture",
            "its name is that of a picture, but its contents are not, or are broken",
            "save the picture itself as JPEG, PNG or WebP; another name is not enough",
        )
    })?;
    let [width, height] = head.size.map(u64::from);
    if width * height > PIXELS {
        let wrong = format!("this picture has {width} by {height} pixels, and can be shown with 50 million at most");
        return Err(fault("too-large", &wrong, "save it smaller: 2,000 pixels along its longer edge are enough"));
    }
    if head.moves {
        return Err(fault(
            "moving-picture",
            "this picture moves, and paper does not",
            "save one of its pictures, as JPEG",
        ));
    }
    let turned = turns_over(head.orientation);
    let [wide, high] = head.fitted();
    let shown = shown(&picture.path, &bytes);
    (picture.width, picture.height) = if turned { (high, wide) } else { (wide, high) };
    picture.shown = shown;
    Ok(Arc::new(picture))
}

/// Whether a JPEG has its end, without which decoders paint the rest grey and say nothing.
///
/// Segments tell their lengths up to that of the first scan, behind which no byte but a marker follows 0xFF (ITU-T T.81, B.1).
fn is_whole(bytes: &[u8]) -> bool {
    const SCAN: u8 = 0xDA;
    const END: u8 = 0xD9;
    let mut at = 2;
    while let Some([0xFF, marker, high, low]) = bytes.get(at..at + 4) {
        if *marker == SCAN {
            return bytes[at..].windows(2).any(|pair| pair == [0xFF, END]);
        }
        at += 2 + usize::from(u16::from_be_bytes([*high, *low]));
    }
    // Fill bytes between segments are rare, and a decoder knows them.
    true
}

/// Whether what was wide is high once it is turned.
const fn turns_over(orientation: Orientation) -> bool {
    matches!(
        orientation,
        Orientation::Rotate90 | Orientation::Rotate270 | Orientation::Rotate90FlipH | Orientation::Rotate270FlipH
    )
}

/// The path of what the guide shows: a name that any web server can serve, and what tells this original from any other.
fn shown(path: &str, bytes: &[u8]) -> String {
    let name = path.rsplit('/').next().unwrap_or(path);
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem).to_lowercase();
    let words: Vec<&str> = stem.split(|c: char| !c.is_ascii_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let mut name: String = words.join("-");
    name.truncate(40);
    let digest = Sha256::new().chain_update(WAY).chain_update(bytes).finalize();
    let hash = digest.iter().take(8).fold(0_u64, |hash, byte| hash << 8 | u64::from(*byte));
    let between = if name.is_empty() { "" } else { "-" };
    format!("{PHOTOS}{name}{between}{hash:016x}.jpg")
}
