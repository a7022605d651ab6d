//! Each folder under `tests/faults` is a small farm, and the list beside it holds every fault it must get.

use std::fs;
use std::path::Path;

use serde_json::Value;

use crate::harness::{code, root, run, said};

#[test]
fn every_case_gets_exactly_its_faults() {
    let folder = root().join("tests/faults");
    let mut wrong = Vec::new();
    let mut cases = 0;
    for entry in fs::read_dir(&folder).unwrap() {
        let case = entry.unwrap().path();
        if case.is_dir() {
            cases += 1;
            wrong.extend(check(&case));
        }
    }
    assert!(cases >= 30, "only {cases} cases were found");
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

/// Compares one case; the answer says what differs.
fn check(case: &Path) -> Option<String> {
    let output = run(&root(), &["proof", case.to_str().unwrap(), "--as", "json"]);
    let found: Vec<Value> = match serde_json::from_slice(&output.stdout) {
        Ok(found) => found,
        Err(error) => return Some(format!("{}: {error}: {}", case.display(), said(&output))),
    };
    let list = fs::read_to_string(case.with_extension("txt")).unwrap();
    let lines: Vec<&str> = list.lines().filter(|line| !line.trim().is_empty() && !line.starts_with('#')).collect();
    let expected_code = i32::from(!lines.is_empty());
    let mut differs = code(&output) != expected_code || lines.len() != found.len();
    for (line, fault) in lines.iter().zip(&found) {
        let (head, words) = line.split_once('\t').unwrap_or((line, ""));
        let text = format!("{} {}", fault["wrong"].as_str().unwrap(), fault["instead"].as_str().unwrap_or(""));
        differs |= head != self::head(fault) || !text.contains(words);
    }
    differs.then(|| {
        let found: Vec<String> =
            found.iter().map(|fault| format!("{}\t{} {}", head(fault), fault["wrong"], fault["instead"])).collect();
        format!("{}\n  wanted:\n    {}\n  found:\n    {}", case.display(), lines.join("\n    "), found.join("\n    "))
    })
}

fn head(fault: &Value) -> String {
    let rule = fault["rule"].as_str().unwrap();
    match fault["file"].as_str() {
        Some(file) => format!("{file}:{}:{} {rule}", fault["line"], fault["column"]),
        None => format!("- {rule}"),
    }
}

#[test]
fn a_fault_shows_the_line_itself_and_points_at_the_place() {
    let output = run(&root(), &["proof", "tests/faults/believable-density"]);
    let text = said(&output);
    assert_eq!(code(&output), 1);
    let lines: Vec<&str> = text.lines().collect();
    let shown = lines.iter().position(|line| line.contains("basic: 6")).expect("the line is shown");
    let caret = lines[shown + 1].find('^').expect("a pointer stands under it");
    assert_eq!(&lines[shown][caret..=caret], "6");
    assert!(text.contains("Nothing was written."));
}
