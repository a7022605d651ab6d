//! Yards as places: what lies where, what indoors silences, and what holds where logs leave the land.

use crate::harness::{Farm, demo, table};

const FARM: &str = "name: Tussock\nplace: {where: NZ, latitude: -41.3, longitude: 173}\nseason: 2026\nunits: metric\n\
    grows: [shiitake]\nwoods: [red-oak]\n\
    climate:\n  monthly_means: [18 C, 18 C, 16 C, 13 C, 10 C, 7 C, 7 C, 8 C, 10 C, 12 C, 14 C, 16 C]\n\
    yards:\n  - {name: Willows, shade: Willows, water: The race, tank: 10}\n  - {name: Wool shed, indoors: true}\n  \
    - {name: At the market garden, off_property: true}\n";
const BATCH: &str = "strain: shiitake-wide-range\nwood: red-oak\nlogs: 20\ninoculated: '2026-08-20'\n";

fn farm(book: &str) -> Farm {
    let farm = Farm::with(&[("batches/a.yaml", BATCH), ("yard/all.csv", book)]);
    farm.write("farm.yaml", FARM);
    farm
}

/// The words of a page without its tags.
fn words(page: &str) -> String {
    let text: Vec<&str> = page.split('<').map(|part| part.split_once('>').map_or("", |(_, text)| text)).collect();
    text.join(" ").split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn logs_lie_where_the_day_book_moved_them() {
    let lies = |book: &str| {
        let page = farm(&format!("date,batch,what,logs,to\n{book}")).drawn("winter/ledger.html");
        let page = words(&page);
        let of = |yard: &str| page.split_once(&format!(" {yard} ")).map(|(_, rest)| rest[..2].trim().to_owned());
        ["Willows", "Wool shed"].map(of)
    };
    let logs = |a: &str, b: &str| [a, b].map(|logs| (!logs.is_empty()).then(|| logs.to_owned()));
    assert_eq!(lies(""), logs("20", ""));
    assert_eq!(lies("2026-09-01,a,moved,,Wool shed\n"), logs("", "20"));
    assert_eq!(lies("2026-09-01,a,moved,6,Wool shed\n"), logs("14", "6"));
    assert_eq!(lies("2026-09-01,a,moved,6,Wool shed\n2026-10-01,a,moved,2,Willows\n"), logs("16", "4"));
    assert_eq!(lies("2026-09-01,a,moved,6,Wool shed\n2026-10-01,a,log lost,16,\n"), logs("", "4"));
    assert_eq!(lies("2026-09-01,a,moved,6,Wool shed\n2026-10-01,a,moved,,Willows\n"), logs("20", ""));
}

#[test]
fn the_page_of_the_yard_lists_every_yard_with_what_lies_there() {
    let page = words(&farm("date,batch,what,logs,to\n2026-09-01,a,moved,6,Wool shed\n").drawn("yard/siting.html"));
    for told in ["Willows 14", "The race", "10 logs", "Wool shed 6", "indoors: neither season nor frost reaches it"] {
        assert!(page.contains(told), "{told}: {page}");
    }
    assert!(!page.contains("Logs that leave our land"));
    let demo = words(&demo("sorrel-hollow").page("yard/siting.html"));
    assert!(demo.contains("Hemlock yard") && demo.contains("The barn spout"), "{demo}");
}

#[test]
fn indoors_the_lungs_come_first_and_no_season_delays_the_first_mushrooms() {
    let out = farm("date,batch,what,logs,to\n");
    let within = farm("date,batch,what,logs,to\n2026-09-01,a,moved,,Wool shed\n");
    let leads = |farm: &Farm| {
        let page = farm.drawn("yard/picking-and-selling.html");
        let first = page.split_once("role=\"note\"").unwrap().1;
        words(&first[..first.find("</div>").unwrap()])
    };
    assert!(leads(&within).contains("spores"), "{}", leads(&within));
    assert!(!leads(&out).contains("spores"), "{}", leads(&out));
    // Six months from December end in June, when no air out of doors suits.
    for farm in [&out, &within] {
        farm.write("batches/a.yaml", &BATCH.replace("2026-08-20", "2026-01-04"));
    }
    let first = |farm: &Farm| {
        let rows = table("calendar", farm.path(), &[]);
        let row = rows.iter().find(|row| row["kind"] == "first-fruit");
        row.map(|row| row["from"].as_str().unwrap().to_owned())
    };
    let span = table("batches", within.path(), &[])[0]["first_from"].as_str().unwrap().to_owned();
    assert_eq!(first(&within), Some(span.clone()));
    assert!(first(&out).is_none_or(|day| day > span), "{:?}", first(&out));
}

#[test]
fn logs_on_other_peoples_land_show_the_rules_of_moving_wood_once() {
    let moved = farm("date,batch,what,logs,to\n2026-09-01,a,moved,5,At the market garden\n");
    let page = moved.drawn("yard/siting.html");
    let leaving = page.split_once("id=\"leaving\"").unwrap().1;
    let leaving = &leaving[..leaving.find("</section>").unwrap()];
    assert!(leaving.contains("batches/a.html") && leaving.contains("irewood"), "{leaving}");
    assert_eq!(page.matches("id=\"leaving\"").count(), 1);
}
