//! Shows faults and questions to a person or to an editor.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::{Display, Write};

use serde_json::{Value, json};

use super::Fault;
use super::unseen::{written_out, written_out_in_json};

/// The most characters of a line that are shown.
const SHOWN: usize = 160;
/// Those of it that an editor is told; it has the file.
const LINE: usize = 1000;
/// Faults of one rule in one file that are drawn; more of them are counted.
const DRAWN: usize = 100;

/// Draws one fault: place, the line itself, a pointer under it, what is wrong, what to write instead, and how a question is
/// answered.
///
/// With `ink` the place and the pointer are coloured by terminal codes.
pub fn text(fault: &Fault, ink: bool) -> String {
    let colour = if fault.question { "\x1b[33m" } else { "\x1b[31m" };
    let (strong, colour, plain) = if ink { ("\x1b[1m", colour, "\x1b[0m") } else { ("", "", "") };
    let mut out = String::new();
    if let Some(place) = &fault.place {
        let name = written_out(&place.file.name);
        let _ = writeln!(out, "{strong}{name}:{}:{}{plain}  {}", place.line, place.column, fault.rule);
        let line = place.file.line(place.line);
        if !line.trim().is_empty() {
            let _ = writeln!(out, "    | {}", shown(line, SHOWN));
            if place.column <= line.chars().take(SHOWN).count() + 1 {
                let before = shown(line, place.column - 1).chars().count();
                let _ = writeln!(out, "    | {}{colour}^{plain}", " ".repeat(before));
            }
        }
    }
    let _ = writeln!(out, "    {}.", written_out(fault.wrong.trim_end_matches('.')));
    if let Some(instead) = &fault.instead {
        let _ = writeln!(out, "    To mend it: {}.", written_out(instead.trim_end_matches('.')));
    }
    if let Some(answer) = fault.answer() {
        let _ = writeln!(out, "    If it is right: write `{answer}` at the top of the record, with the reason.");
    }
    out
}

/// The first characters of a line as a terminal may show them, a tab as one space so that the pointer stands right.
fn shown(line: &str, most: usize) -> String {
    let tab = |c: char| if c == '\t' { ' ' } else { c };
    let first: String = line.chars().take(most).map(tab).collect();
    written_out(&first).into_owned()
}

/// Draws all faults and after them all questions, an empty line between them, and a closing count of each.
pub fn report(faults: &[Fault], ink: bool) -> String {
    let (questions, faults): (Vec<&Fault>, Vec<&Fault>) = faults.iter().partition(|fault| fault.question);
    let parts = [
        (faults, ["fault", "faults"], "Nothing was written."),
        (questions, ["question", "questions"], "What is asked about can be right: mend it, or answer with a reason."),
    ];
    let drawn = parts.iter().filter(|(faults, ..)| !faults.is_empty());
    let drawn: Vec<String> = drawn.map(|(faults, noun, end)| together(faults, *noun, end, ink)).collect();
    drawn.join("\n")
}

/// Draws faults of one sort and counts them; of very many alike the first are drawn and the others counted.
fn together(faults: &[&Fault], [one, many]: [&str; 2], end: &str, ink: bool) -> String {
    let mut out = String::new();
    let mut alike: BTreeMap<(&str, &str), usize> = BTreeMap::new();
    for fault in faults {
        let file = fault.place.as_ref().map_or("", |place| place.file.name.as_str());
        let told = alike.entry((file, fault.rule)).or_default();
        *told += 1;
        if *told <= DRAWN {
            out += &(text(fault, ink) + "\n");
        }
    }
    for ((file, rule), told) in alike.into_iter().filter(|(_, told)| *told > DRAWN) {
        let more = count(told - DRAWN, &format!("more {one}"), &format!("more {many}"));
        let _ = writeln!(out, "{}  {rule}\n    {more} of this rule stand in this file.", written_out(file));
        let _ = writeln!(out, "    To see them all: `hostwood proof --as json`.\n");
    }
    let files: BTreeSet<&str> =
        faults.iter().filter_map(|fault| fault.place.as_ref()).map(|place| place.file.name.as_str()).collect();
    let _ = writeln!(out, "{} in {}. {end}", count(faults.len(), one, many), count(files.len(), "file", "files"));
    out
}

/// A number and its noun, which is plural but for one.
///
/// ```
/// use hostwood::quantity::count;
/// assert_eq!((count(1, "piece", "pieces"), count(2.0, "log", "logs")), ("1 piece".to_owned(), "2 logs".to_owned()));
/// ```
pub fn count<Number: Copy + Display + PartialEq + From<u8>>(number: Number, one: &str, many: &str) -> String {
    let noun = if number == Number::from(1) { one } else { many };
    format!("{number} {noun}")
}

/// The faults and questions as an array of flat objects, for editors; each says which of the two it is.
pub fn json(faults: &[Fault]) -> String {
    let list: Value = faults
        .iter()
        .map(|fault| {
            let place = fault.place.as_ref();
            json!({
                "is": if fault.question { "question" } else { "fault" },
                "file": place.map(|place| place.file.name.clone()),
                "line": place.map(|place| place.line),
                "column": place.map(|place| place.column),
                "text": place.map(|place| place.file.line(place.line).chars().take(LINE).collect::<String>()),
                "rule": fault.rule,
                "wrong": fault.wrong,
                "instead": fault.instead,
                "answer": fault.answer(),
            })
        })
        .collect();
    written_out_in_json(&format!("{list:#}\n"))
}
