//! What a person at a terminal sees: exit codes, tables, wrong usage.

use crate::harness::{Farm, code, root, run, said, table};

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
    for name in TABLES {
        let farm = root().join("examples/sorrel-hollow");
        let json = table(name, &farm, &[]);
        assert!(!json.is_empty(), "{name} is empty");
        let csv = run(&root(), &["reckon", name, "examples/sorrel-hollow", "--as", "csv"]);
        let rows = csv::Reader::from_reader(csv.stdout.as_slice()).records().count();
        assert_eq!(rows, json.len(), "{name}");
        let text = run(&root(), &["reckon", name, "examples/sorrel-hollow"]);
        assert_eq!(String::from_utf8(text.stdout).unwrap().lines().count(), json.len() + 1, "{name}");
    }
}

#[test]
fn fixed_columns_are_there() {
    let farm = root().join("examples/sorrel-hollow");
    let columns =
        |name: &str| -> Vec<String> { table(name, &farm, &[])[0].as_object().unwrap().keys().cloned().collect() };
    assert_eq!(columns("pairings"), ["mushroom", "wood", "rating", "word", "agreement", "sources", "basis"]);
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
