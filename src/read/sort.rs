//! Tells by a file's path which kind of record it holds, and reads it.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::node::{Node, Tree};
use super::{Entry, Found, Heap, Lost, Unread, markdown, picture, sheet, yaml};
use crate::fault::unseen::is_unseen;
use crate::fault::{Fault, File, Place, suggest};
use crate::record::{Kind, Layout};

/// The most bytes of a record or a note.
const RECORD: u64 = 2_000_000;
/// The most bytes of a list of rows.
const LIST: u64 = 8_000_000;
/// The most bytes of a sheet of a spreadsheet.
const SHEET: u64 = 64_000_000;

/// Reads files into entries; what cannot be read becomes a fault.
pub fn read(found: Vec<Found>) -> Heap {
    let mut heap = Heap::default();
    for file in found {
        let path = file.path.clone();
        if path.contains(is_unseen) {
            heap.faults.push(unseen_name(file));
            continue;
        }
        if picture::is_picture(&path) {
            match picture::read(file) {
                Ok(picture) => heap.pictures.push(picture),
                Err(fault) => heap.faults.push(fault),
            }
            continue;
        }
        match one(file, &mut heap.faults) {
            Ok(mut some) => heap.entries.append(&mut some),
            Err(fault) => {
                heap.faults.push(fault);
                heap.lost.extend(lost(&path));
            }
        }
    }
    heap
}

/// The records that a file would have held.
fn lost(path: &str) -> Option<Lost> {
    let kind = Kind::of_path(path)?;
    let one = kind.layout().is_file_a_record();
    Some(if one { Lost::One(kind, stem(path).to_owned()) } else { Lost::All(kind) })
}

fn one(found: Found, faults: &mut Vec<Fault>) -> Result<Vec<Entry>, Fault> {
    let Found { path, bytes, handbook, .. } = found;
    let name = if handbook { format!("handbook/{path}") } else { path.clone() };
    let unread = |name: &str| Arc::new(File::new(name.to_owned(), String::new(), handbook));
    let kind = match (Kind::of_path(&path), &bytes) {
        (None, Ok(_) | Err(Unread::Stray | Unread::TooLarge { .. })) => return Err(stray(&unread(&name), &path)),
        (None, Err(elsewhere)) => return Err(elsewhere.fault(unread(&name))),
        (Some(kind), _) => kind,
    };
    let bytes = bytes.map_err(|why| why.fault(unread(&name)))?;
    let text = String::from_utf8(bytes).map_err(|error| not_utf8(name.clone(), &error, handbook))?;
    let text = text.strip_prefix('\u{feff}').map(str::to_owned).unwrap_or(text);
    let file = Arc::new(File::new(name, text, handbook));
    let stem = stem(&path);
    let start = Place::start(Arc::clone(&file));
    let entry = |id: &str, node, text| vec![Entry { kind, id: id.to_owned(), place: start, node, text }];
    let parse = |faults| yaml::parse(&file, &file.text, 1, faults);
    match kind.layout() {
        Layout::Single => Ok(entry(kind.word(), parse(faults)?, None)),
        Layout::Each => {
            let node = parse(faults)?;
            if let (Some(kind), Tree::List(_)) = (sheets_in(kind.at()), &node.value) {
                return rows(kind, &path, node);
            }
            check_id(&file, stem)?;
            Ok(entry(stem, node, None))
        }
        Layout::Sheets if file.is_sheet() => rows(kind, &path, sheet::parse(kind, &file, faults)?),
        Layout::Sheets | Layout::Rows => rows(kind, &path, parse(faults)?),
        Layout::ById => by_id(kind, parse(faults)?, faults),
        Layout::Markdown => {
            check_id(&file, stem)?;
            let parts = markdown::part(&file)?;
            let node = yaml::parse(&file, parts.header, 2, faults)?;
            Ok(entry(stem, node, Some(parts.text)))
        }
    }
}

/// The kind whose rows may stand in a folder beside records with a file each.
fn sheets_in(folder: &str) -> Option<Kind> {
    Kind::ALL.into_iter().find(|kind| kind.layout() == Layout::Sheets && kind.at() == folder)
}

fn unseen_name(found: Found) -> Fault {
    let file = File::new(found.path, String::new(), found.handbook);
    Fault::new("bad-name", "the name of this file or of its folder holds a character that nobody can see")
        .instead("call it anew with letters, digits and hyphens")
        .at(Place::start(Arc::new(file)))
}

/// The rows of a file, each under its tag, or under the file's path inside the folder, so that two files of one name stay
/// apart.
fn rows(kind: Kind, path: &str, node: Node) -> Result<Vec<Entry>, Fault> {
    let stem = path.trim_start_matches(kind.at()).trim_matches('/').trim_end_matches(".yaml");
    match node.value {
        Tree::List(items) => Ok(items
            .into_iter()
            .enumerate()
            .map(|(index, node)| Entry {
                kind,
                id: tag(&node).unwrap_or_else(|| format!("{stem}-{}", index + 1)),
                place: node.place.clone(),
                node,
                text: None,
            })
            .collect()),
        _ => Err(Fault::new("wrong-type", "a list of rows is wanted here")
            .instead("begin each row with `- ` and write its keys under it")
            .at(node.place)),
    }
}

/// What the tag of a row says, by which others name it.
fn tag(node: &Node) -> Option<String> {
    match &node.get("tag")?.value {
        Tree::Text(text) => Some(text.clone()),
        Tree::Number(number) => Some(number.to_string()),
        _ => None,
    }
}

fn by_id(kind: Kind, node: Node, faults: &mut Vec<Fault>) -> Result<Vec<Entry>, Fault> {
    let Tree::Map(items) = node.value else {
        return Err(Fault::new("wrong-type", format!("a {} stands here under its id", kind.word()))
            .instead("write the id and a colon, and the record's keys indented under it")
            .at(node.place));
    };
    let mut entries = Vec::new();
    for (key, node) in items {
        if is_id(&key.text) {
            entries.push(Entry { kind, id: key.text, place: key.place, node, text: None });
        } else {
            faults.push(bad_id(&key.text).at(key.place));
        }
    }
    Ok(entries)
}

/// The most bytes that are read from a file of some path; `None` where nothing of that name is read.
///
/// A record or a note holds 2 MB, a list of rows 8 MB, a sheet 64 MB: more than a hundred times what farms write.
pub(super) fn most(path: &str) -> Option<u64> {
    if picture::is_picture(path) {
        return Some(picture::MOST);
    }
    let kind = Kind::of_path(path)?;
    Some(match kind.layout() {
        Layout::Each if sheets_in(kind.at()).is_some() => SHEET,
        Layout::Single | Layout::Each | Layout::Markdown => RECORD,
        Layout::Rows | Layout::ById => LIST,
        Layout::Sheets => SHEET,
    })
}

fn stem(path: &str) -> &str {
    let name = path.rsplit('/').next().unwrap_or(path);
    name.rsplit_once('.').map_or(name, |(stem, _)| stem)
}

/// The longest id, so that every file system can hold the page that is named after it.
const LONGEST_ID: usize = 80;

/// What pages of the guide itself are called.
const TAKEN: [&str; 4] = ["index", "content", "formulas", "record"];

fn is_id(text: &str) -> bool {
    !text.is_empty()
        && !TAKEN.contains(&text)
        && text.len() <= LONGEST_ID
        && text.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
}

fn bad_id(text: &str) -> Fault {
    let wanted: String = text.to_lowercase().chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
    Fault::new("bad-id", format!("`{text}` cannot be the id of a record")).instead(match wanted.trim_matches('-') {
        "" => "use small letters, digits and hyphens, such as `red-oak`".to_owned(),
        taken if TAKEN.contains(&taken) => "choose another word; pages of the guide itself are called so".to_owned(),
        long if long.len() > LONGEST_ID => format!("use at most {LONGEST_ID} letters"),
        wanted => format!("use small letters, digits and hyphens, such as `{wanted}`"),
    })
}

fn check_id(file: &Arc<File>, stem: &str) -> Result<(), Fault> {
    if is_id(stem) { Ok(()) } else { Err(bad_id(stem).at(Place::start(Arc::clone(file)))) }
}

fn not_utf8(name: String, error: &std::string::FromUtf8Error, handbook: bool) -> Fault {
    let upto = error.utf8_error().valid_up_to();
    let text = String::from_utf8_lossy(error.as_bytes()).into_owned();
    let place = Place::of_offset(Arc::new(File::new(name, text, handbook)), upto);
    Fault::new("not-utf-8", "the file is not UTF-8 from here on").instead("save it as UTF-8 in the editor").at(place)
}

fn stray(file: &Arc<File>, path: &str) -> Fault {
    let top = path.split('/').next().unwrap_or(path);
    let fault = Fault::new("stray-file", format!("no record is read from `{path}`"));
    let ends = |endings: &[&str]| endings.iter().any(|ending| path.to_lowercase().ends_with(ending));
    let fault = if picture::has_ending(path) {
        fault.instead("put a picture into the folder `photos`, or hide it with a dot before its name")
    } else if ends(&[".heic", ".heif", ".gif", ".tif", ".tiff", ".bmp", ".avif"]) {
        fault.instead(
            "save the picture as JPEG, PNG or WebP in the folder `photos`, or hide it with a dot before its name",
        )
    } else if ends(&["~", ".bak", ".orig", ".tmp", ".db"]) {
        fault.instead("take this copy away, or hide it with a dot before its name")
    } else if let Some(kind) = Kind::ALL.into_iter().rfind(|kind| kind.folder() == Some(top)) {
        let endings = suggest::either(kind.layout().endings().iter().copied());
        fault.instead(format!("give it the ending {endings}, or move it out of the farm's folder"))
    } else if path.contains('/') {
        let folders: BTreeSet<&str> = Kind::ALL.into_iter().filter_map(Kind::folder).collect();
        fault.instead(match suggest::closest(top, folders.iter().copied()) {
            Some(meant) => format!("call the folder `{meant}`, if that is meant"),
            None => format!(
                "records stand in the folders {}; move this file out, or hide its folder with a dot",
                suggest::either(folders)
            ),
        })
    } else {
        let files = || Kind::ALL.into_iter().filter(|kind| kind.folder().is_none()).map(Kind::at);
        fault.instead(match suggest::closest(top, files()) {
            Some(meant) => format!("call it `{meant}`, if that is meant"),
            None => {
                format!("the files at the top are {}; move this one into its folder, or out", suggest::either(files()))
            }
        })
    };
    fault.at(Place::start(Arc::clone(file)))
}
