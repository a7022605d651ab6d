//! The year from the place: modelled dates, crossings, suitable days, both hemispheres, years without a summer or a winter.

use serde_json::Value;

use crate::harness::{Farm, SMALL_FARM, code, demo, demo_guide, demo_table, files, larkbeck_guide, said, table};

/// Harvard Forest, Massachusetts, 1990–2014, from the archive's daily values.
const HARVARD: [f64; 12] = [-5.17, -4.18, 0.51, 6.93, 12.77, 17.59, 20.31, 19.58, 15.52, 8.97, 3.55, -1.97];
const SCATTER: [f64; 12] = [6.07, 5.17, 5.28, 5.08, 4.40, 3.85, 2.89, 2.89, 4.02, 4.48, 4.90, 5.22];
const CROSSINGS: &str = "name: Our inoculation weather\nkind: inoculate\nfrom: air rises above 50 F\nto: air rises above 60 F\nsays: ours\nsource: common-practice\n";

fn degrees(values: &[f64]) -> String {
    format!("[{}]", values.iter().map(|value| format!("{value} C")).collect::<Vec<_>>().join(", "))
}

/// A farm at a latitude with such monthly means, without a date of its own.
fn place(latitude: f64, means: &[f64], more: &str) -> Farm {
    let farm = Farm::with(&[("seasons/weather.yaml", CROSSINGS)]);
    farm.write(
        "farm.yaml",
        &format!(
            "name: Somewhere\nplace: {{latitude: {latitude}, longitude: 0}}\nseason: 2026\nunits: metric\nwoods: [red-oak, sugar-maple]\ngrows: [shiitake, lions-mane]\nclimate:\n  monthly_means: {}\n{more}",
            degrees(means)
        ),
    );
    farm
}

fn harvard(more: &str) -> Farm {
    place(42.5429, &HARVARD, &format!("  monthly_deviations: {}\n{more}", degrees(&SCATTER)))
}

/// The farm in another season.
fn in_season(farm: Farm, season: &str) -> Farm {
    let path = farm.path().join("farm.yaml");
    let text = std::fs::read_to_string(&path).unwrap();
    std::fs::write(path, text.replace("season: 2026", &format!("season: {season}"))).unwrap();
    farm
}

fn row<'a>(rows: &'a [Value], window: &str) -> &'a Value {
    rows.iter().find(|row| row["window"] == window).unwrap_or_else(|| panic!("no row {window}"))
}

fn dates(row: &Value) -> [String; 2] {
    ["from", "to"].map(|end| row[end].as_str().unwrap().to_owned())
}

fn day(text: &str) -> jiff::civil::Date {
    text.parse().unwrap()
}

#[test]
fn without_a_date_of_its_own_a_farm_gets_the_models_dates_and_is_told_so() {
    let farm = harvard("");
    let rows = table("seasons", farm.path(), &[]);
    let dormant = row(&rows, "dormant");
    // The model for Harvard Forest, worked out elsewhere: day 278 to day 97.
    assert_eq!(dates(dormant), ["2026-10-05", "2027-04-07"]);
    assert_eq!(dormant["basis"], "model");
    assert_eq!(row(&rows, "fell sugar-maple")["basis"], "model");
    let working = farm.drawn("working/climate.html");
    assert!(working.contains("Delpierre") && working.contains("wrong by 7 days at best, and by 14"));
}

#[test]
fn dates_of_its_own_win_over_the_model() {
    let farm = harvard("observed:\n  leaf_colour: ['2023-09-20', '2024-09-22', '2025-09-21']\n");
    let rows = table("seasons", farm.path(), &[]);
    assert_eq!(dates(row(&rows, "dormant")), ["2026-09-21", "2027-04-07"]);
}

#[test]
fn crossings_fall_where_the_usual_mean_crosses() {
    let rows = table("seasons", harvard("").path(), &[]);
    // Worked out elsewhere from the same normals: the mean is 10.054 °C on day 121 and 10.333 on day 282, 8.642 on 290.
    let totem = row(&rows, "inoculation-totem");
    assert_eq!(dates(totem)[0], "2027-05-01");
    let falls = day(&dates(totem)[1]).day_of_year();
    assert!((283..=290).contains(&falls), "{falls}");
    assert_eq!(totem["basis"], "model");
}

#[test]
fn the_same_farm_in_the_south_has_the_same_windows_half_a_year_later() {
    let turned: Vec<f64> = (0..12).map(|month| HARVARD[(month + 6) % 12]).collect();
    let scatter: Vec<f64> = (0..12).map(|month| SCATTER[(month + 6) % 12]).collect();
    let south = place(-43.6, &turned, &format!("  monthly_deviations: {}\n", degrees(&scatter)));
    let north = place(43.6, &HARVARD, &format!("  monthly_deviations: {}\n", degrees(&SCATTER)));
    let (north, south) = (table("seasons", north.path(), &[]), table("seasons", south.path(), &[]));
    let mut compared = 0;
    for one in north.iter().filter(|row| row["basis"] == "model") {
        let other = row(&south, one["window"].as_str().unwrap());
        for (one, other) in dates(one).iter().zip(dates(other)) {
            let days = (day(one) - day(&other)).get_days();
            assert!((days.rem_euclid(365) - 183).abs() <= 3, "{one} and {other}: {days} days apart");
            assert!(days.abs() <= 186, "{one} and {other} lie in different seasons");
        }
        compared += 1;
    }
    assert!(compared >= 8, "{compared} windows were compared");
}

#[test]
fn a_year_without_a_summer_publishes_and_says_which_windows_do_not_exist() {
    let cold = place(43.6, &HARVARD.map(|mean| mean - 15.31), "");
    assert_eq!(code(&cold.publish()), 0);
    let page = cold.page("seasons.html");
    assert!(page.contains("no month is as warm as 10 °C"), "{page}");
    assert!(page.contains("by its usual means the air never rises above 10 °C"));
    assert!(table("seasons", cold.path(), &[]).iter().all(|row| row["basis"] != "model"));
    assert!(page.contains("no stretch of the year suits"));
}

#[test]
fn a_year_that_is_never_above_15_degrees_says_which_windows_do_not_exist() {
    let mild = place(55.0, &[3.1, 3.4, 5.0, 7.3, 10.1, 12.9, 14.6, 14.4, 12.3, 9.2, 5.8, 3.5], "");
    let page = mild.drawn("seasons.html");
    // 60 °F is 15.6 °C.
    assert!(page.contains("by its usual means the air never rises above 16 °C"), "{page}");
    assert_eq!(row(&table("seasons", mild.path(), &[]), "dormant")["basis"], "model");
}

#[test]
fn a_year_without_a_winter_has_no_dormant_season_in_words() {
    let warm = place(30.0, &[17.0; 12], "");
    let page = warm.drawn("seasons.html");
    assert!(page.contains("never falls below 5 °C"), "{page}");
    let tropics = place(3.0, &HARVARD, "");
    assert_eq!(code(&tropics.publish()), 0);
    assert!(tropics.page("seasons.html").contains("lies in the tropics"));
}

#[test]
fn a_farm_at_a_pole_publishes() {
    for latitude in [90.0, -90.0] {
        let pole = place(latitude, &HARVARD.map(|mean| mean - 30.0), "");
        let output = pole.publish();
        assert_eq!(code(&output), 0, "{}", said(&output));
        let rows = table("climate", pole.path(), &[]);
        assert!(rows.iter().all(|row| row["daylight_hours"] == 0.0 || row["daylight_hours"] == 24.0));
    }
}

#[test]
fn dates_of_another_place_are_moved_by_the_old_rule_only_where_the_farm_asks() {
    let elsewhere = |moved: &str| {
        let farm = Farm::with(&[]);
        farm.write(
            "farm.yaml",
            &format!(
                "name: Uphill\nplace: {{latitude: 44.5, longitude: -72, elevation: 1200 ft}}\nseason: 2026\nwoods: [sugar-maple]\nobserved:\n  leaf_colour: ['2025-10-01']\n  bud_swell: ['2026-04-10']\n  at: {{latitude: 43.5, longitude: -72, elevation: 800 ft}}\n{moved}"
            ),
        );
        let rows = table("seasons", farm.path(), &[]);
        let dormant = row(&rows, "dormant");
        (dates(dormant), dormant["basis"].as_str().unwrap().to_owned())
    };
    assert_eq!(elsewhere(""), (["2026-10-01", "2027-04-10"].map(str::to_owned), "observed".to_owned()));
    // Hopkins: four days a degree, and in spring four more for 400 ft.
    assert_eq!(elsewhere("  moved: hopkins\n"), (["2026-09-27", "2027-04-18"].map(str::to_owned), "model".to_owned()));
}

#[test]
fn suitable_days_run_week_by_week_through_a_whole_year() {
    for season in ["2019", "2026", "2027"] {
        let rows = table("fruiting", in_season(harvard(""), season).path(), &[]);
        let columns: Vec<&String> = rows[0].as_object().unwrap().keys().collect();
        assert_eq!(columns[..5], ["strain", "week", "from", "to", "suitable_days"]);
        let cold: Vec<&Value> = rows.iter().filter(|row| row["strain"] == "shiitake-cold").collect();
        assert!(cold.len() >= 52);
        for pair in cold.windows(2) {
            assert_eq!((day(pair[1]["from"].as_str().unwrap()) - day(pair[0]["to"].as_str().unwrap())).get_days(), 1);
        }
        for row in rows.iter().filter(|row| row["air_gap"].is_null()) {
            let [least, most] = ["suitable_days", "suitable_days_most"].map(|key| row[key].as_f64().unwrap());
            assert!((0.0..=7.0).contains(&least) && least <= most && most <= 7.0);
        }
    }
}

#[test]
fn growing_room_bands_are_not_drawn_and_tell_no_week() {
    let farm = harvard("");
    let page = farm.drawn("seasons.html");
    // Lion's mane has figures from growing rooms alone, shiitake some from outdoors.
    assert!(!page.contains("id=\"fruit-lions-mane-title\"") && page.contains("they tell no month outdoors"));
    let shiitake = &page[page.find("id=\"fruit-shiitake-title\"").unwrap()..];
    let strip = shiitake.split("</svg>").next().unwrap();
    assert!(strip.contains("bar possible") && strip.contains("bar only") && !strip.contains("bar best"));
    let rows = table("fruiting", farm.path(), &[]);
    let rooms: Vec<&Value> = rows.iter().filter(|row| row["band"] == "growing-rooms").collect();
    assert!(rooms.len() >= 52);
    for row in rooms {
        assert!(row["suitable_days"].is_null() && row["suitable_days_most"].is_null() && !row["air_gap"].is_null());
    }
}

#[test]
fn an_assumed_deviation_is_said() {
    let told = |farm: &Farm| farm.drawn("seasons.html").contains("Day-to-day deviation 4 °C assumed");
    assert!(told(&place(42.5, &HARVARD, "")));
    assert!(!told(&harvard("")));
    let rows = table("climate", place(42.5, &HARVARD, "").path(), &[]);
    assert!(rows.iter().all(|row| row["deviation_c"] == 4.0));
}

#[test]
fn without_monthly_means_the_year_is_a_gap_in_words() {
    let farm = Farm::with(&[]);
    farm.write("farm.yaml", &format!("{SMALL_FARM}woods: [red-oak]\ngrows: [shiitake]\n"));
    let page = farm.drawn("seasons.html");
    assert!(page.contains("The air of the farm is not recorded"));
    assert!(page.contains("or the twelve monthly means under climate"));
    let untold =
        |row: &Value| row["suitable_days"].is_null() && row["air_gap"].as_str().unwrap().contains("monthly_means");
    assert!(table("fruiting", farm.path(), &[]).iter().all(untold));
    assert!(table("climate", farm.path(), &[]).iter().all(|row| row["mean_f"].is_null()));
}

#[test]
fn the_demo_farms_tell_three_layers_of_every_mushroom_they_grow() {
    for farm in ["sorrel-hollow", "larkbeck"] {
        let page = demo(farm).page("seasons.html");
        let rows = demo_table(farm, "fruiting");
        let mushrooms: std::collections::BTreeSet<&str> =
            rows.iter().map(|row| row["mushroom"].as_str().unwrap()).collect();
        assert!(mushrooms.len() >= 4, "{mushrooms:?}");
        for mushroom in mushrooms {
            let heading = format!("\"><a href=\"mushrooms/{mushroom}.html\">");
            let part =
                page.split("<h3 id=\"fruiting-").find(|part| part.split("</a>").next().unwrap().contains(&heading));
            let part = part.unwrap_or_else(|| panic!("{farm}: {mushroom} has no heading"));
            let outdoors =
                part.contains(", wild: ") || part.contains(", planted") || part.contains("gives a season for");
            let air = part.contains("air suits") || part.contains("no figure: ");
            assert!(outdoors && air && part.contains("We picked: "), "{farm}: {mushroom}");
        }
    }
}

#[test]
fn the_calendar_keeps_the_names_of_its_entries_from_edition_to_edition() {
    let text = String::from_utf8(files(demo_guide())["calendar.ics"].clone()).unwrap();
    assert!(text.starts_with("BEGIN:VCALENDAR\r\n") && text.ends_with("END:VCALENDAR\r\n"));
    assert!(text.split("\r\n").all(|line| line.len() <= 75 && !line.contains('\n')));
    assert!(text.contains("DTSTAMP:20261120T000000Z"));
    let entries = |farm: Farm, season: &str| -> Vec<String> {
        let rows = table("calendar", in_season(farm, season).path(), &[]);
        rows.iter().map(|row| row["entry"].as_str().unwrap().to_owned()).collect()
    };
    let observed = |first: &str| harvard(&format!("observed:\n  leaf_colour: ['{first}']\n"));
    let (one, other) = (entries(observed("2025-09-20"), "2026"), entries(observed("2025-10-02"), "2026"));
    assert_eq!(one, other, "a date that moves keeps its entry");
    assert!(!one.is_empty() && entries(observed("2025-09-20"), "2027").iter().all(|entry| !one.contains(entry)));
}

/// The entries of a calendar, each property on one line.
fn entries(calendar: &str) -> Vec<String> {
    let whole = calendar.replace("\r\n ", "");
    whole.split("BEGIN:VEVENT").skip(1).map(str::to_owned).collect()
}

#[test]
fn an_entry_of_the_calendar_has_three_cautions_at_most_those_that_lead_its_task() {
    for guide in [demo_guide(), larkbeck_guide()] {
        let calendar = String::from_utf8(files(guide)["calendar.ics"].clone()).unwrap();
        let cautions = |entry: &str| {
            ["Stop: ", "Take care: ", "Bear in mind: "].iter().map(|word| entry.matches(word).count()).sum::<usize>()
        };
        let entries = entries(&calendar);
        assert!(entries.iter().all(|entry| cautions(entry) <= 3));
        let felling: Vec<&String> = entries.iter().filter(|entry| entry.contains("CATEGORIES:fell")).collect();
        assert!(!felling.is_empty());
        for entry in felling {
            let [first, second] = ["trained feller cut", "two tree lengths"].map(|words| entry.find(words));
            assert!(first.is_some() && first < second && cautions(entry) == 3, "{entry}");
        }
        for entry in entries.iter().filter(|entry| entry.contains("CATEGORIES:inoculate")) {
            assert!(cautions(entry) > 0 && !entry.contains("feller"), "{entry}");
        }
    }
}

#[test]
fn a_modelled_date_says_so_in_the_calendar_and_in_the_list_of_the_months() {
    let doubt = "from a model, ± 14 days";
    let dates = |farm: &Farm| -> Vec<(String, bool)> {
        assert_eq!(code(&farm.publish()), 0);
        let calendar = entries(&farm.page("calendar.ics"));
        let modelled = |entry: &String| entry.contains("SUMMARY:Fell") && entry.replace("\\,", ",").contains(doubt);
        let felling = calendar.iter().filter(|entry| entry.contains("CATEGORIES:fell"));
        felling.map(|entry| (entry.clone(), modelled(entry))).collect()
    };
    let modelled = harvard("");
    let told = dates(&modelled);
    assert!(!told.is_empty() && told.iter().all(|(_, modelled)| *modelled), "{told:?}");
    assert!(modelled.page("index.html").matches(doubt).count() > 1);
    let observed = harvard("observed:\n  leaf_colour: ['2025-10-01']\n  bud_swell: ['2026-04-15']\n");
    let told = dates(&observed);
    assert!(!told.is_empty() && told.iter().all(|(_, modelled)| !modelled), "{told:?}");
}

#[test]
fn the_front_page_asks_where_the_farm_lies_where_it_has_not_said_it() {
    let asks = "You have not said where this farm is";
    assert!(Farm::with(&[]).drawn("index.html").contains(asks));
    let page = String::from_utf8(files(demo_guide())["index.html"].clone()).unwrap();
    assert!(!page.contains(asks));
}

#[test]
fn today_is_marked_by_a_script_alone() {
    let guide = files(demo_guide());
    let page = String::from_utf8(guide["seasons.html"].clone()).unwrap();
    assert!(!page.contains("class=\"today\"") && page.contains("look/endgrain.js"));
    assert!(String::from_utf8(guide["look/print.css"].clone()).unwrap().contains(".today{display:none}"));
}
