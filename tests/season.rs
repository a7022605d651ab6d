//! Dates: observed events, dates of the year, no-cut windows, rest.

use serde_json::Value;

use crate::harness::{Farm, SMALL_FARM, code, table};

const OBSERVED: &str = "woods: [red-oak, sugar-maple]\ngrows: [shiitake]\nobserved:\n  leaf_colour: ['2023-10-01', '2024-09-27', '2025-10-05']\n  bud_swell: ['2023-04-20', '2024-04-12', '2025-04-18']\n";

fn seasons(farm: &Farm) -> Vec<Value> {
    table("seasons", farm.path(), &[])
}

fn row<'a>(rows: &'a [Value], window: &str) -> &'a Value {
    rows.iter().find(|row| row["window"] == window).unwrap_or_else(|| panic!("no row {window}"))
}

fn dates(row: &Value) -> (String, String) {
    (row["from"].as_str().unwrap().to_owned(), row["to"].as_str().unwrap().to_owned())
}

#[test]
fn the_dormant_window_runs_from_the_median_of_leaf_colour_to_that_of_bud_swell() {
    let farm = Farm::with(&[]);
    farm.write("farm.yaml", &format!("{SMALL_FARM}{OBSERVED}"));
    let rows = seasons(&farm);
    let dormant = row(&rows, "dormant");
    assert_eq!(dates(dormant), ("2026-10-01".into(), "2027-04-18".into()));
    assert_eq!((&dormant["basis"], &dormant["days"]), (&"observed".into(), &200.into()));
}

#[test]
fn rest_of_common_practice_is_carried_forward() {
    let farm = Farm::with(&[]);
    farm.write("farm.yaml", &format!("{SMALL_FARM}{OBSERVED}"));
    let rows = seasons(&farm);
    // Two to four weeks after felling between 1 October and 18 April.
    assert_eq!(dates(row(&rows, "inoculate shiitake on red-oak")), ("2026-10-15".into(), "2027-05-16".into()));
}

#[test]
fn no_cut_windows_are_taken_away_from_their_woods_only() {
    let farm = Farm::with(&[]);
    farm.write("farm.yaml", &format!("{SMALL_FARM}{OBSERVED}no_cut: [oak-wilt-michigan, oak-wilt-wisconsin]\n"));
    let rows = seasons(&farm);
    // Wisconsin: April to July; the felling of red oak ends in March, that of sugar maple at bud swell.
    assert_eq!(dates(row(&rows, "fell red-oak")).1, "2027-03-31");
    assert_eq!(dates(row(&rows, "fell sugar-maple")).1, "2027-04-18");
}

#[test]
fn a_dated_window_of_common_practice_needs_no_observation() {
    let window = "name: Dormant season\nkind: cut\nfrom: 11-15\nto: 03-31\nsays: ours\nsource: common-practice\n";
    let farm = Farm::with(&[("seasons/ours.yaml", window)]);
    farm.write("farm.yaml", &format!("{SMALL_FARM}woods: [red-oak]\ngrows: [shiitake]\nrest: [2 weeks, 4 weeks]\n"));
    let rows = seasons(&farm);
    assert_eq!(dates(row(&rows, "fell red-oak")), ("2026-11-15".into(), "2027-03-31".into()));
    assert_eq!(row(&rows, "fell red-oak")["basis"], "dated");
    assert_eq!(dates(row(&rows, "inoculate shiitake on red-oak")), ("2026-11-29".into(), "2027-04-28".into()));
}

#[test]
fn a_farm_without_observations_gets_words_instead_of_dates() {
    let farm = Farm::with(&[]);
    let rows = seasons(&farm);
    assert!(!rows.iter().any(|row| row["window"] == "dormant"));
    let page = farm.drawn("seasons.html");
    assert!(page.contains("the turning of leaves has not been observed here"), "the gap is said");
}

#[test]
fn leap_days_are_dates() {
    let window = "name: Late winter\nkind: cut\nfrom: 02-29\nto: 03-31\nsays: ours\nsource: common-practice\n";
    let farm = Farm::with(&[("seasons/ours.yaml", window)]);
    farm.write("farm.yaml", "name: T\nplace: {latitude: 44, longitude: -72}\nseason: 2027\nwoods: [red-oak]\n");
    assert_eq!(dates(row(&seasons(&farm), "ours")), ("2028-02-28".into(), "2028-03-31".into()));
}

#[test]
fn south_of_the_equator_the_season_begins_in_its_own_autumn() {
    let observed =
        "observed:\n  leaf_colour: ['2024-04-03', '2025-04-07']\n  bud_swell: ['2024-09-20', '2025-09-24']\n";
    let farm = Farm::with(&[]);
    farm.write(
        "farm.yaml",
        &format!("name: T\nplace: {{latitude: -43, longitude: 172}}\nseason: 2026\nwoods: [red-oak]\n{observed}"),
    );
    assert_eq!(dates(row(&seasons(&farm), "dormant")), ("2026-04-07".into(), "2026-09-20".into()));
}

#[test]
fn the_season_asked_for_moves_every_date() {
    let folder = tempfile::TempDir::new().unwrap();
    let output = crate::harness::run(folder.path(), &["publish", "--season", "2030"]);
    assert_eq!(crate::harness::code(&output), 0);
    let page = std::fs::read_to_string(folder.path().join("guide/seasons.html")).unwrap();
    assert!(page.contains("March 31, 2031"));
}

#[test]
fn a_crossing_of_temperatures_is_a_gap_that_says_so() {
    let farm = Farm::with(&[]);
    assert!(farm.drawn("seasons.html").contains("no date: when the air rises above 50 °F"));
}

#[test]
fn a_no_cut_window_that_cannot_be_told_stops_the_felling() {
    let cut = "name: Dormant season\nkind: cut\nfrom: 11-15\nto: 05-31\nsays: ours\nsource: common-practice\n";
    let rest = "name: Buds\nkind: no-cut\nfrom: bud swell\nto: 07-31\nsays: ours\nsource: common-practice\n";
    let farm = Farm::with(&[("seasons/ours.yaml", cut), ("seasons/buds.yaml", rest)]);
    farm.write("farm.yaml", &format!("{SMALL_FARM}woods: [red-oak]\ngrows: [shiitake]\n"));
    assert!(!seasons(&farm).iter().any(|row| row["window"] == "fell red-oak"));
    assert!(farm.drawn("seasons.html").contains("“Buds” holds here, but its dates cannot be told"));
}

#[test]
fn a_word_changed_in_a_handbooks_window_does_not_make_it_count() {
    let farm = Farm::with(&[("seasons/oak-wilt-texas.yaml", "says: Read about it once.\n")]);
    farm.write("farm.yaml", &format!("{SMALL_FARM}{OBSERVED}"));
    assert_eq!(dates(row(&seasons(&farm), "fell red-oak")).1, "2027-04-18");
}

#[test]
fn inoculation_never_comes_before_its_felling() {
    let cut = "name: Summer\nkind: cut\nfrom: 07-20\nto: 07-25\nsays: ours\nsource: common-practice\n";
    let farm = Farm::with(&[("seasons/ours.yaml", cut)]);
    farm.write("farm.yaml", &format!("{SMALL_FARM}woods: [red-oak]\ngrows: [shiitake]\n"));
    let rows = seasons(&farm);
    assert_eq!(dates(row(&rows, "fell red-oak")), ("2027-07-20".into(), "2027-07-25".into()));
    assert_eq!(dates(row(&rows, "inoculate shiitake on red-oak")), ("2027-08-03".into(), "2027-08-22".into()));
}

#[test]
fn a_stretch_between_two_dates_of_the_year_is_dated_whatever_was_observed() {
    let inoculate = "name: Ours\nkind: inoculate\nfrom: 04-01\nto: 05-31\nsays: ours\nsource: common-practice\n";
    let farm = Farm::with(&[("seasons/ours.yaml", inoculate)]);
    farm.write("farm.yaml", &format!("{SMALL_FARM}{OBSERVED}no_cut: [oak-wilt-wisconsin]\n"));
    let rows = seasons(&farm);
    // Red oak: from the farm's own 1 April to four weeks after the last day before the no-cut window.
    let oak = row(&rows, "inoculate shiitake on red-oak");
    assert_eq!(dates(oak), ("2027-04-01".into(), "2027-04-28".into()));
    assert_eq!((&oak["basis"], &row(&rows, "fell red-oak")["basis"]), (&"dated".into(), &"observed".into()));
    // Sugar maple: to four weeks after bud swell.
    assert_eq!(row(&rows, "inoculate shiitake on sugar-maple")["basis"], "observed");
}

#[test]
fn a_tree_that_keeps_its_leaves_gets_no_date_from_leaves() {
    let farm = Farm::with(&[]);
    let place = "name: South Wood\nplace: {where: AU-TAS, latitude: -41.5, longitude: 146.9}\nseason: 2026\n";
    let seen = "observed:\n  leaf_colour: ['2024-04-20', '2025-04-24']\n  bud_swell: ['2024-09-10', '2025-09-14']\n";
    farm.write("farm.yaml", &format!("{place}woods: [english-oak, shining-gum]\ngrows: [shiitake]\n{seen}"));
    let rows = seasons(&farm);
    assert_eq!(dates(row(&rows, "fell english-oak")), ("2026-04-24".into(), "2026-09-10".into()));
    // Of two years the later leaf colour and the earlier bud swell count.
    assert!(rows.iter().all(|row| row["window"] != "fell shining-gum"));
    assert_eq!(code(&farm.publish()), 0);
    assert!(farm.page("seasons.html").contains("this tree keeps its leaves"));
}
