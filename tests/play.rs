//! Two years of a small farm, line by line: after each line that is written down the plan, the order, the stand, the rota, the
//! calendar and the balances say what a grower would expect.

use std::collections::BTreeMap;
use std::sync::Arc;

use hostwood::book;
use hostwood::press::table;
use hostwood::read::folder;
use hostwood::reckon::Findings;
use hostwood::reckon::findings::{Choice, TreeFinding};
use hostwood::record::strain::SpawnForm;
use hostwood::record::table::Table;
use proptest::prelude::*;
use serde_json::Value;

use crate::harness::{Farm, Reckoned, code, said};
use crate::ledger::{holds, line};

const WALK: &str = "Tag,Wood,DBH (in),Logs,Decision,Order,Felled,Logs cut,Gone\n";

/// A tree of the walk: its tag, wood, diameter, logs by eye and whether it may fall.
type Stem = (&'static str, &'static str, u32, u32, &'static str);

const STEMS: [Stem; 8] = [
    ("K-1", "red-oak", 6, 5, "fell"),
    ("K-2", "red-oak", 6, 5, "fell"),
    ("K-3", "red-oak", 7, 6, "fell"),
    ("K-4", "sugar-maple", 6, 4, "fell"),
    ("K-5", "sugar-maple", 7, 6, "fell"),
    ("K-6", "sugar-maple", 12, 9, "keep"),
    ("K-7", "red-oak", 14, 9, "keep"),
    ("K-8", "red-oak", 6, 4, "fell"),
];

/// The sheet of the walk; of the trees that came down with day, logs and what became of them.
fn walk(down: &[(&str, &str)]) -> String {
    let row = |(order, (tag, wood, dbh, logs, decision)): (usize, &Stem)| {
        let end = down.iter().find(|(of, _)| of == tag).map_or(",,", |(_, end)| end);
        format!("{tag},{wood},{dbh},{logs},{decision},{},{end}\n", order + 1)
    };
    STEMS.iter().enumerate().map(row).fold(WALK.to_owned(), |sheet, row| sheet + &row)
}

fn window(kind: &str, from: &str, to: &str) -> String {
    format!(
        "name: Our days to {kind}\nkind: {kind}\nfrom: '{from}'\nto: '{to}'\nsays: As ever.\nsource: common-practice\n"
    )
}

fn plan(season: i16) -> String {
    plan_of(season, [10, 6])
}

/// A plan of two wishes of so many logs.
fn plan_of(season: i16, [wide, warm]: [u32; 2]) -> String {
    format!(
        "name: The winter of {season}\nseason: {season}\nwishes:\n  \
         - {{name: yard, strain: shiitake-wide-range, spawn: sawdust, logs: {wide}}}\n  \
         - {{name: guests, strain: shiitake-warm, spawn: plug, logs: {warm}}}\n\
         offers:\n  - {{item: sawdust, weight: 1 lb, price: 5, lead: 3 weeks, keeps: 6 months}}\n  \
         - {{item: plug, pieces: 50, price: 8, lead: 2 weeks, keeps: 6 months}}\n  \
         - {{item: wax, weight: 1 lb, price: 6, lead: 1 week, keeps: 3 years}}\n"
    )
}

fn record(place: &str, season: i16) -> String {
    format!(
        "name: Two Winters\nplace: {place}\nseason: {season}\nunits: us\nlog: {{diameter: [4 in, 6 in], length: 40 in}}\n\
         woods: [red-oak, sugar-maple]\ngrows: [shiitake]\nwork: {{hands: 2, wax_a_log: 1.4 oz}}\n\
         soak: {{every: 8 weeks, soaks: 2, hours: 12 hours, tank: 10}}\nyards: [{{name: crib}}, {{name: lean-to}}]\n"
    )
}

/// A farm with one stand, a walk, a plan and seasons of its own.
fn farm(place: &str, measured: &str, [cut, fill, soak]: [[&str; 2]; 3]) -> Farm {
    let stand = format!(
        "name: The knoll\narea: 1 acre\ntarget: 50 ft2/ac\nmeasured: '{measured}'\nplots: {{size: 0.2 acre, number: 1, \
         diameters: [6 in, 6 in, 7 in, 8 in, 9 in, 10 in, 12 in, 13 in, 14 in, 14 in, 15 in, 15 in, 15 in, 15 in]}}\n"
    );
    let farm = Farm::with(&[
        ("seasons/cut.yaml", &window("cut", cut[0], cut[1])),
        ("seasons/fill.yaml", &window("inoculate", fill[0], fill[1])),
        ("seasons/soak.yaml", &window("soak", soak[0], soak[1])),
        ("woodlot/knoll.yaml", &stand),
        ("woodlot/knoll.csv", &walk(&[])),
        ("plans/first.yaml", &plan(2026)),
    ]);
    farm.write("farm.yaml", &record(place, 2026));
    farm
}

/// The tables that a grower follows through the year.
const FOLLOWED: [&str; 8] = ["allocation", "trees", "thinning", "supply", "ledger", "batches", "soak-rota", "calendar"];

/// What the guide says.
struct Guide(Reckoned);

impl Guide {
    /// The guide of a farm, whose balances hold.
    fn of(farm: &Farm) -> Self {
        let guide = Self(Reckoned::of(farm.path()));
        holds(&guide.rows("ledger"));
        guide
    }

    /// The guide of a farm as the program publishes it: its tables are the same, and its calendar file has every entry.
    fn published(farm: &Farm) -> Self {
        let output = farm.publish();
        assert_eq!(code(&output), 0, "{}", said(&output));
        let guide = Self::of(farm);
        for name in FOLLOWED {
            let published: Vec<Value> = serde_json::from_str(&farm.page(&format!("tables/{name}.json"))).unwrap();
            assert_eq!(published, guide.rows(name), "{name}");
        }
        let file = farm.page("calendar.ics").replace("\r\n ", "");
        for row in guide.rows("calendar") {
            assert!(file.contains(row["entry"].as_str().unwrap()), "{row}");
        }
        guide
    }

    fn rows(&self, name: &str) -> Vec<Value> {
        let wanted = Table::of_word(name).expect("there is such a table");
        serde_json::from_str(&table::json(&self.0.grid(wanted))).expect("a table is JSON")
    }

    fn words(&self, page: &str) -> String {
        let text = self.0.page(page);
        let text: String = text.split('<').map(|part| part.split_once('>').map_or(part, |(_, text)| text)).collect();
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// Logs that a strain still gets, and logs that it lacks.
    fn asked(&self, strain: &str) -> (i64, i64) {
        let of = |placed: bool| {
            let rows = self.rows("allocation").into_iter();
            let rows = rows.filter(|row| row["strain"] == strain && row["wood"].is_string() == placed);
            rows.map(|row| row["logs"].as_i64().unwrap()).sum()
        };
        (of(true), of(false))
    }

    fn both(&self) -> [(i64, i64); 2] {
        ["shiitake-wide-range", "shiitake-warm"].map(|strain| self.asked(strain))
    }

    fn falls(&self) -> Vec<String> {
        let rows = self.rows("trees").into_iter().filter(|row| row["this_winter"] == true);
        rows.map(|row| row["tag"].as_str().unwrap().to_owned()).collect()
    }

    /// What is to be bought: item and amount.
    fn order(&self) -> Vec<(String, String)> {
        let text = |row: &Value, key: &str| row[key].as_str().unwrap().to_owned();
        self.rows("supply").iter().map(|row| (text(row, "item"), text(row, "need"))).collect()
    }

    /// Basal area before the winter and after it, in hundredths of a square foot an acre.
    fn density(&self) -> [i64; 2] {
        let rows = self.rows("thinning");
        ["before", "after"].map(|state| {
            let row = rows.iter().find(|row| row["state"] == state).unwrap();
            (row["basal_area_ft2_per_acre"].as_f64().unwrap() * 100.0).round() as i64
        })
    }

    /// The calendar's entries of a kind.
    fn calendar(&self, kind: &str) -> Vec<String> {
        let rows = self.rows("calendar").into_iter().filter(|row| row["kind"] == kind);
        rows.map(|row| row["entry"].as_str().unwrap().to_owned()).collect()
    }

    /// The lines of a winter's balance of wood.
    fn wood<const N: usize>(&self, winter: i16, lines: [&str; N]) -> [i64; N] {
        let of = [("balance", Value::from("wood")), ("winter", winter.into())];
        lines.map(|name| line(&self.rows("ledger"), &of, name))
    }

    /// The lines of a batch's balance.
    fn yard<const N: usize>(&self, batch: &str, lines: [&str; N]) -> [i64; N] {
        let of = [("balance", Value::from("yard")), ("batch", batch.into())];
        lines.map(|name| line(&self.rows("ledger"), &of, name))
    }

    fn stage(&self, batch: &str) -> String {
        let rows = self.rows("batches");
        rows.iter().find(|row| row["batch"] == batch).unwrap()["stage"].as_str().unwrap().to_owned()
    }

    /// Logs that each day of the rota puts into the tank, of a batch.
    fn soaks(&self, batch: &str) -> Vec<(String, i64)> {
        let of = |row: &Value| -> Option<i64> {
            let all = row["batches"].as_str()?;
            all.split(' ').find_map(|part| part.strip_prefix(&format!("{batch}:"))?.parse().ok())
        };
        let rows = self.rows("soak-rota");
        rows.iter().filter_map(|row| Some((row["date"].as_str()?.to_owned(), of(row)?))).collect()
    }
}

const OAK: &str = "name: Knoll oak\ntrees: [K-1, K-2, K-3]\n";
const SAWDUST: &str = "strain: shiitake-wide-range\nnumber: 1\nspawn: sawdust\ninoculated: '2027-03-25'\n";
const PLUGS: &str = "strain: shiitake-warm\nnumber: 2\nspawn: plug\ninoculated: '2027-03-28'\n";
const FIRST_YEAR: &str = "Date,Batch,What,Logs,To,Amount\n2027-04-02,1,added,2,,\n2027-06-01,2,moved,,lean-to,\n\
    2027-08-01,1,log lost,1,,\n";
const NORTH: &str = "{where: US-VT, latitude: 44, longitude: -72}";

#[test]
fn two_years_in_the_north_from_the_walk_to_the_spent_log() {
    let farm = farm(NORTH, "2026-09-10", [["11-15", "03-15"], ["03-20", "05-20"], ["05-24", "09-26"]]);
    let guide = Guide::published(&farm);
    let (falls, order, [stood, left]) = (guide.falls(), guide.order(), guide.density());
    assert_eq!(guide.both(), [(10, 0), (6, 0)]);
    assert_eq!(falls, ["K-1", "K-2", "K-3"]);
    assert_eq!(order.len(), 3, "{order:?}");
    assert_eq!((guide.calendar("fell").len(), guide.calendar("order").len()), (1, 3));

    // Two of the three are felled: the third is asked for, and nothing else has changed.
    let (first, second) = ("2027-02-22,5,felled", "2027-02-23,6,felled");
    farm.write("woodlot/knoll.csv", &walk(&[("K-1", first), ("K-2", first)]));
    let guide = Guide::of(&farm);
    assert_eq!((guide.falls(), guide.both()), (vec!["K-3".to_owned()], [(10, 0), (6, 0)]));
    assert_eq!((guide.order(), guide.density()), (order.clone(), [stood, left]));
    assert_eq!(guide.wood(2026, ["cut-here", "waiting"]), [10, 10]);
    assert!(guide.words("winter/felling.html").contains("Down this winter: K-1 and K-2."));

    // All three are down, and lie as one lot that inherits wood, days and count: no day of felling is left.
    farm.write("woodlot/knoll.csv", &walk(&[("K-1", first), ("K-2", first), ("K-3", second)]));
    farm.write("lots/oak.yaml", OAK);
    let guide = Guide::of(&farm);
    assert_eq!((guide.falls().len(), guide.both()), (0, [(10, 0), (6, 0)]));
    assert_eq!((guide.order(), guide.density()), (order.clone(), [stood, left]));
    assert_eq!(guide.wood(2026, ["cut-here", "waiting"]), [16, 16]);
    assert_eq!(guide.calendar("fell"), Vec::<String>::new());
    assert_eq!(guide.calendar("rest"), ["rest-lot-oak-2026"]);
    assert_eq!(guide.calendar("fill"), ["fill-lot-oak-shiitake-2026"]);
    assert!(!guide.words("winter/planning.html").contains("Fell short"));

    // One log is thrown out: one more is asked for, of one more tree, and the plan says why.
    farm.write(
        "lots/oak.yaml",
        &format!("{OAK}gone: [{{date: '2027-03-01', how: not-used, logs: 1, why: torn bark}}]\n"),
    );
    let guide = Guide::of(&farm);
    assert_eq!((guide.falls().len(), guide.both(), guide.order()), (1, [(10, 0), (6, 0)], order.clone()));
    assert!(
        guide
            .words("winter/planning.html")
            .contains("Fell short this winter: 1 log of Knoll oak not used (torn bark). What")
    );
    assert_eq!(guide.calendar("fell").len(), 1);

    // An oak comes down for it in March, and gives four.
    let third = "2027-03-05,4,felled";
    let felled = walk(&[("K-1", first), ("K-2", first), ("K-3", second), ("K-8", third)]);
    farm.write("woodlot/knoll.csv", &felled);
    farm.write("lots/more.yaml", "name: One more oak\ntrees: [K-8]\n");
    let guide = Guide::of(&farm);
    assert_eq!((guide.falls().len(), guide.both(), guide.order()), (0, [(10, 0), (6, 0)], order.clone()));
    assert_eq!(guide.wood(2026, ["cut-here", "waiting", "not-used"]), [20, 19, 1]);
    let left = guide.density()[1];
    assert!(left < stood);

    // The first batch: its wish and its spawn are done, and the other's are as they were.
    farm.write("batches/yard.yaml", &format!("{SAWDUST}lots: [{{lot: oak, logs: 10}}]\n"));
    let guide = Guide::of(&farm);
    assert_eq!(guide.both(), [(0, 0), (6, 0)]);
    let (items, wax): (Vec<String>, _) = (guide.order().iter().map(|(item, _)| item.clone()).collect(), &order[2]);
    assert_eq!(items, ["plugs", "wax"]);
    assert_eq!(guide.order()[0], order[1]);
    assert_ne!(guide.order()[1], *wax);
    assert_eq!(guide.calendar("order").len(), 2);
    assert_eq!(guide.wood(2026, ["filled", "waiting"]), [10, 9]);
    assert!(guide.words("winter/planning.html").contains("Done: 10 in Red oak · "));
    assert!(guide.words("yard/log-tags.html").contains("No. 1, yard"));

    // The second batch, of two lots: nothing is left to fell, to order or to fill but what lies over.
    farm.write("batches/guests.yaml", &format!("{PLUGS}lots: [{{lot: oak, logs: 3}}, {{lot: more, logs: 3}}]\n"));
    let guide = Guide::published(&farm);
    assert_eq!((guide.both(), guide.order(), guide.falls().len()), ([(0, 0), (0, 0)], Vec::new(), 0));
    for kind in ["fell", "order", "inoculate"] {
        assert_eq!(guide.calendar(kind), Vec::<String>::new(), "{kind}");
    }
    assert_eq!(guide.calendar("first-fruit").len(), 2);
    assert_eq!(guide.wood(2026, ["filled", "waiting", "not-used"]), [16, 3, 1]);
    assert_eq!(guide.density()[1], left);
    assert!(guide.words("winter/supply.html").contains("nothing is left to order"));
    assert!(guide.words("yard/log-tags.html").contains("In the yard"));
    assert!(!guide.words("yard/log-tags.html").contains("To be inoculated this season"));

    // The first summer's day book: two logs more out of the same lot, one lost, one batch moved.
    farm.write("yard/2027.csv", FIRST_YEAR);
    let guide = Guide::of(&farm);
    assert_eq!(guide.yard("yard", ["filled", "added", "in-the-yard", "lost"]), [10, 2, 11, 1]);
    assert_eq!(guide.wood(2026, ["cut-here", "filled", "waiting", "not-used"]), [20, 18, 1, 1]);
    assert_eq!((guide.both(), guide.order()), ([(0, 0), (0, 0)], Vec::new()));
    assert!(guide.words("yard/batches.html").contains("11 of 12"));
    assert!(guide.rows("soak-rota").is_empty(), "no log is soaked while the spawn runs");

    // The next season begins with what is left: the plan of the first asks for nothing any more.
    farm.write("farm.yaml", &record(NORTH, 2027));
    farm.write("plans/second.yaml", &plan(2027));
    let guide = Guide::published(&farm);
    let (falls, order) = (guide.falls(), guide.order());
    assert_eq!(guide.wood(2027, ["carried-over", "waiting"]), [1, 1]);
    assert_eq!(falls, ["K-4", "K-5"]);
    assert_eq!(guide.both().map(|(placed, lacking)| placed + lacking), [10, 6]);
    let [(wide, wide_lacks), (warm, warm_lacks)] = guide.both();
    assert_eq!((wide + warm, wide_lacks + warm_lacks), (11, 5));
    assert_eq!(guide.density()[0], left, "what came out is out of the density of the next winter");
    assert_eq!(guide.stage("yard"), "cropping");
    let due = guide.soaks("yard");
    assert_eq!(due.iter().map(|(_, logs)| logs).sum::<i64>(), 22, "eleven logs go in twice: {due:?}");

    // Ten logs have been in the tank: they rest for eight weeks, and the eleventh is still due.
    let heads = "Date,Batch,What,Logs,To,Amount\n";
    let soaked = format!("{heads}2028-06-05,1,soaked,10,,12 hours\n");
    farm.write("yard/2028.csv", &soaked);
    let guide = Guide::of(&farm);
    let now = guide.soaks("yard");
    assert_eq!(now.iter().filter(|(day, _)| day.as_str() < "2028-07-31").map(|(_, logs)| logs).sum::<i64>(), 1);
    assert_eq!(now.iter().map(|(_, logs)| logs).sum::<i64>(), 12, "ten once more, and one twice: {now:?}");
    assert_eq!((guide.falls(), guide.order()), (falls.clone(), order.clone()));

    // A harvest, and the guests take theirs home.
    farm.write("harvests/2028.csv", "Date,Batch,Weight (lb)\n2028-06-14,1,3.5\n");
    farm.write("yard/2028.csv", &format!("{soaked}2028-07-01,2,given,6,,\n"));
    let guide = Guide::of(&farm);
    let picked = guide.rows("batches").iter().find(|row| row["batch"] == "yard").unwrap()["picked_so_far_lb"].clone();
    assert_eq!(picked.as_f64(), Some(3.5));
    assert_eq!(guide.yard("guests", ["filled", "in-the-yard", "given"]), [6, 0, 6]);
    assert_eq!((guide.stage("guests"), guide.soaks("guests")), ("gone".to_owned(), Vec::new()));
    assert_eq!((guide.falls(), guide.order()), (falls, order), "logs given away are not asked for again");

    // The second winter's maple, as planned, felled and filled; the one old log of oak goes with it.
    let (maple, more) = ("2028-02-25,4,felled", "2028-02-25,6,felled");
    let felled = [("K-1", first), ("K-2", first), ("K-3", second), ("K-8", third), ("K-4", maple), ("K-5", more)];
    farm.write("woodlot/knoll.csv", &walk(&felled));
    farm.write("lots/maple.yaml", "name: Maple\ntrees: [K-4, K-5]\n");
    farm.write(
        "batches/second.yaml",
        "strain: shiitake-wide-range\nspawn: sawdust\nlot: maple\ninoculated: '2028-03-25'\n",
    );
    let guide = Guide::of(&farm);
    assert_eq!(guide.both(), [(0, 0), (1, 5)]);
    assert_eq!(guide.falls().len(), 0);
    assert_eq!(guide.wood(2027, ["carried-over", "cut-here", "filled", "waiting"]), [1, 10, 10, 1]);
    assert_eq!(guide.stage("second"), "may-fruit");
    assert!(guide.density()[1] < left);

    // The first batch is spent and ends: its place in rota and yard is free, and every log is told.
    farm.write(
        "batches/yard.yaml",
        &format!("{SAWDUST}lots: [{{lot: oak, logs: 10}}]\nended: {{date: '2028-10-01', how: retired}}\n"),
    );
    let guide = Guide::of(&farm);
    assert_eq!(guide.yard("yard", ["filled", "added", "in-the-yard", "retired", "lost"]), [10, 2, 0, 11, 1]);
    assert_eq!((guide.stage("yard"), guide.soaks("yard")), ("gone".to_owned(), Vec::new()));
    assert_eq!(guide.both(), [(0, 0), (1, 5)], "spent logs were filled all the same");

    // The third season: no plan, no tree left to fell, one batch in the yard.
    farm.write("farm.yaml", &record(NORTH, 2028));
    let guide = Guide::published(&farm);
    assert_eq!((guide.both(), guide.order(), guide.falls().len()), ([(0, 0), (0, 0)], Vec::new(), 0));
    assert_eq!(guide.wood(2028, ["carried-over", "waiting"]), [1, 1]);
    assert_eq!(guide.yard("second", ["filled", "in-the-yard"]), [10, 10]);
    assert_eq!(guide.soaks("second").iter().map(|(_, logs)| logs).sum::<i64>(), 20);
    let ledger = guide.words("winter/ledger.html");
    assert!(ledger.contains("1 log waits to be filled, and 10 logs lie in the yard."), "{ledger}");
}

const SOUTH: &str = "{where: AU-TAS, latitude: -42.2, longitude: 147.1}";

#[test]
fn two_years_in_tasmania_where_the_winter_begins_in_february() {
    let farm = farm(SOUTH, "2026-04-10", [["05-15", "08-31"], ["09-01", "11-10"], ["11-20", "03-20"]]);
    let guide = Guide::published(&farm);
    let (order, [stood, left]) = (guide.order(), guide.density());
    assert_eq!((guide.both(), guide.falls().len()), ([(10, 0), (6, 0)], 3));
    assert_eq!(guide.calendar("fell").len(), 1);

    // Tops that came down in January belong to the winter before, and lie over.
    farm.write("lots/storm.yaml", "name: Storm oak\nwood: red-oak\nlogs: 2\nfrom: The lane\nfelled: 2026-01-20\n");
    let guide = Guide::of(&farm);
    assert_eq!(guide.wood(2025, ["brought-in", "waiting"]), [2, 2]);
    assert_eq!(guide.wood(2026, ["carried-over", "brought-in", "waiting"]), [2, 0, 2]);
    farm.write("lots/storm.yaml", "name: Storm oak\nwood: red-oak\nlogs: 2\nfrom: The lane\nfelled: 2026-02-01\n");
    assert_eq!(Guide::of(&farm).wood(2026, ["carried-over", "brought-in", "waiting"]), [0, 2, 2]);
    std::fs::remove_file(farm.path().join("lots/storm.yaml")).unwrap();

    // What the plan said is felled in August, and filled in September.
    let day = |logs: u32| format!("2026-08-10,{logs},felled");
    let (five, six) = (day(5), day(6));
    farm.write("woodlot/knoll.csv", &walk(&[("K-1", &five), ("K-2", &five), ("K-3", &six)]));
    farm.write("lots/oak.yaml", OAK);
    let guide = Guide::of(&farm);
    assert_eq!((guide.falls().len(), guide.both(), guide.order()), (0, [(10, 0), (6, 0)], order));
    assert_eq!((guide.density(), guide.wood(2026, ["cut-here", "waiting"])), ([stood, left], [16, 16]));
    let in_september = |record: &str, logs: u32| {
        let record = record.replace("2027-03", "2026-09");
        format!("{record}lots: [{{lot: oak, logs: {logs}}}]\n")
    };
    farm.write("batches/yard.yaml", &in_september(SAWDUST, 10));
    farm.write("batches/guests.yaml", &in_september(PLUGS, 6));
    let guide = Guide::published(&farm);
    assert_eq!((guide.both(), guide.order(), guide.falls().len()), ([(0, 0), (0, 0)], Vec::new(), 0));
    assert_eq!(guide.wood(2026, ["filled", "waiting"]), [16, 0]);

    // The next season begins in February: January's loss is of the old one, and the summer's soaks are of the new.
    farm.write("yard/2027.csv", "Date,Batch,What,Logs\n2027-01-20,1,log lost,1\n");
    farm.write("farm.yaml", &record(SOUTH, 2027));
    farm.write("plans/second.yaml", &plan(2027));
    let guide = Guide::of(&farm);
    assert_eq!(guide.yard("yard", ["filled", "in-the-yard", "lost"]), [10, 9, 1]);
    assert_eq!(guide.density()[0], left);
    assert_eq!(guide.both().map(|(placed, lacking)| placed + lacking), [10, 6]);
    let due = guide.soaks("yard");
    assert!(due.iter().all(|(day, _)| ("2027-11-20"..="2028-03-20").contains(&day.as_str())), "{due:?}");
    assert_eq!(due.iter().map(|(_, logs)| logs).sum::<i64>(), 18);
    farm.write(
        "batches/yard.yaml",
        &format!("{}ended: {{date: '2027-11-01', how: retired}}\n", in_september(SAWDUST, 10)),
    );
    let guide = Guide::published(&farm);
    assert_eq!(guide.yard("yard", ["filled", "in-the-yard", "retired", "lost"]), [10, 0, 9, 1]);
    assert_eq!(guide.soaks("yard"), Vec::new());
}

/// A tree that may fall: its wood, its diameter in inches, its logs by eye, and its height in feet or none.
type Marked = (bool, u32, u32, Option<u32>);

/// How a tree came down: its place among the marked ones, its day and the logs that it gave.
type Down = (usize, &'static str, u32);

const fn wood_of(tree: &Marked) -> &'static str {
    if tree.0 { "red-oak" } else { "sugar-maple" }
}

fn marked(height: impl Strategy<Value = Option<u32>>) -> impl Strategy<Value = Vec<Marked>> {
    proptest::collection::vec((any::<bool>(), 5u32..9, 2u32..7, height), 1..7)
}

fn sheet(trees: &[Marked], down: &[Down]) -> String {
    let head = "Tag,Wood,DBH (in),Logs,Height (ft),Decision,Felled,Logs cut\n".to_owned();
    trees.iter().enumerate().fold(head, |sheet, (place, tree)| {
        let end = down.iter().find(|(of, ..)| *of == place).map(|(_, day, logs)| format!("{day},{logs}"));
        let (wood, height) = (wood_of(tree), tree.3.map_or_else(String::new, |height| height.to_string()));
        let end = end.unwrap_or_else(|| ",".to_owned());
        sheet + &format!("T-{place},{wood},{},{},{height},fell,{end}\n", tree.1, tree.2)
    })
}

/// A farm whose plan wishes for so many logs of each of two strains; its trees grow in no stand that would hold them back.
fn wishing(trees: &[Marked], logs: [u32; 2]) -> Farm {
    let farm = farm(NORTH, "2026-09-10", [["11-15", "03-15"], ["03-20", "05-20"], ["05-24", "09-26"]]);
    std::fs::remove_dir_all(farm.path().join("woodlot")).unwrap();
    farm.write("plans/first.yaml", &plan_of(2026, logs));
    farm.write("woodlot/walk.csv", &sheet(trees, &[]));
    farm
}

fn findings(farm: &Farm) -> Findings {
    let files = folder::files(farm.path()).expect("the farm's folder is read");
    let book = Arc::new(book::bind(files).unwrap_or_else(|faults| panic!("{faults:?}")));
    Findings::of(&book, Choice::of(&book))
}

/// What is asked of a farm: of each wish the logs by wood and those that it lacks, the trees that fall, and the spawn to buy.
#[derive(Debug, PartialEq)]
struct Asked {
    wishes: Vec<(BTreeMap<String, u32>, u32)>,
    falls: Vec<usize>,
    spawn: Vec<u64>,
}

impl Asked {
    fn of(findings: &Findings) -> Self {
        let winter = findings.winter();
        let wishes = winter.wishes.iter().map(|wish| {
            let placed = wish.placed.iter().map(|placed| (placed.wood.id.clone(), placed.logs)).collect();
            (placed, wish.short.as_ref().map_or(0, |short| short.logs))
        });
        let spawn = winter.wishes.iter().map(|wish| {
            let of =
                findings.purchases().iter().filter(|of| of.strain.as_ref().is_some_and(|id| id.id == wish.strain.id));
            of.map(|of| of.need.as_ref().unwrap().whole()).sum()
        });
        let falls = findings.trees().iter().enumerate().filter(|(_, tree)| winter.falls(tree.tree.tag()));
        Self { wishes: wishes.collect(), spawn: spawn.collect(), falls: falls.map(|(place, _)| place).collect() }
    }

    fn placed(&self, wish: usize) -> u32 {
        self.wishes[wish].0.values().sum()
    }

    fn lacking(&self) -> u32 {
        self.wishes.iter().map(|(_, lacking)| lacking).sum()
    }
}

const STRAINS: [(&str, SpawnForm); 2] =
    [("shiitake-wide-range", SpawnForm::Sawdust), ("shiitake-warm", SpawnForm::Plug)];

/// By how many of the smallest parts of a gram products of rounded weights may differ.
const ROUNDED: u64 = 1000;

fn batch(wish: usize, end: &str) -> String {
    let (strain, form) = STRAINS[wish];
    format!("strain: {strain}\nspawn: {}\ninoculated: '2027-03-25'\n{end}", form.id())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 6, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn recording_what_the_plan_said_leaves_the_rest_of_it_as_it_was(
        trees in marked(proptest::option::of(38u32..60)), wanted in [1u32..16, 1u32..16], done in 0usize..3, oak in any::<bool>(),
    ) {
        let farm = wishing(&trees, wanted);
        let found = findings(&farm);
        let planned = Asked::of(&found);
        // The trees of one wood, or of both, come down as the plan has it and lie as one pile each.
        let logs: Vec<u32> = found.trees().iter().map(TreeFinding::logs).collect();
        let woods: &[&str] = if done < 2 { &["red-oak", "sugar-maple"] } else if oak { &["red-oak"] } else { &["sugar-maple"] };
        let is_down = |place: &&usize| woods.contains(&wood_of(&trees[**place]));
        let down: Vec<Down> =
            planned.falls.iter().filter(is_down).map(|place| (*place, "2027-02-25", logs[*place])).collect();
        farm.write("woodlot/walk.csv", &sheet(&trees, &down));
        for wood in woods {
            let tags: Vec<String> = (down.iter())
                .filter(|(place, ..)| wood_of(&trees[*place]) == *wood)
                .map(|(place, ..)| format!("T-{place}"))
                .collect();
            if !tags.is_empty() {
                farm.write(&format!("lots/{wood}.yaml"), &format!("name: Pile\ntrees: [{}]\n", tags.join(", ")));
            }
        }
        let felled = Asked::of(&findings(&farm));
        if done < 2 {
            prop_assert_eq!(&felled.wishes, &planned.wishes);
            prop_assert_eq!(&felled.spawn, &planned.spawn);
        }
        // Logs that lie go before logs that stand, so that of a felled wood one more may be used than was planned.
        for wish in 0..2 {
            prop_assert_eq!(felled.placed(wish), planned.placed(wish));
            prop_assert_eq!(felled.wishes[wish].1, planned.wishes[wish].1);
        }
        let left: Vec<usize> = planned.falls.iter().filter(|place| !is_down(place)).copied().collect();
        prop_assert_eq!(&felled.falls, &left);
        // One wish is made as the plan has it: the other is as it was, and the one lacks what it lacked.
        if done < 2 {
            for (wood, logs) in &planned.wishes[done].0 {
                let lot = format!("lots: [{{lot: {wood}, logs: {logs}}}]\n");
                farm.write(&format!("batches/{wood}.yaml"), &batch(done, &lot));
            }
            let filled = Asked::of(&findings(&farm));
            prop_assert_eq!(&filled.wishes[1 - done], &planned.wishes[1 - done]);
            prop_assert_eq!(filled.spawn[1 - done], planned.spawn[1 - done]);
            prop_assert_eq!(&filled.wishes[done], &(BTreeMap::new(), planned.wishes[done].1));
            prop_assert_eq!(filled.spawn[done], 0);
            prop_assert_eq!(&filled.falls, &felled.falls);
        }
    }

    #[test]
    fn recording_raises_what_is_missing_or_bought_by_a_recorded_shortfall_alone(
        trees in marked(Just(None)), wanted in [1u32..16, 1u32..16],
        less in proptest::collection::vec(0u32..3, 7), lines in proptest::collection::vec((0usize..2, 1u32..8, 0u32..5), 0..3),
    ) {
        let farm = wishing(&trees, wanted);
        let planned = Asked::of(&findings(&farm));
        let has: u32 = trees.iter().map(|tree| tree.2).sum();
        let all: u32 = wanted.iter().sum();
        prop_assert_eq!(planned.lacking(), all.saturating_sub(has));
        // The trees that fall come down, some with fewer logs than were counted in them.
        let down: Vec<Down> =
            planned.falls.iter().map(|place| (*place, "2027-02-25", trees[*place].2 - less[*place].min(2))).collect();
        let shortfall: u32 = planned.falls.iter().map(|place| less[*place].min(2)).sum();
        farm.write("woodlot/walk.csv", &sheet(&trees, &down));
        let asked = Asked::of(&findings(&farm));
        prop_assert_eq!(asked.lacking(), all.saturating_sub(has - shortfall));
        let page = farm.drawn("winter/planning.html");
        prop_assert_eq!(page.contains("Fell short this winter"), shortfall > 0, "{}", page);
        // Batches are filled: what is still asked for is what was wished for, less what they made; one in five fails.
        let mut pile: BTreeMap<&str, u32> = BTreeMap::new();
        for (place, _, logs) in &down {
            *pile.entry(wood_of(&trees[*place])).or_default() += logs;
        }
        let (mut left, mut made) = (wanted, 0);
        for (at, (wish, logs, ends)) in lines.iter().enumerate() {
            let Some((wood, holds)) = pile.iter_mut().find(|(_, holds)| **holds > 0) else { break };
            let logs = (*logs).min(*holds);
            *holds -= logs;
            let tags: Vec<String> = (down.iter())
                .filter(|(place, ..)| wood_of(&trees[*place]) == *wood)
                .map(|(place, ..)| format!("T-{place}"))
                .collect();
            let failed = *ends == 0;
            let end = if failed { "ended: {date: '2027-07-01', how: spawn-failed}\n" } else { "" };
            let from = format!("trees: [{}]\nlogs: {logs}\n{end}", tags.join(", "));
            farm.write(&format!("batches/b-{at}.yaml"), &batch(*wish, &from));
            left[*wish] = left[*wish].saturating_sub(if failed { 0 } else { logs });
            made += logs;
            let now = Asked::of(&findings(&farm));
            for wish in 0..2 {
                prop_assert_eq!(now.placed(wish) + now.wishes[wish].1, left[wish], "{:?}", now);
                let [before, after] = [&planned, &now].map(|of| (of.spawn[wish], u64::from(of.placed(wish))));
                let apart = (before.0 * after.1).abs_diff(after.0 * before.1);
                prop_assert!(apart <= ROUNDED, "{:?} {:?}", planned, now);
            }
            let still: u32 = left.iter().sum();
            prop_assert_eq!(now.lacking(), still.saturating_sub(has - shortfall - made));
        }
    }
    #[test]
    fn felling_never_makes_a_stand_denser(
        down in Just((0..STEMS.len()).collect::<Vec<usize>>()).prop_shuffle(),
        ends in proptest::collection::vec(0usize..ENDS.len(), STEMS.len()), season in 2026i16..2028, at_a_time in 2usize..5,
    ) {
        let farm = farm(NORTH, "2026-09-10", [["11-15", "03-15"], ["03-20", "05-20"], ["05-24", "09-26"]]);
        farm.write("farm.yaml", &record(NORTH, season));
        let dense = |down: &[usize]| -> [f64; 2] {
            let down: Vec<(&str, &str)> = down.iter().map(|place| (STEMS[*place].0, ENDS[ends[*place]])).collect();
            farm.write("woodlot/knoll.csv", &walk(&down));
            let found = findings(&farm);
            let measured = &found.stands()[0].measured;
            [&measured.density, &measured.now].map(|of| of.as_ref().unwrap().basal_area.square_feet_an_acre())
        };
        let mut before = dense(&[]);
        for number in (at_a_time..=down.len()).step_by(at_a_time) {
            let after = dense(&down[..number]);
            prop_assert!(after[0] <= before[0] && after[1] <= before[1], "{:?} after {:?}", after, before);
            prop_assert!(after[1] <= after[0]);
            before = after;
        }
    }

    #[test]
    fn both_balances_are_the_same_in_any_order_of_lines(
        day_book in Just(DAY_BOOK.to_vec()).prop_shuffle(), rows in Just(STEMS.to_vec()).prop_shuffle(),
        gone in Just(GONE.to_vec()).prop_shuffle(), turned in any::<bool>(),
    ) {
        let farm = farm(NORTH, "2026-09-10", [["11-15", "03-15"], ["03-20", "05-20"], ["05-24", "09-26"]]);
        farm.write("farm.yaml", &record(NORTH, 2027));
        let write = |day_book: &[&str], rows: &[Stem], gone: &[&str], turned: bool| {
            let end = |tag: &str| if matches!(tag, "K-1" | "K-2" | "K-3" | "K-8") { "2027-02-22,4,felled" } else { ",," };
            let row = |(tag, wood, dbh, logs, decision): &Stem| format!("{tag},{wood},{dbh},{logs},{decision},,{}\n", end(tag));
            farm.write("woodlot/knoll.csv", &rows.iter().map(row).fold(WALK.to_owned(), |sheet, row| sheet + &row));
            let trees = if turned { "K-3, K-1, K-2" } else { "K-1, K-2, K-3" };
            farm.write("lots/oak.yaml", &format!("name: Oak\ntrees: [{trees}]\ngone: [{}]\n", gone.join(", ")));
            farm.write("lots/more.yaml", "name: More\ntrees: [K-8]\n");
            let mut lots = ["{lot: oak, logs: 6}", "{lot: more, logs: 2}"];
            if turned {
                lots.reverse();
            }
            farm.write("batches/yard.yaml", &format!("{SAWDUST}lots: [{}]\n", lots.join(", ")));
            farm.write("yard/all.csv", &format!("Date,Batch,What,Logs\n{}\n", day_book.join("\n")));
            let rows = Guide(Reckoned::of(farm.path())).rows("ledger");
            holds(&rows);
            rows
        };
        let straight = write(&DAY_BOOK, &STEMS, &GONE, false);
        prop_assert_eq!(write(&day_book, &rows, &gone, turned), straight);
    }
}

/// How a tree came down: before the count, in the winter of it, in the next, on an unknown day; for logs or otherwise.
const ENDS: [&str; 7] = [
    "2026-08-20,4,felled",
    "2026-11-20,4,felled",
    "2027-02-25,,timber",
    "2027-11-25,0,firewood",
    ",,blew-down",
    ",,died",
    ",,by-others",
];

const DAY_BOOK: [&str; 7] = [
    "2027-05-01,1,added,2",
    "2027-05-01,1,log lost,1",
    "2027-06-01,1,sold,2",
    "2027-07-01,1,counted,6",
    "2027-07-01,1,given,1",
    "2028-05-01,1,added,3",
    "2028-06-01,1,retired,4",
];

const GONE: [&str; 3] = [
    "{date: '2027-03-01', how: not-used, logs: 1}",
    "{date: '2027-03-01', how: sold, logs: 1}",
    "{date: '2027-09-01', how: cut-into, logs: 1}",
];
