//! A guide says what holds where its farm lies, and nothing of what holds elsewhere but on one page.

use std::collections::BTreeMap;

use hostwood::book::{Book, bind};
use hostwood::read::folder;
use hostwood::record::holds::{Bond, Holds};

use crate::harness::{Farm, SMALL_FARM, code, files, said, table};

/// A farm somewhere, and what its guide must and must not say.
struct Somewhere {
    place: &'static str,
    grown: &'static str,
    says: &'static [&'static str],
    never: &'static [&'static str],
}

/// The pages on which other places and the words of sources may stand.
const APART: [&str; 2] = ["sources.html", "elsewhere.html"];

impl Somewhere {
    /// The words of the guide's pages by path, without citations and the quoted words of sources.
    fn pages(&self) -> BTreeMap<String, String> {
        let farm = Farm::with(&[]);
        farm.write("farm.yaml", &format!("name: Somewhere\nplace: {}\nseason: 2026\n{}\n", self.place, self.grown));
        let output = farm.publish();
        assert_eq!(code(&output), 0, "{}", said(&output));
        let pages = files(&farm.path().join("guide")).into_iter();
        pages
            .filter(|(path, _)| path.ends_with(".html") && !APART.contains(&path.as_str()))
            .map(|(path, bytes)| (path, words(&String::from_utf8(bytes).unwrap())))
            .collect()
    }

    fn holds(&self) {
        let pages = self.pages();
        let all: String = pages.values().cloned().collect::<Vec<_>>().join("\n");
        let missing: Vec<&&str> = self.says.iter().filter(|says| !has(&all, says)).collect();
        let found: Vec<String> = pages
            .iter()
            .flat_map(|(path, text)| {
                let said = self.never.iter().filter(|never| has(text, never));
                said.map(move |never| format!("{path} says {never}: {}", around(text, never)))
            })
            .collect();
        assert!(missing.is_empty() && found.is_empty(), "{}:\nmissing {missing:#?}\n{found:#?}", self.place);
    }
}

/// What a page says outside citations, quotations, scripts and rows for so many logs.
fn words(html: &str) -> String {
    let mut text = html.to_owned();
    for (from, to) in [
        ("<script", "</script>"),
        ("<style", "</style>"),
        ("<small>", "</small>"),
        ("<q>", "</q>"),
        ("<tr data-logs", "</tr>"),
        ("Sources in full</h3>", "</section>"),
        ("<a href=\"sources.html#", "</a>"),
        ("<a href=\"../sources.html#", "</a>"),
    ] {
        text = without(&text, from, to);
    }
    let plain =
        without(&text, "<", ">").replace("&#39;", "'").replace("&#x27;", "'").replace("&amp;", "&").replace('’', "'");
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn without(text: &str, from: &str, to: &str) -> String {
    let mut kept = String::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once(from) {
        kept.push_str(before);
        kept.push(' ');
        rest = after.split_once(to).map_or("", |(_, after)| after);
    }
    kept + rest
}

/// Where words stand in a text, not as a part of a longer word or number; letters of any case.
fn at(text: &str, words: &str) -> Option<usize> {
    let (text, words) = (text.to_lowercase(), words.to_lowercase());
    let number = words.starts_with(|c: char| c.is_ascii_digit());
    let goes_on = |mut beside: Box<dyn Iterator<Item = char> + '_>| match (beside.next(), beside.next()) {
        (Some(c), _) if c.is_alphanumeric() => true,
        (Some('.' | ',' | '-'), Some(c)) => number && c.is_alphanumeric(),
        _ => false,
    };
    text.match_indices(&words).map(|(at, _)| at).find(|at| {
        let (before, after) = (&text[..*at], &text[at + words.len()..]);
        !goes_on(Box::new(before.chars().rev())) && !goes_on(Box::new(after.chars()))
    })
}

fn has(text: &str, words: &str) -> bool {
    at(text, words).is_some()
}

fn around(text: &str, words: &str) -> String {
    let text = text.to_lowercase();
    let at = at(&text, words).unwrap();
    let from = text[..at].char_indices().rev().nth(50).map_or(0, |(at, _)| at);
    text[from..].chars().take(120).collect()
}

const MANE: &str = "Wild lion's mane is protected by law here";

#[test]
fn a_farm_in_vermont_reads_of_vermont() {
    Somewhere {
        place: "{where: US-VT, latitude: 44.2, longitude: -72.5}",
        grown: "woods: [sugar-maple, american-beech, yellow-birch, red-oak, white-ash]\ngrows: [shiitake, golden-oyster]",
        says: &[
            "911",
            "1-800-222-1222",
            "Bats with young, New England",
            "ask your state",
            "Birds on the nest",
            "golden oyster outdoors",
            "beech leaf disease",
            "north side",
        ],
        never: &["Oak wilt season in", "Pennsylvania lists", "Asian longhorned", "999", "RCD", MANE, "south side"],
    }
    .holds();
}

#[test]
fn a_farm_in_wisconsin_reads_of_oak_wilt_in_wisconsin() {
    Somewhere {
        place: "{where: US-WI, latitude: 44.5, longitude: -89.8}",
        grown: "woods: [red-oak, white-oak, bur-oak, black-walnut]\ngrows: [shiitake]",
        says: &[
            "911",
            "1-800-222-1222",
            "Oak wilt season in Wisconsin",
            "April 1",
            "July 31",
            "spore mats",
            "spongy moth",
            "thousand cankers",
        ],
        never: &[
            "Oak wilt season in Minnesota",
            "Oak wilt season in Michigan",
            "Oak wilt season in Texas",
            "Oak wilt season in Iowa",
            "Bats with young, New England",
            "Sudden oak death",
        ],
    }
    .holds();
}

#[test]
fn a_farm_in_pennsylvania_reads_of_its_lanternfly_and_its_list() {
    Somewhere {
        place: "{where: US-PA, latitude: 40.9, longitude: -77.8}",
        grown: "woods: [common-alder, norway-maple, sycamore-maple, tree-of-heaven, black-walnut, red-oak]\n\
                grows: [shiitake]",
        says: &[
            "911",
            "1-800-222-1222",
            "Spotted lanternfly",
            "lists it as an invasive tree",
            "no regulation",
            "thousand cankers",
        ],
        never: &["Oak wilt season in", "50 cords", "RCD"],
    }
    .holds();
}

#[test]
fn a_farm_in_oregon_reads_of_sudden_oak_death() {
    Somewhere {
        place: "{where: US-OR, latitude: 42.4, longitude: -124.3}",
        grown: "woods: [tanoak, red-alder, bigleaf-maple]\ngrows: [shiitake, golden-oyster]",
        says: &["911", "1-800-222-1222", "Sudden oak death", "in parts of"],
        never: &[
            "outdoors in eastern North America",
            "Spotted lanternfly",
            "Bats with young, New England",
            "Oak wilt season in",
        ],
    }
    .holds();
}

#[test]
fn a_farm_in_ontario_reads_of_canada() {
    Somewhere {
        place: "{where: CA-ON, latitude: 43.1, longitude: -79.3}",
        grown: "woods: [red-oak, white-ash, sugar-maple]\ngrows: [shiitake]",
        says: &[
            "911",
            "1-844-764-7669",
            "April",
            "November",
            "written leave",
            "whatever its kind",
            "by-laws",
            "woodpecker",
        ],
        never: &[
            "1-800-222-1222",
            "21 CFR",
            "federal quarantine ended",
            "your state",
            "extension office",
            "state line",
        ],
    }
    .holds();
}

#[test]
fn a_farm_in_england_reads_nothing_of_america() {
    Somewhere {
        place: "{where: GB-ENG, latitude: 55.0, longitude: -2.0}",
        grown: "woods: [common-alder, european-birch, english-oak, european-beech, common-hazel, european-ash]\n\
                grows: [shiitake, tree-oyster, lions-mane, velvet-foot]",
        says: &[
            "999 or 112",
            "111",
            "5 m³",
            "2 m³",
            MANE,
            "Leave every wild one alone",
            "ash dieback",
            "roost",
            "protected tree",
            "RCD",
        ],
        never: &[
            "Pennsylvania",
            "Wisconsin",
            "Michigan",
            "Emerald ash borer",
            "Oak wilt",
            "Spotted lanternfly",
            "911",
            "your state",
            "state line",
            "21 CFR",
            "extension office",
        ],
    }
    .holds();
}

#[test]
fn a_farm_in_scotland_reads_of_its_small_native_wood() {
    Somewhere {
        place: "{where: GB-SCT, latitude: 57.2, longitude: -4.2}",
        grown: "woods: [downy-birch, european-birch, rowan]\ngrows: [shiitake, lions-mane]",
        says: &["999 or 112", "0.1 to 0.5 ha", "10 cm", MANE, "Scottish Forestry"],
        never: &[
            "2 m³",
            "Forestry Commission",
            "eight-toothed",
            "Pennsylvania",
            "Wisconsin",
            "Michigan",
            "Emerald ash borer",
            "Oak wilt",
            "Spotted lanternfly",
            "911",
            "your state",
            "state line",
            "21 CFR",
            "extension office",
        ],
    }
    .holds();
}

#[test]
fn a_farm_in_ireland_reads_of_its_hedges() {
    Somewhere {
        place: "{where: IE, latitude: 53.2, longitude: -7.9}",
        grown: "woods: [common-alder, european-ash, common-hazel]\ngrows: [tree-oyster]",
        says: &["112 or 999", "01 809 2166", "license", "15 m³", "March 1", "August 31", "ash dieback"],
        never: &["5 m³ in a calendar quarter", "111", "snake", "snakes", "invasive tree", "911", "your state"],
    }
    .holds();
}

#[test]
fn a_farm_in_bavaria_reads_of_its_own_poison_line() {
    Somewhere {
        place: "{where: DE-BY, latitude: 48.3, longitude: 11.9}",
        grown: "woods: [european-beech, english-oak, apple, tree-of-heaven]\ngrows: [shiitake, lions-mane]",
        says: &["112", "089 19240", "March 1", "September 30", "outside woods", "Union list"],
        never: &["Oak wilt", "0228 19240", "030 19240", "0361 730730", MANE, "911"],
    }
    .holds();
}

#[test]
fn a_farm_in_tasmania_reads_of_the_south() {
    Somewhere {
        place: "{where: AU-TAS, latitude: -41.5, longitude: 146.9}",
        grown: "woods: [shining-gum, english-oak, willow]\ngrows: [shiitake, tree-oyster]",
        says: &[
            "000",
            "13 11 26",
            "1 ha",
            "100 t",
            "south side",
            "here from November or December to April",
            "willow",
            "Omphalotus nidiformis",
            "Look-alikes differ from land to land",
        ],
        never: &[
            "north side",
            "Lyme",
            "Buds burst",
            "Half of the leaves coloured",
            "shot-hole",
            "911",
            "999",
            "Oak wilt",
            "21 CFR",
            "your state agriculture",
        ],
    }
    .holds();
}

#[test]
fn a_farm_in_northland_asks_which_kinds_may_be_grown() {
    Somewhere {
        place: "{where: NZ-NTL, latitude: -35.4, longitude: 173.9}",
        grown: "woods: [poplar, willow]\ngrows: [tree-oyster, lions-mane]",
        says: &[
            "111",
            "0800 764 766",
            "Ask MPI which kinds you may grow",
            "kauri",
            "native timber",
            "south side",
            "Look-alikes differ from land to land",
        ],
        never: &["snake", "snakes", "Lyme", "Oak wilt", "911", "north side"],
    }
    .holds();
}

/// The lines that stand where nothing is known of a place.
const UNKNOWN: [&str; 5] = [
    "Before you fell: ask your forestry office and your council whether you need leave",
    "Before logs leave your land: ask your plant health service",
    "Before you order spawn from abroad: ask your plant health service",
    "This guide does not know them: write them here today",
    "Before the first sale: ask your food authority what holds for fresh mushrooms",
];

/// Numbers of help that belong to a place.
const NUMBERS: [&str; 8] =
    ["911", "999", "112", "1-800-222-1222", "13 11 26", "0800 764 766", "01 809 2166", "089 19240"];

#[test]
fn a_farm_without_a_place_is_asked_for_one_and_told_no_law() {
    let nowhere = Somewhere {
        place: "{latitude: -39.8, longitude: -73.2}",
        grown: "woods: [poplar, english-oak]\ngrows: [shiitake]",
        says: &["You have not said where this farm is", "Use wood near where it grew"],
        never: &["your state", "Law in", "21 CFR"],
    };
    nowhere.holds();
    let chile = Somewhere {
        place: "{where: CL, latitude: -39.8, longitude: -73.2}",
        says: &["This handbook knows no rules for Chile. That does not mean that there are none."],
        never: &["your state", "Law in", "21 CFR", "You have not said where this farm is"],
        ..nowhere
    };
    chile.holds();
    for place in [nowhere.place, chile.place] {
        Somewhere { place, grown: "grows: [shiitake]", says: &UNKNOWN, never: &NUMBERS }.holds();
    }
}

#[test]
fn a_farm_that_names_its_country_alone_reads_of_the_country_and_is_asked_for_more() {
    Somewhere {
        place: "{where: US, latitude: 44.2, longitude: -72.5}",
        grown: "woods: [red-oak]\ngrows: [shiitake]",
        says: &["911", "Emerald ash borer", "Some states or provinces have rules of their own; write yours into where"],
        never: &["Bats with young, New England", "Spotted lanternfly", "999"],
    }
    .holds();
}

/// What every rule, caution and window of a book says of where it holds, with its id.
fn holdings(book: &Book) -> Vec<(&str, &Holds)> {
    let rules = book.rules.values().chain(book.elsewhere.rules.values());
    let cautions = book.cautions.values().chain(book.elsewhere.cautions.values());
    let windows = book.windows.values().chain(book.elsewhere.windows.values());
    let mut all: Vec<(&str, &Holds)> = rules.map(|rule| (&*rule.id, &rule.record.holds)).collect();
    all.extend(cautions.map(|caution| (&*caution.id, &caution.record.holds)));
    all.extend(windows.map(|window| (&*window.id, &window.record.holds)));
    all
}

#[test]
fn a_law_says_when_it_was_read_and_where_it_holds() {
    let book = bind(folder::demo()).unwrap();
    let laws: Vec<_> = holdings(&book).into_iter().filter(|(_, holds)| holds.bound == Some(Bond::Law)).collect();
    assert!(laws.len() > 30, "{}", laws.len());
    for (id, holds) in laws {
        assert!(holds.as_of.is_some() && !holds.is_everywhere(), "{id}");
    }
}

#[test]
fn where_a_farm_lies_changes_no_yield_weight_or_pairing() {
    let of = |place: &str| {
        let farm = Farm::with(&[]);
        let small = SMALL_FARM.replace("{latitude", &format!("{{{place}latitude"));
        farm.write("farm.yaml", &format!("{small}woods: [red-oak, sugar-maple]\ngrows: [shiitake, tree-oyster]\n"));
        ["pairings", "weights", "yields", "lifting"].map(|name| table(name, farm.path(), &[]))
    };
    let nowhere = of("");
    assert!(nowhere[..2].iter().all(|rows| !rows.is_empty()));
    for place in ["where: US-VT, ", "where: GB-SCT, ", "where: NZ, "] {
        assert_eq!(of(place), nowhere, "{place}");
    }
}

#[test]
fn a_place_that_is_none_is_a_fault_with_the_code_that_was_meant() {
    for (written, meant) in [("Vermont", "`US-VT`"), ("us-vt", "`US-VT`"), ("UK", "`GB`"), ("US-ZZ", "such as")] {
        let farm = Farm::with(&[]);
        let small = SMALL_FARM.replace("{latitude", &format!("{{where: {written}, latitude"));
        farm.write("farm.yaml", &small);
        let output = farm.publish();
        assert_eq!(code(&output), 1);
        let said = said(&output);
        assert!(said.contains("farm.yaml:2:16") && said.contains(meant), "{said}");
    }
}
