//! The published folder: whole, the same twice, never at the cost of somebody's files.

use std::fs;
use std::time::Duration;

use crate::harness::{Farm, code, demo_guide, files, root, run, said};

#[test]
fn the_demo_farm_is_published_where_nothing_is_named() {
    let folder = tempfile::TempDir::new().unwrap();
    let output = run(folder.path(), &["publish"]);
    assert_eq!(code(&output), 0, "{}", said(&output));
    let open = std::path::Path::new("guide").join("index.html");
    assert!(said(&output).contains(open.to_str().unwrap()), "{}", said(&output));
    assert!(folder.path().join(open).is_file());
}

#[test]
fn publishing_twice_gives_equal_bytes() {
    let folder = tempfile::TempDir::new().unwrap();
    for to in ["one", "two"] {
        assert_eq!(code(&run(folder.path(), &["publish", "--to", to])), 0);
    }
    assert!(files(&folder.path().join("one")) == files(&folder.path().join("two")));
}

#[test]
fn the_embedded_demo_farm_is_the_one_among_the_examples() {
    let folder = tempfile::TempDir::new().unwrap();
    let farm = root().join("examples/sorrel-hollow");
    assert_eq!(code(&run(folder.path(), &["publish", farm.to_str().unwrap()])), 0);
    assert!(files(&folder.path().join("guide")) == files(demo_guide()));
}

#[test]
fn files_that_did_not_change_keep_their_modification_time() {
    let farm = Farm::with(&[]);
    farm.publish();
    let path = farm.path().join("guide/terms.html");
    let long_ago = fs::metadata(&path).unwrap().modified().unwrap() - Duration::from_secs(86_400);
    fs::File::options().write(true).open(&path).unwrap().set_modified(long_ago).unwrap();
    farm.publish();
    assert_eq!(fs::metadata(&path).unwrap().modified().unwrap(), long_ago);
    farm.write("farm.yaml", &crate::harness::SMALL_FARM.replace("Test Wood", "Other Wood"));
    farm.publish();
    assert_ne!(fs::metadata(&path).unwrap().modified().unwrap(), long_ago);
}

#[test]
fn faults_leave_an_earlier_guide_untouched() {
    let farm = Farm::with(&[]);
    farm.publish();
    let before = files(&farm.path().join("guide"));
    farm.write("woods/red-oak.yaml", "density: {basic: 6}\n");
    let output = farm.publish();
    assert_eq!(code(&output), 1);
    assert!(said(&output).contains("woods/red-oak.yaml:1:18"), "{}", said(&output));
    assert!(files(&farm.path().join("guide")) == before);
    let left: Vec<_> = fs::read_dir(farm.path()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert!(left.iter().all(|name| !name.to_string_lossy().contains("hostwood-")), "{left:?}");
}

#[test]
fn fifteen_faults_are_told_in_one_run() {
    let farm = tempfile::TempDir::new().unwrap();
    for (path, bytes) in files(&root().join("tests/faults/fifteen")) {
        let path = farm.path().join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
    let output = run(farm.path(), &["publish", "."]);
    assert_eq!(code(&output), 1);
    assert!(said(&output).contains("15 faults in"), "{}", said(&output));
    assert!(!farm.path().join("guide").exists());
}

#[test]
fn a_folder_of_other_files_is_never_replaced() {
    let farm = Farm::with(&[]);
    fs::create_dir(farm.path().join("guide")).unwrap();
    fs::write(farm.path().join("guide/.thesis"), "years of work").unwrap();
    let output = run(farm.path(), &["publish", "--to", "guide"]);
    assert_eq!(code(&output), 2);
    assert!(said(&output).contains("did not write"), "{}", said(&output));
    assert_eq!(fs::read_to_string(farm.path().join("guide/.thesis")).unwrap(), "years of work");
}

#[test]
fn a_farm_never_overwrites_itself() {
    let farm = Farm::with(&[]);
    let before = files(farm.path());
    assert_eq!(code(&run(farm.path(), &["publish", ".", "--to", "."])), 2);
    assert!(files(farm.path()) == before);
}

#[cfg(target_os = "linux")]
#[test]
fn a_mount_point_is_refused() {
    let output = run(&root(), &["publish", "--to", "/proc"]);
    assert_eq!(code(&output), 2, "{}", said(&output));
    assert!(said(&output).contains("mount point"), "{}", said(&output));
}

#[test]
fn a_readers_own_file_in_the_guide_is_not_lost() {
    let farm = Farm::with(&[]);
    farm.publish();
    farm.write("guide/mine.txt", "my list");
    let output = farm.publish();
    assert_eq!(code(&output), 2);
    assert!(said(&output).contains("mine.txt"), "{}", said(&output));
    assert_eq!(fs::read_to_string(farm.path().join("guide/mine.txt")).unwrap(), "my list");
}

#[test]
fn a_method_without_patterns_still_publishes() {
    let farm = Farm::with(&[("methods/rack-log.yaml", "patterns: ~\n")]);
    assert_eq!(code(&farm.publish()), 0);
}

#[test]
fn nothing_is_left_beside_a_refused_target() {
    let farm = Farm::with(&[("other/file.txt", "x")]);
    run(farm.path(), &["publish", "--to", "other"]);
    let left: Vec<_> = fs::read_dir(farm.path()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert_eq!(left.len(), 2, "{left:?}");
}

#[test]
fn a_guide_inside_the_farm_is_not_read_as_records() {
    let farm = Farm::with(&[]);
    assert_eq!(code(&farm.publish()), 0);
    assert_eq!(code(&farm.publish()), 0);
}

#[test]
fn a_file_of_the_farms_look_stands_in_for_the_themes() {
    let farm = Farm::with(&[
        ("our-look/terms.html", "<!doctype html><title>{{ farm }} speaks</title>"),
        ("our-look/screen.css", "body{}"),
    ]);
    farm.write("farm.yaml", &format!("{}look: our-look\n", crate::harness::SMALL_FARM));
    let output = farm.publish();
    assert_eq!(code(&output), 0, "{}", said(&output));
    assert_eq!(farm.page("terms.html"), "<!doctype html><title>Test Wood speaks</title>");
    assert_eq!(farm.page("look/screen.css"), "body{}");
    assert!(farm.page("sources.html").contains("<h1"));
}

#[test]
fn faults_of_the_look_are_told_like_any_other() {
    let farm = Farm::with(&[("our-look/term.html", "x")]);
    farm.write("farm.yaml", &format!("{}look: our-look\n", crate::harness::SMALL_FARM));
    let output = farm.publish();
    assert_eq!(code(&output), 1);
    assert!(
        said(&output).contains("our-look/term.html:1:1") && said(&output).contains("`terms.html`"),
        "{}",
        said(&output)
    );
    fs::remove_file(farm.path().join("our-look/term.html")).unwrap();
    farm.write("our-look/terms.html", "fine\n{{ nothing_of_the_kind }}\n");
    let output = farm.publish();
    assert_eq!(code(&output), 1, "{}", said(&output));
    assert!(said(&output).contains("our-look/terms.html:2:"), "{}", said(&output));
}

#[test]
fn the_edition_comes_from_the_records_or_from_the_environment() {
    let farm = Farm::with(&[]);
    let publish = |seconds: &str| {
        crate::harness::hostwood()
            .current_dir(farm.path())
            .env("SOURCE_DATE_EPOCH", seconds)
            .arg("publish")
            .output()
            .unwrap()
    };
    assert_eq!(code(&publish("1795478400")), 0);
    assert!(farm.page("index.html").contains("Edition of November 24, 2026"));
    assert_eq!(code(&publish("soon")), 2);
    farm.write("farm.yaml", &format!("{}edition: '2025-02-03'\n", crate::harness::SMALL_FARM));
    assert_eq!(code(&publish("1795478400")), 0);
    assert!(farm.page("index.html").contains("Edition of February 3, 2025"));
}

#[test]
fn paper_and_units_are_chosen() {
    let farm = Farm::with(&[]);
    run(farm.path(), &["publish", "--units", "metric"]);
    assert!(farm.page("look/paper.css").contains("A4"));
    assert!(farm.page("winter/bucking.html").contains(" kg"));
    run(farm.path(), &["publish", "--units", "metric", "--paper", "letter"]);
    assert!(farm.page("look/paper.css").contains("letter"));
}

#[test]
fn a_twelve_line_farm_publishes() {
    let farm = root().join("tests/faults/clean");
    let lines = fs::read_to_string(farm.join("farm.yaml")).unwrap().lines().count();
    assert!(lines <= 12, "{lines} lines");
    let folder = tempfile::TempDir::new().unwrap();
    assert_eq!(code(&run(folder.path(), &["publish", farm.to_str().unwrap()])), 0);
}

#[test]
fn every_table_is_published_as_csv_and_json() {
    let tables = files(&demo_guide().join("tables"));
    assert_eq!(tables.len(), 2 * 29);
    for (name, bytes) in tables {
        if name.ends_with(".json") {
            let rows: Vec<serde_json::Value> = serde_json::from_slice(&bytes).unwrap();
            assert!(
                rows.iter().all(|row| row
                    .as_object()
                    .unwrap()
                    .values()
                    .all(|value| !value.is_object() && !value.is_array())),
                "{name}"
            );
        }
    }
}
