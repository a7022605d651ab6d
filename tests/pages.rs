//! What a reader finds on the pages of the demo farm.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use crate::evidence::demo;
use crate::harness::{Farm, SMALL_FARM, code, demo_guide, files, larkbeck_guide, said, table};

/// The pages of the demo farm's guide, by path.
fn pages() -> BTreeMap<String, String> {
    pages_of(demo_guide())
}

/// The pages of a guide, by path.
fn pages_of(guide: &Path) -> BTreeMap<String, String> {
    let html = files(guide).into_iter().filter(|(path, _)| path.ends_with(".html"));
    html.map(|(path, bytes)| (path, String::from_utf8(bytes).unwrap())).collect()
}

/// The pages of both demo farms' guides, with the guide that each is from.
fn both() -> [(&'static str, BTreeMap<String, String>); 2] {
    [("Sorrel Hollow", pages()), ("Larkbeck", pages_of(larkbeck_guide()))]
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
    html.split("href=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .filter(|target| !target.starts_with('#') && !target.contains(':'))
        .map(|target| beside(path, target.split('#').next().unwrap()))
        .collect()
}

/// A relative path of a page, made relative to the guide's top; an empty one is the page itself.
fn beside(page: &str, target: &str) -> String {
    if target.is_empty() {
        return page.to_owned();
    }
    let mut parts: Vec<&str> = page.split('/').collect();
    parts.pop();
    for step in target.split('/') {
        match step {
            ".." => {
                parts.pop();
            }
            step => parts.push(step),
        }
    }
    parts.join("/")
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
        let own = |script: &&str| script.trim_start_matches(" src=\"").trim_start_matches("../").starts_with("look/");
        assert!(!head.contains("href=\"http") && scripts.iter().all(own), "{path}");
    }
}

#[test]
fn what_grows_on_red_maple_and_who_disagrees() {
    let pages = pages();
    assert!(links("woods/index.html", &pages["woods/index.html"]).contains("woods/red-maple.html"));
    let page = text(&pages["woods/red-maple.html"]);
    assert!(page.contains("shiitake 1 gets by"), "{page}");
    for word in ["less potential: lower yield, marginal return", "Frey 2020", "can also be used", "sources differ"] {
        assert!(page.contains(word), "{word} is not said on the page");
    }
}

#[test]
fn what_may_go_on_tulip_poplar() {
    let pages = pages();
    assert!(links("woods/index.html", &pages["woods/index.html"]).contains("woods/tulip-poplar.html"));
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
    for date in ["March 4, 2027", "March 31, 2027", "April 1, 2027", "April 28, 2027"] {
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
    assert!(text(row.split("</tr>").next().unwrap()).ends_with("24 840 5.3–6.6 lb 1–2 $54"));
    assert!(page.contains("working/inoculation.html#spawn") || page.contains("../working/inoculation.html#spawn"));
    assert!(text(page).contains("none of our sources gives"), "the missing wax is said");
}

#[test]
fn every_rating_of_the_pairing_table_leads_to_its_working() {
    let pages = pages();
    let table = pages["pairings.html"]
        .split("<table class=\"matrix\"")
        .nth(1)
        .unwrap()
        .split("</table>")
        .next()
        .unwrap()
        .to_owned();
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

/// The anchors of a page.
fn anchors(html: &str) -> BTreeSet<&str> {
    html.split(" id=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect()
}

/// The block of a page that carries an anchor: what stands between its tag and the end of that.
fn block<'a>(html: &'a str, anchor: &str) -> &'a str {
    let at = html.find(&format!(" id=\"{anchor}\"")).unwrap_or_else(|| panic!("no {anchor}"));
    let from = html[..at].rfind('<').unwrap();
    let name = html[from + 1..at].split(' ').next().unwrap();
    // A heading opens a part that goes on to the next heading of its rank.
    let (opens, closes) = match name {
        "h2" | "h3" => (format!("<{name}"), format!("<{name}")),
        name => (format!("<{name}"), format!("</{name}>")),
    };
    let rest = &html[from + 1..];
    let mut depth = 1;
    let mut end = 0;
    while depth > 0 {
        let Some(next) = rest[end..].find(&closes) else { return &html[from..] };
        depth += rest[end..end + next].matches(&opens).count();
        depth -= 1;
        end += next + closes.len();
        if opens == closes {
            break;
        }
    }
    &html[from..from + 1 + end]
}

/// Whether a block leads to a source: by a link of its own, or by a formula that names one or says whose it is.
fn leads_to_a_source(html: &str, block: &str) -> bool {
    let formula = |part: &str| {
        part.contains("class=\"formula\"") && part.split("From: ").nth(1).is_some_and(|from| text(from).len() > 12)
    };
    let by = |id: &str| html.contains(&format!("class=\"formula\" id=\"{id}\"")) && formula(self::block(html, id));
    block.contains("sources.html#source-")
        || block.contains("html#record\"")
        || formula(block)
        || block.split("href=\"#").skip(1).filter_map(|id| id.split('"').next()).any(by)
}

#[test]
fn every_figure_leads_to_the_block_that_works_it_and_that_to_a_source() {
    for (guide, pages) in both() {
        let anchors: BTreeMap<&str, BTreeSet<&str>> =
            pages.iter().map(|(path, html)| (path.as_str(), anchors(html))).collect();
        let mut targets = BTreeSet::new();
        let mut count = 0;
        for (path, html) in &pages {
            for part in html.split("<a class=\"work\" href=\"").skip(1) {
                count += 1;
                let target = part.split('"').next().unwrap();
                let (page, anchor) = target.split_once('#').unwrap_or_else(|| panic!("{guide}, {path}: {target}"));
                let page = beside(path, page);
                let there = anchors.get(page.as_str());
                assert!(there.is_some_and(|there| there.contains(anchor)), "{guide}, {path}: {target}");
                targets.insert((page, anchor));
            }
        }
        assert!(count > 1000, "{guide}: {count} figures");
        let blind: Vec<_> = targets
            .iter()
            .filter(|(page, anchor)| {
                let html = &pages[page.as_str()];
                let block = block(html, anchor);
                let away =
                    block.split("working/").skip(1).filter_map(|link| link.split('"').next()?.split_once("#by-"));
                let mut away = away.map(|(path, id)| (&pages[&format!("working/{path}")], format!("by-{id}")));
                let leads = leads_to_a_source(html, block)
                    || away.any(|(html, id)| leads_to_a_source(html, self::block(html, &id)));
                page != "sources.html" && *anchor != "record" && !leads
            })
            .collect();
        assert!(blind.is_empty(), "{guide}: {blind:?}");
    }
}

#[test]
fn the_lines_of_moisture_name_their_batch_and_print_the_same_loss() {
    let pages = pages();
    let mut count = 0;
    for (path, page) in pages.iter().filter(|(path, _)| path.starts_with("yard/batches/")) {
        for figure in page.split("href=\"#").skip(1).filter(|figure| figure.contains("%</a>")) {
            let (anchor, rest) = figure.split_once("\">").unwrap();
            if !anchor.starts_with("weighed") && !anchor.starts_with("slice") {
                continue;
            }
            count += 1;
            let line = block(page, anchor);
            let told = rest.split("</a>").next().unwrap();
            assert!(line.contains(&format!("= {told}")), "{path}: {line}: {told}");
        }
    }
    assert!(count > 20, "{count} lines");
}

/// Formulas that nobody has published for this use: geometry, arithmetic and this project's own choices.
const OWN_FORMULAS: [&str; 11] = [
    "Logs weighed here",
    "Holes",
    "Inoculation after rest",
    "Usual day of an event",
    "How logs are assigned",
    "Cheapest packages",
    "Cost and return of a log",
    "Suitable days",
    "First mushrooms",
    "What this farm gets of the reckoned",
    "Effort of a key",
];

#[test]
fn every_formula_leads_to_its_source_or_says_whose_it_is() {
    for (guide, pages) in both() {
        let sources = anchors(&pages["sources.html"]);
        let mut own = BTreeSet::new();
        let mut count = 0;
        let is_working = |path: &str| path.starts_with("working/") && !path.starts_with("working/trees/");
        for (path, html) in pages.iter().filter(|(path, _)| is_working(path)) {
            assert!(path.contains("/pairings-") || html.contains("<div class=\"formula\""), "{guide}: {path}");
            for block in html.split("<div class=\"formula\"").skip(1) {
                count += 1;
                let name = block.split("<h3>").nth(1).unwrap().split("</h3>").next().unwrap();
                let from = block.split("\">From: ").nth(1).unwrap().split("</p>").next().unwrap();
                let cited: Vec<&str> =
                    from.split("sources.html#").skip(1).filter_map(|id| id.split('"').next()).collect();
                assert!(block.contains("<math") && cited.iter().all(|id| sources.contains(id)), "{guide}: {name}");
                if cited.is_empty() {
                    assert!(text(from).split(' ').count() > 2, "{guide}: {name} is from {from}");
                    own.insert(name.to_owned());
                }
            }
        }
        assert_eq!(count, 35, "{guide}");
        assert_eq!(own, OWN_FORMULAS.map(str::to_owned).into(), "{guide}");
    }
}

/// The text of a page without its formulas, its record, and what sources say in their own words and units.
fn reckoned(html: &str) -> String {
    let main = html.split("<main").nth(1).unwrap_or(html);
    let mut rest = main.split("id=\"record\"").next().unwrap().to_owned();
    for (from, to) in [
        ("<div class=\"formula\"", "\">From: "),
        ("\">From: ", "</p>"),
        ("(the source prints ", ")"),
        ("<q>", "</q>"),
        ("<span class=\"note-line\">", "</span>"),
        ("<p class=\"advice\">", "</p>"),
    ] {
        while let Some(at) = rest.find(from) {
            let end = at + from.len() + rest[at + from.len()..].find(to).unwrap();
            rest.replace_range(at..end, "");
        }
    }
    text(&rest)
}

/// A number and a unit of the other system in a text, with the words round it.
fn strange_unit(text: &str, units: &[&str]) -> Option<String> {
    let words: Vec<&str> = text.split(' ').collect();
    let bare = |word: &str| word.trim_matches(|c: char| ".,;:()×/".contains(c)).to_owned();
    let number = |word: &str| bare(word).ends_with(|c: char| c.is_ascii_digit() || "½¼¾".contains(c));
    words.windows(3).find_map(|three| {
        let preposition = bare(three[1]) == "in" && ["the", "all", "a", "each"].contains(&three[2]);
        let strange = number(three[0]) && units.contains(&bare(three[1]).as_str()) && !preposition;
        strange.then(|| three.join(" "))
    })
}

#[test]
fn a_guide_prints_what_it_reckons_in_its_own_units() {
    const US: [&str; 14] =
        ["ft", "ft²", "ft³", "ft²/ac", "in", "in³", "ac", "acre", "acres", "lb", "lb/ft³", "oz", "F", "°F"];
    const METRIC: [&str; 13] = ["mm", "cm", "m", "m²", "m³", "cm³", "m²/ha", "ha", "g", "kg", "kg/m³", "C", "°C"];
    let [(_, us), (_, metric)] = both();
    for (pages, strange) in [(us, METRIC.as_slice()), (metric, US.as_slice())] {
        let mut count = 0;
        for (path, html) in pages {
            if path.starts_with("working/") || path.starts_with("stands/") {
                count += 1;
                assert_eq!(strange_unit(&reckoned(&html), strange), None, "{path}");
            }
        }
        assert!(count > 14, "{count} pages");
    }
    let metric = pages_of(larkbeck_guide());
    let stands = text(&metric["working/stands.html"]);
    assert!(stands.contains("T = 16 m²/ha, a = 0.4 ha, so R = 2.4 m²"), "{stands}");
}

#[test]
fn a_mark_is_printed_wherever_its_source_is() {
    let yields = "log_yields:\n  - {a_log: [1 lb, 1 lb], over: flush, source: cfg, mark: memory}\n";
    let soaking = "name: Ours\nkind: soak\nfrom: '05-18'\nto: '10-11'\nsays: Ours.\nsource: common-practice\n";
    let farm = Farm::with(&[
        ("mushrooms/shiitake.yaml", yields),
        ("strains/line.yaml", "name: Our line\nmushroom: shiitake\nspawn: [sawdust]\n"),
        ("batches/b.yaml", "strain: line\nwood: red-oak\nlogs: 40\ninoculated: '2025-04-01'\n"),
        ("seasons/soak.yaml", soaking),
        ("plans/p.yaml", "name: P\nseason: 2026\nwishes: [{strain: line, spawn: sawdust, a_week: 4 lb}]\n"),
    ]);
    let more = "soak: {every: 8 weeks}\ngrows: [shiitake]\nwoods: [red-oak]\n";
    farm.write("farm.yaml", &format!("{SMALL_FARM}{more}"));
    let output = farm.publish();
    assert_eq!(code(&output), 0, "{}", said(&output));
    for (page, words) in [
        ("yard/soak-rota.html", "a log and flush Grower interview from memory"),
        ("working/yard.html", "Grower interview from memory"),
        ("winter/planning.html", "Szymanski read in a copy"),
        ("winter/planning.html", "Grower interview from memory"),
        ("working/inoculation.html", "Common practice from memory"),
        ("yard/moisture.html", "Kentucky FOR-83 read in a copy"),
    ] {
        let told = text(&farm.page(page));
        assert!(told.contains(words), "{words} is not on {page}: {told}");
    }
    for name in ["planning", "money", "inoculation", "woods"] {
        let rows = table(name, farm.path(), &[]);
        assert!(rows.iter().all(|row| row["source"].is_null() == row["mark"].is_null()), "{name}: {rows:?}");
    }
    assert_eq!(table("planning", farm.path(), &[])[0]["mark"], "from memory");
}

#[test]
fn working_prints_formula_numbers_result_and_source() {
    let pages = pages();
    let page = &pages["working/pairings-shiitake.html"];
    assert!(page.contains("../working/index.html#pairings") && pages["working/index.html"].contains("<math"));
    let section = block(page, "red-maple");
    let words = text(section);
    for part in ["Cns = 1 +", "half of it", "Frey 2020", "Result: 1 gets by"] {
        assert!(words.contains(part), "{part} is not in: {words}");
    }
    assert!(pages["working/weights.html"].contains("<details class=\"slip\" id=\"red-oak\">"));
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

#[test]
fn no_two_trees_share_an_anchor() {
    let sheet = "tag,wood,DBH,Height,Decision\nÄ1,red-oak,8 in,50 ft,fell\nÖ1,red-oak,8 in,50 ft,fell\nA 1,red-oak,8 in,50 ft,fell\nA-1,red-oak,8 in,50 ft,fell\n";
    let farm = Farm::with(&[("woodlot/walk.csv", sheet)]);
    let output = farm.publish();
    assert_eq!(code(&output), 0, "{}", said(&output));
    let working = farm.page("working/trees-1.html");
    let ids: BTreeSet<&str> = anchors(&working).into_iter().filter(|id| id.starts_with("tree-")).collect();
    assert_eq!(ids.len(), 4, "{ids:?}");
    let felling = farm.page("winter/felling.html");
    for id in ids {
        assert_eq!(working.matches(&format!("<details class=\"slip\" id=\"{id}\">")).count(), 1);
        assert!(felling.contains(&format!("working/trees-1.html#{id}\"")), "{id}");
    }
}

#[test]
fn a_page_is_called_alike_in_its_tab_and_wherever_a_link_leads_to_it() {
    for (farm, pages) in both() {
        let (names, foot) = pages["a-to-z.html"].split_once("<footer").unwrap();
        let mut linked = 0;
        // The head leads to the front page by the farm's name, and a question to its working.
        for (path, html) in pages.iter().filter(|(path, _)| *path != "index.html" && !path.starts_with("working/")) {
            let tab = html
                .split("<title>")
                .nth(1)
                .and_then(|rest| rest.split("</title>").next()?.rsplit_once(" · "))
                .unwrap()
                .0;
            let link = format!("<a href=\"{path}\">");
            for text in [names, foot].into_iter().filter(|text| text.contains(&link)) {
                assert!(text.contains(&format!("{link}{tab}</a>")), "{farm}: {path} is called {tab} in its tab alone");
                linked += 1;
            }
        }
        assert!(linked > 100, "{farm}: only {linked} links were read");
    }
}
