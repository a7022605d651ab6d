//! Dates that are the farm's own: this season's observation, woods without a common day, short windows, places without a
//! winter, lots that lie.

use serde_json::Value;

use crate::harness::{Farm, SMALL_FARM, code, demo, demo_table, run, said, table};

const OBSERVED: &str = "woods: [red-oak, sugar-maple]\ngrows: [shiitake]\nobserved:\n  leaf_colour: ['2023-10-01', '2024-09-27', '2025-10-05'NOW]\n  bud_swell: ['2024-04-12', '2025-04-18']\n";
const STAND: &str = "name: The hill\n";
const TREES: &str = "Tag,Wood,DBH (in),Logs,Decision\nK-12,red-oak,6,8,fell\nK-13,sugar-maple,6,5,fell\n";
const PLAN: &str = "name: Winter\nseason: 2026\nwishes: [{strain: shiitake-wide-range, spawn: sawdust, logs: 12}]\n";
const LOT: &str = "name: Storm oak\nwood: red-oak\nlogs: 4\nfelled: '2026-11-03'\nfrom: The lane\n";

/// A season between two dates.
fn season(kind: &str, from: &str, to: &str, more: &str) -> String {
    format!("name: Ours to {kind}\nkind: {kind}\nfrom: {from}\nto: {to}\nsays: ours\nsource: common-practice\n{more}")
}

/// A farm that fills in April, may fell oak until the end of January and maple until the middle of March.
fn spring_farm() -> Farm {
    let farm = Farm::with(&[
        ("seasons/cut.yaml", &season("cut", "11-15", "03-15", "")),
        ("seasons/oaks.yaml", &season("no-cut", "02-01", "07-31", "woods: [oak]\n")),
        ("seasons/fill.yaml", &season("inoculate", "04-01", "05-15", "")),
        ("woodlot/hill.yaml", STAND),
        ("woodlot/hill.csv", TREES),
        ("plans/winter.yaml", PLAN),
    ]);
    farm.write("farm.yaml", &format!("{SMALL_FARM}woods: [red-oak, sugar-maple]\ngrows: [shiitake]\n"));
    farm
}

fn row<'a>(rows: &'a [Value], column: &str, name: &str) -> &'a Value {
    rows.iter().find(|row| row[column] == name).unwrap_or_else(|| panic!("no row {name} in {rows:?}"))
}

fn days(row: &Value) -> [&str; 2] {
    ["from", "to"].map(|end| row[end].as_str().unwrap())
}

fn felled(farm: &Farm) -> Vec<String> {
    let trees = table("trees", farm.path(), &[]);
    let felled = trees.iter().filter(|row| row["this_winter"] == true);
    felled.map(|row| row["tag"].as_str().unwrap().to_owned()).collect()
}

/// Words of a page, without its marks.
fn words(page: &str) -> String {
    let text: String = page.split('<').map(|part| part.split_once('>').map_or(part, |(_, text)| text)).collect();
    text.replace("&#39;", "'").replace("&#x27;", "'").replace("&quot;", "\"").replace("&amp;", "&")
}

#[test]
fn the_day_seen_this_season_decides_and_the_usual_day_stands_in_until_then() {
    let farm = Farm::with(&[]);
    let seen = |now: &str| farm.write("farm.yaml", &format!("{SMALL_FARM}{}", OBSERVED.replace("NOW", now)));
    seen("");
    assert_eq!(code(&farm.publish()), 0);
    let page = words(&farm.page("seasons.html"));
    assert!(page.contains("Not yet this season; usually October 1 in 3 other years"), "{page}");
    assert!(page.contains("October 1, 2026 to April 12, 2027"));
    seen(", '2026-10-09'");
    assert_eq!(code(&farm.publish()), 0);
    let page = words(&farm.page("seasons.html"));
    assert!(page.contains("This season: October 9, 2026, and that decides"), "{page}");
    assert!(page.contains("Usually October 1 in 3 other years, from September 27 to October 5"));
    assert!(page.contains("October 9, 2026 to April 12, 2027"));
    // The season before has its own day too, and the new one is one of its other years.
    let record = std::fs::read_to_string(farm.path().join("farm.yaml")).unwrap();
    farm.write("farm.yaml", &record.replace("season: 2026", "season: 2025"));
    let earlier = table("seasons", farm.path(), &[]);
    assert_eq!(days(row(&earlier, "window", "dormant")), ["2025-10-05", "2026-04-12"]);
}

#[test]
fn south_of_the_equator_the_season_that_a_day_belongs_to_begins_in_february() {
    let farm = Farm::with(&[]);
    farm.write(
        "farm.yaml",
        "name: T\nplace: {latitude: -43, longitude: 172}\nseason: 2026\nwoods: [red-oak]\nobserved:\n  leaf_colour: ['2024-04-03', '2025-04-07', '2026-04-15']\n  bud_swell: ['2024-09-20', '2025-09-24', '2026-09-12']\n",
    );
    assert_eq!(days(row(&table("seasons", farm.path(), &[]), "window", "dormant")), ["2026-04-15", "2026-09-12"]);
    assert_eq!(code(&farm.publish()), 0);
}

#[test]
fn a_wood_without_a_common_day_is_not_felled_and_its_logs_that_lie_are_used() {
    let farm = spring_farm();
    // Felled by 31 January and rested four weeks, oak is over before April; maple of the middle of March is not.
    assert_eq!(felled(&farm), ["K-13"]);
    let rows = table("allocation", farm.path(), &[]);
    assert!(rows.iter().all(|row| row["wood"] != "red-oak"), "{rows:?}");
    farm.write("lots/storm.yaml", LOT);
    assert_eq!(code(&farm.publish()), 0);
    assert_eq!(felled(&farm), ["K-13"]);
    let rows = table("allocation", farm.path(), &[]);
    assert_eq!(row(&rows, "wood", "red-oak")["logs"], 4);
    let lacking = rows.iter().find(|row| row["wood"].is_null()).unwrap();
    assert_eq!(lacking["logs"], 3);
    assert!(lacking["why"].as_str().unwrap().contains("red oak are marked, but felled this winter they have no day"));
    let waits = "K-12 waits: red oak felled in these days has no day to inoculate shiitake; logs that lie are used";
    for page in ["winter/felling.html", "winter/planning.html"] {
        assert!(words(&farm.page(page)).contains(waits), "{page}");
    }
    // Maple is filled until 12 April, and the lot, rested in November, with it.
    let page = words(&farm.page("winter/inoculation.html"));
    assert!(page.contains("April 1 to April 12, 2027"), "{page}");
    assert!(page.contains("Storm oak: felled November 3, 2026; our rest would end November 17 to December 1, 2026"));
}

#[test]
fn without_a_plan_a_wood_that_nothing_fits_is_not_felled_either() {
    let farm = spring_farm();
    std::fs::remove_file(farm.path().join("plans/winter.yaml")).unwrap();
    assert_eq!(felled(&farm), ["K-13"]);
    assert!(words(&farm.drawn("winter/felling.html")).contains("K-12 waits: red oak felled in these days"));
    // A rest that reaches April lets it fall.
    farm.write(
        "farm.yaml",
        &format!("{SMALL_FARM}woods: [red-oak, sugar-maple]\ngrows: [shiitake]\nrest: [2 weeks, 3 months]\n"),
    );
    assert_eq!(felled(&farm), ["K-12", "K-13"]);
}

#[test]
fn a_wood_whose_no_cut_windows_leave_no_day_is_not_felled() {
    let farm = spring_farm();
    farm.write("seasons/oaks.yaml", &season("no-cut", "11-01", "07-31", "woods: [oak]\n"));
    assert_eq!(felled(&farm), ["K-13"]);
    let calendar = table("calendar", farm.path(), &[]);
    assert!(calendar.iter().filter(|row| row["kind"] == "fell").all(|row| row["title"] == "Fell sugar maple"));
}

#[test]
fn a_window_of_less_than_a_week_says_what_meets_at_its_ends() {
    let farm = spring_farm();
    farm.write("seasons/oaks.yaml", &season("no-cut", "11-19", "07-31", "woods: [oak]\n"));
    farm.write("seasons/fill.yaml", &season("inoculate", "04-10", "05-15", ""));
    assert_eq!(code(&farm.publish()), 0);
    for page in ["index.html", "seasons.html"] {
        let page = words(&farm.page(page));
        let felling = "Only 4 days: from the start of “Ours to cut” (November 15) to the start of the no-cut window “Ours to no-cut” (November 19).";
        assert!(page.contains(felling), "{page}");
        let filling = "Only 3 days: from the start of “Ours to inoculate” (April 10) to the most rest, 28 days, after felling stops at the end of “Ours to cut” (March 15).";
        assert!(page.contains(filling), "{page}");
    }
    assert!(!words(&spring_farm().drawn("seasons.html")).contains("Only "));
}

/// The files that the seasons page shows as an example.
fn example(page: &str) -> Vec<(String, String)> {
    let records = page.split("<pre class=\"record\">").skip(1).map(|part| words(part.split("</pre>").next().unwrap()));
    let files = records.filter_map(|text| {
        let (path, body) = text.strip_prefix("# ")?.split_once('\n')?;
        Some((path.to_owned(), body.to_owned()))
    });
    files.collect()
}

#[test]
fn where_nothing_tells_a_winter_the_page_leads_to_seasons_of_ones_own_and_its_example_works() {
    for place in ["{latitude: 3, longitude: 100}", "{latitude: 30, longitude: 100}"] {
        let farm = Farm::with(&[]);
        let means = "  monthly_means: [25 C, 25 C, 26 C, 26 C, 27 C, 27 C, 27 C, 27 C, 26 C, 26 C, 25 C, 25 C]\n";
        let record = format!(
            "name: T\nplace: {place}\nseason: 2026\nunits: metric\nwoods: [red-oak]\ngrows: [shiitake, tree-oyster]\nclimate:\n{means}"
        );
        farm.write("farm.yaml", &record);
        assert_eq!(code(&farm.publish()), 0);
        assert!(farm.page("index.html").contains("seasons.html#own-seasons"));
        let page = farm.page("seasons.html");
        assert!(page.contains("never falls below 10 °C") && page.contains("id=\"own-seasons\""), "{}", words(&page));
        let files = example(&page);
        assert_eq!(files.len(), 2);
        for (path, body) in files {
            farm.write(&path, &body);
        }
        let output = farm.publish();
        assert_eq!(code(&output), 0, "{}", said(&output));
        let rows = table("seasons", farm.path(), &[]);
        assert_eq!(days(row(&rows, "window", "fell red-oak")), ["2027-01-10", "2027-02-20"]);
        assert!(!farm.page("seasons.html").contains("own-seasons"));
    }
}

#[test]
fn a_farm_in_the_tropics_is_not_asked_for_leaf_colour() {
    let farm = Farm::with(&[]);
    farm.write("farm.yaml", "name: T\nplace: {latitude: -8, longitude: 115}\nseason: 2026\nwoods: [red-oak]\n");
    let page = farm.drawn("seasons.html");
    assert!(page.contains("lies in the tropics") && page.contains("id=\"own-seasons\""));
}

#[test]
fn the_days_of_a_lot_that_lies_stand_in_the_months_and_in_the_calendar() {
    let rows = demo_table("sorrel-hollow", "calendar");
    let entry = |name: &str| days(row(&rows, "entry", name));
    assert_eq!(entry("rest-lot-storm-oak-2026"), ["2026-11-03", "2026-11-16"]);
    assert_eq!(entry("rested-lot-storm-oak-2026"), ["2026-11-17", "2026-12-01"]);
    assert_eq!(entry("fill-lot-storm-oak-shiitake-2026"), ["2027-04-01", "2027-05-31"]);
    let year = words(&demo("sorrel-hollow").page("seasons.html"));
    for line in [
        "Storm oak from the lane, 18 logs: felled, resting: November 3 to November 16",
        "Storm oak from the lane, 18 logs: ready by our rest: from November 17",
        "Fill Storm oak from the lane, 18 logs, with shiitake: from April 1",
        "Fill Storm oak from the lane, 18 logs, with shiitake: until May 31",
    ] {
        assert!(year.contains(line), "{line}");
    }
}

#[test]
fn a_lot_that_is_used_up_or_has_no_day_of_felling_has_no_entry() {
    let farm = spring_farm();
    let kinds = |farm: &Farm| -> Vec<String> {
        let rows = table("calendar", farm.path(), &[]);
        let of_lots = rows.iter().filter(|row| row["entry"].as_str().unwrap().contains("-lot-"));
        of_lots.map(|row| row["kind"].as_str().unwrap().to_owned()).collect()
    };
    farm.write("lots/storm.yaml", LOT);
    assert_eq!(kinds(&farm), ["rest", "rested", "fill"]);
    // Felled in the middle of March it is filled within its rest.
    farm.write("lots/storm.yaml", &LOT.replace("2026-11-03", "2027-03-20 to 2027-03-22"));
    let rows = table("calendar", farm.path(), &[]);
    assert_eq!(days(row(&rows, "entry", "fill-lot-storm-shiitake-2026")), ["2027-04-05", "2027-04-17"]);
    assert_eq!(kinds(&farm), ["rest", "fill"]);
    farm.write("lots/storm.yaml", &LOT.replace("felled: '2026-11-03'\n", ""));
    assert!(kinds(&farm).is_empty());
    farm.write("lots/storm.yaml", &format!("{LOT}gone: [{{date: '2026-12-01', how: sold, logs: 4}}]\n"));
    assert!(kinds(&farm).is_empty());
    assert_eq!(code(&run(farm.path(), &["proof"])), 0);
}
