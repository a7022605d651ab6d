//! The yard: the soak rota, first mushrooms, yields year by year, the day book, harvests, troubles.

use serde_json::Value;

use crate::harness::{Farm, code, demo_guide, files, table};

const FARM: &str = "name: Yard\nplace: {latitude: 44, longitude: -72}\nseason: 2025\nunits: us\ngrows: [shiitake]\nwoods: [red-oak, sugar-maple]\n";
const STRAIN: &str = "name: Our line\nmushroom: shiitake\nclass: wide-range\nspawn: [sawdust]\n";
const SEASON: &str =
    "name: Our soaking season\nkind: soak\nfrom: '05-18'\nto: '10-11'\nsays: Ours.\nsource: common-practice\n";

fn batch(logs: u32, inoculated: &str) -> String {
    format!("strain: line\nwood: red-oak\nlogs: {logs}\ninoculated: '{inoculated}'\n")
}

/// A farm that soaks, with one batch.
fn yard(soak: &str, logs: u32, inoculated: &str, more: &[(&str, &str)]) -> Farm {
    let farm = Farm::with(&[("strains/line.yaml", STRAIN), ("seasons/soak.yaml", SEASON)]);
    farm.write("farm.yaml", &format!("{FARM}soak: {{{soak}}}\n"));
    farm.write("batches/b.yaml", &batch(logs, inoculated));
    for (path, text) in more {
        farm.write(path, text);
    }
    farm
}

fn number(row: &Value, key: &str) -> f64 {
    row[key].as_f64().unwrap_or_else(|| panic!("{key} of {row}"))
}

fn whole(row: &Value, key: &str) -> u64 {
    row[key].as_u64().unwrap_or_else(|| panic!("{key} of {row}"))
}

fn rota(farm: &Farm) -> Vec<(String, u64, u64)> {
    let rows = table("soak-rota", farm.path(), &[]);
    let columns: Vec<&String> = rows[0].as_object().unwrap().keys().collect();
    assert_eq!(columns[..4], ["date", "group", "logs", "strain"]);
    rows.iter().map(|row| (row["date"].as_str().unwrap().to_owned(), whole(row, "group"), whole(row, "logs"))).collect()
}

#[test]
fn a_hundred_and_eight_logs_in_nine_weeks_are_twelve_a_week() {
    // WE-01, UK-85: nine groups of twelve, and the first group again in week 10. The farm names no cycle.
    let farm = yard("tank: 20", 108, "2024-04-20", &[]);
    let turns = rota(&farm);
    assert!(turns.iter().all(|(_, _, logs)| *logs == 12));
    assert_eq!((turns[0].0.as_str(), turns[9].0.as_str()), ("2026-05-18", "2026-07-20"));
    assert_eq!((turns[0].1, turns[8].1, turns[9].1), (1, 9, 1));
}

#[test]
fn a_hundred_logs_in_eight_groups_over_twenty_one_weeks_as_worked_out_by_hand() {
    // Own arithmetic of the reference: 18 May to 11 October 2026, 264 soaks of logs.
    let turns = rota(&yard("every: 8 weeks", 100, "2024-04-20", &[]));
    assert_eq!(turns.len(), 21);
    let logs: Vec<u64> = turns.iter().map(|(_, _, logs)| *logs).collect();
    assert_eq!(logs[..8], [13, 13, 13, 13, 12, 12, 12, 12]);
    assert_eq!(logs.iter().sum::<u64>(), 264);
}

#[test]
fn a_log_is_not_soaked_more_often_than_the_farm_says() {
    let turns = rota(&yard("every: 8 weeks, soaks: 2", 16, "2024-04-20", &[]));
    assert_eq!(turns.iter().map(|(_, _, logs)| logs).sum::<u64>(), 32);
}

#[test]
fn a_flush_that_came_by_itself_counts_as_a_soak() {
    let first = |more: &[(&str, &str)]| rota(&yard("every: 8 weeks", 16, "2024-04-20", more))[0].0.clone();
    assert_eq!(first(&[]), "2026-05-18");
    // Eight weeks from 4 May end on 29 June; the next soak day is the 29th.
    let fruited = "date,batch,what,amount\n2026-05-04,b,fruited,8\n";
    assert_eq!(first(&[("yard/2026.csv", fruited)]), "2026-06-29");
    // A few mushrooms are no flush, by the Cornell guide.
    assert_eq!(first(&[("yard/2026.csv", "date,batch,what,amount\n2026-05-04,b,fruited,3\n")]), "2026-05-18");
    // A harvest that nothing explains is the flush of as many logs as it can have come from, at 1 lb a log and flush.
    assert_eq!(first(&[("harvests/2026.csv", "date,batch,weight\n2026-05-04,b,16 lb\n")]), "2026-06-29");
    assert_eq!(first(&[("harvests/2026.csv", "date,batch,weight\n2026-05-04,b,3 lb\n")]), "2026-05-18");
    let few = [
        ("yard/2026.csv", "date,batch,what,amount\n2026-05-04,b,fruited,3\n"),
        ("harvests/2026.csv", "date,batch,weight\n2026-05-04,b,16 lb\n"),
    ];
    assert_eq!(first(&few), "2026-05-18", "the day book knows better than the harvest");
}

#[test]
fn soaks_that_are_over_count_against_the_most_of_a_season() {
    let soaked = "date,batch,what,logs\n2026-05-18,b,soaked,8\n";
    let farm = yard("every: 4 weeks, soaks: 1", 8, "2024-04-20", &[("yard/2026.csv", soaked)]);
    assert!(table("soak-rota", farm.path(), &[]).is_empty());
}

#[test]
fn a_soaking_season_of_late_summer_and_several_seasons_lie_in_the_growing_year() {
    let season = |from: &str, to: &str| SEASON.replace("05-18", from).replace("10-11", to);
    let farm = yard("every: 4 weeks", 8, "2024-04-20", &[("seasons/soak.yaml", &season("08-05", "10-10"))]);
    assert_eq!(rota(&farm)[0].0, "2026-08-05");
    farm.write("seasons/spring.yaml", &season("05-01", "06-20"));
    let turns = rota(&farm);
    let within = |from: &str, to: &str| turns.iter().filter(|(day, ..)| (from..=to).contains(&day.as_str())).count();
    assert!(within("2026-05-01", "2026-06-20") > 0 && within("2026-08-05", "2026-10-10") > 0);
    assert_eq!(within("2026-06-21", "2026-08-04"), 0);
}

#[test]
fn a_rota_should_give_no_more_than_the_logs_still_hold() {
    let farm = yard("every: 1 week", 10, "2024-04-20", &[]);
    let page = farm.drawn("yard/soak-rota.html");
    // 21 weeks × 10 logs × 1 lb would be 210 lb; no source gives ten logs more than 53 lb in a year.
    assert!(
        page.contains("no more than the year and the published lives still hold") && !page.contains("210 lb"),
        "{page}"
    );
}

#[test]
fn a_season_before_a_batch_knows_nothing_of_it_yet() {
    let farm = yard(
        "every: 8 weeks",
        10,
        "2026-04-20",
        &[("yard/2026.csv", "date,batch,what,logs\n2026-06-01,b,log lost,2\n")],
    );
    farm.write("farm.yaml", &FARM.replace("2025", "2026"));
    assert_eq!(table("batches", farm.path(), &[])[0]["lost"], 2);
    let output = crate::harness::run(farm.path(), &["publish", ".", "--season", "2023"]);
    assert_eq!(code(&output), 0);
    let page = farm.page("yard/batches/b.html");
    assert!(page.contains("it is not inoculated yet") && page.contains("10 of 10"));
}

#[test]
fn what_the_day_book_says_was_soaked_waits_for_its_rest_and_the_rota_goes_on_from_there() {
    let soaked = "date,batch,what,logs\n2026-05-18,b,soaked,8\n2026-05-25,b,soaked,8\n";
    let turns = rota(&yard("every: 8 weeks", 24, "2024-04-20", &[("yard/2026.csv", soaked)]));
    assert_eq!(turns[0].0, "2026-06-01");
    let before: u64 = turns.iter().filter(|(date, ..)| date.as_str() < "2026-07-13").map(|(_, _, logs)| logs).sum();
    assert_eq!(before, 8, "the eight logs that were not soaked yet");
}

/// The days of a rota, and how many logs go in on each.
fn days(farm: &Farm) -> Vec<(String, u64)> {
    let mut days: Vec<(String, u64)> = Vec::new();
    for (date, _, logs) in rota(farm) {
        match days.last_mut().filter(|(last, _)| *last == date) {
            Some((_, all)) => *all += logs,
            None => days.push((date, logs)),
        }
    }
    days
}

#[test]
fn a_week_goes_into_the_tank_load_after_load_and_a_recorded_load_moves_the_next() {
    let soak = "every: 8 weeks, tank: 8, hours: 12 hours";
    let farm = yard(soak, 152, "2024-04-20", &[]);
    farm.write("batches/c.yaml", &batch(8, "2024-04-20"));
    assert_eq!(
        days(&farm)[..4],
        [("2026-05-18", 8), ("2026-05-19", 8), ("2026-05-20", 4), ("2026-05-25", 8)]
            .map(|(day, n)| (day.to_owned(), n))
    );
    assert!(!farm.drawn("yard/soak-rota.html").contains("What would do"));
    farm.write("yard/2026.csv", "date,batch,what,logs\n2026-05-18,b,soaked,8\n");
    assert_eq!(
        days(&farm)[..3],
        [("2026-05-19", 8), ("2026-05-20", 4), ("2026-05-25", 8)].map(|(day, n)| (day.to_owned(), n))
    );
    farm.write("yard/2026.csv", "date,batch,what,logs\n2026-05-18,b,soaked,8\n2026-05-20,b,soaked,12\n");
    assert_eq!(days(&farm)[0], ("2026-05-25".to_owned(), 8));
    let again = rota(&farm).iter().map(|(date, ..)| date.clone()).find(|date| date.as_str() >= "2026-07-13");
    assert_eq!(again.as_deref(), Some("2026-07-13"), "eight weeks after the first load");
}

#[test]
fn more_logs_than_the_tank_takes_in_a_week_are_said_with_what_would_take_them() {
    let page = |soak: &str, logs: u32| yard(soak, logs, "2024-04-20", &[]).drawn("yard/soak-rota.html");
    let twice = page("every: 1 week, tank: 8, hours: 12 hours", 60);
    assert!(twice.contains("60 logs have their turn, and the tank takes 56 a week"), "{twice}");
    assert!(twice.contains("2 loads a day, or a tank for 9 logs, or 2 tanks like this one"), "{twice}");
    let many = page("every: 1 week, tank: 20, hours: 12 hours", 1640);
    assert!(many.contains("a tank for 235 logs, or 12 tanks like this one") && !many.contains("loads a day"), "{many}");
    let long = page("every: 1 week, tank: 8, hours: 48 hours", 25);
    assert!(long.contains("takes 24 a week: 3 loads of 8, each 48 hours long"), "{long}");
    assert!(!page("every: 1 week, tank: 8, hours: 12 hours", 56).contains("What would do"));
}

#[test]
fn ended_and_spent_batches_and_logs_that_no_tank_takes_are_out_of_the_rota() {
    let farm = yard("every: 1 week, tank: 100", 10, "2024-04-20", &[]);
    farm.write("batches/spent.yaml", &batch(20, "2012-04-20"));
    farm.write("batches/sold.yaml", &format!("{}ended: {{date: '2026-04-01', how: sold}}\n", batch(30, "2024-04-20")));
    farm.write("batches/totems.yaml", &format!("{}way: totem\n", batch(5, "2024-04-20")));
    assert!(days(&farm).iter().all(|(_, logs)| *logs == 10), "{:?}", days(&farm));
    let page = farm.drawn("yard/soak-rota.html");
    assert!(page.contains("Past every published life") && page.contains("batches/spent.html"), "{page}");
}

#[test]
fn a_yard_soaks_in_its_own_tank_and_the_others_share_the_farms() {
    let farm = yard("every: 8 weeks", 40, "2024-04-20", &[]);
    let yards = "yards:\n  - {name: Hollow, tank: 2}\n  - {name: Barn}\n";
    farm.write("farm.yaml", &format!("{FARM}soak: {{every: 8 weeks, tank: 5, hours: 12 hours}}\n{yards}"));
    farm.write("batches/c.yaml", &format!("{}yard: Barn\n", batch(40, "2024-04-20")));
    let rows = table("soak-rota", farm.path(), &[]);
    let of = |tank: Value| {
        let rows = rows.iter().filter(|row| row["tank"] == tank && row["week"] == 1);
        rows.map(|row| (row["date"].as_str().unwrap(), whole(row, "logs"))).collect::<Vec<_>>()
    };
    assert_eq!(of("Hollow".into()), [("2026-05-18", 2), ("2026-05-19", 2), ("2026-05-20", 1)]);
    assert_eq!(of(Value::Null), [("2026-05-18", 5)]);
    assert!(farm.drawn("yard/soak-rota.html").contains("that of Hollow holds 2 logs"));
    // Moved to the barn, the batch shares the farm's tank from then on.
    farm.write("yard/2026.csv", "date,batch,what,to\n2026-04-01,b,moved,Barn\n");
    assert!(table("soak-rota", farm.path(), &[]).iter().all(|row| row["tank"].is_null()));
}

#[test]
fn the_fullest_week_of_the_demo_farm_fits_its_tank() {
    let rows: Vec<Value> = serde_json::from_slice(&files(demo_guide())["tables/soak-rota.json"]).unwrap();
    let day = |date: &str| rows.iter().filter(|row| row["date"] == date).map(|row| whole(row, "logs")).sum::<u64>();
    assert!(rows.len() > 10 && rows.iter().all(|row| day(row["date"].as_str().unwrap()) <= 8));
}

#[test]
fn only_strains_that_answer_to_soaking_and_logs_over_a_year_in_take_part() {
    let young = yard("every: 8 weeks", 16, "2025-11-01", &[]);
    assert!(table("soak-rota", young.path(), &[]).is_empty());
    let spring = rota(&yard("every: 8 weeks", 16, "2025-06-20", &[]));
    assert!(spring[0].0.as_str() >= "2026-06-20", "{spring:?}");
    for strain in ["name: Cool\nmushroom: shiitake\nclass: cold\n", "name: N\nmushroom: nameko\n"] {
        let farm = yard("every: 8 weeks", 16, "2024-04-20", &[("strains/line.yaml", strain)]);
        assert!(table("soak-rota", farm.path(), &[]).is_empty());
        assert!(farm.drawn("yard/soak-rota.html").contains("Nothing says that soaking brings"));
    }
}

#[test]
fn a_farm_that_writes_nothing_of_soaking_gets_no_rota_and_is_told_how() {
    let farm = Farm::with(&[("strains/line.yaml", STRAIN)]);
    farm.write("farm.yaml", FARM);
    farm.write("batches/b.yaml", &batch(16, "2024-04-20"));
    assert!(table("soak-rota", farm.path(), &[]).is_empty());
    assert!(farm.drawn("yard/soak-rota.html").contains("has written nothing of soaking"));
}

#[test]
fn without_a_season_of_its_own_a_farm_soaks_while_the_air_suits_the_strain() {
    let farm = yard("every: 8 weeks", 16, "2024-04-20", &[]);
    std::fs::remove_file(farm.path().join("seasons/soak.yaml")).unwrap();
    assert!(table("soak-rota", farm.path(), &[]).is_empty());
    let means = "climate:\n  monthly_means: [-7 C, -6 C, 0 C, 6 C, 13 C, 17 C, 20 C, 19 C, 15 C, 9 C, 3 C, -3 C]\n";
    farm.write("farm.yaml", &format!("{FARM}soak: {{every: 8 weeks}}\n{means}"));
    let turns = rota(&farm);
    assert!(turns[0].0.as_str() > "2026-04-15" && turns[0].0.as_str() < "2026-06-01", "{turns:?}");
}

#[test]
fn first_mushrooms_come_when_each_source_says() {
    // WE-03, UK-83: 6 to 12 months; logs of March often that autumn, logs of November the next.
    let strain = format!("{STRAIN}spawn_run:\n  - range: [6 months, 12 months]\n    source: uk-83\n");
    let farm = yard("every: 8 weeks", 10, "2025-03-15", &[("strains/line.yaml", &strain)]);
    farm.write("batches/autumn.yaml", &batch(10, "2024-11-01"));
    let rows = table("batches", farm.path(), &[]);
    let span = |batch: &str| {
        let row = rows.iter().find(|row| row["batch"] == batch).unwrap();
        ["first_from", "first_to"].map(|key| row[key].as_str().unwrap().to_owned())
    };
    assert_eq!(span("b"), ["2025-09-14", "2026-03-15"]);
    assert_eq!(span("autumn"), ["2025-05-03", "2025-11-01"]);
}

#[test]
fn a_life_is_spread_over_its_years_as_the_bulletin_says() {
    // WE-20, MD-11: of 4 lb in four years, 0.67, 1.33, 1.33 and 0.67 lb.
    let shiitake = "log_yields:\n  - a_log: [4 lb, 4 lb]\n    over: life\n    years: [4, 4]\n    source: md-11\nweight_yields: ~\n";
    let farm = yard("every: 8 weeks", 100, "2024-04-20", &[("mushrooms/shiitake.yaml", shiitake)]);
    let rows = table("yields", farm.path(), &[]);
    let pounds: Vec<f64> = rows
        .iter()
        .filter(|row| row["crop_year"].is_number())
        .map(|row| {
            assert_eq!(row["expected_least_lb"], row["expected_most_lb"]);
            number(row, "expected_most_lb")
        })
        .collect();
    let wanted = [66.67, 133.33, 133.33, 66.67];
    assert_eq!(pounds.len(), wanted.len());
    assert!(pounds.iter().zip(wanted).all(|(pounds, wanted)| (pounds - wanted).abs() < 0.005), "{pounds:?}");
    assert_eq!(rows[0]["year"], 2024);
    assert!(rows[0]["crop_year"].is_null());
}

#[test]
fn a_heavier_log_should_give_more_where_the_source_counts_its_weight() {
    let shiitake = "log_yields:\n  - a_log: [1 g, 1 g]\n    over: life\n    years: [4, 4]\n    source: md-11\n";
    let most = |diameter: &str| {
        let farm = yard("every: 8 weeks", 1, "2024-04-20", &[("mushrooms/shiitake.yaml", shiitake)]);
        farm.write("batches/b.yaml", &format!("{}diameter: [{diameter}, {diameter}]\n", batch(1, "2024-04-20")));
        let rows = table("yields", farm.path(), &["--units", "metric"]);
        rows.iter().filter_map(|row| row["expected_most_kg"].as_f64()).sum::<f64>()
    };
    // LEA82: up to 35 % of the fresh log. A red oak log of 6 in × 40 in weighs 43.7 lb (worked value), one of 4 in × 40 in
    // four ninths of that.
    let kilograms = 43.7 * 0.453_592_37;
    assert!((most("6 in") / (0.35 * kilograms) - 1.0).abs() < 0.01, "{}", most("6 in"));
    assert!((most("4 in") / (0.35 * kilograms * 4.0 / 9.0) - 1.0).abs() < 0.01, "{}", most("4 in"));
}

#[test]
fn harvests_losses_and_weighings_reach_the_batches() {
    let book =
        "date,batch,what,logs,log,amount,note\n2025-06-01,b,log lost,2,,,rotten\n2025-07-01,b,weighed,,L-1,20 lb,\n";
    let harvests =
        "Date,Batch,Batches,Weight (lb),Note\n2025-09-01,b,,4,\n2025-09-08,,b + c,6,one crate\n2026-06-01,b,,5,\n";
    let farm = yard("every: 8 weeks", 10, "2024-04-20", &[("yard/book.csv", book), ("harvests/all.csv", harvests)]);
    farm.write(
        "batches/b.yaml",
        &format!("{}samples:\n  - label: L-1\n    at_inoculation: 25 lb\n", batch(10, "2024-04-20")),
    );
    farm.write("batches/c.yaml", &batch(20, "2024-04-20"));
    let rows = table("batches", farm.path(), &[]);
    let of = |id: &str| rows.iter().find(|row| row["batch"] == id).unwrap().clone();
    assert_eq!((&of("b")["lost"], &of("b")["picked_so_far_lb"]), (&2.into(), &11.0.into()));
    assert_eq!(of("c")["picked_so_far_lb"], 4.0);
    assert_eq!(of("b")["stage"], "cropping");
    assert_eq!(of("b")["crop_year"], 2, "2026 is the year after the first harvest");
    let moisture = table("moisture", farm.path(), &[]);
    assert!(moisture.iter().any(|row| row["batch"] == "b" && row.to_string().contains("2025-07-01")), "{moisture:?}");
    assert_eq!(table("harvests", farm.path(), &[]).len(), 3);
    let page = farm.drawn("yard/batches/b.html");
    assert!(page.contains("8 of 10") && page.contains("rotten"));
    assert!(page.contains("one crate") && farm.drawn("yard/harvests/2025.html").contains("one crate"));
}

#[test]
fn an_ended_batch_lists_no_year_after_its_end() {
    let years = |more: &str, diary: &str| {
        let record = format!("strain: shiitake-cold\nwood: red-oak\nlogs: 8\ninoculated: '2021-04-20'\n{more}");
        let farm = Farm::with(&[("batches/a.yaml", &record), ("yard/2023.csv", diary)]);
        let page = farm.drawn("yard/batches/a.html");
        let has = |year: &u16| page.contains(&format!("<th scope=\"row\">{year}<br>"));
        (2020..2030).filter(has).collect::<Vec<u16>>()
    };
    let none = "date,batch,what,logs\n";
    assert!(years("", none).contains(&2026), "a living batch is followed");
    assert_eq!(years("ended: {date: '2023-11-20', how: retired}\n", none), [2021, 2022, 2023]);
    assert_eq!(years("", &format!("{none}2023-11-20,a,retired,8\n")), [2021, 2022, 2023], "log by log");
}

#[test]
fn totems_stumps_and_beds_are_called_by_their_names() {
    let record = |way: &str| format!("strain: shiitake-cold\nwood: red-oak\nway: {way}\ninoculated: '2025-04-20'\n");
    let farm = Farm::with(&[
        ("batches/a.yaml", &format!("{}logs: 6\n", record("totem"))),
        ("batches/b.yaml", &format!("{}logs: 3\n", record("stump"))),
        ("batches/c.yaml", &record("chip-bed")),
        ("yard/2026.csv", "date,batch,what,logs\n2026-06-01,a,log-lost,1\n"),
    ]);
    let page = |batch: &str| farm.drawn(&format!("yard/batches/{batch}.html"));
    let totems = page("a");
    assert!(totems.contains("5 of 6 totems left") && totems.contains(", 1 totem"), "{totems}");
    assert!(!totems.contains("6 logs") && totems.contains(">Totems</th>"));
    assert!(page("b").contains("<dd>3 stumps</dd>") && page("b").contains(">Stumps</th>"));
    assert!(!page("c").contains(">Logs</th>") && !page("c").contains("0 of 0"));
    let list = farm.drawn("yard/batches.html");
    assert!(
        list.contains("3 living batches with 5 totems and 3 stumps") && list.contains("5 of 6 totems left"),
        "{list}"
    );
}

#[test]
fn a_batch_past_every_published_life_is_shown_where_logs_are_retired() {
    let farm = yard("every: 8 weeks", 10, "2015-04-20", &[]);
    assert_eq!(table("batches", farm.path(), &[])[0]["stage"], "old");
    assert!(farm.drawn("yard/retiring.html").contains("past every published life"));
}

#[test]
fn troubles_stand_by_what_is_seen_and_every_batch_leads_to_them() {
    let guide = files(demo_guide());
    let page = |path: &str| String::from_utf8(guide[path].clone()).unwrap();
    let trouble = page("yard/trouble.html");
    let rows: Vec<Value> = serde_json::from_slice(&guide["tables/troubles.json"]).unwrap();
    assert!(rows.len() >= 25, "{} troubles", rows.len());
    for row in &rows {
        let own = format!("troubles/{}.html", row["trouble"].as_str().unwrap());
        assert!(trouble.contains(&format!("href=\"../{own}\"")) && page(&own).contains("What to do"), "{own}");
        assert!(!row["sources"].as_str().unwrap().is_empty());
    }
    let batches: Vec<&String> = guide.keys().filter(|path| path.starts_with("yard/batches/")).collect();
    assert!(batches.len() > 10);
    assert!(batches.iter().all(|path| page(path).contains("trouble.html")));
}

#[test]
fn picking_selling_retiring_and_the_yard_have_their_pages() {
    let guide = files(demo_guide());
    let page = |path: &str| String::from_utf8(guide[path].clone()).unwrap();
    let selling = page("yard/picking-and-selling.html");
    for words in ["21 CFR 112", "Food Code", "rim is still curled", "holes", "label"] {
        assert!(selling.contains(words), "{words}");
    }
    assert!(page("yard/retiring.html").contains("firewood"));
    assert!(page("yard/siting.html").contains("shade"));
}

#[test]
fn a_trouble_and_the_days_and_batches_on_which_it_was_seen_show_each_other() {
    let book = "date,batch,what,logs,trouble,note\n2025-06-01,b,weeds-seen: Green-Dust,2,,by the rail\n\
        2025-07-01,,weeds-seen,,green-dust,\n2025-08-01,b,weeds-seen,1,,no name\n";
    let farm = yard("every: 8 weeks", 10, "2024-04-20", &[("yard/book.csv", book)]);
    let trouble = farm.drawn("troubles/green-dust.html");
    let seen = trouble.split_once("id=\"seen\"").unwrap().1;
    let rows = seen[..seen.find("</table>").unwrap()].matches("<tr>").count();
    assert_eq!(rows, 3, "a head and two days: {seen}");
    assert!(seen.contains("by the rail") && seen.contains("batches/b.html") && seen.contains("the yard"), "{seen}");
    assert!(farm.drawn("yard/batches/b.html").contains("troubles/green-dust.html"));
    assert!(!farm.drawn("troubles/white-crust.html").contains("id=\"seen\""));
    farm.write("yard/book.csv", "date,batch,what\n2025-06-01,b,weeds-seen: green-dsut\n");
    let output = crate::harness::run(farm.path(), &["proof", "."]);
    let said = crate::harness::said(&output);
    assert!(code(&output) == 1 && said.contains("green-dust"), "{said}");
}
