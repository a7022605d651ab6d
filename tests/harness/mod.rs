//! A farm in a temporary folder, and the program run on it.

pub mod big;

use std::{
    collections::BTreeMap,
    fs,
    path::{Path, PathBuf},
    process::{Command, Output},
    sync::OnceLock,
};

use assert_cmd::cargo::CommandCargoExt;
use serde_json::Value;
use tempfile::TempDir;

/// The project's top folder.
pub fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// The built program, with a quiet environment.
#[allow(deprecated, reason = "the macro form needs the binary's name at every call")]
pub fn hostwood() -> Command {
    let mut command = Command::cargo_bin("hostwood").expect("the program is built");
    command.env_remove("SOURCE_DATE_EPOCH").env("NO_COLOR", "1");
    command
}

/// Runs the program in a folder.
pub fn run(folder: &Path, arguments: &[&str]) -> Output {
    hostwood().current_dir(folder).args(arguments).output().expect("the program runs")
}

/// The exit code of a run.
pub fn code(output: &Output) -> i32 {
    output.status.code().expect("the program ended by itself")
}

/// What a run said on standard error.
pub fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

/// A computed table as JSON.
pub fn table(name: &str, farm: &Path, more: &[&str]) -> Vec<Value> {
    let mut arguments = vec!["reckon", name, farm.to_str().unwrap(), "--as", "json"];
    arguments.extend(more);
    let output = run(&root(), &arguments);
    assert_eq!(code(&output), 0, "{}", said(&output));
    serde_json::from_slice(&output.stdout).expect("a table is JSON")
}

/// A farm of four lines.
pub const SMALL_FARM: &str = "name: Test Wood\nplace: {latitude: 44, longitude: -72}\nseason: 2026\n";

/// A farm in a temporary folder.
pub struct Farm {
    folder: TempDir,
}

impl Farm {
    /// A farm of four lines, and more files.
    pub fn with(files: &[(&str, &str)]) -> Self {
        let farm = Self { folder: TempDir::new().unwrap() };
        farm.write("farm.yaml", SMALL_FARM);
        for (path, text) in files {
            farm.write(path, text);
        }
        farm
    }

    /// Writes a file into the farm.
    pub fn write(&self, path: &str, text: &str) {
        let path = self.path().join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    /// The farm's folder.
    pub fn path(&self) -> &Path {
        self.folder.path()
    }

    /// Publishes the farm into its own `guide` folder.
    pub fn publish(&self) -> Output {
        run(self.path(), &["publish", ".", "--to", "guide"])
    }

    /// Reads a page of the published guide.
    pub fn page(&self, path: &str) -> String {
        fs::read_to_string(self.path().join("guide").join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
    }
}

/// The published guide of the demo farm Sorrel Hollow, in US units.
pub fn demo_guide() -> &'static Path {
    static GUIDE: OnceLock<TempDir> = OnceLock::new();
    published(&GUIDE, &["publish", "--to", "guide"])
}

/// The published guide of the demo farm Larkbeck, in metric units.
pub fn larkbeck_guide() -> &'static Path {
    static GUIDE: OnceLock<TempDir> = OnceLock::new();
    let farm = root().join("examples/larkbeck");
    published(&GUIDE, &["publish", farm.to_str().unwrap(), "--to", "guide"])
}

fn published(guide: &'static OnceLock<TempDir>, arguments: &[&str]) -> &'static Path {
    let folder = guide.get_or_init(|| {
        let folder = TempDir::new().unwrap();
        let output = run(folder.path(), arguments);
        assert_eq!(code(&output), 0, "{}", said(&output));
        folder
    });
    Box::leak(Box::new(folder.path().join("guide")))
}

/// All files of a folder by path.
pub fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    for entry in walkdir::WalkDir::new(folder) {
        let entry = entry.unwrap();
        if entry.file_type().is_file() {
            let path = entry.path().strip_prefix(folder).unwrap().to_string_lossy().replace('\\', "/");
            files.insert(path, fs::read(entry.path()).unwrap());
        }
    }
    files
}
