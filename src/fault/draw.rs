//! Shows faults to a person or to an editor.

use std::{collections::BTreeMap, fmt::Write};

use serde_json::{Value, json};

use super::Fault;

/// Draws one fault: place, the line itself, a pointer under it, what is wrong, what to write instead.
///
/// With `ink` the rule and the pointer are coloured by terminal codes.
#[must_use]
pub fn text(fault: &Fault, ink: bool) -> String {
    let (strong, red, plain) = if ink { ("\x1b[1m", "\x1b[31m", "\x1b[0m") } else { ("", "", "") };
    let mut out = String::new();
    if let Some(place) = &fault.place {
        let line = place.file.line(place.line).chars().take(160);
        let shown: String = line.map(|c| if c.is_control() { ' ' } else { c }).collect();
        let _ = writeln!(out, "{strong}{}:{}:{}{plain}  {}", place.file.name, place.line, place.column, fault.rule);
        if !shown.trim().is_empty() {
            let _ = writeln!(out, "    | {shown}");
            if place.column <= shown.chars().count() + 1 {
                let _ = writeln!(out, "    | {}{red}^{plain}", " ".repeat(place.column - 1));
            }
        }
    }
    let _ = writeln!(out, "    {}.", fault.wrong.trim_end_matches('.'));
    if let Some(instead) = &fault.instead {
        let _ = writeln!(out, "    To mend it: {}.", instead.trim_end_matches('.'));
    }
    out
}

/// Faults of one rule in one file that are drawn; more of them are counted.
const DRAWN: usize = 100;
/// Letters of a line that an editor is told; it has the file.
const LINE: usize = 1000;

/// Draws all faults, an empty line between them, and a closing count; of very many alike the first are drawn and the others
/// counted.
#[must_use]
pub fn report(faults: &[Fault], ink: bool) -> String {
    let mut out = String::new();
    let mut alike: BTreeMap<(&str, &str), usize> = BTreeMap::new();
    for fault in faults {
        let file = fault.place.as_ref().map_or("", |place| place.file.name.as_str());
        let count = alike.entry((file, fault.rule)).or_default();
        *count += 1;
        if *count <= DRAWN {
            out += &(text(fault, ink) + "\n");
        }
    }
    for ((file, rule), count) in alike.into_iter().filter(|(_, count)| *count > DRAWN) {
        let more = count_words(count - DRAWN, "more fault", "more faults");
        let _ = writeln!(out, "{file}  {rule}\n    {more} of this rule stand in this file.");
        let _ = writeln!(out, "    To see them all: `hostwood proof --as json`.\n");
    }
    let files: std::collections::BTreeSet<&str> =
        faults.iter().filter_map(|fault| fault.place.as_ref()).map(|place| place.file.name.as_str()).collect();
    let _ = writeln!(
        out,
        "{} in {}. Nothing was written.",
        count_words(faults.len(), "fault", "faults"),
        count_words(files.len(), "file", "files")
    );
    out
}

fn count_words(number: usize, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

/// The faults as an array of flat objects, for editors.
#[must_use]
pub fn json(faults: &[Fault]) -> Value {
    faults
        .iter()
        .map(|fault| {
            let place = fault.place.as_ref();
            json!({
                "file": place.map(|place| place.file.name.clone()),
                "line": place.map(|place| place.line),
                "column": place.map(|place| place.column),
                "text": place.map(|place| place.file.line(place.line).chars().take(LINE).collect::<String>()),
                "rule": fault.rule,
                "wrong": fault.wrong,
                "instead": fault.instead,
            })
        })
        .collect()
}
