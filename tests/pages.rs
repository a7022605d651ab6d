//! What a reader finds on the pages of the demo farm.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    evidence::demo,
    harness::{Farm, demo_guide, files},
};

/// The pages of the demo farm's guide, by path.
fn pages() -> BTreeMap<String, String> {
    let html = files(demo_guide()).into_iter().filter(|(path, _)| path.ends_with(".html"));
    html.map(|(path, bytes)| (path, String::from_utf8(bytes).unwrap())).collect()
}

/// The text of a page without its tags, white space folded.
fn text(html: &str) -> String {
    let mut out = String::new();
    let mut inside = false;
    for c in html.chars() {
        match c {
            '<' => inside = true,
            '>' => {
                inside = false;
                out.push(' ');
            }
            c if !inside => out.push(c),
            _ => {}
        }
    }
    let folded = out.split_whitespace().collect::<Vec<_>>().join(" ");
    folded.replace("&#39;", "'").replace("&quot;", "\"").replace("&amp;", "&")
}

/// The targets of a page's links, made relative to the guide's top.
fn links(path: &str, html: &str) -> BTreeSet<String> {
    let folder: Vec<&str> = path.split('/').collect();
    html.split("href=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .filter(|target| !target.starts_with('#') && !target.contains(':'))
        .map(|target| {
            let mut parts = folder[..folder.len() - 1].to_vec();
            for step in target.split('#').next().unwrap().split('/') {
                match step {
                    ".." => {
                        parts.pop();
                    }
                    step => parts.push(step),
                }
            }
            parts.join("/")
        })
        .collect()
}

#[test]
fn every_record_has_a_page_within_three_links_of_the_index() {
    let pages = pages();
    let mut reached = BTreeSet::from(["index.html".to_owned()]);
    for _ in 0..3 {
        let next: BTreeSet<String> = reached
            .iter()
            .filter_map(|path| Some((path, pages.get(path)?)))
            .flat_map(|(path, html)| links(path, html))
            .collect();
        reached.extend(next);
    }
    let book = demo();
    let wanted = book
        .mushrooms
        .keys()
        .map(|id| format!("mushrooms/{id}.html"))
        .chain(book.woods.keys().map(|id| format!("woods/{id}.html")))
        .chain(book.strains.keys().map(|id| format!("strains/{id}.html")))
        .chain(book.methods.keys().map(|id| format!("methods/{id}.html")))
        .chain(book.notes.keys().map(|id| format!("notes/{id}.html")));
    for path in wanted {
        assert!(pages.contains_key(&path), "{path} is missing");
        assert!(reached.contains(&path), "{path} is more than three links from the index");
    }
}

#[test]
fn no_link_is_broken_and_nothing_is_loaded_from_elsewhere() {
    let all = files(demo_guide());
    for (path, html) in pages() {
        for target in links(&path, &html) {
            assert!(all.contains_key(&target), "{path} leads to {target}");
        }
        for loaded in ["src=\"http", "<iframe", "@import", "url(http"] {
            assert!(!html.contains(loaded), "{path} holds {loaded}");
        }
        let head = html.split("</head>").next().unwrap();
        let scripts: Vec<&str> = head.split("<script").skip(1).collect();
        let own = |script: &&str| script.starts_with(" src=\"look/") || script.starts_with(" src=\"../look/");
        assert!(!head.contains("href=\"http") && scripts.iter().all(own), "{path}");
    }
}

#[test]
fn what_grows_on_red_maple_and_who_disagrees() {
    let pages = pages();
    assert!(links("index.html", &pages["index.html"]).contains("woods/red-maple.html"));
    let page = text(&pages["woods/red-maple.html"]);
    assert!(page.contains("shiitake 2 does well"), "{page}");
    for word in ["less potential: lower yield, marginal return", "Frey 2020", "can also be used", "sources differ"] {
        assert!(page.contains(word), "{word} is not said on the page");
    }
}

#[test]
fn what_may_go_on_tulip_poplar() {
    let pages = pages();
    assert!(links("index.html", &pages["index.html"]).contains("woods/tulip-poplar.html"));
    let page = text(&pages["woods/tulip-poplar.html"]);
    assert!(
        page.contains("tree oyster 3 thrives") && page.contains("named as host, softer hardwoods preferred"),
        "{page}"
    );
}

#[test]
fn when_red_oaks_for_shiitake_must_be_down_and_inoculated() {
    let pages = pages();
    assert!(links("index.html", &pages["index.html"]).contains("seasons.html"));
    let page = &pages["seasons.html"];
    let row = page.split("<tr>").find(|row| row.contains("red oak and white oak")).expect("the oaks have a row");
    let row = text(row);
    for date in ["4 March 2027", "31 March 2027", "1 April 2027", "28 April 2027"] {
        assert!(row.contains(date), "{date} is not in: {row}");
    }
    assert!(page.contains("working/seasons.html#inoculate-shiitake"));
}

#[test]
fn how_much_spawn_for_twenty_four_logs() {
    let pages = pages();
    assert!(links("index.html", &pages["index.html"]).contains("winter/inoculation.html"));
    let page = &pages["winter/inoculation.html"];
    let size = page.split("<caption>").find(|part| part.starts_with("Logs 5 in")).expect("5 in logs have a table");
    let row = size.split("<tr data-logs=\"24\">").nth(1).expect("24 logs have a row");
    assert!(text(row.split("</tr>").next().unwrap()).ends_with("24 840 5.3–6.6 lb 1–2"));
    assert!(page.contains("working/inoculation.html#spawn") || page.contains("../working/inoculation.html#spawn"));
    assert!(text(page).contains("is not published in any source read"), "the missing wax is said");
}

#[test]
fn every_rating_of_the_pairing_table_leads_to_its_working() {
    let pages = pages();
    let table = pages["pairings.html"].split("</table>").next().unwrap().to_owned();
    let rated = table.split("class=\"rating r").skip(1).filter(|part| part.starts_with(['0', '1', '2', '3']));
    let mut count = 0;
    for part in rated {
        count += 1;
        let target = part.split("href=\"").nth(1).unwrap().split('"').next().unwrap();
        let (path, anchor) = target.split_once('#').unwrap();
        assert!(pages[path].contains(&format!("id=\"{anchor}\"")), "{target}");
    }
    assert!(count > 10, "{count} ratings");
}

#[test]
fn every_rating_stands_beside_its_word() {
    for (path, html) in pages() {
        for part in html.split("<svg class=\"ring\"").skip(1) {
            let after = text(part.split("</span>").next().unwrap());
            let words = ["thrives", "does well", "gets by", "fails", "mentioned", "untried"];
            assert!(words.iter().any(|word| after.ends_with(word)), "{path}: {after}");
        }
    }
}

#[test]
fn working_prints_formula_numbers_result_and_source() {
    let pages = pages();
    let page = &pages["working/pairings-shiitake.html"];
    assert!(page.contains("../working/index.html#pairings") && pages["working/index.html"].contains("<math"));
    let section = page.split("<section id=\"red-maple\">").nth(1).unwrap().split("</section>").next().unwrap();
    let words = text(section);
    for part in ["Cns = 1 +", "half of it", "Frey 2020", "Result: 2 does well"] {
        assert!(words.contains(part), "{part} is not in: {words}");
    }
    assert!(pages["working/weights.html"].contains("<tr id=\"red-oak\">"));
    assert!(text(&pages["working/seasons.html"]).contains("observed"));
}

#[test]
fn the_record_behind_a_page_is_shown_with_its_file() {
    let pages = pages();
    let page = &pages["woods/red-oak.html"];
    assert!(page.contains("handbook/woods/red-oak.yaml") && page.contains(">woods/red-oak.yaml<"));
    assert!(page.contains("<b>density</b>"));
    assert!(text(page).contains("amended by this farm"));
}

#[test]
fn hazards_and_cautions_stand_where_the_danger_is() {
    let pages = pages();
    assert!(text(&pages["woods/black-cherry.html"]).contains("Animals:"));
    let rack_log = text(&pages["methods/rack-log.html"]);
    for caution in [
        "Wear glasses and a face shield while drilling.",
        "never pour water on a wax fire",
        "Have a trained feller cut the tree",
    ] {
        assert!(rack_log.contains(caution), "{caution}");
    }
    let shiitake = text(&pages["mushrooms/shiitake.html"]);
    assert!(shiitake.contains("Galerina") && shiitake.contains("Deadly:"));
    assert!(text(&pages["safety.html"]).contains("1-800-222-1222"));
}

#[test]
fn a_note_links_to_records_and_holds_a_table() {
    let note = "---\ntitle: Beech\ndate: '2026-02-01'\nabout: [wood:american-beech]\n---\n# What we saw\n\nSee [oak](wood:red-oak), [the file](../woods/red-oak.yaml) and [the table](table:pairings) here.\n\n[what beech feeds](table:pairings?wood=american-beech)\n\n<script>alert(1)</script>\n";
    let farm = Farm::with(&[("notes/beech.md", note)]);
    farm.publish();
    let page = farm.page("notes/beech.html");
    assert_eq!(page.matches("href=\"../woods/red-oak.html\"").count(), 2);
    assert!(page.contains("<h2>What we saw</h2>"));
    assert!(page.contains("href=\"../tables/pairings.csv\">the table</a>"));
    assert!(
        page.contains("<caption>what beech feeds</caption>") && page.contains("href=\"../mushrooms/lions-mane.html\"")
    );
    assert!(!page.contains("<script>") && page.contains("&lt;script&gt;"));
    assert!(farm.page("woods/american-beech.html").contains("../notes/beech.html"));
}

#[test]
fn text_from_records_is_escaped() {
    let farm =
        Farm::with(&[("strains/odd.yaml", "name: 'A <b> & \"c\"'\nmushroom: shiitake\nabout: 'x <img src=y> z'\n")]);
    farm.publish();
    let page = farm.page("strains/odd.html");
    assert!(page.contains("A &lt;b&gt; &amp;") && !page.contains("<img"), "{page}");
}
