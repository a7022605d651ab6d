//! When mushrooms fruit: no guide draws or tells a month that the outdoor rows of its region contradict.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use serde_json::Value;

use crate::evidence::demo;
use crate::harness::{Farm, code, demo_guide, demo_table, larkbeck_guide, root, said, table};

/// Days of each month, for reading drawings.
const FIRST: [u16; 13] = [1, 32, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335, 366];

/// What sources say of the mushrooms of Sorrel Hollow in its region, by day of the year.
const SORREL: &[(&str, &[(u16, u16)])] = &[
    ("tree-oyster", &[(91, 334)]),
    ("lions-mane", &[(213, 334)]),
    ("wine-cap", &[(121, 304)]),
    ("nameko", &[(294, 334)]),
    ("olive-oysterling", &[(274, 365), (1, 31)]),
];

/// The same of Larkbeck.
const LARKBECK: &[(&str, &[(u16, u16)])] =
    &[("tree-oyster", &[(1, 365)]), ("lions-mane", &[(213, 365)]), ("velvet-foot", &[(305, 365), (1, 90)])];

fn month_of(day: u16) -> usize {
    FIRST.iter().rposition(|first| *first <= day).unwrap() + 1
}

fn days(spans: &[(u16, u16)]) -> BTreeSet<u16> {
    spans.iter().flat_map(|(from, to)| *from..=*to).collect()
}

fn number(text: &str, key: &str) -> f64 {
    text.split(&format!(" {key}=\"")).nth(1).unwrap().split('"').next().unwrap().parse().unwrap()
}

/// A row of a drawing: its name and its bars, and of a bar its class and its days.
type Drawn = (String, Vec<(String, BTreeSet<u16>)>);

/// The rows of a drawing.
fn drawn(page: &str, mushroom: &str) -> Vec<Drawn> {
    let svgs = page.split("<svg ").find(|svg| svg.contains(&format!("id=\"fruit-{mushroom}-title\"")));
    let Some(svg) = svgs.map(|svg| svg.split("</svg>").next().unwrap()) else { return Vec::new() };
    let head = format!(" {}", svg.split('>').next().unwrap());
    let [from, left, day] = ["data-from", "data-left", "data-day"].map(|key| number(&head, key));
    let bar = |rect: &str| {
        let class = rect.split('"').next().unwrap().to_owned();
        let first = (number(rect, "x") - left) / day;
        let count = (number(rect, "width") / day).round() as u16;
        let days = (0..count).map(|step| (from as u16 - 1 + first.round() as u16 + step) % 365 + 1);
        (class, days.collect())
    };
    let row = |row: &str| {
        let name = row.split_once('>').unwrap().1.split('<').next().unwrap().to_owned();
        (name, row.split("<rect class=\"").skip(1).map(bar).collect())
    };
    svg.split("<text class=\"lab").skip(1).map(row).collect()
}

/// The months in which the pairing table says that a mushroom fruits.
fn told(page: &str, mushroom: &str) -> BTreeSet<usize> {
    let column =
        page.split("<th scope=\"col\" data-mushroom=").find(|part| part.starts_with(&format!("\"{mushroom}\"")));
    let months = column.unwrap().split("data-months=\"").nth(1).unwrap().split('"').next().unwrap();
    months.split_whitespace().map(|month| month.parse().unwrap()).collect()
}

/// The months in which a farm picked each mushroom, by its own sheets.
fn picked(farm: &str) -> BTreeMap<String, BTreeSet<usize>> {
    let by = |name: &str, id: &str, of: &str| -> BTreeMap<String, String> {
        let rows = demo_table(farm, name);
        rows.iter().map(|row| (text(row, id).to_owned(), text(row, of).to_owned())).collect()
    };
    let [batches, strains] = [by("batches", "batch", "strain"), by("strains", "strain", "mushroom")];
    let mut months: BTreeMap<String, BTreeSet<usize>> = BTreeMap::new();
    for row in demo_table(farm, "harvests") {
        let grown = text(&row, "batch").split(' ').map(|batch| strains[&batches[batch]].clone());
        grown.for_each(|mushroom| {
            months.entry(mushroom).or_default().insert(text(&row, "date")[5..7].parse().unwrap());
        });
    }
    months
}

fn text<'a>(row: &'a Value, key: &str) -> &'a str {
    row[key].as_str().unwrap_or_default()
}

fn page(guide: &Path, path: &str) -> String {
    std::fs::read_to_string(guide.join(path)).unwrap()
}

fn holds(farm: &str, guide: &Path, seasons: &[(&str, &[(u16, u16)])]) {
    let folder = root().join("examples").join(farm);
    let [year, pairs] = ["seasons.html", "pairings.html"].map(|path| page(guide, path));
    let rows = table("fruiting", &folder, &[]);
    let picked = picked(farm);
    assert!(!picked.is_empty());
    let seasons: BTreeMap<&str, BTreeSet<u16>> = seasons.iter().map(|(id, spans)| (*id, days(spans))).collect();
    let grown: BTreeSet<&str> = rows.iter().map(|row| text(row, "mushroom")).collect();
    assert!(seasons.keys().all(|mushroom| grown.contains(mushroom)), "{grown:?}");
    for mushroom in grown {
        let own = page(guide, &format!("mushrooms/{mushroom}.html"));
        let season = seasons.get(mushroom);
        for drawing in [drawn(&year, mushroom), drawn(&own, mushroom)] {
            assert_eq!(drawing.is_empty(), season.is_none() && mushroom != "shiitake", "{farm}: {mushroom}");
            for (name, bars) in drawing.iter().filter(|(name, _)| name != "Picked here") {
                let days: BTreeSet<u16> = bars.iter().flat_map(|(_, days)| days).copied().collect();
                let solid = bars.iter().all(|(class, _)| class.starts_with("bar best"));
                assert_eq!(solid, season.is_some(), "{farm}: {mushroom}, {name}");
                assert!(season.is_none_or(|season| *season == days), "{farm}: {mushroom}, {name} is drawn in {days:?}");
            }
        }
        if let Some(season) = season {
            let mut months: BTreeSet<usize> = season.iter().map(|day| month_of(*day)).collect();
            months.extend(picked.get(mushroom).into_iter().flatten());
            assert_eq!(told(&pairs, mushroom), months, "{farm}: {mushroom}");
        }
        for row in rows.iter().filter(|row| row["mushroom"] == mushroom) {
            let room = row["band"] == "growing-rooms";
            assert!(
                !room || (row["suitable_days"].is_null() && text(row, "air_gap").contains("growing rooms")),
                "{row}"
            );
            assert_eq!(row["season_days"].is_null(), season.is_none(), "{row}");
        }
    }
}

#[test]
fn no_month_of_a_demo_farm_contradicts_the_seasons_of_its_region() {
    holds("sorrel-hollow", demo_guide(), SORREL);
    holds("larkbeck", larkbeck_guide(), LARKBECK);
}

#[test]
fn velvet_foot_is_a_winter_mushroom_and_lions_mane_one_of_autumn_on_both_farms() {
    let season = |guide: &Path, mushroom: &str| {
        let own = page(guide, &format!("mushrooms/{mushroom}.html"));
        let part = own.split("id=\"fruiting\"").nth(1).unwrap().split("<details").next().unwrap().to_owned();
        part.split("</p>").last().unwrap().to_owned()
    };
    assert!(season(demo_guide(), "velvet-foot").contains(">October to May<"));
    assert!(season(larkbeck_guide(), "velvet-foot").contains(">November to March<"));
    assert!(season(demo_guide(), "lions-mane").contains(">August to November<"));
    assert!(season(larkbeck_guide(), "lions-mane").contains(">August to December<"));
}

const TASMANIA: &str = "name: Huon\nplace: {name: Huon, where: AU-TAS, latitude: -43.0, longitude: 147.0}\nseason: 2026
climate: {monthly_means: [16.5 C, 16.4 C, 14.9 C, 12.6 C, 10.4 C, 8.4 C, 8.0 C, 8.8 C, 10.3 C, 11.9 C, 13.6 C, 15.0 C]}
woods: [english-oak]
grows: [shiitake, tree-oyster, phoenix-oyster, lions-mane, velvet-foot, nameko, maitake, wine-cap, wood-ear, brick-cap]\n";

#[test]
fn a_farm_in_the_south_is_told_no_northern_month_as_its_own() {
    let farm = Farm::with(&[]);
    farm.write("farm.yaml", TASMANIA);
    let output = farm.publish();
    assert_eq!(code(&output), 0, "{}", said(&output));
    let rows = table("fruiting", farm.path(), &[]);
    assert!(rows.iter().all(|row| row["season_days"].is_null() && row["season_regions"].is_null()));
    let [year, pairs] = ["seasons.html", "pairings.html"].map(|path| farm.page(path));
    let mushrooms: BTreeSet<&str> = rows.iter().map(|row| text(row, "mushroom")).collect();
    assert_eq!(mushrooms.len(), 10);
    for mushroom in mushrooms {
        let drawn = drawn(&year, mushroom);
        assert!(drawn.iter().flat_map(|(_, bars)| bars).all(|(class, _)| !class.starts_with("bar best")), "{mushroom}");
        assert_eq!(drawn.is_empty(), mushroom != "shiitake", "{mushroom}");
        assert_eq!(told(&pairs, mushroom).is_empty(), mushroom != "shiitake", "{mushroom}");
        let own = farm.page(&format!("mushrooms/{mushroom}.html"));
        let part = own.split("id=\"fruiting\"").nth(1).unwrap().split("<h2").next().unwrap();
        assert!(part.contains("gives a season for Tasmania"), "{mushroom}");
        let elsewhere = part.split("<details").nth(1).unwrap().split("</details>").next().unwrap();
        for line in elsewhere.split("<li>").skip(1) {
            // New Zealand lies in the same half of the globe; a whole year is in no season.
            let same = line.contains("Wellington") || line.contains(">any month<");
            assert_eq!(line.contains(" there<"), !same, "{mushroom}: {line}");
        }
    }
    let wood_ear = farm.page("mushrooms/wood-ear.html");
    let fruiting = wood_ear.split("id=\"fruiting\"").nth(1).unwrap();
    let first = fruiting.split("<details").nth(1).unwrap().split("<li>").nth(1).unwrap();
    assert!(first.contains("Wellington") && first.contains(">April to May<"), "the nearest comes first: {first}");
}

#[test]
fn a_season_of_the_south_is_told_in_the_north_with_its_own_months_and_their_season() {
    let page = page(demo_guide(), "mushrooms/wood-ear.html");
    assert!(page.contains(">April to May, autumn there<"));
    let near = page.split("<details").find(|part| part.contains("the nearest first")).unwrap();
    assert!(near.find("Japan").unwrap() < near.find("Wellington").unwrap());
}

#[test]
fn a_farm_that_has_not_said_where_it_lies_has_no_season_of_its_own() {
    let farm = Farm::with(&[]);
    farm.write("farm.yaml", &TASMANIA.replace("where: AU-TAS, ", ""));
    let page = farm.drawn("mushrooms/velvet-foot.html");
    assert!(page.contains("has not said where it lies") && page.contains(">October to May, autumn to spring there<"));
}

#[test]
fn a_month_that_is_none_is_a_fault_that_says_which_was_meant() {
    let farm = Farm::with(&[(
        "strains/porch.yaml",
        "name: Porch\nmushroom: nameko\nseasons:\n  - {regions: [US-VT], from: Octobr, to: end of Nov, source: common-practice}\n",
    )]);
    let output = farm.publish();
    let said = said(&output);
    assert_eq!(code(&output), 1, "{said}");
    assert!(
        said.contains("`October`, if that is meant") && said.contains("`late November`, if that is meant"),
        "{said}"
    );
}

#[test]
fn a_deadly_look_alike_has_no_season() {
    let page = page(demo_guide(), "mushrooms/nameko.html");
    assert!(page.contains("it may stand there in any month"));
    let months = [
        "January",
        "February",
        "March",
        "April",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
        "spring",
        "summer",
        "autumn",
        "winter",
    ];
    let book = demo();
    let has_no_month = |of: &str, text: &str| assert!(months.iter().all(|month| !text.contains(month)), "{of}: {text}");
    for other in book.look_alikes.values().filter(|other| other.record.deadly) {
        let features = other.record.features.iter().map(|feature| &feature.says);
        features.chain([&other.record.apart]).for_each(|text| has_no_month(&other.id, text));
        let held = book.mushrooms.values().flat_map(|mushroom| &mushroom.record.look_alikes);
        let apart = held.filter(|row| row.kind.as_str() == other.id).filter_map(|row| row.apart.as_ref());
        apart.for_each(|text| has_no_month(&other.id, text));
    }
}
