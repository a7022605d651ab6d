//! Stands, points and plots against published and derived numbers, and against the pages.

use hostwood::quantity::{Area, BasalArea, Length};
use hostwood::reckon::density::{Density, Removal, allowance, tree};
use hostwood::reckon::growth::{Rate, in_years};
use proptest::prelude::*;

use crate::harness::{Farm, demo, root, table};

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

/// A farm in the south, in metres, with a stand of 20 m²/ha on a hectare and the trees of a sheet.
fn southern(stand: &str, trees: &str) -> Farm {
    let farm = Farm::with(&[
        (
            "woodlot/hill.yaml",
            &format!("name: The hill\narea: 1 ha\nprism: {{factor: 2 m2/ha, counts: [10, 10]}}\n{stand}"),
        ),
        ("woodlot/hill.csv", &format!("Tag,Wood,DBH (cm),Height (m),Decision,Felled,Gone,East (m),North (m)\n{trees}")),
    ]);
    farm.write(
        "farm.yaml",
        "name: Quillet Bank\nplace: {where: AU-TAS, latitude: -42.2, longitude: 147.1}\nseason: 2026\nunits: metric\n",
    );
    farm
}

/// Basal area at the winter's beginning and after it in m²/ha, and what may still come out in m².
fn thinned(farm: &Farm) -> [f64; 3] {
    let rows = table("thinning", farm.path(), &[]);
    let number = |row: usize, column: &str| rows[row][column].as_f64().unwrap();
    [number(0, "basal_area_m2_per_ha"), number(1, "basal_area_m2_per_ha"), number(1, "may_come_out_m2")]
}

#[test]
fn a_tree_felled_this_winter_uses_up_just_its_part_of_the_third() {
    let sheet = |felled: &str| format!("1,red-maple,20,15,fell,{felled},,0,0\n2,red-maple,30,18,keep,,,3,0\n");
    let [before, after, left] = thinned(&southern("measured: '2025-11-01'\n", &sheet("")));
    // In the south a winter begins on 1 February: this tree came down in that of 2026.
    let [still, then, less] = thinned(&southern("measured: '2025-11-01'\n", &sheet("2026-05-04")));
    let stem = std::f64::consts::PI / 4.0 * 0.2_f64.powi(2);
    assert!((left - 20.0 / 3.0).abs() < 0.001 && (left - less - stem).abs() < 0.0011, "{left} {less}");
    assert!((before - still).abs() < 1e-9 && (after - then).abs() < 1e-9 && after < before);
    // The winter before is over: the tree is off the count, and the whole third of the rest is open.
    let [begun, _, whole] = thinned(&southern("measured: '2024-11-01'\n", &sheet("2025-05-04")));
    assert!((begun - (20.0 - stem)).abs() < 0.006 && (whole - (20.0 - stem) / 3.0).abs() < 0.001, "{begun} {whole}");
    // Felled before the count, it is not in it.
    let [counted, ..] = thinned(&southern("measured: '2025-11-01'\n", &sheet("2025-05-04")));
    assert!((counted - 20.0).abs() < 0.006);
}

#[test]
fn without_the_day_of_the_count_no_season_brings_a_felled_tree_back() {
    let sheet = |felled: &str| format!("1,red-maple,20,15,fell,{felled},,0,0\n2,red-maple,30,18,keep,,,3,0\n");
    let entry = "entries: [{winter: 2026, trees: 4, basal_area: 1 m2/ha}]\n";
    let stem = std::f64::consts::PI / 4.0 * 0.2_f64.powi(2);
    let [whole, ..] = thinned(&southern("", &sheet("")));
    for (stand, out) in [("", stem), (entry, 1.0)] {
        let farm = southern(stand, &sheet("2026-05-04"));
        let [before, after, _] = thinned(&farm);
        assert!((before - whole).abs() < 0.006 && (after - (whole - out)).abs() < 0.006, "{before} {after}");
        let own = std::fs::read_to_string(farm.path().join("farm.yaml")).unwrap();
        farm.write("farm.yaml", &own.replace("season: 2026", "season: 2027"));
        let [next, ..] = thinned(&farm);
        assert!((next - after).abs() < 0.006, "{next} {after}");
        let page = farm.drawn("stands/hill.html");
        assert!(
            page.contains("No day of the count is recorded") && page.contains("came out before this winter"),
            "{page}"
        );
    }
}

#[test]
fn an_entry_of_this_winter_uses_up_the_third_too() {
    let entry = "measured: '2025-11-01'\nentries: [{winter: 2026, trees: 40, basal_area: 2 m2/ha}]\n";
    let [_, _, left] = thinned(&southern(entry, "1,red-maple,20,15,keep,,,0,0\n"));
    assert!((left - (20.0 / 3.0 - 2.0)).abs() < 0.001, "{left}");
}

#[test]
fn pages_say_what_became_of_trees_and_how_old_the_count_is() {
    let trees = "1,red-maple,20,15,fell,2026-05-04,,0,0\n2,red-maple,30,18,keep,,died,3,0\n3,red-maple,15,14,fell,,blew-down,6,0\n4,red-maple,18,15,fell,,,9,0\n";
    let farm = southern("measured: '2015-11-01'\nentries: [{winter: 2012, trees: 9}]\n", trees);
    let stand = farm.drawn("stands/hill.html");
    for words in [
        "Counted in November 2015; 11 years of growth are not in it",
        "older than 10 years",
        "the density is hollow",
        "felled 4 May 2026",
        "blown down",
        "dead, still standing",
        "tree-stump",
        "tree-snag",
    ] {
        assert!(stand.contains(words), "{words}");
    }
    let felling = farm.drawn("winter/felling.html");
    assert!(felling.contains("Down this winter: 1."));
    let rows = table("trees", farm.path(), &[]);
    let falls: Vec<bool> = rows.iter().map(|row| row["this_winter"].as_bool().unwrap()).collect();
    assert_eq!(falls, [false, false, false, true]);
    assert_eq!((&rows[1]["became"], &rows[2]["became"]), (&"died".into(), &"blew-down".into()));
}

#[test]
fn a_clump_says_which_stem_stays_and_a_stool_is_cut_whole() {
    let farm = Farm::with(&[
        ("woodlot/hill.yaml", "name: The hill\nentries: [{winter: 2014, trees: 20}]\n"),
        (
            "woodlot/hill.csv",
            "Tag,Wood,DBH (in),Logs,Decision,Clump,Stool\nK-9a,red-oak,6,5,keep,K-9,\nK-9b,red-oak,5,4,fell,K-9,\n1,basswood,4,2,fell,S,true\n2,basswood,4,2,fell,S,true\n",
        ),
    ]);
    let stand = farm.drawn("stands/hill.html");
    for words in [
        "Clump K-9: K-9a and K-9b",
        "K-9a stays.",
        "Stool S: a (1) and b (2)",
        "all stems are cut at once",
        "Lamson 1983",
    ] {
        assert!(stand.contains(words), "{words}");
    }
}

#[test]
fn what_the_farm_keeps_trees_for_is_given_up_and_changes_no_decision() {
    let sheet = "Tag,Wood,DBH (in),Height (ft),Decision\n1,sugar-maple,6,48,fell\n";
    let farm = Farm::with(&[("woodlot/hill.yaml", "name: The hill\n"), ("woodlot/hill.csv", sheet)]);
    let falls = |farm: &Farm| table("trees", farm.path(), &[])[0]["this_winter"].clone();
    let before = falls(&farm);
    assert!(!farm.drawn("winter/felling.html").contains("gives up"));
    let own = std::fs::read_to_string(farm.path().join("farm.yaml")).unwrap();
    farm.write("farm.yaml", &format!("{own}keep_for: [sap, nectar]\n"));
    assert!(farm.drawn("winter/felling.html").contains("gives up sap"));
    assert_eq!(falls(&farm), before);
    let wood = farm.drawn("woods/sugar-maple.html");
    assert!(wood.contains("What it is worth standing") && wood.contains("<b>Browse:</b>"));
}

#[test]
fn growth_is_that_measured_in_black_cherry_free_and_crowded() {
    // Smith, Miller & Lamson 1994: black cherry, five years, inches; free to grow 1.0, not released 0.6.
    let cherry = Rate { site: 0.000_792_9, thickness: 0.156_890_4, crowding: 0.016_537 };
    assert!((in_years(&cherry, 11.0, 60.0, 0.0, 5) - 1.0).abs() < 0.2);
    assert!((in_years(&cherry, 11.0, 60.0, 80.0, 5) - 0.6).abs() < 0.1);
}

#[test]
fn a_stand_says_what_it_gives_for_good_and_where_nobody_published_it() {
    let knoll = demo("sorrel-hollow").page("stands/knoll.html");
    assert!(
        knoll.contains("What it gives for good")
            && knoll.contains("logs a year")
            && knoll.contains("Teck &amp; Hilt 1991")
    );
    assert!(knoll.contains("At this pace"));
    // In the south no rate is published; two counts tell: 24 to 20 m²/ha and 10 out in four summers are 1.5 a year.
    let trees = "1,red-maple,20,15,fell,,,0,0\n";
    let gap = southern("", trees).drawn("stands/hill.html");
    assert!(gap.contains("What it gives for good") && !gap.contains("Teck"));
    let counts = "measured: '2026-01-10'\nentries: [{winter: 2021, before: 24 m2/ha, basal_area: 10 m2/ha}]\n";
    let told = southern(counts, trees).drawn("stands/hill.html");
    assert!(told.contains("It gains 1.5 m²/ha a year") && told.contains("two counts, 4 summers apart"));
}

proptest! {
    #[test]
    fn felling_never_raises_the_density(
        counts in proptest::collection::vec(1u32..20, 1..8),
        first in proptest::collection::vec(3.0f64..20.0, 0..10),
        more in 3.0f64..20.0,
        acres in 0.2f64..10.0,
    ) {
        let before = prism(10.0, &counts, &[]);
        let area = Area::of_square_feet(43_560.0 * acres);
        let mut felled: Vec<Length> = first.into_iter().map(Length::of_inches).collect();
        let one = before.less(Removal::of(&felled), &area);
        felled.push(Length::of_inches(more));
        let two = before.less(Removal::of(&felled), &area);
        prop_assert!(two.basal_area.base() <= one.basal_area.base());
        let left = |density: &Density| allowance(&density.basal_area, None, &area).square_feet();
        prop_assert!(left(&two) <= left(&one));
    }

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
