//! Which cautions stand on which page, and where: those that lead a task above its work, all others after it.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::sync::OnceLock;

use hostwood::book::{self, Book, Caution};
use hostwood::quantity::Units;
use hostwood::read::folder;
use hostwood::record::caution::{LEADING, Task};
use tempfile::TempDir;

use crate::harness::{Farm, Reckoned, code, files, root, run, said};

const FARMS: [&str; 2] = ["sorrel-hollow", "larkbeck"];

/// The sheets, each with the task of its work.
const SHEETS: [(&str, Task); 8] = [
    ("winter/felling.html", Task::Felling),
    ("winter/bucking.html", Task::Bucking),
    ("winter/inoculation.html", Task::Inoculation),
    ("yard/soak-rota.html", Task::Soaking),
    ("yard/moisture.html", Task::Stacking),
    ("yard/siting.html", Task::Stacking),
    ("yard/retiring.html", Task::Hauling),
    ("yard/harvests.html", Task::Harvest),
];
const PICKING: &str = "yard/picking-and-selling.html";

/// The methods whose steps stand on a sheet.
const STEPS: [(&str, &str); 4] =
    [("yard/siting.html", "siting"), ("yard/retiring.html", "retiring"), (PICKING, "picking"), (PICKING, "selling")];

/// The pages of a guide, by path.
type Pages = BTreeMap<String, String>;

/// The guides of both demo farms in both unit systems, as the program publishes them, with the book of each.
fn guides() -> &'static [(&'static str, Pages, Book)] {
    static GUIDES: OnceLock<Vec<(&'static str, Pages, Book)>> = OnceLock::new();
    GUIDES.get_or_init(|| {
        let systems = FARMS.into_iter().flat_map(|farm| [(farm, Units::Us), (farm, Units::Metric)]);
        let guide = |(name, units): (&'static str, Units)| {
            let farm = root().join("examples").join(name);
            let book = book::bind_in(folder::files(&farm).unwrap(), Some(units)).unwrap();
            (name, published(&farm, units.pick("us", "metric")), book)
        };
        systems.map(guide).collect()
    })
}

fn published(farm: &std::path::Path, units: &str) -> Pages {
    let folder = TempDir::new().unwrap();
    let output = run(folder.path(), &["publish", farm.to_str().unwrap(), "--to", "guide", "--units", units]);
    assert_eq!(code(&output), 0, "{}", said(&output));
    let guide: PathBuf = folder.path().join("guide");
    let html = files(&guide).into_iter().filter(|(path, _)| path.ends_with(".html"));
    html.map(|(path, bytes)| (path, String::from_utf8(bytes).unwrap())).collect()
}

/// Words without tags and without what a page writes for signs.
fn plain(html: &str) -> String {
    let parts = html.split('<').enumerate();
    let bare: String =
        parts.map(|(i, part)| if i == 0 { part } else { part.split_once('>').map_or("", |p| p.1) }).collect();
    let bare = bare.replace("&#39;", "'").replace("&quot;", "\"").replace("&amp;", "&").replace('’', "'");
    bare.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The cautions of a page, each with the place at which it stands.
fn stated(html: &str) -> Vec<(usize, String)> {
    const WORD: &str = "<b class=\"word\">";
    let places = html.match_indices(WORD).map(|(place, _)| place);
    places
        .map(|place| {
            let words = html[place..].split_once("</b>").unwrap().1;
            let end = [words.find("</p>"), words.find("</li>")].into_iter().flatten().min().unwrap();
            (place, plain(&words[..end]))
        })
        .collect()
}

/// Where the first tree, log row or step stands.
fn first_row(html: &str) -> Option<usize> {
    let table = html.find("<tbody>").and_then(|body| Some(body + html[body..].find("<tr")?));
    [table, html.find("<ol class=\"steps\">")].into_iter().flatten().min()
}

/// What a caution says, as a page has it.
fn says(caution: &Caution) -> String {
    plain(&caution.record.says)
}

/// Whether a caution stands wherever its task is done.
fn is_general(caution: &Caution) -> bool {
    caution.woods.is_empty() && caution.mushrooms.is_empty() && caution.record.with.is_none()
}

/// The tasks of a method's steps.
fn steps_of(method: &str, book: &Book) -> BTreeSet<Task> {
    book.methods[method].record.steps.iter().filter_map(|step| step.task).collect()
}

/// Every page of work that a farm has, with its tasks.
fn work(book: &Book) -> Vec<(String, BTreeSet<Task>)> {
    let mut work: BTreeMap<String, BTreeSet<Task>> = BTreeMap::new();
    for (path, task) in SHEETS {
        work.entry(path.to_owned()).or_default().insert(task);
    }
    work.insert(PICKING.to_owned(), BTreeSet::from([Task::Harvest, Task::Selling]));
    for (path, method) in STEPS {
        work.get_mut(path).unwrap().extend(steps_of(method, book));
    }
    work.extend(book.stands.keys().map(|id| (format!("stands/{id}.html"), BTreeSet::from([Task::Survey]))));
    work.extend(book.methods.keys().map(|id| (format!("methods/{id}.html"), steps_of(id, book))));
    work.into_iter().collect()
}

/// Calls a check on every page of work of every guide.
fn each_page_of_work(check: impl Fn(&str, &str, &BTreeSet<Task>, &Book)) {
    let mut seen = 0;
    for (farm, pages, book) in guides() {
        for (path, tasks) in work(book) {
            let html = &pages[&path];
            check(&format!("{farm}: {path}"), html, &tasks, book);
            seen += 1;
        }
    }
    assert!(seen > 80, "only {seen} pages of work were looked at");
}

#[test]
fn at_most_three_cautions_stand_above_the_first_row_of_work() {
    each_page_of_work(|page, html, _, _| {
        let first = first_row(html).unwrap_or(html.len());
        let above = stated(html).into_iter().filter(|(place, _)| *place < first).count();
        assert!(above <= LEADING || first == html.len(), "{page}: {above} cautions above the work");
    });
}

#[test]
fn every_caution_of_a_task_stands_on_its_page_once_and_none_of_another() {
    each_page_of_work(|page, html, tasks, book| {
        let stated: Vec<String> = stated(html).into_iter().map(|(_, words)| words).collect();
        let of_tasks = |caution: &Caution| caution.record.tasks.iter().any(|task| tasks.contains(task));
        let works = first_row(html).is_some();
        for caution in book.cautions.values().filter(|found| works && is_general(found) && of_tasks(found)) {
            let times = stated.iter().filter(|words| **words == says(caution)).count();
            assert_eq!(times, 1, "{page}: {} stands {times} times", caution.id);
        }
        for words in &stated {
            let caution = book.cautions.values().find(|caution| says(caution) == *words);
            let caution = caution.unwrap_or_else(|| panic!("{page}: no record says: {words}"));
            assert!(of_tasks(caution), "{page}: {} belongs to another task", caution.id);
            assert_eq!(stated.iter().filter(|other| *other == words).count(), 1, "{page}: twice: {words}");
        }
    });
}

#[test]
fn the_leading_cautions_of_a_sheet_stand_above_its_work_in_their_turn() {
    for (farm, pages, book) in guides() {
        for (path, task) in SHEETS {
            let html = &pages[path];
            let Some(first) = first_row(html) else { continue };
            let above: Vec<String> =
                stated(html).into_iter().filter(|(place, _)| *place < first).map(|(_, words)| words).collect();
            let tools = &book.farm.record.work.tools;
            let in_use = |found: &Caution| found.record.with.is_some_and(|tool| tools.contains(&tool));
            let leading = |found: &&Caution| found.record.leads.contains(&task) && (is_general(found) || in_use(found));
            let mut leads: Vec<&Caution> = book.cautions.values().map(AsRef::as_ref).filter(leading).collect();
            // What comes with a tool in use stands in for what has its turn without.
            let turns: Vec<Option<u8>> =
                leads.iter().filter(|found| in_use(found)).map(|found| found.record.turn).collect();
            leads.retain(|found| in_use(found) || !turns.contains(&found.record.turn));
            leads.sort_by_key(|found| found.record.turn);
            leads.truncate(LEADING);
            let leads: Vec<String> = leads.into_iter().map(says).collect();
            let own: Vec<&String> = above.iter().filter(|words| leads.contains(words)).collect();
            assert_eq!(own, leads.iter().collect::<Vec<_>>(), "{farm}: {path}");
        }
    }
}

#[test]
fn pages_that_are_no_work_keep_only_what_is_particular_to_them() {
    for (farm, pages, book) in guides() {
        let mut seen = 0;
        for (path, html) in pages {
            let kind = path.split('/').next().unwrap();
            let alone = [
                "index.html",
                "yard/batches.html",
                "seasons.html",
                "winter/supply.html",
                "winter/planning.html",
                "yard/trouble.html",
            ];
            if !matches!(kind, "woods" | "mushrooms" | "strains") && !alone.contains(&path.as_str()) {
                continue;
            }
            seen += 1;
            for (_, words) in stated(html) {
                let caution = book.cautions.values().find(|caution| says(caution) == words).unwrap();
                let particular = !caution.woods.is_empty() || !caution.mushrooms.is_empty();
                assert!(particular && !alone[1..].contains(&path.as_str()), "{farm}: {path}: {words}");
            }
        }
        assert!(seen > 100, "{farm}: only {seen} pages were looked at");
    }
}

/// The lines to tick of a page, and where they stand.
fn gate(html: &str) -> (usize, String) {
    let place = html.find("<p class=\"gate\">").expect("there is a line to tick");
    let gate = &html[place..place + html[place..].find("</p>").unwrap()];
    assert!(gate.contains("<span class=\"tick\"></span>"));
    (place, plain(gate))
}

#[test]
fn what_must_stay_in_the_step_stays_there() {
    for (farm, pages, book) in guides() {
        let felling = &pages["winter/felling.html"];
        let (place, words) = gate(felling);
        assert!(place < first_row(felling).unwrap(), "{farm}");
        for line in [
            "trained feller",
            "second person in sight",
            "looked up",
            "no wire within two tree lengths",
            "wind and light",
            "kit, phone, place written down",
            "saw gear on",
        ] {
            assert!(words.contains(line), "{farm}: {line}");
        }
        let (last, hung) = stated(felling).pop().unwrap();
        assert_eq!(hung, says(&book.cautions["fell-hung-tree"]), "{farm}");
        assert!(last > felling.find("id=\"also-felling\"").unwrap(), "{farm}");

        let bucking = &pages["winter/bucking.html"];
        let (place, words) = gate(bucking);
        assert!(place < first_row(bucking).unwrap(), "{farm}");
        for line in ["saw gear on", "pressed side and pulled side", "no metal", "fuel stands apart"] {
            assert!(words.contains(line), "{farm}: {line}");
        }
        let (_, words) = gate(&pages["winter/inoculation.html"]);
        assert!(words.contains("log clamped") && words.contains("never water"), "{farm}: {words}");
        let (place, words) = gate(&pages[PICKING]);
        assert!(words.contains("looked at by itself") && words.contains("in every character"), "{farm}: {words}");
        assert!(place < pages[PICKING].find("id=\"ripe\"").unwrap());
        assert!(plain(&pages[PICKING]).contains("Its own print: "), "{farm}");
    }
    let rota = &guides()[0].1["yard/soak-rota.html"];
    let (place, words) = gate(rota);
    assert!(place > rota.rfind("Pick until about").unwrap());
    assert!(words.contains("lid on and locked") && words.contains("way out for animals"), "{words}");
}

#[test]
fn what_kills_at_one_tree_stands_in_its_row() {
    let stand = "name: The hill\narea: 1 acre\nprism: {factor: 10 ft2/ac, counts: [16, 17]}\n";
    let trees = "tag,wood,dbh,logs,condition,decision\n1,sugar-maple,6 in,5,leaning,fell\n2,sugar-maple,6 in,5,sound,fell\n\
                 3,american-beech,6 in,5,sound,fell\n4,black-cherry,6 in,5,sound,fell\n5,sugar-maple,6 in,5,decayed,fell\n";
    let farm = Farm::with(&[("woodlot/hill.yaml", stand), ("woodlot/hill.csv", trees)]);
    let page = Reckoned::of(farm.path()).page("winter/felling.html");
    let row = |tag: u8| {
        let head = format!("<th scope=\"row\">{tag}</th>");
        let rest = page.split_once(head.as_str()).unwrap_or_else(|| panic!("no row {tag}: {page}")).1;
        plain(rest.split_once("</tr>").unwrap().0)
    };
    assert!(row(1).contains("Leans: can split"), "{}", row(1));
    assert!(!row(2).contains("can "), "{}", row(2));
    assert!(row(3).contains("Top can drop"), "{}", row(3));
    assert!(row(4).contains("Leaves poison stock"), "{}", row(4));
    assert!(row(5).contains("Top can drop"), "{}", row(5));
    // The whole words stand on the same sheet.
    let all = plain(&page);
    assert!(all.contains("Clear cherry branches from stock") && all.contains("A thin leaning stem can split"));
}

#[test]
fn rules_differ_is_said_once_a_page_and_whom_to_ask_on_the_page_of_safety_alone() {
    for (farm, pages, _) in guides() {
        for (path, html) in pages.iter().filter(|(path, _)| !path.starts_with("handouts/") && *path != "pocket.html") {
            let words = plain(html);
            assert!(words.matches("Rules differ and change").count() <= 1, "{farm}: {path}");
            let asks = words.contains("Ask local code or a trained person.");
            assert_eq!(asks, path == "safety.html", "{farm}: {path}");
        }
        let felling = plain(&pages["winter/felling.html"]);
        assert!(felling.contains("Rules differ and change: ask"), "{farm}");
    }
}

#[test]
fn a_tool_in_use_brings_its_own_cautions() {
    let with = |tools: &str| {
        let farm = Farm::with(&[(
            "farm.yaml",
            &format!("name: Tools\nplace: {{latitude: 44, longitude: -72}}\nseason: 2026\n{tools}"),
        )]);
        plain(&Reckoned::of(farm.path()).page("winter/inoculation.html"))
    };
    let adapter = "Use only a bit and adapter marked for the tool's speed";
    assert!(!with("").contains(adapter));
    assert!(with("work: {tools: [grinder]}\n").contains(adapter));
}

/// What stands beside a modelled date.
const MODELLED: &str = "(from a model, ± 14 days)";

#[test]
fn modelled_dates_say_so_and_observed_ones_say_nothing_new() {
    let farm = "name: Dates\nplace: {where: US-VT, latitude: 43.6, longitude: -72.5}\nseason: 2026\nunits: us\n\
                grows: [shiitake]\nwoods: [sugar-maple]\nrest: [2 weeks, 4 weeks]\n";
    let air = "climate: {monthly_means: [18 F, 21 F, 30 F, 42 F, 54 F, 63 F, 68 F, 66 F, 58 F, 46 F, 35 F, 24 F]}\n";
    let seen = "observed: {leaf_colour: ['2025-09-29'], bud_swell: ['2026-04-19']}\n";
    let of = |text: &str| {
        let farm = Farm::with(&[("farm.yaml", text)]);
        let reckoned = Reckoned::of(farm.path());
        ["index.html", "winter/felling.html", "seasons.html", "woods/sugar-maple.html"]
            .map(|path| (path, plain(&reckoned.page(path))))
    };
    for (path, words) in of(&format!("{farm}{air}")) {
        assert!(words.contains(MODELLED), "{path}: {words}");
    }
    for (path, words) in of(&format!("{farm}{seen}")) {
        assert!(!words.contains(MODELLED), "{path}");
    }
}
