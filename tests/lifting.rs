//! The lifting equation against the worked examples and edge vectors of the manual (NIOSH 94-110, revised 2021).

use hostwood::quantity::Units::{Metric, Us};
use hostwood::quantity::{Mass, Units};
use hostwood::reckon::lifting::{Hands, Index, Lift, Limit, Stretch, frequency, limit};
use hostwood::record::farm::Grip;
use proptest::prelude::*;

use crate::harness::{Farm, SMALL_FARM, root, table};

/// A lift that begins and ends as given, untwisted and rare, for up to an hour.
fn lift(from: [f64; 2], to: [f64; 2], grip: Grip) -> Lift {
    let hands = |[reach, height]: [f64; 2]| Hands { reach, height };
    Lift { from: hands(from), to: hands(to), with_care: true, twist: 0.0, a_minute: 0.2, stretch: Stretch::Short, grip }
}

#[track_caller]
fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

/// Load over limit, both in pounds.
fn index(limit: &Limit, load: f64) -> f64 {
    Index::of(&Mass::of_pounds(load), &Mass::of_pounds(limit.allowed().unwrap().limit)).0
}

#[test]
fn worked_examples_of_the_manual() {
    // lifting §7.1. Example 4 was read in part; the inputs of 1, 2, 3 and 5 are from memory. Full precision is compared.
    let one = limit(&lift([23.0, 15.0], [23.0, 64.0], Grip::Fair), Us);
    near(one.begins.limit, 16.02, 0.005);
    near(one.ends.unwrap().limit, 14.15, 0.005);
    near(index(&one, 44.0), 3.11, 0.005);
    let two = limit(&lift([15.0, 27.0], [20.0, 10.0], Grip::Poor), Us);
    near(two.begins.limit, 27.69, 0.005);
    near(two.ends.unwrap().limit, 18.06, 0.005);
    near(index(&two, 35.0), 1.94, 0.005);
    let hopper = Lift { with_care: false, twist: 45.0, ..lift([18.0, 15.0], [18.0, 36.0], Grip::Fair) };
    let three = limit(&hopper, Us);
    assert!(three.ends.is_none());
    near(three.begins.limit, 18.52, 0.005);
    near(index(&three, 40.0), 2.16, 0.005);
    let four = limit(&Lift { a_minute: 3.0, ..lift([10.0, 22.0], [20.0, 59.0], Grip::Fair) }, Us);
    near(four.begins.limit, 34.81, 0.005);
    near(four.ends.unwrap().limit, 15.25, 0.005);
    near(index(&four, 26.0), 1.70, 0.006);
    let five = limit(&Lift { a_minute: 5.0, twist: 30.0, ..lift([20.0, 44.0], [20.0, 7.0], Grip::Good) }, Us);
    near(five.begins.limit, 14.34, 0.005);
    near(five.ends.unwrap().limit, 13.26, 0.005);
}

#[test]
fn edge_vectors() {
    // lifting §8, computed there from the tables and formulas.
    let multipliers = |reach: f64, from: f64, to: f64, twist: f64, units: Units| {
        limit(&Lift { twist, ..lift([reach, from], [reach, to], Grip::Good) }, units).begins
    };
    near(multipliers(10.0, 30.0, 40.0, 0.0, Us).limit, 51.0, 1e-9);
    near(multipliers(25.0, 75.0, 100.0, 0.0, Metric).limit, 23.0, 1e-9);
    near(multipliers(9.9, 30.0, 40.0, 0.0, Us).reach, 1.0, 1e-12);
    near(multipliers(25.0, 30.0, 40.0, 0.0, Us).reach, 0.4, 1e-12);
    near(multipliers(25.1, 30.0, 40.0, 0.0, Us).limit, 0.0, 0.0);
    for (height, wanted) in [(0.0, 0.775), (70.0, 0.70), (70.1, 0.0)] {
        near(multipliers(10.0, height, 30.0, 0.0, Us).height, wanted, 1e-9);
    }
    for (way, wanted) in [(5.0, 1.0), (70.0, 0.8457), (70.1, 0.0)] {
        near(multipliers(10.0, 0.0, way, 0.0, Us).way, wanted, 5e-5);
    }
    for (twist, wanted) in [(0.0, 1.0), (135.0, 0.568), (136.0, 0.0)] {
        near(multipliers(10.0, 30.0, 40.0, twist, Us).twist, wanted, 1e-9);
    }
    near(frequency(0.05, Stretch::Short, false), 1.0, 0.0);
    for (stretch, wanted) in [(Stretch::Short, 0.898), (Stretch::Moderate, 0.820), (Stretch::Long, 0.610)] {
        near(frequency(2.4, stretch, false), wanted, 1e-9);
    }
    near(frequency(10.0 * 8.0 / 15.0, Stretch::Short, false), 0.7835, 2e-4);
    near(frequency(9.0, Stretch::Long, false), 0.0, 0.0);
    near(frequency(9.0, Stretch::Long, true), 0.15, 0.0);
    near(frequency(13.0, Stretch::Short, false), 0.0, 0.0);
    near(frequency(13.0, Stretch::Short, true), 0.34, 0.0);
    near(frequency(15.01, Stretch::Short, true), 0.0, 0.0);
    for (height, wanted) in [(29.9, 0.95), (30.0, 1.0)] {
        near(limit(&lift([10.0, height], [10.0, 50.0], Grip::Fair), Us).begins.grip, wanted, 0.0);
    }
    // The pace is that of the hands' height where the lift begins, at both ends.
    let quick = limit(&Lift { a_minute: 13.0, ..lift([10.0, 15.0], [10.0, 64.0], Grip::Good) }, Us);
    assert!(quick.begins.limit == 0.0 && quick.ends.unwrap().limit == 0.0 && quick.allowed().is_err());
    let metric = Lift { a_minute: 1.0, ..lift([32.0, 13.0], [32.0, 75.0], Grip::Poor) };
    near(limit(&metric, Metric).begins.limit, 11.04, 0.005);
}

#[test]
fn a_log_from_the_ground_to_a_rail() {
    // lifting §9.2: diameter, pounds at 63 lb/ft³, limit at both ends, index.
    for (inches, pounds, begins, ends, wanted) in
        [(4.0, 18.3, 26.1, 38.5, 0.70), (5.0, 28.63, 25.0, 36.7, 1.14), (6.0, 41.2, 24.1, 35.0, 1.71)]
    {
        let lift = Lift {
            from: Hands::at(5.0, inches, Us),
            to: Hands::at(30.0, inches, Us),
            a_minute: 1.0,
            ..lift([0.0, 0.0], [0.0, 0.0], Grip::Poor)
        };
        let limit = limit(&lift, Us);
        near(limit.begins.limit, begins, 0.05);
        near(limit.ends.unwrap().limit, ends, 0.05);
        near(index(&limit, pounds), wanted, 0.006);
    }
    // The same, 5 in, by pace and length of session.
    let paces = [0.2, 0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0];
    let columns = [
        (Stretch::Short, [26.6, 25.8, 25.0, 24.2, 23.4, 22.4, 21.3, 20.0]),
        (Stretch::Moderate, [25.3, 24.5, 23.4, 22.4, 21.0, 19.2, 16.0, 13.3]),
        (Stretch::Long, [22.6, 21.6, 20.0, 17.3, 14.6, 12.0, 9.3, 7.2]),
    ];
    for (stretch, limits) in columns {
        for (a_minute, wanted) in paces.into_iter().zip(limits) {
            let from = Hands::at(5.0, 5.0, Us);
            let lift = Lift {
                from,
                to: Hands::at(30.0, 5.0, Us),
                a_minute,
                stretch,
                ..lift([0.0, 0.0], [0.0, 0.0], Grip::Poor)
            };
            near(limit(&lift, Us).begins.limit, wanted, 0.06);
        }
    }
}

#[test]
fn the_table_has_the_default_task_and_the_handbooks_own_density() {
    let farm = Farm::with(&[]);
    farm.write("farm.yaml", &format!("{SMALL_FARM}woods: [red-oak]\nlog: {{diameter: [5 in, 5 in], length: 40 in}}\n"));
    let rows = table("lifting", farm.path(), &[]);
    let row = |task: &str| rows.iter().find(|row| row["task"] == task).unwrap().clone();
    let rail = row("ground-to-rail");
    assert_eq!((&rail["rwl_lb"], &rail["li"]), (&25.0.into(), &1.21.into()));
    near(rail["mass_lb"].as_f64().unwrap(), 30.4, 0.05);
    // lifting §9.3 to 9.5: over the rim 18.4 lb, wet out of the tank 17.0 lb, bench to rail 39.2 lb.
    for (task, wanted) in [("into-the-tank", 18.4), ("out-of-the-tank", 17.0), ("bench-to-rail", 39.2)] {
        near(row(task)["rwl_lb"].as_f64().unwrap(), wanted, 0.051);
    }
    // A log from the tank is taken a tenth heavier.
    near(row("out-of-the-tank")["mass_lb"].as_f64().unwrap(), 30.37 * 1.1, 0.02);
}

#[test]
fn the_farms_own_lift_is_reckoned_and_its_limits_of_use_are_gaps() {
    let own = |more: &str| {
        let farm = Farm::with(&[]);
        let lift = format!("lift: {{name: To the shelf, from: 5 in, to: 30 in, a_minute: 1, hours: 1{more}}}\n");
        farm.write(
            "farm.yaml",
            &format!("{SMALL_FARM}woods: [red-oak]\nlog: {{diameter: [5 in, 5 in], length: 40 in}}\n{lift}"),
        );
        let rows = table("lifting", farm.path(), &[]);
        rows.into_iter().find(|row| row["task"] == "own").unwrap()
    };
    assert_eq!(own("")["rwl_lb"], 25.0);
    for (more, words) in [
        (", outside: [shared]", "shared by two people"),
        (", outside: [slippery-ground]", "wet, muddy or icy"),
        (", twist: 140", "no load"),
    ] {
        let row = own(more);
        assert!(row["li"].is_null(), "{row}");
        assert!(row["advice"].as_str().unwrap().contains(words), "{row}");
    }
}

#[test]
fn no_page_calls_a_lift_safe() {
    let rows = table("lifting", &root().join("examples/sorrel-hollow"), &[]);
    assert!(rows.iter().all(|row| !row["advice"].as_str().unwrap().contains("safe")));
    assert!(rows.iter().any(|row| row["task"] == "own"));
}

proptest! {
    #[test]
    fn no_limit_is_above_the_load_constant_or_below_nought(
        reach in 0.0f64..40.0, from in -5.0f64..90.0, to in -5.0f64..90.0, twist in 0.0f64..180.0, a_minute in 0.0f64..20.0,
    ) {
        let lift = Lift { twist, a_minute, ..lift([reach, from], [reach, to], Grip::Poor) };
        let limit = limit(&lift, Us);
        let governing = limit.governing().limit;
        prop_assert!((0.0..=51.0).contains(&governing));
        prop_assert!(governing <= limit.begins.limit);
    }
}
