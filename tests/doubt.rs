//! Trees of which nobody is sure what they are: they stand until a second character agrees, and every page says so.

use serde_json::Value;

use crate::harness::{Farm, code, demo, demo_table, said, table};

const PLAN: &str = "name: Winter\nseason: 2026\nwishes: [{strain: shiitake-wide-range, spawn: sawdust, logs: 10}]\n";

/// A farm with a plan of ten logs and the trees of one measured stand.
fn farm(trees: &str) -> Farm {
    let farm = Farm::with(&[
        (
            "woodlot/hill.yaml",
            "name: The hill\narea: 2 acres\nprism: {factor: 10 ft2/ac, counts: [9, 8, 10]}\ntarget: 60 ft2/ac\n",
        ),
        ("plans/winter.yaml", PLAN),
    ]);
    walk(&farm, trees);
    farm
}

/// Writes the walk again.
fn walk(farm: &Farm, trees: &str) {
    let heads = "Tag,Wood,DBH (in),Logs,Decision,Clump,East (ft),North (ft),Felled,Logs cut,Doubtful";
    farm.write("woodlot/hill.csv", &format!("{heads}\n{trees}"));
}

/// The tags of a table's rows of which a column is true.
fn tags(rows: &[Value], column: &str) -> Vec<String> {
    rows.iter().filter(|row| row[column] == true).map(|row| row["tag"].as_str().unwrap().to_owned()).collect()
}

/// Logs that the plan places.
fn placed(farm: &Farm) -> i64 {
    let rows = table("allocation", farm.path(), &[]);
    rows.iter().filter(|row| row["wood"].is_string()).filter_map(|row| row["logs"].as_i64()).sum()
}

const SURE: &str = "H-1,sugar-maple,6,4,fell,,10,10,,,\nH-2,sugar-maple,7,6,fell,,40,10,,,\n";
const UNSURE: &str = "H-1,sugar-maple,6,4,fell,,10,10,,,\nH-2,sugar-maple,7,6,fell,,40,-10,,,true\n";

#[test]
fn a_tree_in_doubt_is_in_no_plan_until_the_doubt_is_taken_away() {
    let farm = farm(UNSURE);
    let trees = table("trees", farm.path(), &[]);
    assert_eq!((tags(&trees, "doubtful"), tags(&trees, "this_winter")), (vec!["H-2".into()], vec!["H-1".into()]));
    assert_eq!(placed(&farm), 4);
    let stand = |farm: &Farm| table("thinning", farm.path(), &[]);
    let unsure = stand(&farm);
    let short = table("allocation", farm.path(), &[]);
    let why = short.iter().find(|row| row["wood"].is_null()).unwrap()["why"].as_str().unwrap().to_owned();
    assert_eq!(why, "H-2 is marked, but in doubt and left until it is known what it is");
    walk(&farm, SURE);
    assert_eq!((tags(&table("trees", farm.path(), &[]), "doubtful").len(), placed(&farm)), (0, 10));
    let sure = stand(&farm);
    assert_eq!(unsure[0]["basal_area_ft2_per_acre"], sure[0]["basal_area_ft2_per_acre"], "it stands in both");
    assert_eq!((&unsure[1]["felled"], &sure[1]["felled"]), (&1.into(), &2.into()));
}

#[test]
fn no_spawn_is_ordered_for_marked_trees_that_are_all_in_doubt() {
    let farm = farm("H-1,sugar-maple,6,4,fell,,,,,,true\n");
    let needed = |farm: &Farm| -> Vec<Value> { table("supply", farm.path(), &[]) };
    assert_eq!((placed(&farm), needed(&farm)), (0, Vec::new()));
    walk(&farm, "H-1,sugar-maple,6,4,fell,,,,,,\n");
    assert_eq!(placed(&farm), 4);
    assert!(!needed(&farm).is_empty());
}

#[test]
fn the_stems_of_one_stump_share_its_doubt() {
    let farm = farm("1,sugar-maple,6,4,fell,S,,,,,true\n2,sugar-maple,5,3,fell,S,,,,,\n3,sugar-maple,6,4,fell,,,,,,\n");
    let trees = table("trees", farm.path(), &[]);
    assert_eq!(
        (tags(&trees, "doubtful"), tags(&trees, "this_winter")),
        (vec!["1".into(), "2".into()], vec!["3".into()])
    );
    let stand = farm.drawn("stands/hill.html");
    assert!(stand.contains("its wood is in doubt, so all its stems stay until it is known"), "{stand}");
}

#[test]
fn pages_name_the_trees_in_doubt_and_forget_them_when_they_are_known() {
    let farm = farm(UNSURE);
    let publish = || {
        let output = farm.publish();
        assert_eq!(code(&output), 0, "{}", said(&output));
    };
    let says = |path: &str, words: &[&str], does: bool| {
        let page = farm.page(path);
        for word in words {
            assert_eq!(page.contains(word), does, "{path}: {word}");
        }
    };
    publish();
    let pages: [(&str, &[&str]); 5] = [
        (
            "winter/felling.html",
            &[
                "Not sure what it is: leave it",
                "<b>H-2 (40 ft east, 10 ft south)</b>",
                "href=\"../key/winter.html\">the key",
            ],
        ),
        ("winter/planning.html", &["H-2 is marked, but in doubt and left until it is known what it is."]),
        ("stands/hill.html", &["stays, in doubt", "tree-doubtful", "Triangle: in doubt"]),
        ("key/winter.html", &["2 tagged, H-2 in doubt", "In doubt: <a href=\"../stands/hill.html#trees\">H-2</a>."]),
        ("key/summer.html", &["2 tagged, H-2 in doubt"]),
    ];
    for (path, words) in pages {
        says(path, words, true);
    }
    let felling = farm.page("winter/felling.html");
    let (block, trees) = (felling.find("leave it</h2>").unwrap(), felling.find("The hill</a></h2>").unwrap());
    let lead = felling.find("<a href=\"#doubt\">").unwrap();
    assert!(lead < trees && trees < block && felling[block..].contains("Check also: "), "{felling}");
    assert!(!felling[trees..block].contains("H-2"), "it is on no list of trees to fell");
    // A second character agreed, and the tree came down.
    walk(&farm, "H-1,sugar-maple,6,4,fell,,10,10,,,\nH-2,sugar-maple,7,6,fell,,40,-10,2026-11-20,6,false\n");
    publish();
    for (path, words) in pages {
        says(path, words, false);
    }
    says("winter/felling.html", &["Down this winter: H-2."], true);
    says("stands/hill.html", &["felled November 20, 2026, 6 logs"], true);
}

#[test]
fn a_tree_that_stays_is_told_as_in_doubt_and_is_no_gap_of_the_plan() {
    let farm = farm("H-1,sugar-maple,6,4,fell,,10,10,,,\nH-2,sugar-maple,9,,keep,,40,10,,,true\n");
    assert!(farm.drawn("stands/hill.html").contains("stays, in doubt"));
    assert!(farm.drawn("key/winter.html").contains("In doubt: "));
    assert!(!farm.drawn("winter/felling.html").contains("Not sure what it is"));
    assert!(!farm.drawn("winter/planning.html").contains("in doubt"));
}

#[test]
fn many_trees_in_doubt_are_counted_and_not_named() {
    let trees: Vec<String> = (1..=30).map(|tag| format!("{tag},sugar-maple,6,4,fell,,,,,,true")).collect();
    let farm = farm(&trees.join("\n"));
    let key = farm.drawn("key/winter.html");
    assert!(key.contains("30 tagged, 30 in doubt") && key.contains("and 18 more."), "{key}");
    assert!(farm.drawn("winter/felling.html").contains("<b>30 trees</b>"));
    assert!(farm.drawn("winter/planning.html").contains("30 trees are marked, but in doubt"));
}

#[test]
fn both_demo_farms_have_a_tree_in_doubt() {
    for (name, tag, stand) in [("sorrel-hollow", "K-27", "knoll"), ("larkbeck", "28", "upper-wood")] {
        assert_eq!(tags(&demo_table(name, "trees"), "doubtful"), [tag]);
        let farm = demo(name);
        assert!(farm.page("key/winter.html").contains(&format!("{tag} in doubt")), "{name}");
        assert!(farm.page(&format!("stands/{stand}.html")).contains("in doubt"), "{name}");
    }
    assert!(demo("sorrel-hollow").page("winter/felling.html").contains("<b>K-27 (148 ft east, 148 ft north)</b>"));
    assert!(!demo("larkbeck").page("winter/felling.html").contains("Not sure what it is"));
}

#[test]
fn in_the_south_a_tree_in_doubt_is_left_too() {
    let farm = farm("H-1,sugar-maple,6,4,fell,,10,10,,,\nH-2,sugar-maple,7,6,fell,,40,-10,,,true\n");
    farm.write(
        "farm.yaml",
        "name: Quillet Bank\nplace: {where: AU-TAS, latitude: -42.2, longitude: 147.1}\nseason: 2026\nunits: metric\n",
    );
    assert_eq!(tags(&table("trees", farm.path(), &[]), "this_winter"), ["H-1"]);
    assert!(farm.drawn("winter/felling.html").contains("<b>H-2 (12 m east, 3 m south)</b>"));
}
