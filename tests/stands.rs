//! Stands, points and plots against published and derived numbers, and against the pages.

use hostwood::quantity::{Area, BasalArea, Length};
use hostwood::reckon::density::{Density, tree};
use proptest::prelude::*;

use crate::harness::{Farm, root, table};

/// A stand counted with a prism of a factor in ft²/ac, and the diameters of its trees in inches.
fn prism(factor: f64, counts: &[u32], inches: &[f64]) -> Density {
    let diameters: Vec<Length> = inches.iter().copied().map(Length::of_inches).collect();
    Density::of_prism(&BasalArea::of_square_feet_an_acre(factor), counts, &diameters).unwrap()
}

#[test]
fn prism_factors_are_those_printed() {
    // SREF, factor 10, trees an acre for one counted tree; its basal areas are rounded, so half a per cent is allowed.
    for (inches, printed) in [(4.0, 114.94), (6.0, 51.02), (8.0, 28.65), (10.0, 18.35), (12.0, 12.74)] {
        let trees = prism(10.0, &[1], &[inches]).stems.unwrap().an_acre;
        assert!((trees / printed - 1.0).abs() < 0.005, "{inches} in: {trees}");
    }
    // PS, factor 20, 12 in: 25.479 trees an acre.
    assert!((prism(20.0, &[1], &[12.0]).stems.unwrap().an_acre - 25.479).abs() < 0.02);
}

/// A farm with one measured stand and its trees.
fn farm(stand: &str, trees: &str) -> Farm {
    Farm::with(&[
        ("woodlot/hill.yaml", stand),
        ("woodlot/hill.csv", &format!("Tag,Wood,DBH (in),Height (ft),Decision\n{trees}")),
    ])
}

#[test]
fn a_stand_before_and_after_stands_in_the_table() {
    // forest-measurement §3: a tenth-acre plot of 4, 6, 6, 8 and 10 in is 13.7445 ft²/ac, 50 trees, 7.0993 in.
    let farm = farm(
        "name: The hill\narea: 2 acres\nplots: {size: 0.1 acre, number: 1, diameters: [4 in, 6 in, 6 in, 8 in, 10 in]}\n",
        "1,red-oak,6,45,fell\n2,red-oak,8,55,keep\n",
    );
    let rows = table("thinning", farm.path(), &[]);
    let number = |row: usize, column: &str| rows[row][column].as_f64().unwrap();
    assert!((number(0, "basal_area_ft2_per_acre") - 13.7445).abs() < 0.006);
    assert!((number(0, "trees_per_acre") - 50.0).abs() < 0.06);
    assert!((number(0, "trees_per_ha") - 123.55).abs() < 0.06);
    assert!((number(0, "quadratic_mean_in") - 7.0993).abs() < 0.006);
    assert!(
        (number(1, "basal_area_ft2_per_acre") - (13.7445 - tree(&Length::of_inches(6.0)).square_feet() / 2.0)).abs()
            < 0.006
    );
    assert!((number(1, "trees_per_acre") - 49.5).abs() < 0.06);
    assert_eq!(rows[1]["felled"], 1);
}

#[test]
fn a_stand_that_is_below_its_target_gives_nothing_and_says_so() {
    let stand = "name: The hill\narea: 2 acres\ntarget: 80 ft2/ac\nprism: {factor: 10 ft2/ac, counts: [6, 7]}\n";
    let farm = farm(stand, "1,sugar-maple,6,45,fell\n");
    farm.write(
        "plans/winter.yaml",
        "name: Winter\nseason: 2026\nwishes: [{strain: shiitake-wide-range, spawn: sawdust, logs: 4}]\n",
    );
    let trees = table("trees", farm.path(), &[]);
    assert_eq!(trees[0]["this_winter"], false);
    let allocation = table("allocation", farm.path(), &[]);
    assert!(allocation[0]["wood"].is_null() && allocation[0]["logs"] == 4, "{allocation:?}");
    assert!(allocation[0]["why"].as_str().unwrap().contains("limit of The hill"), "{allocation:?}");
    assert!(farm.drawn("winter/felling.html").contains("Less stands here than the target already"));
}

#[test]
fn a_stand_that_was_not_measured_is_a_gap_and_keeps_to_no_limit() {
    let farm = farm("name: The hill\n", "1,sugar-maple,6,45,fell\n");
    farm.write(
        "plans/winter.yaml",
        "name: Winter\nseason: 2026\nwishes: [{strain: shiitake-wide-range, spawn: sawdust, logs: 4}]\n",
    );
    assert_eq!(table("trees", farm.path(), &[])[0]["this_winter"], true);
    let rows = table("thinning", farm.path(), &[]);
    assert!(rows[0]["basal_area_ft2_per_acre"].is_null());
    assert!(rows[0]["remark"].as_str().unwrap().contains("prism"), "{rows:?}");
    assert!(farm.drawn("winter/felling.html").contains("No limit is kept to here"));
}

#[test]
fn demo_stands_keep_their_targets_and_at_most_a_third_comes_out() {
    for name in ["sorrel-hollow", "larkbeck"] {
        let rows = table("thinning", &root().join("examples").join(name), &["--units", "us"]);
        let mut measured = 0;
        for pair in rows.chunks(2) {
            let (Some(before), Some(after)) =
                (pair[0]["basal_area_ft2_per_acre"].as_f64(), pair[1]["basal_area_ft2_per_acre"].as_f64())
            else {
                continue;
            };
            measured += 1;
            assert!(after <= before && after >= before * 2.0 / 3.0 - 0.01, "{pair:?}");
            assert!(pair[0]["target_ft2_per_acre"].as_f64().is_none_or(|target| after >= target - 0.051), "{pair:?}");
        }
        assert!(measured >= 1, "{name}");
    }
}

proptest! {
    #[test]
    fn taking_trees_out_never_adds_basal_area(
        counts in proptest::collection::vec(0u32..20, 1..8), taken in proptest::collection::vec(3.0f64..20.0, 0..30), acres in 0.2f64..10.0,
    ) {
        let before = prism(10.0, &counts, &[]);
        let taken: Vec<Length> = taken.into_iter().map(Length::of_inches).collect();
        let after = before.without(&taken, &Area::of_square_feet(43_560.0 * acres));
        prop_assert!((0.0..=before.basal_area.base() + 1e-9).contains(&after.basal_area.base()));
    }
}
