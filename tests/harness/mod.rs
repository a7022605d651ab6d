//! A farm in a temporary folder, and the program run on it.

pub mod big;
pub mod told;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::{Arc, OnceLock};

use assert_cmd::cargo::CommandCargoExt;
use hostwood::book;
use hostwood::book::Book;
use hostwood::page::Page;
use hostwood::press::table;
use hostwood::press::template::Theme;
use hostwood::quantity::Units;
use hostwood::read::folder;
use hostwood::reckon::Findings;
use hostwood::reckon::findings::Choice;
use hostwood::reckon::table::Grid;
use hostwood::record::handout::Paper;
use hostwood::record::table::Table;
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

    /// Draws one page of the farm's guide, without the command and without the other pages.
    pub fn drawn(&self, path: &str) -> String {
        Reckoned::of(self.path()).page(path)
    }

    /// Reads a page of the published guide.
    pub fn page(&self, path: &str) -> String {
        fs::read_to_string(self.path().join("guide").join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
    }
}

/// A farm read and reckoned in this process.
pub struct Reckoned {
    /// The farm over the handbook.
    pub book: Arc<Book>,
    /// What follows from it.
    pub findings: Arc<Findings>,
    theme: Theme,
}

impl Reckoned {
    /// Reads and reckons a farm that is without fault.
    pub fn of(farm: &Path) -> Self {
        let files = folder::files(farm).expect("the farm's folder is read");
        let book = Arc::new(book::bind(files).unwrap_or_else(|faults| panic!("{}: {faults:?}", farm.display())));
        let findings = Arc::new(Findings::of(&book, Choice::of(&book)));
        let paper = if book.farm.record.units == Units::Metric { Paper::A4 } else { Paper::Letter };
        let theme = Theme::load(&book, &findings, paper, Vec::new()).expect("the built-in theme is whole");
        Self { book, findings, theme }
    }

    /// Draws a page.
    pub fn page(&self, path: &str) -> String {
        let page = Page::all(&self.book, &self.findings).into_iter().find(|page| page.path() == path);
        let page = page.unwrap_or_else(|| panic!("there is no page {path}"));
        self.theme.draw(&page, &self.book, &self.findings).expect("the page is drawn")
    }

    /// Lays out a table.
    pub fn grid(&self, table: Table) -> Grid {
        Grid::of(table, &self.book, &self.findings)
    }
}

/// A farm of the examples, read and reckoned once for all tests.
pub fn demo(name: &str) -> &'static Reckoned {
    static FARMS: [OnceLock<Reckoned>; 2] = [OnceLock::new(), OnceLock::new()];
    let place = ["sorrel-hollow", "larkbeck"].iter().position(|farm| *farm == name).expect("a demo farm");
    FARMS[place].get_or_init(|| Reckoned::of(&root().join("examples").join(name)))
}

/// A table of a demo farm, as `table` prints it.
pub fn demo_table(farm: &str, name: &str) -> Vec<Value> {
    let wanted = Table::of_word(name).expect("there is such a table");
    serde_json::from_str(&table::json(&demo(farm).grid(wanted))).expect("a table is JSON")
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
