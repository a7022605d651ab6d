//! A farm of twenty years is checked, reckoned and published as a small one is.

use std::fmt::Write;
use std::fs;
use std::path::Path;
use std::sync::Arc;

use hostwood::book;
use hostwood::read::folder;
use hostwood::reckon::Findings;
use hostwood::reckon::findings::stands::standing;
use hostwood::reckon::findings::{Choice, TreeFinding};
use hostwood::reckon::release::{Standing, competition, open_sides};
use hostwood::reckon::table::Grid;
use hostwood::record::table::Table;
use serde_json::Value;
use tempfile::TempDir;

use crate::harness::big::Size;
use crate::harness::{Farm, code, files, run, said};

#[test]
fn a_finding_is_reckoned_when_it_is_asked_for() {
    let book = Arc::new(book::bind(folder::demo()).expect("the demo farm is without fault"));
    let findings = Findings::of(&book, Choice::of(&book));
    let pairings = Grid::of(Table::Pairings, &book, &findings);
    assert!(pairings.rows.len() > 100);
    let kept = format!("{findings:?}");
    for finding in ["winter", "days", "agenda", "money", "stands"] {
        let waits = format!("{finding}: OnceLock(<uninit>)");
        assert!(kept.contains(&waits), "the table of pairings asked for {finding}");
    }
    let allocation = Grid::of(Table::Allocation, &book, &findings);
    assert!(!allocation.rows.is_empty());
    let waits = "winter: OnceLock(<uninit>)";
    assert!(!format!("{findings:?}").contains(waits), "the allocation came without its answer");
}

#[test]
fn a_farm_of_ten_thousand_records_is_published_whole() {
    let size = Size::of(10_000);
    assert!((9_500..=10_500).contains(&size.records()));
    let folder = TempDir::new().unwrap();
    size.write(&folder.path().join("farm"));
    let output = run(folder.path(), &["publish", "farm", "--to", "guide"]);
    assert_eq!(code(&output), 0, "{}", said(&output));
    let guide = folder.path().join("guide");
    let read = |path: &str| fs::read_to_string(guide.join(path)).unwrap_or_else(|error| panic!("{path}: {error}"));
    for (name, rows) in [("harvests", size.harvests), ("batches", size.batches), ("trees", size.trees)] {
        let rows_there = read(&format!("tables/{name}.csv")).lines().count() - 1;
        assert_eq!(rows_there, rows, "{name}");
    }
    for name in Table::ALL {
        let rows: Value = serde_json::from_str(&read(&format!("tables/{}.json", name.word()))).unwrap();
        assert!(rows.is_array());
    }
    for note in 0..size.notes {
        assert!(read(&format!("notes/note-{note}.html")).contains("</html>"));
    }
    for stand in 0..size.stands {
        assert!(read(&format!("stands/stand-{stand}.html")).contains("</html>"));
    }
    for batch in 0..size.batches {
        assert!(read(&format!("yard/batches/batch-{batch}.html")).contains("</html>"));
    }
    for page in ["index.html", "yard/harvests.html", "yard/soak-rota.html", "winter/felling.html", "pocket.html"] {
        assert!(read(page).contains("</html>"), "{page}");
    }
}

/// What a page may weigh with the styles and the script that it loads, in bytes.
const WEIGHT: u64 = 122_000;

/// What the search index may weigh for a hundred pages, in bytes.
const INDEX_A_HUNDRED_PAGES: usize = 60_000;

/// Pages that hold the whole handbook or one record, which a farm makes no heavier by its years.
fn is_of_one_or_all(path: &str) -> bool {
    let one =
        ["batches/", "handouts/", "lots/", "mushrooms/", "notes/note-", "records/", "stands/", "strains/", "woods/"];
    let all = ["a-to-z.html", "elsewhere.html", "pocket.html", "safety.html", "sources.html", "terms.html"];
    let whole = ["working/pairings-", "working/weights.html"];
    one.iter().any(|folder| path.starts_with(folder) || path.starts_with(&format!("yard/{folder}")))
        || all.contains(&path)
        || whole.iter().any(|start| path.starts_with(start))
}

#[test]
fn the_pages_of_fifteen_years_weigh_no_more_than_a_telephone_opens_at_once() {
    let size = Size { harvests: 4_000, diary: 4_000, trees: 400, ..Size::FIFTEEN_YEARS };
    let folder = TempDir::new().unwrap();
    size.write(&folder.path().join("farm"));
    // The guide stays for the browser, which measures how long its pages are.
    let kept = Path::new(env!("CARGO_TARGET_TMPDIR")).join("fifteen-years");
    let output = run(folder.path(), &["publish", "farm", "--to", &kept.to_string_lossy()]);
    assert_eq!(code(&output), 0, "{}", said(&output));
    let guide = files(&kept);
    let look = ["tokens.css", "screen.css", "print.css", "paper.css", "endgrain.js"];
    let look: u64 = look.iter().map(|file| guide[&format!("look/{file}")].len() as u64).sum();
    let pages: Vec<_> = guide.iter().filter(|(path, _)| path.ends_with(".html")).collect();
    let heavy: Vec<_> = pages
        .iter()
        .filter(|(path, html)| !is_of_one_or_all(path) && html.len() as u64 + look > WEIGHT)
        .map(|(path, html)| (path, html.len() as u64 + look))
        .collect();
    assert!(heavy.is_empty(), "{heavy:?}");
    let (finder, most) = (guide["finder.js"].len(), INDEX_A_HUNDRED_PAGES * pages.len() / 100);
    assert!(finder <= most, "finder.js is {finder} bytes for {} pages", pages.len());
    // Every batch, living or spent, stands in a list that the living one leads to.
    let years = pages.iter().filter(|(path, _)| path.starts_with("yard/years/"));
    let listed: String = years.map(|(_, html)| String::from_utf8_lossy(html)).collect();
    assert!((0..size.batches).all(|batch| listed.contains(&format!("/batch-{batch}.html\""))));
    let living = String::from_utf8_lossy(&guide["yard/batches.html"]);
    assert!((2011..=2025).all(|year| living.contains(&format!("years/{year}.html"))));
    let index = String::from_utf8_lossy(&guide["index.html"]);
    assert!(index.contains("calendar.ics") && index.contains("Soak"));
}

#[test]
fn a_word_without_end_is_kept_short_in_the_finder() {
    let word = "x".repeat(1_100_000);
    let strain = format!("name: Long\nmushroom: shiitake\nabout: {word}\n");
    let farm = Farm::with(&[("strains/long-line.yaml", &strain)]);
    let output = farm.publish();
    assert_eq!(code(&output), 0, "{}", said(&output));
    let finder = farm.page("finder.js");
    assert!(finder.len() < 1_000_000 && finder.contains(&word[..40]) && !finder.contains(&word[..100]));
}

#[test]
fn of_very_many_faults_alike_the_first_are_drawn_and_all_are_told_to_an_editor() {
    let keys = (0..3_000).fold(String::new(), |mut keys, key| {
        let _ = writeln!(keys, "key{key}: 1");
        keys
    });
    let rows = (0..3_000).fold("date,batch,weight\n".to_owned(), |mut rows, row| {
        let _ = writeln!(rows, "2026-05-05,no-such-{row},1 lb");
        rows
    });
    let farm = Farm::with(&[("harvests/2026.csv", &rows)]);
    farm.write("farm.yaml", &format!("{}{keys}", crate::harness::SMALL_FARM));
    let output = run(farm.path(), &["proof", "."]);
    assert_eq!(code(&output), 1);
    let text = said(&output);
    assert!(text.contains("6000 faults in 2 files."));
    for (file, rule) in [("farm.yaml", "unknown-key"), ("harvests/2026.csv", "unknown-id")] {
        let more = format!("{file}  {rule}\n    2900 more faults of this rule stand in this file.");
        assert!(text.contains(&more), "{file}");
        assert_eq!(text.matches(&format!("  {rule}\n")).count(), 101);
    }
    let output = run(farm.path(), &["proof", ".", "--as", "json"]);
    let mut faults: Vec<Value> = serde_json::from_slice(&output.stdout).unwrap();
    faults.retain(|told| told["is"] == "fault");
    assert_eq!(faults.len(), 6_000);
    assert_eq!(faults[2_999]["line"], 3_003);
    assert_eq!(faults[2_999]["text"], "key2999: 1");
    assert_eq!(faults[5_999]["line"], 3_001);
    assert_eq!(faults[5_999]["column"], 12);
}

#[test]
fn only_near_trees_press_and_the_rest_change_nothing() {
    let folder = TempDir::new().unwrap();
    Size { trees: 250, ..Size::SMALL }.write(folder.path());
    let book = Arc::new(book::bind(folder::files(folder.path()).unwrap()).unwrap());
    let findings = Findings::of(&book, Choice::of(&book));
    let trees: Vec<(&TreeFinding, Standing)> =
        findings.trees().iter().map(|tree| (tree, standing(tree).unwrap())).collect();
    let released = &findings.stands()[0].released;
    assert!(released.len() > 100);
    for found in released {
        let (_, tree) = trees.iter().find(|(tree, _)| *tree.tree.tag() == found.tag).unwrap();
        let others = |then: bool| -> Vec<Standing> {
            let stays = |tree: &TreeFinding| !then || !findings.winter().falls(tree.tree.tag());
            let others = trees.iter().filter(|(other, _)| *other.tree.tag() != found.tag && stays(other));
            others.map(|(_, spot)| *spot).collect()
        };
        assert_eq!((found.before, found.after), (open_sides(tree, &others(false)), open_sides(tree, &others(true))));
        let pressed = [false, true].map(|then| competition(tree, &others(then)));
        assert_eq!(pressed.map(f64::to_bits), found.competition.map(f64::to_bits), "{}", found.tag);
    }
}
