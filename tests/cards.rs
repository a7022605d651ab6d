//! Paper that comes home: cards to fill in by hand, and tags for logs.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use std::fs;

use serde_json::Value;

use crate::harness::{Farm, code, files, root, run, said, table};

/// What stands in a page between two marks, wherever it does.
fn between<'a>(page: &'a str, from: &str, to: &str) -> Vec<&'a str> {
    page.split(from).skip(1).map(|rest| rest.split(to).next().unwrap()).collect()
}

/// A text without its marks.
fn bare(html: &str) -> String {
    html.split('<').enumerate().map(|(at, part)| if at == 0 { part } else { part.split_once('>').unwrap().1 }).collect()
}

/// A card as it lies on the table before anybody writes on it.
struct Card {
    file: String,
    heads: Vec<String>,
    /// What is printed in the cells of its first row.
    printed: Vec<String>,
    /// How its batches are called.
    batches: Vec<String>,
    rows: usize,
}

impl Card {
    fn of(section: &str) -> Self {
        let cells = |part: &str, tag: &str| -> Vec<String> {
            let cells = between(part, &format!("<{tag} "), &format!("</{tag}>"));
            cells.iter().map(|cell| bare(cell.split_once('>').unwrap().1)).collect()
        };
        let body = section.split("<tbody>").nth(1).unwrap();
        let heads = cells(section.split("<tbody>").next().unwrap(), "th");
        let all = cells(body, "td");
        assert_eq!(all.len() % heads.len(), 0, "every row has a cell under each head");
        let bold = between(section, "<b>", "</b>");
        Self {
            file: bold[0].to_owned(),
            printed: all[..heads.len()].to_vec(),
            rows: all.len() / heads.len(),
            batches: bold[1..].iter().map(|call| (*call).to_owned()).collect(),
            heads,
        }
    }

    /// A row under its heads: what is printed stays, and what is written goes where its head is; `Batch` is what is written
    /// for it, and a unit that is printed follows the number.
    fn row(&self, written: &[(&str, &str)]) -> String {
        let is_of = |own: &String, head: &str| own == head || own.split(" (").next() == Some(head);
        let known = |(head, _): &&(&str, &str)| self.heads.iter().any(|own| is_of(own, head));
        assert_eq!(written.iter().filter(known).count(), written.len(), "{written:?} under {:?}", self.heads);
        let cell = |(head, printed): (&String, &String)| {
            let hand = written.iter().find(|(of, _)| is_of(head, of)).map(|(_, hand)| *hand);
            match hand {
                Some(hand) if head != "Batch" && !printed.is_empty() => format!("{hand} {printed}"),
                Some(hand) => hand.to_owned(),
                None if ["lb", "kg", "hours"].contains(&printed.as_str()) || head == "Batch" => String::new(),
                None => printed.clone(),
            }
        };
        self.heads.iter().zip(&self.printed).map(cell).collect::<Vec<_>>().join(",") + "\n"
    }

    /// A sheet with the heads of the card and a row.
    fn sheet(&self, written: &[(&str, &str)]) -> String {
        format!("{}\n{}", self.heads.join(","), self.row(written))
    }
}

/// All cards of a guide by their ids, over all its pages.
fn cards(farm: &Farm) -> BTreeMap<String, Card> {
    let guide = files(&farm.path().join("guide"));
    let pages = guide.iter().filter(|(path, _)| path.starts_with("yard/cards"));
    let cards = pages.flat_map(|(_, page)| {
        between(std::str::from_utf8(page).unwrap(), "<section class=\"card\" id=\"", "</section>")
    });
    cards.map(|card| (card.split('"').next().unwrap().to_owned(), Card::of(card))).collect()
}

/// A copy of a demo farm.
fn copy(demo: &str) -> Farm {
    let farm = Farm::with(&[]);
    for (path, text) in files(&root().join("examples").join(demo)) {
        farm.write(&path, std::str::from_utf8(&text).unwrap());
    }
    farm
}

fn publish(farm: &Farm, paper: &str) {
    let output = run(farm.path(), &["publish", ".", "--to", "guide", "--paper", paper]);
    assert_eq!(code(&output), 0, "{}", said(&output));
}

/// Adds what was written to a sheet that the farm has, or makes it.
fn type_in(farm: &Farm, card: &Card, written: &[(&str, &str)]) {
    let path = farm.path().join(&card.file);
    match fs::read_to_string(&path) {
        Ok(sheet) => {
            assert!(sheet.starts_with(&card.heads.join(",")), "a second card into {}", card.file);
            fs::write(path, sheet + &card.row(written)).unwrap();
        }
        Err(_) => farm.write(&card.file, &card.sheet(written)),
    }
}

/// A computed table of the published guide.
fn told(farm: &Farm, name: &str) -> Vec<Value> {
    serde_json::from_str(&farm.page(&format!("tables/{name}.json"))).unwrap()
}

fn lines(farm: &Farm, name: &str) -> u64 {
    let rows = told(farm, "ledger");
    let of = rows.iter().filter(|row| row["balance"] == "yard" && row["line"] == name);
    of.map(|row| row["logs"].as_u64().unwrap()).sum()
}

/// A farm's cards are printed, filled in, and typed into sheets of their own; each is found in the guide and in a table.
fn comes_home(demo: &str, paper: &str, weight: &str, unit: &str) {
    let farm = copy(demo);
    publish(&farm, paper);
    let cards = cards(&farm);
    let before = ["lost", "in-the-yard", "not-accounted-for"].map(|name| lines(&farm, name));

    let picking = &cards["picking"];
    let batch = picking.batches.last().unwrap().as_str();
    let day = "2027-05-20";
    type_in(&farm, picking, &[("Date", day), ("Batch", batch), ("Weight", weight), ("Note", "picked by card")]);

    let soaking = &cards["soaking"];
    let soaked = [("Date", "2027-05-18"), ("Batch", soaking.batches[0].as_str()), ("Logs", "3"), ("Amount", "12")];
    type_in(&farm, soaking, &[&soaked[..], &[("Note", "soaked by card")]].concat());

    // The other cards of the day book have sheets of their own here, as on a farm that begins one each.
    let losses = &cards["losses"];
    let loss = [("Date", day), ("Batch", losses.batches[1].as_str()), ("What", "log-lost"), ("Logs", "2")];
    farm.write("yard/losses.csv", &losses.sheet(&[&loss[..], &[("Note", "lost by card")]].concat()));

    let count = &cards["count"];
    let counted = [("Date", "2027-11-02"), ("Batch", count.batches[0].as_str()), ("Logs", "4")];
    farm.write("yard/counts.csv", &count.sheet(&[&counted[..], &[("Note", "counted by card")]].concat()));
    publish(&farm, paper);

    let guide = files(&farm.path().join("guide"));
    for note in ["picked by card", "soaked by card", "lost by card", "counted by card"] {
        let told = |(path, page): (&String, &Vec<u8>)| {
            path.starts_with("yard/") && String::from_utf8_lossy(page).contains(note)
        };
        assert!(guide.iter().any(told), "{demo}: the guide does not tell what was {note}");
    }
    let harvests = table("harvests", farm.path(), &[]);
    assert_eq!(harvests, told(&farm, "harvests"));
    let picked = harvests.iter().find(|row| row["note"] == "picked by card").unwrap();
    assert_eq!(picked[format!("picked_{unit}")].to_string(), weight, "{picked}");
    let [lost, left, missed] = ["lost", "in-the-yard", "not-accounted-for"].map(|name| lines(&farm, name));
    assert_eq!(lost, before[0] + 2, "{demo}: two logs are lost");
    assert!(missed > before[2], "{demo}: fewer were counted than were there");
    assert_eq!(left, before[1] - 2 - (missed - before[2]));
}

#[test]
fn what_is_written_on_cards_comes_home_on_letter_paper() {
    comes_home("sorrel-hollow", "letter", "2.2", "lb");
}

#[test]
fn what_is_written_on_cards_comes_home_on_a4_paper() {
    comes_home("larkbeck", "a4", "0.42", "kg");
}

#[test]
fn a_soak_that_came_home_on_a_card_moves_the_rota() {
    let farm = copy("sorrel-hollow");
    publish(&farm, "letter");
    let (before, soaking) = (told(&farm, "soak-rota"), &cards(&farm)["soaking"]);
    let batch = soaking.batches[0].as_str();
    type_in(&farm, soaking, &[("Date", "2027-05-20"), ("Batch", batch), ("Amount", "12")]);
    let tags = farm.page("yard/log-tags-2.html");
    let id = between(&tags, "<b>No. ", "</small>");
    let id = id.iter().find(|tag| tag.split('<').next() == Some(batch)).unwrap().rsplit('>').next().unwrap().to_owned();
    let first = |rows: &[Value]| {
        let of = |row: &&Value| row["batches"].as_str().unwrap().contains(&id);
        rows.iter().find(of).unwrap()["date"].as_str().unwrap().to_owned()
    };
    let after = table("soak-rota", farm.path(), &[]);
    assert!(first(&after) > first(&before), "its first soak is later");
}

#[test]
fn a_walk_and_what_came_down_come_home_on_cards() {
    for (demo, paper, wood, measures) in [
        ("sorrel-hollow", "letter", "red-oak", [("DBH (in)", "6.4"), ("Height (ft)", "52"), ("North (ft)", "40")]),
        ("larkbeck", "a4", "common-alder", [("DBH (cm)", "16"), ("Height (m)", "14"), ("North (m)", "12")]),
    ] {
        let farm = copy(demo);
        publish(&farm, paper);
        let cards = cards(&farm);
        let (walk, felled) = (&cards["walk"], &cards["felled"]);
        farm.write("woodlot/annex.yaml", "name: The annex\n");
        let tree = [("Tag", "X-1"), ("Wood", wood), ("Decision", "fell"), ("Condition", "sound"), ("Why", "crowded")];
        let path = walk.file.replace("STAND", "annex");
        farm.write(&path, &walk.sheet(&[&tree[..], &measures].concat()));
        let found = || {
            publish(&farm, paper);
            told(&farm, "trees").into_iter().find(|row| row["tag"] == "X-1").unwrap()
        };
        let marked = found();
        let says = ["stand", "wood", "decision"].map(|key| marked[key].as_str().unwrap());
        assert_eq!(says, ["annex", wood, "fell"]);
        assert!(marked["logs"].as_u64().unwrap() > 0 && marked["felled"].is_null(), "{marked}");

        // Its row gets the columns of the other card.
        assert_eq!(felled.heads[0], walk.heads[0], "a row is found again by its tag");
        let sheet = fs::read_to_string(farm.path().join(&path)).unwrap();
        let [head, row] = sheet.lines().collect::<Vec<_>>()[..] else { panic!("{sheet}") };
        let home = felled.row(&[("Tag", "X-1"), ("Felled", "2026-11-18"), ("Logs cut", "5")]);
        let (heads, cells) = (felled.heads[1..].join(","), home.split_once(',').unwrap().1);
        farm.write(&path, &format!("{head},{heads}\n{row},{cells}"));
        let down = found();
        assert_eq!((down["felled"].as_str(), down["logs_cut"].as_u64()), (Some("2026-11-18"), Some(5)), "{down}");
    }
}

#[test]
fn cards_have_the_heads_that_their_sheets_know() {
    let farm = copy("larkbeck");
    publish(&farm, "a4");
    for (id, kind) in [
        ("walk", "tree"),
        ("felled", "tree"),
        ("soaking", "diary"),
        ("picking", "harvest"),
        ("losses", "diary"),
        ("count", "diary"),
    ] {
        let schema: Value = serde_json::from_slice(&run(&root(), &["schema", kind]).stdout).unwrap();
        let keys: BTreeSet<&String> = schema["properties"].as_object().unwrap().keys().collect();
        for head in &cards(&farm)[id].heads {
            let key = head.split(" (").next().unwrap().to_lowercase().replace(' ', "_");
            assert!(keys.contains(&key), "{id}: a {kind} has no `{key}`");
        }
    }
    let walked: BTreeSet<String> = ["walk", "felled"].iter().flat_map(|id| cards(&farm)[*id].heads.clone()).collect();
    let schema: Value = serde_json::from_slice(&run(&root(), &["schema", "tree"]).stdout).unwrap();
    let all = schema["properties"].as_object().unwrap().keys();
    // The stand is the file's own name, and `checked` answers a question of the program.
    let missing = all.filter(|key| !["stand", "checked"].contains(&key.as_str())).filter(|key| {
        !walked.iter().any(|head| head.split(" (").next().unwrap().to_lowercase().replace(' ', "_") == **key)
    });
    assert_eq!(missing.collect::<Vec<_>>(), Vec::<&String>::new(), "columns of the walk that no card has");
}

#[test]
fn a_southern_farm_types_its_cards_into_the_year_in_which_its_summer_begins() {
    let farm = Farm::with(&[]);
    farm.write("farm.yaml", "name: South\nplace: {latitude: -38, longitude: 145}\nseason: 2026\nunits: metric\n");
    let page = farm.drawn("yard/cards.html");
    assert!(page.contains("<b>yard/2026.csv</b>") && page.contains("Days as 2026-11-18."), "{page}");
    assert!(page.contains("DBH (cm)") && page.contains("Weight (kg)"));
    let rows = between(&page, "<section class=\"card\"", "</section>");
    assert_eq!(rows.len(), 6, "a farm without a batch has every card, with no number on it");
}

const STRAIN: &str =
    "name: The wide-range line of the first yard\nmushroom: shiitake\nclass: wide-range\nspawn: [sawdust]\n";

/// A farm of two hundred living batches and twenty ended ones, in two yards.
fn many(more: &str) -> Farm {
    let farm = Farm::with(&[("strains/line.yaml", STRAIN)]);
    farm.write(
        "farm.yaml",
        &format!("name: Many\nplace: {{latitude: 44, longitude: -72}}\nseason: 2026\nyards: [{{name: Crib}}, {{name: Lean-to}}]\n{more}"),
    );
    for number in 1..=220 {
        let mut batch = format!(
            "strain: line\nwood: red-oak\nlogs: 40\nnumber: {number}\ninoculated: '2027-04-20'\nfelled: '2027-02-03'\nyard: {}\n",
            if number % 2 == 0 { "Crib" } else { "Lean-to" }
        );
        if number > 200 {
            writeln!(batch, "ended: {{date: '2027-05-01', how: lost}}").unwrap();
        }
        farm.write(&format!("batches/an-id-that-is-rather-long-for-a-batch-{number}.yaml"), &batch);
    }
    farm
}

#[test]
fn two_hundred_batches_run_on_to_further_cards_and_pages_stay_small() {
    let farm = many("");
    publish(&farm, "letter");
    let cards = cards(&farm);
    let living: BTreeSet<String> = (1..=200).map(|number| number.to_string()).collect();
    for kind in ["soaking", "picking", "losses", "count"] {
        let of: Vec<&Card> =
            cards.iter().filter(|(id, _)| id.split('-').next() == Some(kind)).map(|(_, card)| card).collect();
        let told: Vec<&String> = of.iter().flat_map(|card| &card.batches).collect();
        assert_eq!(told.len(), 200, "{kind}: each living batch stands on one card");
        assert_eq!(told.into_iter().cloned().collect::<BTreeSet<_>>(), living, "{kind}");
        assert!(of.iter().all(|card| (8..=12).contains(&card.rows)), "{kind}: rows that a hand can write in");
    }
    let guide = files(&farm.path().join("guide"));
    let styles: usize = ["tokens.css", "screen.css", "print.css", "paper.css", "endgrain.js"]
        .map(|name| guide[&format!("look/{name}")].len())
        .iter()
        .sum();
    let pages = guide.iter().filter(|(path, _)| path.starts_with("yard/cards") || path.starts_with("yard/log-tags"));
    let heavy: Vec<_> = pages.filter(|(_, page)| page.len() + styles > 120_000).map(|(path, _)| path).collect();
    assert!(heavy.is_empty(), "over 120 kB: {heavy:?}");
    // A tag for each of eight thousand logs, whatever page it is on.
    let tags = |guide: &BTreeMap<String, Vec<u8>>| -> usize {
        let pages = guide.iter().filter(|(path, _)| path.starts_with("yard/log-tags"));
        pages.map(|(_, page)| String::from_utf8_lossy(page).matches("<li class=\"tag").count()).sum()
    };
    assert_eq!(tags(&guide), 8_000);
    assert!(farm.page("yard/log-tags.html").contains("8000 tags"));

    farm.write("farm.yaml", &(fs::read_to_string(farm.path().join("farm.yaml")).unwrap() + "tags: 2\n"));
    let own = "batches/an-id-that-is-rather-long-for-a-batch-7.yaml";
    let seventh = fs::read_to_string(farm.path().join(own)).unwrap();
    farm.write(own, &(seventh + "tags: 5\n"));
    publish(&farm, "letter");
    assert_eq!(tags(&files(&farm.path().join("guide"))), 199 * 2 + 5);
}

#[test]
fn a_number_of_tags_that_nobody_prints_is_a_fault() {
    for wrong in ["tags: -1\n", "tags: 1.5\n", "tags: 20000\n", "tags: one\n"] {
        let farm = Farm::with(&[]);
        farm.write("farm.yaml", &format!("{}{wrong}", crate::harness::SMALL_FARM));
        let output = run(farm.path(), &["proof", "."]);
        assert_eq!(code(&output), 1, "{wrong}");
        assert!(said(&output).contains("tags"), "{}", said(&output));
    }
}

#[test]
fn a_tag_tells_the_days_and_no_tag_is_of_nothing() {
    let guide = crate::harness::demo_guide();
    let pages = files(guide);
    let tags: Vec<String> = pages
        .iter()
        .filter(|(path, _)| path.starts_with("yard/log-tags"))
        .flat_map(|(_, page)| {
            let page = String::from_utf8_lossy(page).into_owned();
            between(&page, "<li class=\"tag", "</li>")
                .into_iter()
                .map(|tag| bare(&format!("<{tag}")))
                .collect::<Vec<_>>()
        })
        .collect();
    assert!(tags.iter().all(|tag| !tag.contains(" 0 logs")), "a tag of no log");
    let oak = tags.iter().find(|tag| tag.contains("2024-red-oak-early-autumn")).unwrap();
    for told in ["Red oak, 24 logs", "No. 1", "Felled March 27, 2024", "Inoculated April 20, 2024", "Spawn sawdust"] {
        assert!(oak.contains(told), "{told}: {oak}");
    }
    let beech = tags.iter().filter(|tag| tag.contains("American beech, 24 logs"));
    assert_eq!(beech.count(), 24, "one for each log of the wish");
}
