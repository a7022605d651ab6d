//! What the source promises about itself.

use std::{collections::BTreeMap, fs};

use crate::harness::{files, root};

/// The stages in the order of the data flow; a stage may use those before it.
const FLOW: [&str; 9] = ["error", "fault", "quantity", "record", "read", "book", "reckon", "page", "press"];

/// The Rust files of a folder, by path.
fn sources(folder: &str) -> BTreeMap<String, String> {
    let rust = files(&root().join(folder)).into_iter().filter(|(path, _)| path.ends_with(".rs"));
    rust.map(|(path, bytes)| (path, String::from_utf8(bytes).unwrap())).collect()
}

/// The part of a file before its own tests.
fn code(text: &str) -> &str {
    text.split("#[cfg(test)]").next().unwrap()
}

/// The modules of this crate that a text uses, by `use crate::…` and by `crate::…` in place.
fn used(text: &str) -> Vec<String> {
    let mut names = Vec::new();
    let text: String = text.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n");
    for (at, _) in text.match_indices("crate::") {
        let rest = &text[at + "crate::".len()..];
        if let Some(list) = rest.strip_prefix('{') {
            let mut depth = 0;
            let mut name = String::new();
            for c in list.chars() {
                match c {
                    '{' => depth += 1,
                    '}' if depth == 0 => break,
                    '}' => depth -= 1,
                    ',' if depth == 0 => names.push(std::mem::take(&mut name)),
                    c if depth == 0 => name.push(c),
                    _ => {}
                }
            }
            names.push(name);
        } else {
            names.push(rest.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect());
        }
    }
    names
        .into_iter()
        .map(|name| name.trim().split("::").next().unwrap().trim().to_owned())
        .filter(|name| !name.is_empty())
        .collect()
}

#[test]
fn arrows_run_one_way() {
    let mut uses = 0;
    for (path, text) in sources("src") {
        let stage = path.split('/').next().unwrap().trim_end_matches(".rs");
        let Some(place) = FLOW.iter().position(|name| *name == stage) else {
            assert!(["cli", "main", "lib", "build"].contains(&stage), "{path} belongs to no stage");
            continue;
        };
        for name in used(code(&text)) {
            let Some(other) = FLOW.iter().position(|stage| *stage == name) else {
                panic!("{path} uses crate::{name}, which is no stage before it");
            };
            assert!(!code(&text).contains("super::super::"), "{path} reaches two stages up");
            uses += 1;
            assert!(other <= place, "{path} uses {name}, which comes after {stage}");
        }
    }
    assert!(uses > 100, "only {uses} uses were read");
}

#[test]
fn reckoning_is_pure() {
    for (path, text) in sources("src/reckon") {
        for word in [
            "std::fs",
            "std::env",
            "std::io",
            "SystemTime",
            "Instant",
            "\nstatic ",
            "LazyLock",
            "Timestamp::now",
            "<svg",
            "<p>",
            ".html",
        ] {
            assert!(!code(&text).contains(word), "reckon/{path} holds {word}");
        }
    }
}

#[test]
fn every_file_opens_by_saying_what_it_is() {
    for folder in ["src", "tests", "examples"] {
        for (path, text) in sources(folder) {
            assert!(text.starts_with("//! "), "{folder}/{path}");
        }
    }
}

#[test]
fn index_tables_name_every_file() {
    for folder in [
        "src/reckon",
        "src/record",
        "src/page",
        "src/book/check",
        "src/press",
        "src/quantity",
        "src/page/part",
        "src/cli",
    ] {
        let index = fs::read_to_string(root().join(folder).join("mod.rs")).unwrap();
        let docs: String = index.lines().filter(|line| line.starts_with("//!")).collect();
        for line in index.lines() {
            let module = line.strip_prefix("pub mod ").and_then(|line| line.strip_suffix(';'));
            let Some(module) = module else { continue };
            assert!(docs.contains(&format!("[`{module}`]")), "{folder}/mod.rs does not name {module} in its table");
        }
    }
}

#[test]
fn nothing_in_src_unwraps_or_marks_unfinished_work() {
    let marks = [concat!("TO", "DO"), concat!("FIX", "ME"), concat!("XX", "X"), "todo!(", "unimplemented!("];
    for (path, text) in sources("src") {
        let live: String = code(&text).lines().filter(|line| !line.trim_start().starts_with("//")).collect();
        for call in [".unwrap()", ".expect(", "panic!("] {
            assert!(!live.contains(call), "src/{path} holds {call}");
        }
        for mark in marks {
            assert!(!text.contains(mark), "src/{path} holds a mark of unfinished work");
        }
    }
}

#[test]
fn main_is_short_and_files_are_of_one_noun() {
    assert!(fs::read_to_string(root().join("src/main.rs")).unwrap().lines().count() <= 30);
    for (path, text) in sources("src") {
        assert!(text.lines().count() <= 500, "src/{path} has {} lines", text.lines().count());
    }
}

#[test]
fn the_top_level_holds_what_it_should() {
    let allowed = [
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "src",
        "content",
        "themes",
        "tests",
        "examples",
        "target",
        "guide",
    ];
    for entry in fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        assert!(name.starts_with('.') || allowed.contains(&name.as_str()), "{name} stands at the top level");
    }
}

#[test]
fn the_packed_syntax_is_that_of_its_source() {
    use syntect::{
        dumps,
        parsing::{SyntaxDefinition, SyntaxSetBuilder},
    };
    let folder = root().join("src/press/highlight");
    let text = fs::read_to_string(folder.join("record.sublime-syntax")).unwrap();
    let mut set = SyntaxSetBuilder::new();
    set.add(SyntaxDefinition::load_from_str(&text, true, None).unwrap());
    let fresh = tempfile::NamedTempFile::new().unwrap();
    dumps::dump_to_uncompressed_file(&set.build(), fresh.path()).unwrap();
    let same = fs::read(fresh.path()).unwrap() == fs::read(folder.join("record.packdump")).unwrap();
    assert!(same, "run `cargo run --example pack_syntax`");
}
