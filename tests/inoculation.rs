//! Holes and spawn against the published and derived check values of the worked examples.

use hostwood::quantity::{Length, Mass};
use hostwood::reckon::holes::{by_area, by_diameter, by_rows, by_weight, girth};
use hostwood::reckon::spawn::need;

use crate::harness::{root, table};

fn inches(number: f64) -> Length {
    Length::of_inches(number)
}

fn centimetres(number: f64) -> Length {
    Length::of_metres(number / 100.0)
}

#[track_caller]
fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() < 0.051, "{found} is not {wanted}");
}

#[test]
fn holes_by_area_match_the_derived_values() {
    // mushrooms-and-woods §6.3, D 5 in, L 48 in.
    near(by_area(&inches(5.0), &inches(48.0), &inches(6.0), &inches(2.0)), 62.8);
    near(by_area(&inches(5.0), &inches(48.0), &inches(6.0), &inches(3.0)), 41.9);
    near(by_area(&inches(5.0), &inches(48.0), &centimetres(15.0), &centimetres(5.0)), 64.9);
    // WE-07: 4 × 40, 5 × 36 and 5 × 40 in by 6 × 3 in; LEA82? on 10 × 100 cm.
    near(by_area(&inches(4.0), &inches(40.0), &inches(6.0), &inches(3.0)), 27.9);
    near(by_area(&inches(5.0), &inches(36.0), &inches(6.0), &inches(3.0)), 31.4);
    near(by_area(&inches(5.0), &inches(40.0), &inches(6.0), &inches(3.0)), 34.9);
    near(by_area(&centimetres(10.0), &centimetres(100.0), &centimetres(40.0), &centimetres(10.0)), 7.9);
    near(by_area(&centimetres(10.0), &centimetres(100.0), &centimetres(20.0), &centimetres(5.0)), 31.4);
}

#[test]
fn holes_by_the_other_rules_match_what_was_printed() {
    // WE-05 (SAB-DEN): 15 lb with factors 3, 2, 1 and ½ gives 45, 30, 15 and 7.5.
    for (factor, holes) in [(3.0, 45.0), (2.0, 30.0), (1.0, 15.0), (0.5, 7.5)] {
        near(by_weight(&Mass::of_pounds(15.0), factor), holes);
    }
    // WE-06 (MD-11): a 5 × 48 in log gets 35–40 holes; five rows of eight.
    near(by_rows(&inches(5.0), &inches(48.0), &inches(6.0)), 40.0);
    // WE-07 (HRO09): D = 8, 10, 12, 15 cm gives at least 24–32, 30–40, 36–48, 45–60.
    for (diameter, low, high) in [(8.0, 24.0, 32.0), (10.0, 30.0, 40.0), (12.0, 36.0, 48.0), (15.0, 45.0, 60.0)] {
        let found = by_diameter(&centimetres(diameter));
        near(found[0], low);
        near(found[1], high);
    }
}

#[test]
fn a_tape_round_the_log_tells_its_diameter_as_in_we_08() {
    // WE-08 (WSU-PNW): 5–6.5 in across is 16–20.5 in around, within half an inch.
    for (diameter, around) in [(5.0, 16.0), (6.5, 20.5)] {
        assert!((girth(&inches(diameter)).inches() - around).abs() < 0.5);
    }
}

#[test]
fn bags_of_spawn_match_common_practice() {
    // WE-09 (common practice): a 5.5 lb bag is 2,495 g and does 20–25 logs of 4–6 × 40 in.
    let rate = r#"{"form": "sawdust", "package": "5.5 lb", "logs": [20, 25], "diameter": ["4 in", "6 in"],
        "length": "40 in", "source": "common-practice"}"#;
    let rate = serde_json::from_str(rate).unwrap();
    let bags = |logs: u32| need(&rate, &inches(5.0), &inches(40.0), logs);
    assert!((bags(1).least.grams() - 99.8).abs() < 0.1 && (bags(1).most.grams() - 124.7).abs() < 0.1);
    for (logs, least, most) in [(20, 1, 1), (25, 1, 2), (100, 4, 5), (108, 5, 6), (1000, 40, 50), (24, 1, 2)] {
        let found = bags(logs);
        assert_eq!((found.packages_least, found.packages_most), (least, most), "{logs} logs");
    }
}

#[test]
fn the_table_answers_for_twenty_four_logs_of_five_by_forty() {
    let rows = table("inoculation", &root().join("examples/sorrel-hollow"), &[]);
    let row = rows
        .iter()
        .find(|row| row["spawn"] == "sawdust" && row["diameter_in"] == 5.0 && row["logs"] == 24)
        .expect("24 logs of 5 in are reckoned");
    assert_eq!((&row["holes_per_log"], &row["holes"]), (&35.into(), &840.into()));
    assert_eq!((&row["packages_least"], &row["packages_most"]), (&1.into(), &2.into()));
}
