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
        farm.page("yard/sales.html")
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
fn the_page_of_sales_says_what_was_taken_what_came_home_and_what_fetched_most() {
    let first = |html: &str| html[..html.find("By strain, what").unwrap()].to_owned();
    let rows = format!("2026-06-06,1,,4,42,1,{BUYER},\n2027-06-05,1,,3,30,,,\n2027-06-12,2,,2,28,0.5,,a wet day\n");
    let farm = farm(NORTH, "us", &sales(&rows));
    let record = std::fs::read_to_string(farm.path().join("farm.yaml")).unwrap();
    farm.write("farm.yaml", &format!("{record}columns: {{sales: [Stall]}}\n"));
    farm.write("sales/2025.csv", "date,strain,weight,taken,stall\n2025-09-06,shiitake-cold,2 lb,20,Corner\n");
    let page = farm.drawn("yard/sales.html");
    let told = first(&page);
    assert!(told.contains("this season:") && told.contains("$58 for 4.5 lb, in 2 sales"), "{told}");
    assert!(told.contains("8 oz of the 5 lb brought, 10 %") && told.contains("$12.89 for 1 lb"), "58 for 4.5 lb");
    assert!(told.contains("sugar maple") && told.contains("$18.67 for 1 lb"), "28 for 1.5 lb beats 30 for 3 lb");
    let years =
        ["2027", "2026", "2025"].map(|year| page.find(&format!("sales/{year}.html\">{year}</a></th>")).unwrap());
    assert!(years.is_sorted(), "the last year first");
    assert!(page.contains("planning.html#money") && page.contains("reckoned with $14"), "it closes the money");
    let year = farm.drawn("yard/sales/2027.html");
    assert!(year.contains("1.5 lb sold for $28, 8 oz unsold") && year.contains("a wet day"), "{year}");
    assert!(year.contains("batches/maple.html") && !year.contains("$42"), "the year before has its own page");
    assert!(farm.drawn("yard/sales/2025.html").contains("$20, Stall: Corner"), "a column of the farm's own");
}

#[test]
fn the_page_of_sales_is_found_and_says_when_the_season_has_none_yet() {
    let farm = farm(NORTH, "us", &sales("2026-06-06,1,,4,42,1,,\n"));
    assert!(farm.drawn("yard/sales.html").contains("Nothing is sold in 2027 yet. Of "));
    for page in ["yard/harvests.html", "yard/picking-and-selling.html", "yard/batches/oak.html", "a-to-z.html"] {
        assert!(farm.drawn(page).contains("sales.html\">Sales</a>"), "{page}");
    }
    farm.write("sales/2026.csv", &sales(""));
    assert!(farm.drawn("yard/sales.html").contains("put date, batch or strain, weight, taken and unsold into sales/"));
}

#[test]
fn a_year_of_many_sales_is_parted() {
    let rows: Vec<String> = (0..130).map(|row| format!("2026-06-{:02},1,,4,{},,,", 1 + row % 28, 40 + row)).collect();
    let farm = farm(NORTH, "us", &sales(&rows.join("\n")));
    let parts = ["", "-2", "-3"].map(|part| farm.drawn(&format!("yard/sales/2026{part}.html")));
    let told: Vec<usize> = parts.iter().map(|page| page.matches("sold for").count()).collect();
    assert_eq!(told, [60, 60, 10]);
    assert!(parts[0].contains("in 130 sales") && !parts[1].contains("in 130 sales"), "the sums stand once");
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
