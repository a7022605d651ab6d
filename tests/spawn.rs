//! Spawn from the order to the empty bag: what is on its way, what is left, and what came of each lot.

use hostwood::quantity::Date;
use serde_json::Value;

use crate::harness::{Farm, table};

const FARM: &str = "name: Tussock\nplace: {where: NZ, latitude: -41.3, longitude: 173}\nseason: 2026\nunits: metric\n\
    grows: [shiitake]\nwoods: [red-oak]\n";
const BATCH: &str = "strain: shiitake-wide-range\nwood: red-oak\nspawn: plug\nlogs: 1\ndiameter: [10 cm, 10 cm]\n";

fn farm(stock: &str) -> Farm {
    let wish = "{strain: shiitake-wide-range, spawn: plug, logs: 40}";
    let offer = "{item: plug, pieces: 500, price: 20, lead: 2 weeks}";
    let plan = format!("name: Winter\nseason: 2026\nwishes: [{wish}]\noffers: [{offer}]\nstock:\n{stock}");
    let farm = Farm::with(&[("plans/winter.yaml", &plan)]);
    farm.write("farm.yaml", FARM);
    farm
}

fn bag(rest: &str) -> String {
    format!("  - {{item: plug, strain: shiitake-wide-range, {rest}}}\n")
}

/// How many plugs the plan still asks to be bought.
fn needed(farm: &Farm) -> u64 {
    let rows = table("supply", farm.path(), &[]);
    let plugs = rows.iter().find(|row| row["item"] == "plugs").unwrap();
    plugs["need"].as_str().unwrap().replace(',', "").split(' ').next().unwrap().parse().unwrap()
}

fn use_up(farm: &Farm) -> Vec<Value> {
    let rows = table("calendar", farm.path(), &[]);
    rows.into_iter().filter(|row| row["kind"] == "use-up").collect()
}

#[test]
fn what_is_on_its_way_or_in_hand_is_not_ordered_again() {
    let all = needed(&farm(&bag("pieces: 0, counted: 2026-07-01")));
    assert_eq!(needed(&farm(&bag("pieces: 500, ordered: 2026-07-01"))), all - 500);
    assert_eq!(needed(&farm(&bag("pieces: 500, ordered: 2026-07-01, arrived: 2026-07-12"))), all - 500);
    let two = [bag("pieces: 60, counted: 2026-07-01"), bag("pieces: 500, arrived: 2026-07-12")].concat();
    assert_eq!(needed(&farm(&two)), all - 560);
    let counted = format!("{two}{}", bag("pieces: 400, counted: 2026-07-20"));
    assert_eq!(needed(&farm(&counted)), all - 400, "a count of all bags is not added to what came");
    assert_eq!(needed(&farm(&bag("pieces: 500, arrived: 2026-07-12, state: spoilt"))), all);
}

#[test]
fn an_opened_bag_has_its_last_day_in_calendar_and_page_until_it_is_empty() {
    let opened = "pieces: 500, arrived: 2026-07-12, lot_number: A-17, kept: the dairy, opened: 2026-08-31";
    let found = farm(&bag(opened));
    let rows = use_up(&found);
    assert_eq!((rows.len(), rows[0]["from"].as_str()), (1, Some("2026-09-30")));
    assert_eq!(Date::read("2026-09-30").unwrap().0.month(), 9, "a month by the calendar");
    let page = found.drawn("winter/supply.html");
    for told in ["A-17", "the dairy", "use up by", "eXtension, totems"] {
        assert!(page.contains(told), "{told}");
    }
    assert!(found.drawn("index.html").contains("Last day of the opened plugs"));
    let empty = format!("{}{}", bag(opened), bag("pieces: 0, counted: 2026-09-10, lot_number: A-17"));
    assert!(use_up(&farm(&empty)).is_empty());
    assert!(use_up(&farm(&bag("pieces: 500, arrived: 2026-07-12"))).is_empty());
}

#[test]
fn a_bag_that_was_opened_in_an_earlier_year_is_told_in_one_line_to_be_past_its_day() {
    let old = "pieces: 500, arrived: 2024-07-12, lot_number: OLD-9, opened: 2024-08-31";
    let new = bag("pieces: 400, arrived: 2026-07-12, lot_number: A-17, opened: 2026-08-31");
    let page = farm(&format!("{}{new}", bag(old))).drawn("winter/supply.html");
    assert_eq!(page.matches("use up by").count(), 1, "the new bag alone has a last day");
    assert!(page.contains("past their day: plugs, Wide-range shiitake, lot OLD-9 (opened 31 August 2024)."), "{page}");
    let used = format!("{}{}{new}", bag(old), bag("pieces: 0, counted: 2024-09-10, lot_number: OLD-9"));
    assert!(!farm(&used).drawn("winter/supply.html").contains("past their day"), "nothing of it is left");
    assert!(!farm(&new).drawn("winter/supply.html").contains("past their day"));
}

#[test]
fn what_came_of_a_lot_is_told_and_what_never_took_is_counted_by_strain() {
    let found = farm(&bag("pieces: 900, arrived: 2026-07-12, lot_number: A-17"));
    found.write("batches/a.yaml", &format!("{BATCH}inoculated: '2026-08-10'\n"));
    found.write("batches/b.yaml", &format!("{BATCH}inoculated: '2026-08-11'\nspawn_lots: [B-2, A-17]\n"));
    let failed = "ended: {date: '2026-12-01', how: spawn-failed}\n";
    found.write("batches/c.yaml", &format!("{BATCH}inoculated: '2026-08-12'\nspawn_lots: [B-2]\n{failed}"));
    let rows = table("batches", found.path(), &[]);
    let lots: Vec<&str> = rows.iter().map(|row| row["spawn_lots"].as_str().unwrap()).collect();
    assert_eq!(lots, ["A-17", "A-17 B-2", "B-2"]);
    let page = found.drawn("winter/supply.html");
    let part = |id: &str| {
        let part = page.split_once(&format!("id=\"{id}\"")).unwrap().1;
        part[..part.find("</table>").unwrap()].to_owned()
    };
    let (bags, failures) = (part("bags"), part("failures"));
    assert!(
        bags.contains("batches/a.html") && bags.contains("batches/b.html") && !bags.contains("batches/c.html"),
        "{bags}"
    );
    assert!(
        failures.contains("1 of 3") && failures.contains("batches/c.html") && failures.contains("lot B-2"),
        "{failures}"
    );
}
