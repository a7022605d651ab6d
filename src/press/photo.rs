//! What the guide shows of a picture: upright, small, and without what a camera writes beside it.
//!
//! A picture is told by the name under which it is shown, which comes from its original's bytes. What an earlier guide has under
//! that name is taken from there, so that no picture is decoded twice.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::Cursor;
use std::path::Path;
use std::sync::Arc;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use image::codecs::jpeg::JpegEncoder;
use image::metadata::Orientation;
use image::{DynamicImage, ImageReader, ImageResult, Limits, Rgb, RgbImage};
use rayon::prelude::*;

use super::Files;
use crate::fault::Fault;
use crate::read::Picture;
use crate::read::picture::PHOTOS;

/// The most bytes of a picture in the guide.
const MOST: usize = 120_000;
/// How finely it is written, the finest first; the last is taken however heavy it is.
const QUALITIES: [u8; 5] = [82, 74, 66, 56, 44];
/// The most bytes that a decoder may ask for: four for each of the most pixels, and as many to work with.
const MEMORY: u64 = 400_000_000;
/// Pictures that are decoded side by side, since each takes that much.
const AT_ONCE: usize = 2;

/// What the pages of a guide show of pictures, by path; whatever the earlier guide has is taken from its folder.
///
/// # Errors
///
/// A [`Fault`] for each picture that cannot be decoded or read any more.
pub fn shown(pictures: &BTreeMap<String, Arc<Picture>>, pages: &Files, earlier: &Path) -> Result<Files, Vec<Fault>> {
    let wanted = asked_for(pages);
    // Two originals with the same bytes are shown as one.
    let pictures: BTreeMap<&str, &Picture> =
        pictures.values().map(|picture| (picture.shown.as_str(), &**picture)).collect();
    let pictures: Vec<&Picture> =
        pictures.into_values().filter(|found| wanted.contains(found.shown.as_str())).collect();
    let (mut files, mut faults) = (Files::new(), Vec::new());
    for some in pictures.chunks(AT_ONCE) {
        let made: Vec<_> = some.par_iter().map(|picture| of(picture, earlier)).collect();
        for (picture, made) in some.iter().zip(made) {
            match made {
                Ok(bytes) => drop(files.insert(picture.shown.clone(), bytes)),
                Err(fault) => faults.push(fault),
            }
        }
    }
    if faults.is_empty() { Ok(files) } else { Err(faults) }
}

/// Puts what pages show of pictures into those that stand alone in one file.
pub fn put_into(page: &[u8], files: &Files) -> Vec<u8> {
    let page = String::from_utf8_lossy(page);
    let inside = |part: &str| {
        let (src, rest) = part.split_once('"').unwrap_or((part, ""));
        let bytes = files.get(src)?;
        Some(format!("data:image/jpeg;base64,{}\"{rest}", STANDARD.encode(bytes)))
    };
    let parts: Vec<String> = page.split("src=\"").map(|part| inside(part).unwrap_or_else(|| part.to_owned())).collect();
    parts.join("src=\"").into_bytes()
}

/// The paths of pictures for which pages ask.
fn asked_for(pages: &Files) -> BTreeSet<&str> {
    let html = pages.iter().filter(|(path, _)| path.ends_with(".html"));
    let texts = html.filter_map(|(_, page)| std::str::from_utf8(page).ok());
    let asked = texts.flat_map(|page| page.split("src=\"").skip(1).filter_map(|rest| rest.split('"').next()));
    asked.map(|src| src.trim_start_matches("../")).filter(|src| src.starts_with(PHOTOS)).collect()
}

fn of(picture: &Picture, earlier: &Path) -> Result<Vec<u8>, Fault> {
    if let Ok(bytes) = fs::read(earlier.join(&picture.shown)) {
        return Ok(bytes);
    }
    let original = picture.bytes().map_err(|_| {
        picture.fault("not-a-file", "this picture cannot be read any more", "see who may read it, or take it away")
    })?;
    smaller(&original).map_err(|_| {
        picture.fault(
            "not-a-picture",
            "this picture breaks off or is broken inside",
            "copy it anew from the camera, or save it anew as JPEG",
        )
    })
}

/// A picture made small and turned upright, as JPEG.
///
/// # Errors
///
/// That of the decoder, where the bytes are no picture, or break off.
pub fn smaller(original: &[u8]) -> ImageResult<Vec<u8>> {
    let mut reader = ImageReader::new(Cursor::new(original)).with_guessed_format()?;
    let mut limits = Limits::default();
    limits.max_alloc = Some(MEMORY);
    reader.limits(limits);
    let decoded = reader.decode()?;
    let head = Picture::head(original);
    let [width, height] = head.map_or([decoded.width(), decoded.height()], |head| head.fitted());
    let mut small = if [width, height] == [decoded.width(), decoded.height()] {
        decoded
    } else {
        decoded.thumbnail_exact(width, height)
    };
    small.apply_orientation(head.map_or(Orientation::NoTransforms, |head| head.orientation));
    written(&on_white(&small))
}

/// A picture on white paper, where it can be seen through.
fn on_white(picture: &DynamicImage) -> RgbImage {
    if !picture.color().has_alpha() {
        return picture.to_rgb8();
    }
    let picture = picture.to_rgba8();
    RgbImage::from_fn(picture.width(), picture.height(), |x, y| {
        let [red, green, blue, alpha] = picture.get_pixel(x, y).0.map(u16::from);
        Rgb([red, green, blue].map(|ink| ((ink * alpha + 255 * (255 - alpha)) / 255) as u8))
    })
}

/// A picture as JPEG, as fine as its bytes allow.
fn written(picture: &RgbImage) -> ImageResult<Vec<u8>> {
    let mut bytes = Vec::new();
    for quality in QUALITIES {
        bytes.clear();
        JpegEncoder::new_with_quality(&mut bytes, quality).encode_image(picture)?;
        if bytes.len() <= MOST {
            break;
        }
    }
    Ok(bytes)
}
