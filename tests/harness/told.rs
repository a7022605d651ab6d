//! Small farms, each with a list of what it is told.

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;

use super::{code, root, run, said};

/// The farms in a folder of `tests`.
pub fn cases(folder: &str) -> Vec<PathBuf> {
    let entries = fs::read_dir(root().join("tests").join(folder)).unwrap();
    let mut cases: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).filter(|path| path.is_dir()).collect();
    cases.sort();
    cases
}

/// Compares the faults or the questions that a farm gets with the list beside it; the answer says what differs.
pub fn differs(case: &Path, is: &str, wanted_code: impl Fn(&[&str]) -> i32) -> Option<String> {
    let output = run(&root(), &["proof", case.to_str().unwrap(), "--as", "json"]);
    let told: Vec<Value> = match serde_json::from_slice(&output.stdout) {
        Ok(told) => told,
        Err(error) => return Some(format!("{}: {error}: {}", case.display(), said(&output))),
    };
    let found: Vec<&Value> = told.iter().filter(|told| told["is"] == is).collect();
    let list = fs::read_to_string(case.with_extension("txt")).unwrap();
    let lines: Vec<&str> = list.lines().filter(|line| !line.trim().is_empty() && !line.starts_with('#')).collect();
    let mut differs = code(&output) != wanted_code(&lines) || lines.len() != found.len();
    for (line, told) in lines.iter().zip(&found) {
        let (head, words) = line.split_once('\t').unwrap_or((line, ""));
        let text = format!("{} {}", told["wrong"].as_str().unwrap(), told["instead"].as_str().unwrap_or(""));
        differs |= head != self::head(told) || !text.contains(words);
    }
    differs.then(|| {
        let found: Vec<String> =
            found.iter().map(|told| format!("{}\t{} {}", head(told), told["wrong"], told["instead"])).collect();
        format!("{}\n  wanted:\n    {}\n  found:\n    {}", case.display(), lines.join("\n    "), found.join("\n    "))
    })
}

fn head(told: &Value) -> String {
    let rule = told["rule"].as_str().unwrap();
    match told["file"].as_str() {
        Some(file) => format!("{file}:{}:{} {rule}", told["line"], told["column"]),
        None => format!("- {rule}"),
    }
}
