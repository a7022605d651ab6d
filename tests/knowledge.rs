//! What growers know: how much of it each of its sources says in the handbook, so that nothing drops out unseen.

use std::collections::BTreeMap;

use hostwood::record::said::Mark;

use crate::evidence::demo as book;
use crate::harness::{Farm, demo, demo_table, files, root, table};

/// How many rows of evidence each source has that speaks of hosts and of growing abroad.
const ROWS: [(&str, usize); 25] = [
    ("boddy-wald-2002", 2),
    ("bru-hall-2008", 1),
    ("cornwall-recorder", 2),
    ("emberger-messiah", 6),
    ("fontenelle", 4),
    ("forestpests", 4),
    ("fukushima-2007", 5),
    ("fungi-encyclopaedia", 2),
    ("gendai-nogyo-2010", 1),
    ("german-oyster-pages", 3),
    ("gifu-2008", 1),
    ("hyo10", 6),
    ("kinoko-gari", 9),
    ("krieglsteiner-note", 3),
    ("kuo-panellus", 2),
    ("nagano-kuritake", 3),
    ("ncsu-curtisii", 2),
    ("niig16", 2),
    ("niig20", 2),
    ("okayama-2019", 10),
    ("oregon-posting-1997", 1),
    ("phillips-2006", 8),
    ("sdw-sachsen", 3),
    ("shirakami-database", 3),
    ("wakayama-4", 4),
];

/// How often each source of the chapters on beds, stumps, spawn, thinning and woods is cited, its evidence not counted.
const CITED: [(&str, usize); 17] = [
    ("chudnoff-globulus", 1),
    ("cjf-1983", 1),
    ("fukushima-2007", 2),
    ("gottschalk-2014", 2),
    ("lamson-1976", 1),
    ("lamson-1983", 2),
    ("llana-2020", 5),
    ("lwf-12", 1),
    ("mckimm-1984", 1),
    ("nagano-kuritake", 3),
    ("okayama-2019", 1),
    ("oklahoma-snags", 2),
    ("oregon-posting-1997", 1),
    ("silviculture-24", 2),
    ("tappeiner-1996", 1),
    ("unh-good-forestry", 3),
    ("wakayama-4", 2),
];

#[test]
fn each_source_on_hosts_has_all_its_rows() {
    let mut rows: BTreeMap<&str, usize> = BTreeMap::new();
    let book = book();
    for row in &book.evidence {
        *rows.entry(&row.source.id).or_default() += 1;
    }
    for (source, count) in ROWS {
        assert_eq!(rows.get(source), Some(&count), "{source}");
    }
}

/// Whether a line of a record cites a source, alone or in a list.
fn cites(line: &str, source: &str) -> bool {
    let list = line.trim().strip_prefix("sources: [").and_then(|list| list.strip_suffix(']'));
    line.trim().strip_prefix("source: ") == Some(source)
        || list.is_some_and(|list| list.split(", ").any(|cited| cited == source))
}

#[test]
fn each_source_on_growing_is_cited_as_often_as_it_was_entered() {
    let texts = ["methods", "mushrooms", "woods"].map(|folder| files(&root().join("content").join(folder)));
    let texts = texts.iter().flat_map(|folder| folder.values()).map(|text| std::str::from_utf8(text).unwrap());
    let lines: Vec<&str> = texts.flat_map(str::lines).collect();
    for (source, count) in CITED {
        assert_eq!(lines.iter().filter(|line| cites(line, source)).count(), count, "{source}");
    }
}

#[test]
fn the_water_of_european_woods_is_the_upper_end_of_its_range() {
    let book = book();
    // Per cent of the fresh weight, w; of the dry wood that is w / (1 − w).
    for (wood, fresh) in [
        ("common-hazel", 46.0),
        ("english-oak", 48.0),
        ("european-ash", 36.0),
        ("european-aspen", 62.0),
        ("european-beech", 50.0),
        ("european-birch", 46.0),
        ("european-hornbeam", 45.0),
        ("field-maple", 46.0),
        ("poplar", 62.0),
        ("sessile-oak", 48.0),
        ("small-leaved-lime", 54.0),
        ("sweet-chestnut", 52.0),
        ("sycamore-maple", 45.0),
        ("white-willow", 58.0),
        ("wych-elm", 56.0),
    ] {
        let moisture = book.woods[wood].record.moisture.as_ref().unwrap();
        let green = moisture.green.as_ref().unwrap().of_one() * 100.0;
        assert!((green - 100.0 * fresh / (100.0 - fresh)).abs() < 0.5, "{wood}: {green}");
        let mark = if wood == "european-beech" { Mark::Copy } else { Mark::Memory };
        assert_eq!(moisture.mark, mark, "{wood}");
    }
}

#[test]
fn the_thinnings_of_ireland_give_an_upper_bound_of_the_dry_wood() {
    let book = book();
    for (wood, water, density) in [
        ("common-alder", 13.8, 0.489),
        ("european-ash", 18.3, 0.664),
        ("european-birch", 19.3, 0.599),
        ("downy-birch", 19.3, 0.599),
        ("sycamore-maple", 11.9, 0.553),
    ] {
        let remarks = &book.woods[wood].record.remarks;
        let said = remarks.iter().find(|said| said.source.as_str() == "llana-2020").unwrap();
        let bound = format!("a basic density of {:.3} at the most", density / (1.0 + water / 100.0));
        assert!(said.says.contains(&bound) && said.mark == Mark::Derived, "{wood}: {}", said.says);
    }
}

#[test]
fn an_untried_pair_shows_its_kin_and_stays_untried() {
    let pairs = demo_table("sorrel-hollow", "pairings");
    let pair = |mushroom: &str, wood: &str| {
        pairs.iter().find(|row| row["mushroom"] == mushroom && row["wood"] == wood).cloned().unwrap_or_default()
    };
    let oak = pair("maitake", "red-oak");
    assert_eq!(oak["word"], "untried");
    assert!(oak["rating"].is_null() && oak["by"].is_null(), "{oak}");
    assert_eq!(oak["kin"], "konara-oak thrives, buried; mizunara-oak thrives, buried");
    for row in pairs.iter().filter(|row| !row["kin"].is_null()) {
        assert_eq!(row["word"], "untried", "{row}");
    }
    assert!(pair("maitake", "konara-oak")["kin"].is_null(), "a wood with a verdict needs no kin");
    let page = demo("sorrel-hollow").page("woods/red-oak.html");
    assert!(page.contains("pairings-maitake.html#konara-oak\">konara oak</a> thrives, buried"));
    // Nobody speaks of shiitake on yellow birch at all.
    assert!(pair("shiitake", "yellow-birch").is_null());
    let page = demo("sorrel-hollow").page("woods/yellow-birch.html");
    assert!(
        page.contains("Untried, but on its kin") && page.contains("pairings-shiitake.html#gray-birch\">gray birch</a>")
    );
}

#[test]
fn neither_the_wild_nor_sawdust_nor_a_genus_makes_kin() {
    let kin = |grown: &str, wood: &str, rating: &str| {
        let row = format!(
            "- {{mushroom: velvet-foot, wood: {wood}, {rating}says: so, grown: {grown}, kind: trial, source: own}}\n"
        );
        let source = "own: {short: Ours, authors: We, title: Notes, kind: this-farm}\n";
        let farm = Farm::with(&[("evidence/own.yaml", &row), ("sources.yaml", source)]);
        let pairs = table("pairings", farm.path(), &[]);
        let found = pairs.iter().find(|row| row["mushroom"] == "velvet-foot" && row["wood"] == "black-willow");
        found.unwrap()["kin"].as_str().map(str::to_owned)
    };
    assert_eq!(kin("log", "white-willow", "rating: 2, ").as_deref(), Some("white-willow does well, on logs"));
    assert_eq!(kin("wild", "white-willow", ""), None);
    assert_eq!(kin("sawdust", "white-willow", ""), None);
    assert_eq!(kin("log", "willow", "rating: 2, "), None);
}
