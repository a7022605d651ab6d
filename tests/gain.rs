//! What a farm got of the logs that were reckoned of its trees, and what that makes of the trees to come.

use hostwood::quantity::measure::rounded;
use hostwood::reckon::gain::Gain;
use proptest::prelude::*;
use serde_json::Value;

use crate::harness::{Farm, table};

/// A farm with as many trees felled in earlier winters as days are given, each of which gave four logs, and twenty marked.
fn farm(place: &str, days: &[&str], more: &str) -> Farm {
    let down = days.iter().enumerate().map(|(at, day)| format!("D{at:02},red-oak,7,55,fell,{day},4\n"));
    let marked = (0..20).map(|at| format!("M{at:02},red-oak,7,55,fell,,\n"));
    let rows: String = down.chain(marked).collect();
    let sheet = format!("Tag,Wood,DBH (in),Height (ft),Decision,Felled,Logs cut\n{rows}");
    let farm = format!("name: Gain\nplace: {place}\nseason: 2026\n{more}");
    Farm::with(&[("farm.yaml", &farm), ("woodlot/walk.csv", &sheet)])
}

const NORTH: &str = "{latitude: 43.0, longitude: -72.0}";

/// Six trees in each of two winters.
const TWO: [&str; 12] = {
    let (one, two) = ("2024-12-10", "2026-01-10");
    [one, one, one, one, one, one, two, two, two, two, two, two]
};

fn logs(farm: &Farm, head: &str) -> Vec<u64> {
    let rows: Vec<Value> = table("trees", farm.path(), &["--units", "us"]);
    let of = rows.iter().filter(|row| row["tag"].as_str().unwrap().starts_with(head));
    of.map(|row| row["logs"].as_u64().unwrap()).collect()
}

#[test]
fn what_felled_trees_gave_corrects_what_marked_trees_give() {
    let new = farm(NORTH, &[], "");
    let reckoned = logs(&new, "M");
    let each = reckoned[0];
    assert!(each > 4 && reckoned.iter().all(|logs| *logs == each), "{reckoned:?}");
    assert!(!new.drawn("winter/felling.html").contains("of the reckoned"));
    let known = farm(NORTH, &TWO, "");
    let part = rounded(4.0 / each as f64, 2);
    assert_eq!(logs(&known, "M").iter().sum::<u64>(), 80, "twenty trees give as many as twenty gave");
    assert!(logs(&known, "D").iter().all(|logs| *logs == each), "what is down stays as it was reckoned");
    let words = format!("This farm gets {part} of the reckoned (48 of {} logs, 12 trees in 2 winters)", 12 * each);
    assert!(known.drawn("winter/felling.html").contains(&words), "{words}");
}

#[test]
fn one_winter_or_nine_trees_tell_nothing_yet() {
    let whole = logs(&farm(NORTH, &[], ""), "M");
    for days in [&["2026-01-10"; 12][..], &TWO[2..11]] {
        let farm = farm(NORTH, days, "");
        assert_eq!(logs(&farm, "M"), whole);
        assert!(!farm.drawn("winter/felling.html").contains("of the reckoned"));
    }
}

#[test]
fn in_the_south_a_winter_begins_in_february_and_logs_are_told_alike() {
    let south = "{where: AU-TAS, latitude: -42.0, longitude: 147.0}";
    // The season of 2026 begins in February 2026 there: trees of June 2026 are this winter's and tell nothing yet.
    let days = |first: &'static str, last: &'static str| [[first; 6], [last; 6]].concat();
    let this = farm(south, &days("2025-06-10", "2026-06-10"), "units: metric\n");
    let earlier = farm(south, &days("2024-06-10", "2025-06-10"), "units: metric\n");
    assert!(logs(&this, "M").iter().sum::<u64>() > 80);
    assert_eq!(logs(&earlier, "M").iter().sum::<u64>(), 80);
}

#[test]
fn felling_as_told_leaves_the_other_trees_as_they_were() {
    let farm = farm(NORTH, &TWO, "");
    let before = logs(&farm, "M");
    let sheet = std::fs::read_to_string(farm.path().join("woodlot/walk.csv")).unwrap();
    let felled = sheet
        .replace("M00,red-oak,7,55,fell,,", &format!("M00,red-oak,7,55,fell,2026-12-01,{}", before[0]))
        .replace("M07,red-oak,7,55,fell,,", "M07,red-oak,7,55,fell,2026-12-02,1");
    assert_ne!(sheet, felled);
    farm.write("woodlot/walk.csv", &felled);
    assert_eq!(logs(&farm, "M"), before);
}

proptest! {
    #[test]
    fn however_many_trees_are_added_up_they_are_right_to_the_half_log(
        reckoned in proptest::collection::vec(0u32..15, 0..60), got in 1u32..300, all in 100u32..200,
    ) {
        let gain = Gain { trees: 20, winters: 2, reckoned: all, got };
        let told = gain.share(reckoned.iter().copied());
        prop_assert_eq!(told.len(), reckoned.len());
        let (mut so_far, mut sum) = (0, 0);
        for (told, reckoned) in told.iter().zip(&reckoned) {
            so_far += told;
            sum += reckoned;
            prop_assert!((f64::from(so_far) - f64::from(sum) * gain.part()).abs() <= 0.5 + 1e-9);
        }
    }
}
