//! Sales: what was taken beside what was reckoned, what a recall is told by, and what nothing prints.

use hostwood::record::table::Table;
use serde_json::Value;

use crate::harness::{Farm, code, files, root, said, table};

const BUYER: &str = "Quillonswaithe";

const MONEY: &str = "money: {currency: $, hour: 18, prices: [{mushroom: shiitake, price: 14, per: 1 lb}]}\n";

/// A farm with two batches of one strain, on oak and on maple, and one sheet of sales.
fn farm(place: &str, units: &str, sales: &str) -> Farm {
    let record = format!("name: Stall\nplace: {{{place}}}\nseason: 2026\nunits: {units}\n{MONEY}");
    let batch = |wood: &str, number: u32, lot: &str| {
        format!(
            "strain: shiitake-cold\nwood: {wood}\nlogs: 10\nnumber: {number}\ninoculated: '2024-04-20'\nspawn: sawdust\n\
             spawn_lots: [{lot}]\n"
        )
    };
    Farm::with(&[
        ("farm.yaml", &record),
        ("batches/oak.yaml", &batch("red-oak", 1, "A-17")),
        ("batches/maple.yaml", &batch("sugar-maple", 2, "A-18")),
        ("sales/2026.csv", sales),
    ])
}

const NORTH: &str = "latitude: 44, longitude: -72";

fn sales(rows: &str) -> String {
    format!("Date,Batch,Strain,Weight (lb),Taken,Unsold (lb),Buyer,Note\n{rows}")
}

fn of<'a>(rows: &'a [Value], wood: &str) -> &'a Value {
    rows.iter().find(|row| row["wood"] == wood).unwrap()
}

#[test]
fn sales_are_summed_by_strain_wood_and_lot() {
    let rows = format!(
        "2026-06-06,1,,4,42,1,{BUYER},\n2026-07-04,oak,shiitake-cold,3,39,,,\n2026-07-11,2,,2,28,,,\n\
         2026-08-01,,shiitake-cold,5,0,5,,\n"
    );
    let rows = table("sales", farm(NORTH, "us", &sales(&rows)).path(), &[]);
    assert_eq!(rows.len(), 3, "{rows:?}");
    let oak = of(&rows, "red-oak");
    assert_eq!(
        [&oak["sold_lb"], &oak["unsold_lb"], &oak["taken"]],
        [&6.0.into(), &1.0.into(), &81.0.into()] as [&Value; 3]
    );
    assert_eq!(oak["taken_a_lb"], 13.5, "81 for 6 lb");
    assert_eq!(
        [&oak["spawn_lots"], &oak["batches"], &oak["first"], &oak["last"]],
        ["A-17", "oak", "2026-06-06", "2026-07-04"]
    );
    assert_eq!(of(&rows, "sugar-maple")["taken_a_lb"], 14.0);
    let alone = rows.iter().find(|row| row["wood"].is_null()).unwrap();
    assert!(alone["sold_lb"] == 0.0 && alone["taken_a_lb"].is_null(), "what nobody bought has no price: {alone}");
}

#[test]
fn the_money_closes_with_what_was_taken_and_a_new_sale_changes_it() {
    let farm = farm(NORTH, "us", &sales("2026-06-06,1,,4,42,1,,\n"));
    let published = || {
        assert_eq!(code(&farm.publish()), 0);
        farm.page("winter/planning.html")
    };
    let before = published();
    assert!(before.contains("$14 for 1 lb") && before.contains("reckoned with $14"), "42 for 3 lb");
    assert!(before.contains("$4.20"), "a log of ten");
    farm.write("sales/2027.csv", &sales("2027-06-05,1,,3,30,,,\n2027-06-05,2,,1,20,,,\n"));
    let after = published();
    assert!(after.contains("$12 for 1 lb") && after.contains("$7.20"), "72 for 6 lb and ten logs");
    assert!(after.contains("$20 for 1 lb") && !before.contains("$20 for 1 lb"));
    farm.write("sales/2028.csv", &sales("2028-06-05,1,,3,900,,,\n"));
    assert!(published() == after, "the season that follows is not over yet");
}

#[test]
fn a_recall_is_told_by_the_batch_and_by_the_order() {
    let farm = farm(NORTH, "us", &sales("2026-06-06,1,,4,42,1,,first market\n"));
    farm.write(
        "plans/winter.yaml",
        "name: Winter\nseason: 2026\nwishes: [{strain: shiitake-cold, spawn: sawdust, logs: 5}]\nstock:\n  - {item: \
         sawdust, strain: shiitake-cold, weight: 5 lb, counted: '2026-11-01', lot_number: A-17}\n",
    );
    let page = farm.drawn("yard/batches/oak.html");
    assert!(page.contains("3 lb sold for $42, 1 lb unsold; spawn lot A-17") && page.contains("first market"));
    assert!(!farm.drawn("yard/batches/maple.html").contains("sold for"));
    assert!(farm.drawn("winter/supply.html").contains("(3 lb sold for $42, 1 lb unsold)"));
}

#[test]
fn a_metric_farm_of_the_south_is_told_its_kilograms() {
    let rows = "date;batch;weight (kg);taken;unsold (kg)\n2027-05-30;1;2,5;45;0,5\n2027-08-30;1;1;900;\n";
    let farm = farm("latitude: -41, longitude: 173", "metric", rows);
    let rows = table("sales", farm.path(), &[]);
    assert_eq!((&rows[0]["sold_kg"], &rows[0]["taken_a_kg"]), (&2.0.into(), &22.5.into()), "the year ends in June");
    assert!(farm.drawn("yard/batches/oak.html").contains("2 kg sold for $45, 500 g unsold"));
}

#[test]
fn nothing_prints_a_buyer() {
    let farm = farm(NORTH, "us", &sales(&format!("2026-06-06,1,,4,42,1,{BUYER},\n2026-07-04,2,,3,39,,{BUYER},\n")));
    farm.write(
        "sales/more.yaml",
        &format!("- {{date: '2026-07-05', strain: shiitake-cold, weight: 1 lb, taken: 12, buyer: {BUYER}}}\n"),
    );
    farm.write("notes/market.md", "---\ntitle: Market\ndate: '2026-07-06'\n---\n\n[What was sold](table:sales)\n");
    let output = farm.publish();
    assert_eq!(code(&output), 0, "{}", said(&output));
    let told = files(&farm.path().join("guide"));
    let prints = |bytes: &[u8]| String::from_utf8_lossy(bytes).to_lowercase().contains(&BUYER.to_lowercase());
    let printed: Vec<&String> = told.iter().filter(|(_, bytes)| prints(bytes)).map(|(name, _)| name).collect();
    assert!(printed.is_empty() && !prints(said(&output).as_bytes()), "{printed:?}");
    assert!(told.keys().any(|name| name.starts_with("tables/sales")), "the table is published");
    for name in Table::WORDS {
        assert!(!prints(Value::from(table(name, farm.path(), &[])).to_string().as_bytes()), "{name}");
    }
    let demo = std::fs::read_to_string(root().join("examples/sorrel-hollow/sales/2026.csv")).unwrap();
    assert!(demo.contains("the inn"), "the demo farm writes its buyers down");
}
