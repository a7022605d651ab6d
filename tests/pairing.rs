//! Pairings worked by hand from the published rows, and the table against them.
//!
//! Weights: trial 1, advice ½, observation ¼. Consensus: Tastle & Wierman 2007.

use std::collections::BTreeMap;

use hostwood::book::{Evidence, Writer};
use hostwood::record::evidence::EvidenceKind;
use serde_json::Value;

use crate::evidence::{demo, published};
use crate::harness::{Farm, demo_table, table};

/// The pairings of a farm that adds no evidence of its own.
fn pairings() -> BTreeMap<(String, String), Value> {
    let farm = Farm::with(&[]);
    let key = |row: &Value, name: &str| row[name].as_str().unwrap().to_owned();
    table("pairings", farm.path(), &[])
        .into_iter()
        .map(|row| ((key(&row, "mushroom"), key(&row, "wood")), row))
        .collect()
}

fn assert_pair(
    pairs: &BTreeMap<(String, String), Value>,
    mushroom: &str,
    wood: &str,
    rating: u8,
    agreement: f64,
    sources: u64,
    basis: &str,
) {
    let row = &pairs[&(mushroom.to_owned(), wood.to_owned())];
    assert_eq!(row["rating"], rating, "{row}");
    assert!((row["agreement"].as_f64().unwrap() - agreement).abs() < 0.006, "{row}, by hand {agreement}");
    assert_eq!(row["sources"], sources, "{row}");
    assert_eq!(row["basis"], basis, "{row}");
}

#[test]
fn pairs_on_which_sources_disagree_come_out_as_by_hand() {
    let pairs = pairings();
    // Chinese tallow for shiitake: BOW24 (trial, 1) says 1; UF-24 (advice, ½) says 2. Median 1; μ = 4/3;
    // Cns = 1 + 2/3 log₂(1 − (1/3)/3) + 1/3 log₂(1 − (2/3)/3) = 1 − 0.1133 − 0.1209 = 0.766.
    assert_pair(&pairs, "shiitake", "chinese-tallow", 1, 0.766, 2, "direct");
    // Maple (kind not named) for shiitake: UK-90 (advice) says 2, the Cornell team (UVM-NE, advice) says 3, ½ each.
    // Median, the lower of two halves, 2; μ = 2.5; Cns = 1 + log₂(1 − 0.5/3) = 1 − 0.2630 = 0.737.
    assert_pair(&pairs, "shiitake", "maple", 2, 0.737, 2, "direct");
    // Sweetgum for shiitake: FREY20 (trial, 1), MSU and NCSU-19 (advice, ½ each) say 3; UK-90 and UF-15 (advice, ½ each)
    // say 2; EXT-TREES lists it. Weight 2 of 3 for 3: median 3; μ = 8/3; Cns = 0.766 by the same two terms.
    assert_pair(&pairs, "shiitake", "sweetgum", 3, 0.766, 6, "direct");
    // Sugar maple for shiitake: BRU09 (trial, 1) puts it above the reference wood, white oak, so 3; the Cornell guide
    // (advice, ½, repeated by OSU-SP) says 3; of maples UK-90 says 2 (½, less than half of 1.5). Median 3;
    // μ = (4.5 + 1)/2 = 2.75; Cns = 1 + 3/4 log₂(1 − 0.25/3) + 1/4 log₂(1 − 0.75/3) = 1 − 0.0941 − 0.1038 = 0.802.
    assert_pair(&pairs, "shiitake", "sugar-maple", 3, 0.802, 3, "mixed");
    // Red maple for shiitake: FREY20 (trial, 1) says 1; UF-15 and the Cornell guide (advice, ½ each, the latter repeated
    // by OSU-SP) say 2; of maples UK-90 says 2 (½, less than half of 2). Up to 1: 1 of 2.5, so the median is 2; the wood's
    // own trial holds it at 1. μ = (1 + 3)/2.5 = 1.6; Cns = 1 + 2/5 log₂(1 − 0.6/3) + 3/5 log₂(1 − 0.4/3)
    // = 1 − 0.1288 − 0.1239 = 0.747.
    assert_pair(&pairs, "shiitake", "red-maple", 1, 0.747, 4, "mixed");
    // Black cherry for shiitake: SAB96 (trial, 1) says 1; of cherries the Cornell team (advice, ½) says 0; OKA lists
    // them. Median 1;
    // μ = 2/3; Cns = 1 + 2/3 log₂(1 − (1/3)/3) + 1/3 log₂(1 − (2/3)/3) = 0.766.
    assert_pair(&pairs, "shiitake", "black-cherry", 1, 0.766, 3, "mixed");
}

/// The word, the way asked for, the way whose verdict it is, and what it stands on.
fn told(pairs: &BTreeMap<(String, String), Value>, mushroom: &str, wood: &str) -> [String; 4] {
    let row = &pairs[&(mushroom.to_owned(), wood.to_owned())];
    ["word", "way", "by", "basis"].map(|name| row[name].as_str().unwrap_or_default().to_owned())
}

#[test]
fn pairs_that_a_grower_would_look_at_come_out_as_a_grower_expects() {
    let plain = pairings();
    let sorrel: BTreeMap<(String, String), Value> = demo_table("sorrel-hollow", "pairings")
        .into_iter()
        .map(|row| (["mushroom", "wood"].map(|name| row[name].as_str().unwrap().to_owned()).into(), row))
        .collect();
    for (mushroom, wood, without, with) in [
        ("shiitake", "red-maple", ["gets by", "log", "log", "mixed"], ["gets by", "log", "log", "mixed"]),
        ("shiitake", "sugar-maple", ["thrives", "log", "log", "mixed"], ["thrives", "log", "log", "mixed"]),
        ("shiitake", "red-oak", ["thrives", "log", "log", "genus"], ["thrives", "log", "log", "mixed"]),
        ("shiitake", "white-oak", ["thrives", "log", "log", "mixed"], ["thrives", "log", "log", "mixed"]),
        ("shiitake", "american-beech", ["thrives", "log", "log", "genus"], ["thrives", "log", "log", "genus"]),
        ("shiitake", "hop-hornbeam", ["thrives", "log", "log", "direct"], ["thrives", "log", "log", "direct"]),
        ("shiitake", "black-cherry", ["gets by", "log", "log", "mixed"], ["gets by", "log", "log", "mixed"]),
        ("tree-oyster", "red-oak", ["does well", "log", "log", "genus"], ["does well", "totem", "log", "genus"]),
        ("tree-oyster", "oak", ["does well", "log", "log", "genus"], ["does well", "totem", "log", "genus"]),
        ("tree-oyster", "quaking-aspen", ["thrives", "log", "log", "genus"], ["thrives", "totem", "totem", "direct"]),
        ("tree-oyster", "bigtooth-aspen", ["thrives", "log", "log", "genus"], ["thrives", "totem", "totem", "genus"]),
        (
            "lions-mane",
            "american-beech",
            ["thrives", "totem", "totem", "direct"],
            ["thrives", "totem", "totem", "direct"],
        ),
        ("lions-mane", "sugar-maple", ["thrives", "totem", "totem", "direct"], ["thrives", "totem", "totem", "direct"]),
    ] {
        assert_eq!(told(&plain, mushroom, wood), without, "{mushroom} on {wood}");
        assert_eq!(told(&sorrel, mushroom, wood), with, "{mushroom} on {wood} at Sorrel Hollow");
    }
    assert_eq!(told(&sorrel, "nameko", "yellow-birch"), ["does well", "buried-log", "buried-log", "direct"]);
    assert_eq!(told(&sorrel, "olive-oysterling", "paper-birch"), ["mentioned", "log", "", "direct"]);
    for (mushroom, wood) in [("shiitake", "yellow-birch"), ("shiitake", "black-birch"), ("nameko", "yellow-birch")] {
        assert!(!plain.contains_key(&(mushroom.to_owned(), wood.to_owned())), "{mushroom} on {wood}");
    }
    assert_eq!(told(&plain, "maitake", "red-oak")[0], "untried");
    // "Ironwood" is one word for two trees, and what is said of it counts for both.
    let sources = |wood: &str| plain[&("shiitake".to_owned(), wood.to_owned())]["sources"].clone();
    assert_eq!([sources("hop-hornbeam"), sources("american-hornbeam")], [Value::from(2), Value::from(2)]);
}

/// A farm with rows of evidence of its own, each with a source of its own.
fn farm_of(rows: &[String]) -> Farm {
    let own: Vec<String> = rows.iter().enumerate().map(|(at, row)| format!("- {{{row}, source: own-{at}}}")).collect();
    let sources: Vec<String> = (0..rows.len())
        .map(|at| format!("own-{at}: {{short: Our {at}, authors: We, title: Our notes, kind: this-farm}}"))
        .collect();
    Farm::with(&[("evidence/own.yaml", &own.join("\n")), ("sources.yaml", &sources.join("\n"))])
}

/// The pairings of a farm by mushroom and wood.
fn pairings_of(farm: &Farm) -> BTreeMap<(String, String), Value> {
    let key = |row: &Value| ["mushroom", "wood"].map(|name| row[name].as_str().unwrap().to_owned()).into();
    table("pairings", farm.path(), &[]).into_iter().map(|row| (key(&row), row)).collect()
}

#[test]
fn rows_of_the_genus_never_move_a_wood_past_its_own_graded_trials() {
    let before = pairings();
    for rating in [0, 3] {
        let row = |wood: &str| {
            format!("mushroom: shiitake, wood: {wood}, rating: {rating}, says: so, grown: log, kind: advice")
        };
        let rows: Vec<String> = ["maple", "cherry", "oak"].iter().flat_map(|wood| vec![row(wood); 9]).collect();
        let after = pairings_of(&farm_of(&rows));
        for wood in
            ["red-maple", "bigleaf-maple", "sugar-maple", "black-cherry", "sweet-cherry", "white-oak", "garry-oak"]
        {
            let of = |pairs: &BTreeMap<(String, String), Value>| told(pairs, "shiitake", wood)[0].clone();
            assert_eq!(of(&after), of(&before), "nine of the genus give {rating} and {wood} has its own trial");
        }
        let laurel = &after[&("shiitake".to_owned(), "laurel-oak".to_owned())];
        assert!(laurel["sources"].as_u64() > Some(9), "the rows are read: {laurel}");
    }
}

#[test]
fn one_way_never_votes_for_another() {
    let ways =
        [("log", 0), ("totem", 1), ("buried-log", 2), ("stump", 3), ("chip-bed", 1), ("sawdust", 3), ("wild", 3)];
    let row = |mushroom: &str, wood: &str, (grown, rating): (&str, u8)| {
        format!("mushroom: {mushroom}, wood: {wood}, rating: {rating}, says: so, grown: {grown}, kind: trial")
    };
    let mut rows: Vec<String> = ways.iter().flat_map(|way| vec![row("turkey-tail", "basswood", *way); 3]).collect();
    // Of these pairs each is judged in one way alone.
    let alone = ["white-ash", "elm", "mango", "chinaberry", "apple", "butternut", "hackberry"];
    rows.extend(alone.iter().zip(&ways).map(|(wood, way)| row("turkey-tail", wood, *way)));
    let pairs = pairings_of(&farm_of(&rows));
    let all = &pairs[&("turkey-tail".to_owned(), "basswood".to_owned())];
    for (way, rating) in &ways[..5] {
        assert_eq!(all[way.replace('-', "_")], *rating, "{way}: {all}");
    }
    assert_eq!((&all["way"], &all["word"], &all["sources"]), (&"log".into(), &"fails".into(), &3.into()));
    // Turkey tail is grown on logs: totems and buried logs stand in, no stump, bed, sawdust or wild wood does.
    let found: Vec<[String; 4]> = alone.iter().map(|wood| told(&pairs, "turkey-tail", wood)).collect();
    let words: Vec<(&str, &str)> = found.iter().map(|told| (told[0].as_str(), told[2].as_str())).collect();
    assert_eq!(
        words,
        [
            ("fails", "log"),
            ("gets by", "totem"),
            ("does well", "buried-log"),
            ("mentioned", ""),
            ("mentioned", ""),
            ("untried", ""),
            ("untried", ""),
        ]
    );
}

#[test]
fn an_order_gives_no_grade_but_against_the_reference_wood() {
    let row = |wood: &str, below: &str| {
        let below = if below.is_empty() { String::new() } else { format!(", below: [{below}]") };
        format!("mushroom: shiitake, wood: {wood}{below}, says: so much, grown: log, kind: trial")
    };
    let rows = [row("basswood", "white-ash"), row("butternut", "white-oak"), row("hackberry", "red-oak")];
    let pairs = pairings_of(&farm_of(&rows));
    let word = |wood: &str| told(&pairs, "shiitake", wood)[0].clone();
    // Winner and loser are told of alike, and neither is graded by it.
    assert_eq!(["basswood", "hackberry"].map(word), ["mentioned", "mentioned"]);
    assert_eq!(word("white-ash"), told(&pairings(), "shiitake", "white-ash")[0], "a winner is graded by nothing more");
    assert_eq!(word("butternut"), "does well", "significantly below the reference wood is one step down");
    let before = pairings();
    for (mushroom, wood, rated) in [
        ("phoenix-oyster", "poplar", false),
        ("phoenix-oyster", "tree-of-heaven", false),
        ("shiitake", "white-oak", true),
    ] {
        let row = &before[&(mushroom.to_owned(), wood.to_owned())];
        assert_eq!(row["rating"].is_number(), rated, "{row}");
    }
}

#[test]
fn a_source_that_repeats_another_adds_no_voice() {
    let row = "mushroom: shiitake, wood: maple, rating: 0, says: so, grown: log, kind: advice";
    let of = |more: &str| {
        let pairs = pairings_of(&farm_of(&[format!("{row}{more}")]));
        let pair = &pairs[&("shiitake".to_owned(), "maple".to_owned())];
        (pair["sources"].as_u64().unwrap(), pair["rating"].as_u64().unwrap())
    };
    assert_eq!(of(""), (3, 2), "a voice of its own");
    assert_eq!(of(", repeats: uk-90"), (2, 0), "Kentucky is one voice, whose rows say 2 and 0");
}

#[test]
fn a_word_of_mushrooms_in_general_on_a_wood_in_general_counts_one_step_less_for_a_kind() {
    let pairs = pairings();
    assert_eq!(told(&pairs, "oyster", "oak")[0], "thrives");
    assert_eq!(told(&pairs, "oyster", "red-oak")[0], "thrives");
    assert_eq!(told(&pairs, "tree-oyster", "oak")[0], "does well");
    assert_eq!(told(&pairs, "blue-oyster", "red-oak")[0], "does well");
    // Poplar is the reference wood of oysters, and thrives by convention.
    assert_eq!(told(&pairs, "tree-oyster", "quaking-aspen")[0], "thrives");
    // Sweetgum is one kind of tree, so oysters in general are the one group between.
    assert_eq!(told(&pairs, "tree-oyster", "sweetgum")[0], "thrives");
}

#[test]
fn every_direct_pair_of_the_published_rows_is_there_and_told_apart() {
    let pairs = pairings();
    for row in published() {
        assert!(pairs.contains_key(&(row.our_mushroom, row.our_wood)), "row {} has no pair", row.number);
    }
    let judges = |row: &&Evidence| row.record.kind != EvidenceKind::List && row.record.rating.is_some();
    let mut votes = 0;
    for row in demo().evidence.iter().filter(|row| row.origin.writer == Writer::Handbook).filter(judges) {
        let pair = &pairs[&(row.mushroom.id.clone(), row.wood.id.clone())];
        if row.record.grown.way().is_some_and(|way| pair["by"] == way.id()) {
            assert_ne!(pair["basis"], "genus", "row {} is said of the pair itself", row.id);
            votes += 1;
        }
    }
    assert!(votes > 80, "only {votes} rows vote on the pair that they name");
    let inherited = pairs.values().filter(|row| row["basis"] == "genus").count();
    assert!(inherited > 100, "only {inherited} pairs are inherited");
}

#[test]
fn bare_lists_have_no_rating_and_are_mentioned() {
    let pairs = pairings();
    for (mushroom, wood) in
        [("shiitake", "dahurian-birch"), ("shiitake", "elm"), ("oyster", "mulberry"), ("any-wood-mushroom", "madrone")]
    {
        let row = &pairs[&(mushroom.to_owned(), wood.to_owned())];
        assert_eq!((&row["rating"], &row["word"]), (&Value::Null, &Value::from("mentioned")), "{row}");
    }
}

#[test]
fn wild_hosts_and_sawdust_are_no_log_evidence() {
    let pairs = pairings();
    for (mushroom, wood) in [("maitake", "oak"), ("turkey-tail", "any-hardwood"), ("poplar-mushroom", "alder")] {
        let row = &pairs[&(mushroom.to_owned(), wood.to_owned())];
        assert_eq!((&row["rating"], &row["word"]), (&Value::Null, &Value::from("untried")), "{row}");
    }
}

#[test]
fn any_rows_never_rate_and_reach_no_member() {
    let pairs = pairings();
    for row in pairs
        .values()
        .filter(|row| row["wood"].as_str().unwrap().starts_with("any-") || row["mushroom"] == "any-wood-mushroom")
    {
        assert_eq!(row["rating"], Value::Null, "{row}");
    }
    // "Any hardwood" is said of lion's mane; a hardwood that nobody names stays untried.
    assert!(!pairs.contains_key(&("lions-mane".to_owned(), "basswood".to_owned())));
}

#[test]
fn a_name_without_its_species_reaches_no_other_genus() {
    let pairs = pairings();
    // AJI09 says "poplar" of shiitake, which reaches no tulip poplar; UF-15's word "poplar" means that tree in Florida.
    for (wood, basis) in [("cottonwood", "genus"), ("tulip-poplar", "direct")] {
        let row = &pairs[&("shiitake".to_owned(), wood.to_owned())];
        assert_eq!((&row["sources"], &row["basis"]), (&1.into(), &basis.into()), "{row}");
    }
}

#[test]
fn rows_of_one_team_are_one_source() {
    let pairs = pairings();
    // WSU-PNW and WSU-RES are one team: red alder has two rows and one voice. OKA lists alders, without a vote.
    let row = &pairs[&("shiitake".to_owned(), "red-alder".to_owned())];
    assert_eq!((&row["sources"], &row["agreement"]), (&Value::from(2), &Value::Null), "{row}");
}

#[test]
fn a_farms_own_rows_stand_beside_the_handbooks() {
    let own = "- {mushroom: lions-mane, wood: basswood, rating: 1, says: two small crops, grown: totem, kind: own-logs, source: us}\n";
    let source = "us: {short: Our logs, authors: We, title: Our notes, kind: this-farm}\n";
    let farm = Farm::with(&[("evidence/own.yaml", own), ("sources.yaml", source)]);
    let rows = table("pairings", farm.path(), &[]);
    let row = rows.iter().find(|row| row["mushroom"] == "lions-mane" && row["wood"] == "basswood").unwrap();
    assert_eq!((&row["rating"], &row["basis"]), (&Value::from(1), &Value::from("direct")));
}
