//! Pairings worked by hand from the published rows, and the table against them.
//!
//! Weights: trial 1, advice ½, observation ¼. Consensus: Tastle & Wierman 2007.

use std::collections::BTreeMap;

use serde_json::Value;

use crate::evidence::published;
use crate::harness::{Farm, table};

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
    // Poplar (kind not named) for shiitake: AJI09 (trial, 1) says 1; UF-15 (advice, ½) says 2: the same numbers.
    assert_pair(&pairs, "shiitake", "poplar", 1, 0.766, 2, "direct");
    // Maple (kind not named) for shiitake: UK-90 (advice) says 2, the Cornell team (UVM-NE, advice) says 3, ½ each.
    // Median, the lower of two halves, 2; μ = 2.5; Cns = 1 + log₂(1 − 0.5/3) = 1 − 0.2630 = 0.737.
    assert_pair(&pairs, "shiitake", "maple", 2, 0.737, 2, "direct");
    // Sweetgum for shiitake: FREY20 (trial, 1), MSU and NCSU-19 (advice, ½ each) say 3; UK-90 and UF-15 (advice, ½ each)
    // say 2; EXT-TREES lists it. Weight 2 of 3 for 3: median 3; μ = 8/3; Cns = 0.766 by the same two terms.
    assert_pair(&pairs, "shiitake", "sweetgum", 3, 0.766, 6, "direct");
    // Oak (kind not named) for tree oyster: IBL (trial, 1) says 1 of stumps; of oysters in general NCSU-19 (advice, ½)
    // says 3, held to half of the direct weight, ½; EXT-TREES lists it. Median 1; μ = 5/3;
    // Cns = 1 + 2/3 log₂(1 − (2/3)/3) + 1/3 log₂(1 − (4/3)/3) = 1 − 0.2417 − 0.2827 = 0.476.
    assert_pair(&pairs, "tree-oyster", "oak", 1, 0.476, 3, "mixed");
    // Red maple for shiitake: FREY20 (trial, 1) says 1; UF-15 and OSU-SP (advice, ½ each) say 2; of maples UK-90 says 2 and
    // the Cornell team 3 (½ each), together 1 = half of the direct 2, so held as they are. Up to 1: 1 of 3; up to 2: 2.5,
    // so 2. μ = (1 + 2·1.5 + 3·0.5)/3 = 1.833; Cns = 1 + 1/3 log₂(1 − 0.833/3) + 1/2 log₂(1 − 0.167/3)
    // + 1/6 log₂(1 − 1.167/3) = 1 − 0.1565 − 0.0412 − 0.1184 = 0.684.
    assert_pair(&pairs, "shiitake", "red-maple", 2, 0.684, 5, "mixed");
}

#[test]
fn every_direct_pair_of_the_published_rows_is_there_and_told_apart() {
    let pairs = pairings();
    for row in published() {
        let pair = pairs.get(&(row.our_mushroom.clone(), row.our_wood.clone()));
        let basis =
            pair.unwrap_or_else(|| panic!("row {} has no pair", row.number))["basis"].as_str().unwrap().to_owned();
        let grown_on_logs = !["wild", "sawdust"].contains(&row.our_grown.as_str());
        if grown_on_logs {
            assert_ne!(basis, "genus", "row {} is said of the pair itself", row.number);
        }
    }
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
    // UF-15 says "poplar" of shiitake; tulip poplar is no Populus.
    assert!(!pairs.contains_key(&("shiitake".to_owned(), "tulip-poplar".to_owned())));
    assert!(pairs.contains_key(&("shiitake".to_owned(), "cottonwood".to_owned())));
}

#[test]
fn rows_of_one_team_are_one_source() {
    let pairs = pairings();
    // WSU-PNW and WSU-RES are one team: red alder has two rows and one voice.
    let row = &pairs[&("shiitake".to_owned(), "red-alder".to_owned())];
    assert_eq!((&row["sources"], &row["agreement"]), (&Value::from(1), &Value::Null), "{row}");
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
