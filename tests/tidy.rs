//! What the source promises about itself.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

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

/// The paths that a text uses, by `use` and by `crate::…` or `super::…` in place.
fn used(text: &str) -> Vec<String> {
    let text: String = text.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n");
    let mut paths = Vec::new();
    for statement in text.split(';') {
        let tree = statement.rsplit_once("use ").filter(|(before, _)| !before.ends_with(|c: char| c.is_alphanumeric()));
        if let Some((_, tree)) = tree.filter(|(_, tree)| !tree.contains(['(', '=', '"'])) {
            paths.extend(leaves(tree));
        }
        for start in ["crate::", "super::"] {
            let here = statement.match_indices(start).map(|(at, _)| &statement[at..]);
            let name = |c: char| !c.is_alphanumeric() && c != '_' && c != ':';
            let ended = here.map(|rest| rest.split(name).next().unwrap()).filter(|path| !path.ends_with(':'));
            paths.extend(ended.map(str::to_owned));
        }
    }
    paths
}

/// The paths of a tree of names, such as `a::{b, c::{self, d}}`.
fn leaves(tree: &str) -> Vec<String> {
    let tree = tree.trim();
    let Some((stem, list)) = tree.split_once('{').filter(|_| tree.ends_with('}')) else {
        return Vec::from([tree.split(" as ").next().unwrap().trim_end_matches("::self").to_owned()]);
    };
    let mut depth = 0;
    let parts = list[..list.len() - 1].split(|c| {
        depth += i32::from(c == '{') - i32::from(c == '}');
        c == ',' && depth == 0
    });
    let parts = parts.filter(|part| !part.trim().is_empty());
    parts.flat_map(|part| leaves(&format!("{stem}{}", part.trim()))).collect()
}

/// The stage that a path of this crate leads to.
fn stage_of(path: &str) -> Option<&str> {
    path.strip_prefix("crate::").map(|rest| rest.split("::").next().unwrap())
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
        for path_used in used(code(&text)) {
            let Some(name) = stage_of(&path_used) else { continue };
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

/// What stands on each floor of `page`, the lowest first; what is named on none is a page, on the floor `PAGES`.
const FLOORS: [&[&str]; 6] = [
    &["name", "section", "leaf", "route", "title"],
    &["figure"],
    &["part", "working/formula"],
    &[],
    &["pocket", "working"],
    &[""],
];
/// The floor of the pages.
const PAGES: usize = 3;

/// The floor of a file of `page`, named without its ending.
fn floor(module: &str) -> usize {
    let stands = |name: &&str| *name == module || (*name != "working" && module.starts_with(&format!("{name}/")));
    FLOORS.iter().position(|floor| floor.iter().any(stands)).unwrap_or(PAGES)
}

/// The file of `page` to which a path leads that a file of it uses, each named without its ending.
fn leads_to(path: &str, from: &str, modules: &BTreeSet<String>, exported: &BTreeMap<String, String>) -> Option<String> {
    let path = match path.strip_prefix("super::") {
        Some(rest) => match from.rsplit_once('/') {
            Some((parent, _)) => format!("{parent}/{rest}"),
            None => rest.to_owned(),
        },
        None => path.strip_prefix("crate::page::")?.to_owned(),
    };
    let path = path.replace("::", "/");
    if let Some(module) = exported.get(path.split('/').next().unwrap()) {
        return Some(module.clone());
    }
    let mut steps: Vec<&str> = path.split('/').collect();
    while !modules.contains(&steps.join("/")) {
        steps.pop()?;
    }
    Some(steps.join("/"))
}

#[test]
fn floors_of_page_lean_on_lower_ones_alone() {
    let name = |path: &str| path.trim_end_matches(".rs").trim_end_matches("mod").trim_end_matches('/').to_owned();
    let files: BTreeMap<String, String> =
        sources("src/page").into_iter().map(|(path, text)| (name(&path), text)).collect();
    let modules: BTreeSet<String> = files.keys().cloned().collect();
    let public = files[""].lines().filter_map(|line| line.strip_prefix("pub use ")?.strip_suffix(';'));
    let parted = |path: String| path.split_once("::").map(|(module, name)| (name.to_owned(), module.to_owned()));
    let exported: BTreeMap<String, String> = public.flat_map(leaves).filter_map(parted).collect();
    let mut uses = 0;
    let mut wrong = Vec::new();
    for (from, text) in &files {
        for path in used(code(text)) {
            let Some(to) = leads_to(&path, from, &modules, &exported) else { continue };
            let [here, there] = [from, &to].map(|module| floor(module));
            uses += 1;
            if there > here || (there == PAGES && here == PAGES && *from != to) {
                wrong.push(format!("page/{from} leans on {to} by {path}"));
            }
        }
    }
    assert!(uses > 200, "only {uses} uses were read");
    assert!(wrong.is_empty(), "{} uses: {}", wrong.len(), wrong.join("\n"));
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
        "src/book/check",
        "src/book/question",
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
