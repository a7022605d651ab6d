//! What a person at a terminal sees: exit codes, tables, wrong usage.

use hostwood::press::table as form;
use hostwood::record::table::Table;

use crate::harness::{Farm, code, demo, demo_table, root, run, said, table};

/// Every table that the program prints.
const TABLES: [&str; 18] = [
    "mushrooms",
    "woods",
    "pairings",
    "seasons",
    "strains",
    "weights",
    "inoculation",
    "trees",
    "bolts",
    "lifting",
    "moisture",
    "supply",
    "allocation",
    "planning",
    "thinning",
    "money",
    "cautions",
    "sources",
];

#[test]
fn no_table_lists_the_tables() {
    let output = run(&root(), &["reckon"]);
    assert_eq!(code(&output), 0);
    let text = String::from_utf8(output.stdout).unwrap();
    for name in TABLES {
        assert!(text.lines().any(|line| line.starts_with(name)), "{name} is not listed in:\n{text}");
    }
}

#[test]
fn every_table_prints_in_every_form_with_the_same_rows() {
    let farm = demo("sorrel-hollow");
    for name in TABLES {
        let rows = demo_table("sorrel-hollow", name).len();
        assert!(rows > 0, "{name} is empty");
        let grid = farm.grid(Table::of_word(name).unwrap());
        let csv = form::csv(&grid).unwrap();
        assert_eq!(csv::Reader::from_reader(csv.as_slice()).records().count(), rows, "{name}");
        assert_eq!(form::text(&grid).lines().count(), rows + 1, "{name}");
    }
}

#[test]
fn the_command_prints_a_table_in_the_form_that_is_asked_for() {
    let grid = demo("sorrel-hollow").grid(Table::Trees);
    let asked = |form: &[&str]| run(&root(), &[&["reckon", "trees", "examples/sorrel-hollow"], form].concat()).stdout;
    assert_eq!(asked(&["--as", "csv"]), form::csv(&grid).unwrap());
    assert_eq!(asked(&["--as", "json"]), form::json(&grid).into_bytes());
    assert_eq!(asked(&[]), form::text(&grid).into_bytes());
}

#[test]
fn fixed_columns_are_there() {
    let columns = |name: &str| -> Vec<String> {
        demo_table("sorrel-hollow", name)[0].as_object().unwrap().keys().cloned().collect()
    };
    assert_eq!(columns("pairings")[..7], ["mushroom", "wood", "rating", "word", "agreement", "sources", "basis"]);
    assert_eq!(columns("pairings")[7..], ["way", "by", "log", "totem", "buried_log", "stump", "chip_bed", "kin"]);
    assert_eq!(columns("seasons"), ["window", "kind", "from", "to", "days", "basis"]);
    assert!(columns("weights").contains(&"mass_lb".to_owned()));
    assert_eq!(columns("trees")[..7], ["tag", "stand", "wood", "decision", "logs", "diameter_in", "height_ft"]);
    assert_eq!(columns("allocation")[..4], ["strain", "wood", "logs", "rating"]);
    assert_eq!(columns("supply")[..5], ["item", "package", "count", "cost", "left_over"]);
    for column in ["task", "diameter_in", "mass_lb", "rwl_lb", "li"] {
        assert!(columns("lifting").contains(&column.to_owned()), "{column}");
    }
}

#[test]
fn metric_units_are_in_the_names_of_columns() {
    let farm = root().join("examples/sorrel-hollow");
    let row = &table("weights", &farm, &["--units", "metric"])[0];
    assert!(row.get("mass_kg").is_some() && row.get("diameter_cm").is_some(), "{row}");
}

#[test]
fn wrong_usage_ends_with_two_and_says_what_is_meant() {
    let unknown = run(&root(), &["reckon", "pairing"]);
    assert_eq!(code(&unknown), 2);
    assert!(said(&unknown).contains("pairings"));
    assert_eq!(code(&run(&root(), &["publish", "no-such-folder"])), 2);
    assert_eq!(code(&run(&root(), &["schema", "woods"])), 2);
    assert_eq!(code(&run(&root(), &["fell"])), 2);
    assert_eq!(code(&run(&root(), &[])), 2);
}

#[test]
fn schemas_are_draft_2020_12() {
    let output = run(&root(), &["schema", "wood"]);
    let schema: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    assert_eq!(schema["additionalProperties"], false);
}

#[test]
fn proof_writes_nothing() {
    let farm = Farm::with(&[]);
    let output = run(farm.path(), &["proof"]);
    assert_eq!(code(&output), 0, "{}", said(&output));
    assert_eq!(std::fs::read_dir(farm.path()).unwrap().count(), 1);
}

#[test]
fn quiet_says_nothing_that_is_not_a_fault() {
    let farm = Farm::with(&[]);
    let output = run(farm.path(), &["--quiet", "publish"]);
    assert_eq!(code(&output), 0);
    assert!(output.stdout.is_empty() && output.stderr.is_empty());
    farm.write("farm.yaml", "name: X\n");
    assert!(!run(farm.path(), &["--quiet", "publish"]).stderr.is_empty());
}
