//! The ledger: where every log is, and what is left of a wish once a batch has made a part of it.

use hostwood::quantity::Date;
use hostwood::reckon::ledger::{Change, Exit, Heap, shares, wood, yard};
use hostwood::record::lot::How;
use proptest::prelude::*;
use serde_json::Value;

use crate::harness::{Farm, demo, demo_table, table};

/// A winter of two wishes, three marked maples and no lot.
fn farm(more: &[(&str, &str)]) -> Farm {
    let plan = "name: Winter\nseason: 2026\nwishes:\n  - {name: guests, strain: shiitake-warm, spawn: plug, logs: 6}\n  \
        - {name: yard, strain: shiitake-wide-range, spawn: sawdust, logs: 4}\n\
        offers:\n  - {item: plug, pieces: 10, price: 1}\n  - {item: sawdust, weight: 1 lb, price: 5}\n";
    let trees =
        "Tag,Wood,DBH,Logs,Decision\n1,sugar-maple,6 in,6,fell\n2,sugar-maple,6 in,4,fell\n3,sugar-maple,6 in,9,keep\n";
    let farm = Farm::with(&[("plans/winter.yaml", plan), ("woodlot/walk.csv", trees)]);
    for (path, text) in more {
        farm.write(path, text);
    }
    farm
}

/// The logs of a line of a balance, nought where it does not stand there.
pub fn line(rows: &[Value], wanted: &[(&str, Value)], name: &str) -> i64 {
    let fits = |row: &&Value| row["line"] == name && wanted.iter().all(|(key, value)| row[*key] == *value);
    rows.iter().filter(fits).map(|row| row["logs"].as_i64().unwrap()).sum()
}

const IN: [&str; 5] = ["carried-over", "cut-here", "brought-in", "filled", "added"];

/// Whether both balances of a farm hold.
pub fn holds(rows: &[Value]) {
    let of = |row: &Value| {
        (
            row["balance"].clone(),
            row["winter"].clone(),
            row["wood"].clone(),
            row["pieces"].clone(),
            row["batch"].clone(),
        )
    };
    for row in rows {
        let yard = row["balance"] == "yard";
        let comes = |name: &str| if yard { matches!(name, "filled" | "added") } else { IN[..3].contains(&name) };
        let same = rows.iter().filter(|other| of(other) == of(row));
        let sum =
            same.map(|row| row["logs"].as_i64().unwrap() * if comes(row["line"].as_str().unwrap()) { 1 } else { -1 });
        assert_eq!(sum.sum::<i64>(), 0, "{row}");
    }
}

fn ledger(farm: &Farm) -> Vec<Value> {
    let rows = table("ledger", farm.path(), &[]);
    holds(&rows);
    rows
}

/// Logs that a strain still gets, and logs that it lacks.
fn asked(farm: &Farm, strain: &str) -> (i64, i64) {
    let rows = table("allocation", farm.path(), &[]);
    let of = |placed: bool| {
        let rows = rows.iter().filter(|row| row["strain"] == strain && row["wood"].is_string() == placed);
        rows.filter_map(|row| row["logs"].as_i64()).sum()
    };
    (of(true), of(false))
}

/// What is to be bought of an item.
fn need(farm: &Farm, item: &str) -> i64 {
    let rows = table("supply", farm.path(), &[]);
    let need = rows.iter().find(|row| row["item"] == item).and_then(|row| row["need"].as_str());
    need.map_or(0, |need| need.split(' ').next().unwrap().replace(',', "").parse().unwrap())
}

fn falls(farm: &Farm) -> usize {
    table("trees", farm.path(), &[]).iter().filter(|row| row["this_winter"] == true).count()
}

#[test]
fn the_balances_of_both_demo_farms_hold() {
    for name in ["sorrel-hollow", "larkbeck"] {
        let rows = demo_table(name, "ledger");
        holds(&rows);
        let winters: std::collections::BTreeSet<i64> = rows.iter().filter_map(|row| row["winter"].as_i64()).collect();
        assert!(winters.len() >= 3, "{name}: {winters:?}");
    }
    let page = demo("sorrel-hollow").page("winter/ledger.html");
    let rows = demo_table("sorrel-hollow", "ledger");
    let lie = line(&rows, &[("balance", "yard".into()), ("pieces", "log".into())], "in-the-yard");
    assert!(lie > 100 && page.contains("<svg") && page.contains(&format!("{lie} logs lie in the yard")), "{page}");
    for other in ["winter/planning.html", "yard/batches.html"] {
        assert!(demo("sorrel-hollow").page(other).contains("ledger.html"), "{other}");
    }
}

#[test]
fn one_lot_fills_two_strains_and_the_rejects_and_the_rest_are_told() {
    let farm = farm(&[
        (
            "lots/tops.yaml",
            "name: Tops\nwood: red-oak\nlogs: 30\nfrom: A neighbour\nfelled: '2026-11-20 to 2026-11-21'\n\
            gone: [{date: '2027-01-10', how: not-used, logs: 2, why: torn bark}, {date: '2027-01-12', how: sold, logs: 4}]\n",
        ),
        (
            "batches/a.yaml",
            "strain: shiitake-cold\nspawn: sawdust\nlots: [{lot: tops, logs: 10}]\ninoculated: '2027-04-20'\n",
        ),
    ]);
    let rows = ledger(&farm);
    let of = [("wood", Value::from("red-oak")), ("balance", "wood".into())];
    let told = ["brought-in", "filled", "waiting", "not-used", "sold"].map(|name| line(&rows, &of, name));
    assert_eq!(told, [30, 10, 14, 2, 4]);
    farm.write(
        "batches/b.yaml",
        "strain: shiitake-warm\nspawn: plug\nlots: [{lot: tops, logs: 8}]\ninoculated: '2027-04-21'\n",
    );
    let rows = ledger(&farm);
    assert_eq!(["filled", "waiting"].map(|name| line(&rows, &of, name)), [18, 6]);
}

#[test]
fn logs_that_wait_over_a_summer_are_carried_into_the_winter_in_which_they_are_filled() {
    let farm = farm(&[
        ("lots/old.yaml", "name: Old\nwood: red-oak\nlogs: 10\nfrom: The lane\nfelled: 2026-02-20\n"),
        ("batches/a.yaml", "strain: shiitake-cold\nlots: [{lot: old, logs: 4}]\ninoculated: '2026-04-20'\n"),
        ("batches/b.yaml", "strain: shiitake-cold\nlots: [{lot: old, logs: 5}]\ninoculated: '2026-11-20'\n"),
    ]);
    let rows = ledger(&farm);
    let of = |winter: i64| [("winter", Value::from(winter)), ("balance", "wood".into())];
    assert_eq!(["brought-in", "filled", "waiting"].map(|name| line(&rows, &of(2025), name)), [10, 4, 6]);
    assert_eq!(["carried-over", "filled", "waiting"].map(|name| line(&rows, &of(2026), name)), [6, 5, 1]);
}

#[test]
fn trees_sold_burned_dead_or_blown_down_give_no_logs_and_are_not_asked_for_again() {
    let trees = "Tag,Wood,DBH,Logs,Decision,Felled,Logs cut,Gone\n1,red-oak,6 in,6,fell,2026-11-20,5,felled\n\
        2,red-oak,6 in,6,fell,2026-11-20,,timber\n3,red-oak,6 in,6,fell,2026-11-20,0,firewood\n\
        4,red-oak,6 in,6,fell,,,died\n5,red-oak,6 in,6,fell,,,blew down\n6,red-oak,6 in,6,fell,2026-11-20,,\n";
    let farm = farm(&[("woodlot/walk.csv", trees)]);
    let rows = ledger(&farm);
    assert_eq!((line(&rows, &[], "cut-here"), line(&rows, &[], "waiting")), (5, 5), "{rows:?}");
    assert_eq!(falls(&farm), 0);
    // The tree that says that it is down and not what it gave is asked about.
    assert!(farm.drawn("winter/ledger.html").contains("their logs not counted yet: 6."));
}

#[test]
fn a_batch_is_topped_up_moved_sold_given_counted_and_retired_by_its_number() {
    let farm = farm(&[
        (
            "farm.yaml",
            "name: Test Wood\nplace: {latitude: 44, longitude: -72}\nseason: 2026\nyards: [{name: crib}, {name: lean-to}]\n",
        ),
        ("batches/a.yaml", "strain: shiitake-cold\nwood: red-oak\nlogs: 24\nnumber: 7\ninoculated: '2025-04-20'\n"),
        (
            "yard/2025.csv",
            "Date,Batch,What,Logs,To\n2025-05-01,7,added,6,\n2025-06-01,7,moved,,lean-to\n2025-07-01,7,sold,3,\n\
            2025-07-02,7,given,2,\n2025-08-01,7,log lost,1,\n2025-09-01,7,counted,22,\n2026-06-01,7,retired,20,\n",
        ),
    ]);
    let rows = ledger(&farm);
    let names = ["filled", "added", "in-the-yard", "retired", "sold", "given", "lost", "not-accounted-for"];
    let of = [("balance", Value::from("yard"))];
    assert_eq!(names.map(|name| line(&rows, &of, name)), [24, 6, 2, 20, 3, 2, 1, 2]);
    farm.write(
        "batches/a.yaml",
        "strain: shiitake-cold\nwood: red-oak\nlogs: 24\nnumber: 7\ninoculated: '2025-04-20'\n\
        ended: {date: '2026-07-01', how: retired}\n",
    );
    let rows = ledger(&farm);
    assert_eq!(["in-the-yard", "retired"].map(|name| line(&rows, &of, name)), [0, 22]);
}

#[test]
fn totems_are_counted_by_themselves_and_beds_stand_outside() {
    let farm = farm(&[(
        "lots/rounds.yaml",
        "name: Rounds\nwood: american-beech\nlogs: 20\npieces: totem-round\nfrom: The lane\nfelled: 2026-11-20\n",
    )]);
    farm.write("strains/spines.yaml", "name: Spines\nmushroom: lions-mane\nspawn: [sawdust]\n");
    farm.write("strains/ring.yaml", "name: Ring\nmushroom: wine-cap\nspawn: [sawdust]\n");
    farm.write(
        "batches/a.yaml",
        "strain: spines\nway: totem\nlogs: 6\nlots: [{lot: rounds, logs: 12}]\ninoculated: '2027-04-20'\n",
    );
    farm.write("batches/b.yaml", "strain: ring\nway: chip-bed\ninoculated: '2027-04-20'\n");
    let rows = ledger(&farm);
    let wood = [("balance", Value::from("wood")), ("pieces", "totem-round".into())];
    assert_eq!(["brought-in", "filled", "waiting"].map(|name| line(&rows, &wood, name)), [20, 12, 8]);
    let yard = [("balance", Value::from("yard"))];
    assert_eq!(["filled", "in-the-yard"].map(|name| line(&rows, &yard, name)), [6, 6], "{rows:?}");
}

#[test]
fn what_a_batch_made_is_not_asked_for_again_and_a_shortfall_exactly() {
    let farm = farm(&[]);
    let (warm, wide) = (asked(&farm, "shiitake-warm"), asked(&farm, "shiitake-wide-range"));
    assert_eq!((warm, wide, falls(&farm)), ((6, 0), (4, 0), 2));
    let each = need(&farm, "plugs") / 6;
    // Exactly what the plan said: the tree of six logs is down, and all six are filled.
    let lot = "name: Maple\ntrees: [1]\nlogs: 6\nfelled: 2027-03-01\n";
    farm.write("lots/maple.yaml", lot);
    farm.write("batches/a.yaml", "strain: shiitake-warm\nspawn: plug\nlot: maple\ninoculated: '2027-04-20'\n");
    assert_eq!((asked(&farm, "shiitake-warm"), asked(&farm, "shiitake-wide-range")), ((0, 0), wide));
    assert_eq!((falls(&farm), need(&farm, "plugs")), (1, 0));
    assert!(farm.drawn("winter/planning.html").contains("Done: "));
    ledger(&farm);
    // One log was thrown out: one more is asked for, and no other.
    let thrown = format!("{lot}gone: [{{date: 2027-04-01, how: not-used, logs: 1}}]\n");
    farm.write("lots/maple.yaml", &thrown);
    farm.write(
        "batches/a.yaml",
        "strain: shiitake-warm\nspawn: plug\nlots: [{lot: maple, logs: 5}]\ninoculated: '2027-04-20'\n",
    );
    let (placed, lacking) = asked(&farm, "shiitake-warm");
    assert_eq!(placed + lacking, 1);
    assert!((each - 1..=each + 1).contains(&need(&farm, "plugs")) || lacking == 1);
    // Its spawn never took: the wish is as open as before.
    farm.write(
        "batches/a.yaml",
        "strain: shiitake-warm\nspawn: plug\nlots: [{lot: maple, logs: 5}]\ninoculated: '2027-04-20'\n\
        ended: {date: '2027-07-01', how: spawn-failed}\n",
    );
    let (placed, lacking) = asked(&farm, "shiitake-warm");
    assert_eq!(placed + lacking, 6);
    assert!(farm.drawn("winter/planning.html").contains("failed; its logs are asked for again"));
}

#[test]
fn recording_never_raises_what_is_missing_or_bought() {
    let before = farm(&[]);
    let (missing, plugs) = (asked(&before, "shiitake-warm").1, need(&before, "plugs"));
    let mut last = plugs;
    for logs in [1, 3, 6, 9] {
        let batch =
            format!("strain: shiitake-warm\nspawn: plug\nwood: sugar-maple\nlogs: {logs}\ninoculated: '2027-04-20'\n");
        let after = farm(&[("batches/a.yaml", &batch)]);
        let now = need(&after, "plugs");
        assert!(asked(&after, "shiitake-warm").1 <= missing && now < last.max(1), "{logs}: {now} after {last}");
        last = now;
        ledger(&after);
    }
    assert_eq!(last, 0);
}

#[test]
fn a_batch_may_name_its_wish_and_another_strain_fulfils_none() {
    let batch = |wish: &str| {
        format!("strain: shiitake-cold\nspawn: plug\nwood: sugar-maple\nlogs: 6\n{wish}inoculated: '2027-04-20'\n")
    };
    let (other, named) = (batch(""), batch("wish: winter/guests\n"));
    assert_eq!(asked(&farm(&[("batches/a.yaml", &other)]), "shiitake-warm").0, 6);
    assert_eq!(asked(&farm(&[("batches/a.yaml", &named)]), "shiitake-warm"), (0, 0));
    // A batch of the spring before belongs to another winter.
    let earlier = other.replace("cold", "warm").replace("2027", "2026");
    assert_eq!(asked(&farm(&[("batches/a.yaml", &earlier)]), "shiitake-warm").0, 6);
}

#[test]
fn spawn_in_stock_is_counted_against_the_order_and_batches_use_it_up() {
    let bare = farm(&[]);
    let plugs = need(&bare, "plugs");
    let plan = std::fs::read_to_string(bare.path().join("plans/winter.yaml")).unwrap();
    let stocked = |state: &str| {
        format!(
            "{plan}stock: [{{item: plug, strain: shiitake-warm, pieces: about 40, counted: '2026-12-01'{state}}}]\n"
        )
    };
    let farm = farm(&[("plans/winter.yaml", &stocked(""))]);
    assert_eq!(need(&farm, "plugs"), plugs - 40);
    farm.write(
        "batches/a.yaml",
        "strain: shiitake-warm\nspawn: plug\nwood: sugar-maple\nlogs: 2\ninoculated: '2027-04-20'\n",
    );
    // Two of the six logs took their third of the plugs out of the forty.
    let left = plugs * 4 / 6;
    let after = need(&farm, "plugs");
    assert!(after <= left && after >= left - 40, "{after} of {left}");
    assert!(after <= plugs - 40);
    farm.write(
        "batches/a.yaml",
        "strain: shiitake-cold\nspawn: plug\nwood: sugar-maple\nlogs: 2\ninoculated: '2027-04-20'\n",
    );
    farm.write("plans/winter.yaml", &stocked(", state: spoilt"));
    assert_eq!(need(&farm, "plugs"), plugs, "dead spawn fills no log");
}

#[test]
fn a_wish_without_marked_trees_gets_its_order_and_says_that_trees_are_missing() {
    let farm = farm(&[]);
    let plugs = need(&farm, "plugs");
    farm.write("woodlot/walk.csv", "Tag,Wood,DBH,Logs,Decision\n3,sugar-maple,6 in,9,keep\n");
    assert_eq!(asked(&farm, "shiitake-warm"), (0, 6));
    assert!(need(&farm, "plugs") >= plugs / 2, "{} of {plugs}", need(&farm, "plugs"));
    assert!(farm.drawn("winter/planning.html").contains("no tree is marked for it"));
}

#[test]
fn one_tree_in_three_batches_comes_down_once_and_its_logs_are_counted_once() {
    let farm = farm(&[]);
    let trees = "Tag,Wood,DBH,Logs,Decision,Felled,Logs cut\n1,sugar-maple,6 in,6,fell,2027-03-01,6\n\
        2,sugar-maple,6 in,4,fell,,\n3,sugar-maple,6 in,9,keep,,\n";
    farm.write("woodlot/walk.csv", trees);
    let batch =
        |strain: &str, logs: u32| format!("strain: {strain}\ntrees: [1]\nlogs: {logs}\ninoculated: '2027-04-20'\n");
    farm.write("batches/a.yaml", &batch("shiitake-warm", 2));
    farm.write("batches/b.yaml", &batch("shiitake-wide-range", 2));
    farm.write("batches/c.yaml", &batch("shiitake-warm", 1));
    let rows = ledger(&farm);
    let wood = [("balance", Value::from("wood"))];
    assert_eq!(["cut-here", "filled", "waiting"].map(|name| line(&rows, &wood, name)), [6, 5, 1]);
    assert_eq!((asked(&farm, "shiitake-warm"), asked(&farm, "shiitake-wide-range")), ((3, 0), (2, 0)));
    let trees = table("trees", farm.path(), &[]);
    assert_eq!(trees.iter().filter(|row| row["became"] == "felled").count(), 1);
}

#[test]
fn trees_left_standing_at_the_winter_s_end_stay_marked_and_are_not_carried_into_the_order() {
    let trees = |second: &str| {
        format!(
            "Tag,Wood,DBH,Logs,Decision,Felled,Logs cut\n1,sugar-maple,6 in,6,fell,2026-11-20,6\n\
            2,sugar-maple,6 in,4,fell,{second}\n3,sugar-maple,6 in,9,keep,,\n"
        )
    };
    let farm = farm(&[("woodlot/walk.csv", &trees(",")), ("lots/half.yaml", "name: Half\ntrees: [1]\n")]);
    let (before, plugs) = (asked(&farm, "shiitake-wide-range"), need(&farm, "plugs"));
    assert_eq!((before, falls(&farm)), ((4, 0), 1));
    assert!(plugs > 0);
    // The rest comes down in March: one winter, two days, and nothing more is asked for.
    farm.write("woodlot/walk.csv", &trees("2027-03-10,4"));
    let rows = ledger(&farm);
    let winter = |rows: &[Value], winter: i64, name: &str| {
        line(rows, &[("balance", Value::from("wood")), ("winter", winter.into())], name)
    };
    assert_eq!((winter(&rows, 2026, "cut-here"), asked(&farm, "shiitake-wide-range"), falls(&farm)), (10, before, 0));
    // Or it is left to the next winter, whose own plan asks for it again; the order of the old plan is not carried over.
    farm.write("woodlot/walk.csv", &trees(","));
    farm.write("farm.yaml", "name: Test Wood\nplace: {latitude: 44, longitude: -72}\nseason: 2027\n");
    assert_eq!((need(&farm, "plugs"), falls(&farm)), (0, 1));
    let rows = ledger(&farm);
    assert_eq!((winter(&rows, 2027, "carried-over"), winter(&rows, 2027, "waiting")), (6, 6));
}

#[test]
fn a_tree_that_others_took_is_gone_from_the_plan_and_gives_no_log() {
    let trees = "Tag,Wood,DBH,Logs,Decision,Gone\n1,sugar-maple,6 in,6,fell,by others\n2,sugar-maple,6 in,4,fell,\n";
    let farm = farm(&[("woodlot/walk.csv", trees)]);
    assert_eq!(falls(&farm), 1);
    assert!(ledger(&farm).is_empty());
    let (placed, lacking) = (asked(&farm, "shiitake-warm"), asked(&farm, "shiitake-wide-range"));
    assert_eq!((placed.0 + lacking.0, placed.1 + lacking.1), (4, 6));
}

#[test]
fn logs_cut_into_rounds_leave_their_pile_and_lie_in_one_of_rounds() {
    let farm = farm(&[
        (
            "lots/long.yaml",
            "name: Long\nwood: red-oak\nlogs: 12\nfrom: The lane\nfelled: 2026-11-20\n\
            gone: [{date: '2026-12-01', how: cut-into, logs: 2}]\n",
        ),
        (
            "lots/short.yaml",
            "name: Short\nwood: red-oak\nlogs: 8\npieces: short-round\nfrom: The long ones\nfelled: 2026-11-20\n",
        ),
    ]);
    let rows = ledger(&farm);
    let of = |pieces: &str, name: &str| line(&rows, &[("pieces", Value::from(pieces))], name);
    assert_eq!((of("log", "waiting"), of("log", "cut-into"), of("short-round", "waiting")), (10, 2, 8));
    // Rounds are not drilled: the plan places the ten that are.
    assert_eq!(asked(&farm, "shiitake-warm").0 + asked(&farm, "shiitake-wide-range").0, 10);
    let red_oak = table("allocation", farm.path(), &[]).iter().filter(|row| row["wood"] == "red-oak").count();
    assert_eq!(red_oak, 2);
}

#[test]
fn a_bed_and_stumps_are_asked_for_until_they_are_made_and_stand_outside_the_balances() {
    let plan = "name: Winter\nseason: 2026\nwishes:\n  \
        - {strain: ring, spawn: sawdust, bed: {area: 50 ft2, depth: 4 in, spawn: 8 lb}}\n  \
        - {strain: shiitake-warm, spawn: plug, stumps: {number: 3, diameter: 10 in, height: 12 in}}\n\
        offers: [{item: sawdust, weight: 1 lb, price: 5}, {item: plug, pieces: 10, price: 1}]\n";
    let farm = farm(&[
        ("plans/winter.yaml", plan),
        ("strains/ring.yaml", "name: Ring\nmushroom: wine-cap\nspawn: [sawdust]\n"),
    ]);
    let plugs = need(&farm, "plugs");
    assert!(plugs > 0 && plugs % 3 == 0, "{plugs}");
    assert_eq!(need(&farm, "sawdust spawn"), 8);
    let stumps = |logs: u32| {
        format!(
            "strain: shiitake-warm\nspawn: plug\nway: stump\nwood: red-oak\nlogs: {logs}\ninoculated: '2027-04-20'\n"
        )
    };
    farm.write("batches/stumps.yaml", &stumps(1));
    assert_eq!((need(&farm, "plugs"), need(&farm, "sawdust spawn")), (plugs * 2 / 3, 8));
    farm.write("batches/stumps.yaml", &stumps(3));
    farm.write("batches/bed.yaml", "strain: ring\nspawn: sawdust\nway: chip-bed\ninoculated: '2027-04-20'\n");
    assert_eq!((need(&farm, "plugs"), need(&farm, "sawdust spawn")), (0, 0));
    assert!(ledger(&farm).is_empty());
    assert!(farm.drawn("winter/supply.html").contains("nothing is left to order"));
}

#[test]
fn a_later_count_says_what_is_left_of_a_bag_and_bags_with_numbers_stand_side_by_side() {
    let farm = farm(&[]);
    let plan = std::fs::read_to_string(farm.path().join("plans/winter.yaml")).unwrap();
    let plugs = need(&farm, "plugs");
    let bought = |lines: &[&str]| {
        let lines: Vec<String> =
            lines.iter().map(|line| format!("{{item: plug, strain: shiitake-warm, {line}}}")).collect();
        farm.write("plans/winter.yaml", &format!("{plan}stock: [{}]\n", lines.join(", ")));
        plugs - need(&farm, "plugs")
    };
    let first = "pieces: 40, counted: '2026-12-01'";
    assert_eq!(bought(&[first]), 40);
    assert_eq!(bought(&[first, "pieces: about 25, counted: '2027-01-10'"]), 25, "never both added");
    assert_eq!(bought(&[first, "pieces: 10, counted: '2026-12-01'"]), 50, "two heaps of one day");
    assert_eq!(
        bought(&[
            "pieces: 40, counted: '2026-12-01', lot_number: A1",
            "pieces: 25, counted: '2027-01-10', lot_number: B2"
        ]),
        65
    );
    assert_eq!(bought(&[first, "pieces: 40, counted: '2027-01-10', state: spoilt"]), 0, "it went green in the shed");
}

#[test]
fn the_number_of_a_bag_stands_on_the_tag_of_what_was_filled_from_it() {
    let farm = farm(&[(
        "batches/a.yaml",
        "strain: shiitake-warm\nspawn: plug\nwood: sugar-maple\nlogs: 2\nnumber: 7\ninoculated: '2027-04-20'\n",
    )]);
    let plan = std::fs::read_to_string(farm.path().join("plans/winter.yaml")).unwrap();
    let tag = |numbers: &[&str]| {
        let line = |number: &&str| {
            format!("{{item: plug, strain: shiitake-warm, pieces: 40, counted: '2027-03-01', lot_number: {number}}}")
        };
        let lines: Vec<String> = numbers.iter().map(line).collect();
        farm.write("plans/winter.yaml", &format!("{plan}stock: [{}]\n", lines.join(", ")));
        farm.drawn("yard/log-tags.html")
    };
    let one = tag(&["WR-2211"]);
    assert!(one.contains("plugs, lot WR-2211") && one.contains("<b>No. 7</b>"), "{one}");
    assert!(!tag(&["WR-2211", "WR-2212"]).contains("lot WR"), "of two bags nobody knows which it was");
}

#[test]
fn logs_added_to_a_batch_come_out_of_its_lot_and_it_says_in_which_yard_it_lies() {
    let farm = farm(&[
        ("lots/tops.yaml", "name: Tops\nwood: red-oak\nlogs: 30\nfrom: A neighbour\nfelled: '2026-11-20'\n"),
        (
            "batches/a.yaml",
            "strain: shiitake-cold\nnumber: 7\nlots: [{lot: tops, logs: 24}]\ninoculated: '2027-04-20'\n",
        ),
        ("yard/2027.csv", "Date,Batch,What,Logs,To\n2027-04-27,7,added,4,\n"),
    ]);
    farm.write(
        "farm.yaml",
        "name: Test Wood\nplace: {latitude: 44, longitude: -72}\nseason: 2026\nyards: [{name: crib}, {name: lean-to}]\n",
    );
    let rows = ledger(&farm);
    let wood = [("balance", Value::from("wood"))];
    assert_eq!(["brought-in", "filled", "waiting"].map(|name| line(&rows, &wood, name)), [30, 28, 2]);
    assert!(farm.drawn("yard/batches/a.html").contains("left, crib"));
    // Two more than lay there came from somewhere else on the farm.
    farm.write("yard/2027.csv", "Date,Batch,What,Logs,To\n2027-04-27,7,added,8,\n2027-06-01,7,moved,,lean-to\n");
    let rows = ledger(&farm);
    let told = ["brought-in", "cut-here", "filled", "waiting"].map(|name| line(&rows, &wood, name));
    assert_eq!(told, [30, 2, 32, 0]);
    assert!(farm.drawn("yard/batches/a.html").contains("left, lean-to"));
}

prop_compose! {
    fn heaps()(heaps in proptest::collection::vec(
        (0u8..3, 2020i16..2027, any::<bool>(), 0u32..40,
         proptest::collection::vec((2019i16..2028, proptest::option::of(0usize..How::ALL.len()), 0u32..20), 0..6)),
        1..6,
    )) -> Vec<Heap<u8>> {
        let left = |left: Vec<(i16, Option<usize>, u32)>| {
            left.into_iter().map(|(when, how, logs)| (when, how.map(|how| How::ALL[how]), logs)).collect()
        };
        let heap = |(of, winter, is_cut_here, logs, out)| Heap { of, winter, is_cut_here, logs, left: left(out) };
        heaps.into_iter().map(heap).collect()
    }
}

fn changes() -> impl Strategy<Value = Vec<(Date, Change)>> {
    let exit = prop_oneof![Just(Exit::Retired), Just(Exit::Sold), Just(Exit::Given), Just(Exit::Lost)];
    let change = prop_oneof![
        (0u32..9).prop_map(Change::Added),
        (exit.clone(), 0u32..9).prop_map(|(exit, logs)| Change::Left(exit, logs)),
        (0u32..40).prop_map(Change::Counted),
        exit.prop_map(Change::Rest),
    ];
    let day = (1u8..29).prop_map(|day| Date::read(&format!("2026-05-{day:02}")).unwrap());
    proptest::collection::vec((day, change), 0..12)
}

proptest! {
    #[test]
    fn the_balance_of_wood_holds_and_is_carried_over_in_any_order(heaps in heaps()) {
        let balances = wood(&heaps, 2027);
        for ((winter, of), balance) in &balances {
            prop_assert_eq!(balance.came(), balance.told());
            let before = balances.get(&(winter - 1, *of)).map_or(0, |balance| balance.waiting);
            prop_assert_eq!(balance.carried, before);
        }
        let mut turned: Vec<Heap<u8>> = heaps;
        turned.reverse();
        for heap in &mut turned {
            heap.left.reverse();
        }
        prop_assert_eq!(wood(&turned, 2027), balances);
    }

    #[test]
    fn the_balance_of_a_yard_holds_in_any_order(filled in 0u32..40, lines in changes()) {
        let found = yard(filled, lines.clone());
        let told = [found.yard, found.retired, found.sold, found.given, found.lost].iter().sum::<u32>();
        prop_assert_eq!(i64::from(found.filled) + i64::from(found.added), i64::from(told) + found.unaccounted);
        prop_assert_eq!(yard(filled, lines.into_iter().rev()), found);
    }

    #[test]
    fn every_log_of_a_batch_that_fits_a_wish_is_given_to_one_and_no_wish_gets_more_while_another_is_open(
        wanted in proptest::collection::vec(0u32..30, 1..4), batches in proptest::collection::vec(0u32..30, 0..6),
    ) {
        let all: Vec<usize> = (0..wanted.len()).collect();
        let batches: Vec<(u32, Vec<usize>)> = batches.into_iter().map(|logs| (logs, all.clone())).collect();
        let given = shares(&wanted, &batches);
        let mut got = vec![0; wanted.len()];
        for (parts, (logs, _)) in given.iter().zip(&batches) {
            prop_assert_eq!(parts.iter().map(|(_, logs)| logs).sum::<u32>(), *logs);
            for (wish, logs) in parts {
                got[*wish] += logs;
            }
        }
        let made: u32 = batches.iter().map(|(logs, _)| logs).sum();
        let is_over = got.iter().zip(&wanted).any(|(got, wanted)| got > wanted);
        prop_assert!(!is_over || made > wanted.iter().sum::<u32>());
    }
}
