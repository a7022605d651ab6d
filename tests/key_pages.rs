//! The pages of the keys: many ways to a tree, and the mushroom at hand.

use std::collections::{BTreeMap, BTreeSet};

use hostwood::record::character::{Character, When};
use hostwood::record::said::Mark;

use crate::harness::{Farm, Reckoned, code, demo, demo_guide, files, larkbeck_guide, said};

const WAYS: &str = "key/ways.html";
const MUSHROOM: &str = "key/mushroom.html";

/// What stands between two marks, wherever it does.
fn between<'a>(text: &'a str, from: &str, to: &str) -> Vec<&'a str> {
    text.split(from).skip(1).map(|rest| rest.split(to).next().unwrap()).collect()
}

fn places(list: &str) -> BTreeSet<usize> {
    list.split_whitespace().map(|place| place.parse().unwrap()).collect()
}

/// What the page of many ways offers: its woods by their ids, and of each answer which of them it keeps.
struct Ways {
    woods: Vec<String>,
    counts: Vec<String>,
    /// By character and state: the woods that show it, and those of which the character is not told.
    answers: BTreeMap<(String, String), (BTreeSet<usize>, BTreeSet<usize>)>,
}

impl Ways {
    fn of(page: &str) -> Self {
        let list = between(page, "<ul class=\"plain left\">", "</ul>")[0];
        let woods = between(list, "#end-", "\"").into_iter().map(str::to_owned).collect();
        let counts = between(page, "data-counts=\"", "\"")[0].split('|').map(str::to_owned).collect();
        let mut answers = BTreeMap::new();
        for question in between(page, "<details data-unknown=\"", "</details>") {
            let unknown = places(question.split('"').next().unwrap());
            for answer in between(question, "<input type=\"radio\" hidden name=\"", "</li>") {
                let value = between(answer, "value=\"", "\"")[0];
                let shown = places(between(answer, "data-woods=\"", "\"")[0]);
                let name = answer.split('"').next().unwrap();
                answers.insert((name.to_owned(), value.to_owned()), (shown, unknown.clone()));
            }
        }
        Self { woods, counts, answers }
    }

    /// The woods that are left after some answers.
    fn left(&self, ticked: &[(String, String)]) -> BTreeSet<&str> {
        let fits = |place: &usize| {
            ticked.iter().all(|answer| {
                let (shown, unknown) = &self.answers[answer];
                shown.contains(place) || unknown.contains(place)
            })
        };
        (0..self.woods.len()).filter(fits).map(|place| self.woods[place].as_str()).collect()
    }
}

/// Every pair of a character and a state of a wood that the page offers.
fn shown(farm: &Reckoned, wood: &str, ways: &Ways) -> Vec<(String, String)> {
    let record = &farm.book.woods[wood].record;
    let states = |asked: Character| {
        let told = record.characters.told(asked).map_or_else(Vec::new, |told| told.states);
        told.into_iter().map(move |state| (asked.id().to_owned(), asked.states()[state].0.to_owned()))
    };
    let sure = Character::ALL.into_iter().filter(|asked| asked.trust() >= 1.0);
    sure.flat_map(states).filter(|answer| ways.answers.contains_key(answer)).collect()
}

/// Holds the page of a farm to its records.
fn ways_hold(name: &str, farm: &Reckoned, page: &str) {
    let ways = Ways::of(page);
    let keyed = &farm.findings.tree_keys()[0].woods;
    let (glance, keyed): (Vec<_>, Vec<_>) = keyed.iter().partition(|of| of.is_refused && of.wood.is_conifer());
    let keyed: BTreeSet<&str> = keyed.iter().map(|of| of.wood.id.as_str()).collect();
    for of in glance {
        let link = format!("#end-{}\"", of.wood.id);
        let before = page.split("<h2").next().unwrap();
        assert!(before.contains(&link), "{name}: {} is not left at a glance", of.wood.id);
    }
    assert_eq!(ways.woods.iter().map(String::as_str).collect::<BTreeSet<_>>(), keyed, "{name}");
    assert_eq!(ways.counts.len(), ways.woods.len() + 1, "{name}: there is no count for every number of woods");
    for (at, wood) in ways.woods.iter().enumerate() {
        let own = shown(farm, wood, &ways);
        assert!(!own.is_empty(), "{name}: nothing that is ticked tells of {wood}");
        for answer in &own {
            assert!(ways.answers[answer].0.contains(&at), "{name}: {wood} does not show {answer:?}");
        }
        // One state of each character, as a reader ticks them, keeps the wood.
        let first: BTreeMap<String, String> = own.into_iter().rev().collect();
        let ticked: Vec<_> = first.into_iter().collect();
        assert!(ways.left(&ticked).contains(wood.as_str()), "{name}: {wood} is shut out by its own characters");
    }
    for ((asked, state), (shown, unknown)) in &ways.answers {
        let asked: Character = asked.parse().unwrap();
        assert!(asked.when() != When::Never && shown.is_disjoint(unknown), "{name}: {asked:?} {state}");
        for (place, wood) in ways.woods.iter().enumerate() {
            let told = farm.book.woods[wood].record.characters.told(asked).map(|told| told.states);
            let shows = told.as_ref().is_some_and(|states| states.iter().any(|of| asked.states()[*of].0 == state));
            assert_eq!(shown.contains(&place), shows, "{name}: {wood} {asked:?} {state}");
            assert_eq!(unknown.contains(&place), told.is_none(), "{name}: {wood} {asked:?}");
        }
    }
}

#[test]
fn many_ways_lead_to_each_wood_of_both_farms() {
    for (name, guide) in [("sorrel-hollow", demo_guide()), ("larkbeck", larkbeck_guide())] {
        let pages = files(guide);
        ways_hold(name, demo(name), std::str::from_utf8(&pages[WAYS]).unwrap());
    }
}

#[test]
fn in_the_south_a_farm_finds_its_own_wood_by_what_it_says_of_it() {
    let farm = Farm::with(&[
        (
            "farm.yaml",
            "name: South\nplace: {latitude: -41, longitude: 173, where: NZ}\nseason: 2026\nwoods: [kanuka, english-oak, european-birch]\n",
        ),
        (
            "woods/kanuka.yaml",
            "names: [kanuka]\nscientific: Kunzea robusta\nleaf: broad\ncharacters:\n  foliage: {is: [broad], source: common-practice}\n  bark: {is: [shreddy], source: common-practice}\n",
        ),
    ]);
    let page = farm.drawn(WAYS);
    let reckoned = Reckoned::of(farm.path());
    ways_hold("south", &reckoned, &page);
    let ways = Ways::of(&page);
    let left = ways.left(&[("bark".to_owned(), "shreddy".to_owned())]);
    assert!(left.contains("kanuka") && !left.contains("european-birch"), "{left:?}");
}

#[test]
fn whatever_no_wood_shows_is_not_ours() {
    let page = Farm::with(&[]).drawn(WAYS);
    assert!(page.contains("None of our woods: leave it"));
}

#[test]
fn the_mushroom_at_hand_meets_the_stop_rule_first() {
    for (name, guide) in [("sorrel-hollow", demo_guide()), ("larkbeck", larkbeck_guide())] {
        let page = String::from_utf8(files(guide)[MUSHROOM].clone()).unwrap();
        let at = |text: &str| page.find(text).unwrap_or_else(|| panic!("{name}: {text} is missing"));
        let first = at("<h2");
        assert!(at("A log can fruit something you did not plant") < first, "{name}");
        assert!(at("In doubt, leave it") < first && at("never taste to test") < first, "{name}");
        assert!(at("Eaten already?") < first, "{name}");
    }
}

#[test]
fn every_look_alike_of_what_is_grown_is_gone_through_with_its_print() {
    for (name, guide) in [("sorrel-hollow", demo_guide()), ("larkbeck", larkbeck_guide())] {
        let farm = demo(name);
        let page = String::from_utf8(files(guide)[MUSHROOM].clone()).unwrap();
        let mushrooms = farm.findings.mushrooms();
        assert!(!mushrooms.is_empty(), "{name}");
        for mushroom in mushrooms {
            for row in &mushroom.record.look_alikes {
                let (kind, book) = (row.kind.as_str(), &farm.book);
                let block = between(&page, &format!("id=\"{}-or-{kind}\"", mushroom.id), "</details>");
                let [block] = block[..] else {
                    panic!("{name}: {} or {kind} stands {} times", mushroom.id, block.len())
                };
                let record = &book.look_alikes[kind].record;
                assert_eq!(block.contains("Deadly:"), record.deadly, "{name}: {kind}");
                let told = if row.print_separates {
                    "the print tells them apart"
                } else {
                    "the print does not tell them apart"
                };
                assert!(block.contains(told) && block.contains(&record.print), "{name}: {} or {kind}", mushroom.id);
            }
            let deadly: Vec<bool> = between(&page, &format!("id=\"{}-or-", mushroom.id), "</summary>")
                .into_iter()
                .map(|block| block.contains("Deadly:"))
                .collect();
            assert!(
                deadly.is_sorted_by(|one, two| one >= two),
                "{name}: the deadly do not come first with {}",
                mushroom.id
            );
        }
        for other in farm.book.look_alikes.keys() {
            assert_eq!(page.matches(&format!("id=\"look-alike-{other}\"")).count(), 1, "{name}: {other}");
        }
    }
}

#[test]
fn no_page_says_that_a_mushroom_is_safe() {
    for guide in [demo_guide(), larkbeck_guide()] {
        for (path, bytes) in files(guide).into_iter().filter(|(path, _)| path.ends_with(".html")) {
            let text = String::from_utf8(bytes).unwrap().to_lowercase();
            for phrase in ["safe to eat", "it is edible", "mushroom is safe", "can be eaten"] {
                assert!(!text.contains(phrase), "{path}: {phrase}");
            }
        }
    }
}

#[test]
fn a_size_from_memory_is_not_printed() {
    let book = &demo("sorrel-hollow").book;
    let grown = book.mushrooms.values().flat_map(|of| of.record.features.iter().map(move |row| (&of.id, row)));
    let alike = book.look_alikes.values().flat_map(|of| of.record.features.iter().map(move |row| (&of.id, row)));
    let mut told = 0;
    for (id, row) in grown.chain(alike) {
        told += 1;
        let is_size =
            ["mm", " in ", "cm"].iter().any(|unit| row.says.contains(unit)) && row.says.contains(char::is_numeric);
        assert!(row.mark != Mark::Memory || !is_size, "{id}: {}", row.says);
    }
    assert!(told > 200, "{told}");
}

#[test]
fn a_farm_adds_a_look_alike_of_its_own_and_a_wrong_one_is_a_fault() {
    let shiitake = "look_alikes:\n  - {kind: grey-stranger, print_separates: false, apart: smells of tar}\n";
    let own = "grey-stranger:\n  name: grey stranger\n  scientific: Mycena\n  deadly: true\n  print: white\n  apart: grey all over\n  harm: Unknown.\n  features:\n    - {part: flesh, says: grey, source: common-practice}\n  sources: [common-practice]\n";
    let farm = Farm::with(&[
        ("strains/porch.yaml", "name: Porch\nmushroom: shiitake\n"),
        ("mushrooms/shiitake.yaml", shiitake),
        ("look-alikes.yaml", own),
    ]);
    let page = farm.drawn(MUSHROOM);
    assert!(page.contains("id=\"shiitake-or-grey-stranger\"") && page.contains("smells of tar"), "{page}");
    farm.write("look-alikes.yaml", &own.replace("flesh", "fleesh"));
    let output = farm.publish();
    assert_eq!(code(&output), 1);
    assert!(said(&output).contains("look-alikes.yaml:9") && said(&output).contains("`flesh`"), "{}", said(&output));
    farm.write("look-alikes.yaml", &own.replace("grey-stranger", "gray-stranger"));
    let output = farm.publish();
    assert_eq!(code(&output), 1);
    assert!(said(&output).contains("gray-stranger"), "{}", said(&output));
}
