//! Photographs of the farm's own: shown upright and small, without place and camera, and taken over from the earlier guide.

use std::collections::BTreeMap;
use std::fs;

use std::path::Path;
use std::process::Output;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use hostwood::press::photo::smaller;
use hostwood::read::folder;
use image::codecs::jpeg::JpegEncoder;
use image::codecs::png::PngEncoder;
use image::codecs::webp::WebPEncoder;
use image::metadata::Orientation;
use image::{DynamicImage, GenericImageView, ImageEncoder, ImageFormat, Rgb, RgbImage, Rgba, RgbaImage};
use proptest::prelude::*;

use crate::harness::{Farm, code, files, run, said};

const CAMERA: &str = "Quillet Bellows 9";
/// Seconds of latitude in hundredths, a number that nothing else in a picture has.
const SECONDS: u32 = 0x0BAD_5EED;

/// What a camera writes: its name, how it was held, and where it stood (Exif 2.3, TIFF 6.0).
fn exif(orientation: u8) -> Vec<u8> {
    let mut bytes = b"II*\0\x08\0\0\0\x03\0".to_vec();
    let mut entry = |tag: u16, kind: u16, count: u32, value: u32| {
        bytes.extend(tag.to_le_bytes());
        bytes.extend(kind.to_le_bytes());
        bytes.extend(count.to_le_bytes());
        bytes.extend(value.to_le_bytes());
    };
    let camera = 8 + 2 + 3 * 12 + 4;
    let gps = camera + CAMERA.len() as u32 + 1;
    entry(0x010F, 2, CAMERA.len() as u32 + 1, camera);
    entry(0x0112, 3, 1, orientation.into());
    entry(0x8825, 4, 1, gps);
    bytes.extend([0; 4]);
    bytes.extend(CAMERA.bytes().chain([0]));
    // One entry: the latitude, three rationals.
    bytes.extend(1u16.to_le_bytes());
    for part in [2u32 | (5 << 16), 3, gps + 2 + 12 + 4] {
        bytes.extend(part.to_le_bytes());
    }
    bytes.extend([0; 4]);
    for number in [44, 1, 6, 1, SECONDS, 100] {
        bytes.extend(u32::to_le_bytes(number));
    }
    bytes
}

/// A picture of a red corner on white, as a camera would write it.
fn photograph(format: ImageFormat, orientation: u8, [right, low]: [bool; 2]) -> Vec<u8> {
    let picture = RgbImage::from_fn(64, 32, |x, y| {
        if (x >= 32) == right && (y >= 16) == low { Rgb([200, 0, 0]) } else { Rgb([255; 3]) }
    });
    written(&picture.into(), format, exif(orientation))
}

fn written(picture: &DynamicImage, format: ImageFormat, exif: Vec<u8>) -> Vec<u8> {
    fn with(mut encoder: impl ImageEncoder, picture: &DynamicImage, exif: Vec<u8>) {
        if !exif.is_empty() {
            encoder.set_exif_metadata(exif).unwrap();
        }
        picture.write_with_encoder(encoder).unwrap();
    }
    let mut bytes = Vec::new();
    match format {
        ImageFormat::Jpeg => with(JpegEncoder::new(&mut bytes), picture, exif),
        ImageFormat::Png => with(PngEncoder::new(&mut bytes), picture, exif),
        _ => with(WebPEncoder::new_lossless(&mut bytes), picture, exif),
    }
    bytes
}

fn plain(width: u32, height: u32) -> Vec<u8> {
    written(&RgbImage::from_pixel(width, height, Rgb([90, 120, 60])).into(), ImageFormat::Jpeg, Vec::new())
}

/// A farm with pictures in its folder of photographs, each shown by a note.
fn farm(pictures: &[(&str, &[u8])]) -> Farm {
    let farm = Farm::with(&[]);
    fs::create_dir_all(farm.path().join("photos")).unwrap();
    let mut note = "---\ntitle: Seen\ndate: 2026-05-01\n---\n".to_owned();
    for (name, bytes) in pictures {
        fs::write(farm.path().join("photos").join(name), bytes).unwrap();
        note = format!("{note}\n![A log](<../photos/{name}>)\n");
    }
    farm.write("notes/seen.md", &note);
    farm
}

fn published(farm: &Farm) -> BTreeMap<String, Vec<u8>> {
    let output = farm.publish();
    assert_eq!(code(&output), 0, "{}", said(&output));
    photos(farm)
}

/// The photographs of a guide, by name.
fn photos(farm: &Farm) -> BTreeMap<String, Vec<u8>> {
    files(&farm.path().join("guide/photos"))
}

fn holds(bytes: &[u8], part: &[u8]) -> bool {
    bytes.windows(part.len()).any(|window| window == part)
}

/// What tells of a camera or of a place.
fn tells(bytes: &[u8]) -> bool {
    let words: [&[u8]; 6] = [b"Exif", b"eXIf", b"EXIF", b"ICC", b"http", CAMERA.as_bytes()];
    words.iter().any(|word| holds(bytes, word))
        || holds(bytes, &SECONDS.to_le_bytes())
        || holds(bytes, &SECONDS.to_be_bytes())
}

#[test]
fn nothing_of_the_place_or_the_camera_is_in_the_guide() {
    let formats = [(ImageFormat::Jpeg, "a.jpg"), (ImageFormat::Png, "b.png"), (ImageFormat::WebP, "c.webp")];
    let originals: Vec<(&str, Vec<u8>)> =
        formats.map(|(format, name)| (name, photograph(format, 6, [false, true]))).into();
    assert!(originals.iter().all(|(_, bytes)| tells(bytes) && holds(bytes, &SECONDS.to_le_bytes())));
    let farm = farm(&originals.iter().map(|(name, bytes)| (*name, bytes.as_slice())).collect::<Vec<_>>());
    let handout = "title: Logs\nsheets: 2\nmushrooms: [shiitake]\nwoods: [red-oak]\nlogs: 10\nsections:\n  - {shows: words, says: Seen., picture: {file: a.jpg, shows: A log}}\n";
    farm.write("handouts/ten.yaml", handout);
    fs::write(farm.path().join("handouts/a.jpg"), &originals[0].1).unwrap();
    let shown = published(&farm);
    assert_eq!(shown.len(), 3);
    for (name, bytes) in &shown {
        assert!(!tells(bytes), "{name}");
        assert_eq!(image::guess_format(bytes).unwrap(), ImageFormat::Jpeg);
        assert_eq!(image::load_from_memory(bytes).unwrap().dimensions(), (32, 64), "{name} stands upright");
    }
    let page = farm.page("handouts/ten.html");
    let inside = page.split("data:image/jpeg;base64,").nth(1).unwrap().split('"').next().unwrap();
    let inside = STANDARD.decode(inside).unwrap();
    assert!(shown.values().any(|bytes| *bytes == inside), "a handout has what pages show");
    for (name, original) in &originals {
        assert_eq!(&fs::read(farm.path().join("photos").join(name)).unwrap(), original, "{name} is untouched");
    }
    let note = farm.page("notes/seen.html");
    assert!(note.contains(r#"alt="A log" width="32" height="64" loading="lazy""#));
}

/// Where the corner that is to be seen above on the left lies in what a camera stores (Exif 2.3, tag 274).
const CORNERS: [(u8, [bool; 2]); 8] = [
    (1, [false, false]),
    (2, [true, false]),
    (3, [true, true]),
    (4, [false, true]),
    (5, [false, false]),
    (6, [false, true]),
    (7, [true, true]),
    (8, [true, false]),
];

#[test]
fn a_picture_stands_upright_however_the_camera_was_held() {
    for (orientation, corner) in CORNERS {
        for format in [ImageFormat::Jpeg, ImageFormat::Png, ImageFormat::WebP] {
            let shown = smaller(&photograph(format, orientation, corner)).unwrap();
            let shown = image::load_from_memory(&shown).unwrap().to_rgb8();
            let size = if orientation > 4 { (32, 64) } else { (64, 32) };
            assert_eq!(shown.dimensions(), size, "{orientation} {format:?}");
            let [near, far] = [shown.get_pixel(8, 8), shown.get_pixel(size.0 - 8, size.1 - 8)];
            assert!(near.0[1] < 60 && far.0[1] > 200, "{orientation} {format:?}: {near:?} {far:?}");
        }
    }
}

#[test]
fn a_large_picture_is_made_smaller_and_one_to_be_seen_through_lies_on_white() {
    let mut noise = 1u32;
    let mut next = || {
        noise = noise.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (noise >> 24) as u8
    };
    let large = RgbImage::from_fn(2_600, 1_300, |_, _| Rgb([next(), next(), next()]));
    let shown = smaller(&written(&large.into(), ImageFormat::Jpeg, Vec::new())).unwrap();
    assert_eq!(image::load_from_memory(&shown).unwrap().dimensions(), (1_024, 512));
    let glass = RgbaImage::from_pixel(40, 40, Rgba([0, 0, 0, 0]));
    let shown = smaller(&written(&glass.into(), ImageFormat::Png, Vec::new())).unwrap();
    assert!(
        image::load_from_memory(&shown).unwrap().to_rgb8().pixels().all(|pixel| pixel.0.iter().all(|ink| *ink > 250))
    );
}

#[test]
fn an_unchanged_original_is_not_decoded_again() {
    let pictures: Vec<(String, Vec<u8>)> = (0..200).map(|n| (format!("log {n}.jpg"), plain(8 + n, 8))).collect();
    let farm = farm(&pictures.iter().map(|(name, bytes)| (name.as_str(), bytes.as_slice())).collect::<Vec<_>>());
    let first = published(&farm);
    assert_eq!(first.len(), 200);
    // What the earlier guide has is taken as it is, so that a mark in it tells whether anything was decoded.
    let mark = |name: &str| farm.path().join("guide/photos").join(name);
    for name in first.keys() {
        fs::write(mark(name), format!("taken over: {name}")).unwrap();
    }
    fs::write(farm.path().join("photos/log 7.jpg"), plain(300, 200)).unwrap();
    let second = published(&farm);
    let kept = second.iter().filter(|(name, bytes)| **bytes == format!("taken over: {name}").into_bytes()).count();
    assert_eq!((kept, second.len()), (199, 200), "the changed one alone is made anew");
    let third = published(&farm);
    assert_eq!(second, third);
}

#[test]
fn a_batch_a_stand_a_wood_and_a_mushroom_show_theirs_with_words_and_days() {
    let farm = farm(&[("Стопка дров.jpg", &plain(40, 30)), ("bark.jpg", &plain(30, 40))]);
    fs::write(farm.path().join("photos/unused.jpg"), plain(9, 9)).unwrap();
    farm.write("woodlot/knoll.yaml", "name: The knoll\nphotos: [{file: bark.jpg, shows: Bark at K-1}]\n");
    farm.write("woods/red-oak.yaml", "photos: [{file: bark.jpg, shows: Bark at K-1, date: 2026-02-01}]\n");
    farm.write("mushrooms/shiitake.yaml", "photos: [{file: 'Стопка дров.jpg', shows: The stack}]\n");
    farm.write("strains/early.yaml", "name: Early\nmushroom: shiitake\n");
    let batch = "strain: early\nwood: red-oak\nlogs: 5\ninoculated: 2026-04-20\nfelled: 2026-03-01\nphotos: [{file: 'Стопка дров.jpg', shows: 'The stack, <new>'}]\n";
    farm.write("batches/first.yaml", batch);
    assert_eq!(published(&farm).len(), 2, "what nobody shows is left out");
    for (page, words) in [
        ("stands/knoll.html", "Bark at K-1"),
        ("woods/red-oak.html", "Bark at K-1"),
        ("mushrooms/shiitake.html", "The stack"),
        ("yard/batches/first.html", "The stack, &lt;new&gt;"),
    ] {
        let html = farm.page(page);
        assert!(html.contains(&format!("alt=\"{words}\" width=")), "{page}");
        let root = "../".repeat(page.matches('/').count());
        assert!(html.contains(&format!("<img src=\"{root}photos/")), "{page}");
    }
    assert!(farm.page("woods/red-oak.html").contains("2026"));
    assert!(!farm.page("pocket.html").contains("photos/"), "the pocket edition is one file to print");
}

/// A PNG's chunk.
fn chunk(kind: [u8; 4], data: &[u8]) -> Vec<u8> {
    let mut whole = (data.len() as u32).to_be_bytes().to_vec();
    whole.extend(kind);
    whole.extend(data);
    let checked = whole[4..].iter().fold(u32::MAX, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| if sum & 1 == 1 { (sum >> 1) ^ 0xEDB8_8320 } else { sum >> 1 })
    });
    whole.extend((!checked).to_be_bytes());
    whole
}

const SIGNATURE: &[u8] = b"\x89PNG\r\n\x1a\n";

fn png_head(width: u32, height: u32) -> Vec<u8> {
    let mut head = [width.to_be_bytes(), height.to_be_bytes()].concat();
    head.extend([8, 2, 0, 0, 0]);
    [SIGNATURE, &chunk(*b"IHDR", &head)].concat()
}

/// A picture that says that it moves: a PNG with a chunk `acTL` behind its head.
fn moving() -> Vec<u8> {
    let still = written(&RgbImage::from_pixel(4, 4, Rgb([1, 2, 3])).into(), ImageFormat::Png, Vec::new());
    let head = SIGNATURE.len() + 25;
    [&still[..head], &chunk(*b"acTL", &[0, 0, 0, 2, 0, 0, 0, 0]), &still[head..]].concat()
}

/// A picture whose bytes end in the middle.
fn broken_off() -> Vec<u8> {
    let mut noise = 7u32;
    let whole = RgbImage::from_fn(90, 90, |_, _| {
        noise = noise.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        Rgb(noise.to_le_bytes()[1..].try_into().unwrap())
    });
    let mut bytes = written(&whole.into(), ImageFormat::Png, Vec::new());
    bytes.truncate(bytes.len() / 2);
    bytes
}

fn told(output: &Output, path: &str, rule: &str) {
    assert_eq!(code(output), 1, "{}", said(output));
    let text = said(output);
    assert!(text.contains(&format!("{path}:1:1  {rule}")), "{path} {rule}: {text}");
}

#[test]
fn what_cannot_be_shown_is_a_fault_each_and_the_earlier_guide_stands() {
    let huge: &[u8] = &[png_head(65_000, 65_000), chunk(*b"IDAT", &[0; 4]), chunk(*b"IEND", &[])].concat();
    let cut = photograph(ImageFormat::Jpeg, 6, [true, true]);
    let bad: [(&str, &[u8], &str); 7] = [
        ("cut.jpg", &cut[..cut.len() - 90], "not-a-picture"),
        ("words.jpg", b"these are words", "not-a-picture"),
        ("huge.png", huge, "too-large"),
        ("header.jpg", b"\xff\xd8\xff\xe0\0\x10JFIF", "not-a-picture"),
        ("header.webp", b"RIFF\x20\0\0\0WEBPVP8 ", "not-a-picture"),
        ("moves.png", &moving(), "moving-picture"),
        ("film.gif", b"GIF89a", "stray-file"),
    ];
    let farm = farm(&[("good.jpg", &plain(20, 20))]);
    let before = published(&farm);
    for (name, bytes, _) in bad {
        fs::write(farm.path().join("photos").join(name), bytes).unwrap();
    }
    let heavy = fs::File::create(farm.path().join("photos/film.jpg")).unwrap();
    heavy.set_len(400_000_000).unwrap();
    let output = farm.publish();
    for (name, _, rule) in bad.into_iter().chain([("film.jpg", &b""[..], "too-large")]) {
        told(&output, &format!("photos/{name}"), rule);
    }
    assert!(said(&output).contains("8 faults in 8 files. Nothing was written."), "{}", said(&output));
    assert_eq!(photos(&farm), before);
}

#[test]
fn a_picture_that_breaks_off_is_found_when_it_is_made_smaller() {
    let farm =
        farm(&[("half.png", &broken_off()), ("other.png", &broken_off()[..4_000]), ("good.jpg", &plain(20, 20))]);
    for command in [&["publish", ".", "--to", "guide"][..], &["proof", "."]] {
        let output = run(farm.path(), command);
        told(&output, "photos/half.png", "not-a-picture");
        told(&output, "photos/other.png", "not-a-picture");
    }
    assert!(!farm.path().join("guide").exists());
}

#[test]
fn a_photograph_needs_words_and_a_file() {
    let farm = farm(&[("stack.jpg", &plain(20, 20))]);
    farm.write(
        "notes/more.md",
        "---\ntitle: More\ndate: 2026-05-01\n---\nSee ![](../photos/stack.jpg) and\n![a stack](../photos/stak.jpg) and ![other](rack.jpg).\n",
    );
    farm.write("woods/red-oak.yaml", "photos:\n  - {file: stock.jpg, shows: ' '}\n  - {file: stack.jpg}\n");
    let output = run(farm.path(), &["proof", "."]);
    let text = said(&output);
    for wanted in [
        "notes/more.md:5:5  no-words",
        "notes/more.md:6:12  no-picture",
        "write `stack.jpg`, if that is meant",
        "notes/more.md:6:45  link-to-nothing",
        "woods/red-oak.yaml:2:12  no-picture",
        "woods/red-oak.yaml:2:30  no-words",
        "woods/red-oak.yaml:3:5  missing-key",
    ] {
        assert!(text.contains(wanted), "{wanted}: {text}");
    }
}

#[test]
fn names_in_other_scripts_are_found_as_editors_write_them() {
    let farm = farm(&[("Стопка дров.jpg", &plain(20, 20))]);
    let escaped = "%D0%A1%D1%82%D0%BE%D0%BF%D0%BA%D0%B0%20%D0%B4%D1%80%D0%BE%D0%B2.jpg";
    farm.write("notes/more.md", &format!("---\ntitle: More\ndate: 2026-05-01\n---\n![A stack](../photos/{escaped})\n"));
    let shown = published(&farm);
    let name = shown.keys().next().unwrap();
    assert!(shown.len() == 1 && name.is_ascii(), "{name}");
    assert!(farm.page("notes/more.html").contains(&format!("src=\"../photos/{name}\"")));
}

#[test]
fn the_eight_ways_of_a_camera_are_those_of_the_library() {
    for (orientation, _) in CORNERS {
        assert_eq!(Orientation::from_exif(orientation).map(Orientation::to_exif), Some(orientation));
    }
}

proptest! {
    #[test]
    fn no_bytes_under_a_pictures_name_stop_the_program(
        head in prop::sample::select(vec![&b"\xff\xd8\xff\xe0"[..], SIGNATURE, b"RIFF\x40\0\0\0WEBPVP8X", b""]),
        rest in prop::collection::vec(any::<u8>(), 0..200),
    ) {
        let folder = tempfile::TempDir::new().unwrap();
        fs::create_dir(folder.path().join("photos")).unwrap();
        fs::write(folder.path().join("photos/a.jpg"), [head, &rest].concat()).unwrap();
        let heap = hostwood::read::sort::read(folder::files(Path::new(folder.path())).unwrap());
        prop_assert_eq!(heap.pictures.len() + heap.faults.len(), 1);
        let _ = smaller(&[head, &rest].concat());
    }
}
