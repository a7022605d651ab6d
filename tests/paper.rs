//! What is printed and sent: handouts, the pocket edition, labels; and what a reader chooses on a screen.

use std::collections::BTreeSet;

use crate::harness::{Farm, Reckoned, code, demo_guide, files, said};

const HANDOUT: &str =
    "title: Ten logs\nsheets: 2\nmushrooms: [shiitake]\nwoods: [red-oak]\nlogs: 10\ndate: '2027-04-24'\n";

fn handout(sections: &str) -> Farm {
    Farm::with(&[("handouts/ten.yaml", &format!("{HANDOUT}sections:\n{sections}"))])
}

/// The values of an attribute in a page.
fn values<'a>(page: &'a str, attribute: &str) -> Vec<&'a str> {
    page.split(&format!(" {attribute}=\"")).skip(1).map(|rest| rest.split('"').next().unwrap()).collect()
}

#[test]
fn a_handout_is_one_file_that_needs_nothing_beside_it() {
    let farm = handout(
        "  - {shows: pairings}\n  - {shows: year}\n  - {shows: amounts}\n  - {shows: steps, method: rack-log}\n  \
         - {shows: look-alikes}\n  - {shows: cautions, tasks: [harvest]}\n  - {shows: picking}\n  \
         - {shows: words, says: 'Look at [red oak](wood:red-oak) and [the table](table:pairings?wood=red-oak).'}\n",
    );
    let output = farm.publish();
    assert_eq!(code(&output), 0, "{}", said(&output));
    let page = farm.page("handouts/ten.html");
    let inside = |target: &&str| target.starts_with('#') || target.starts_with("tel:");
    assert!(values(&page, "href").iter().all(inside), "{:?}", values(&page, "href"));
    assert!(values(&page, "src").is_empty() && !page.contains("<link") && !page.contains("url(http"));
    assert!(page.contains("<style>") && page.contains("44.0° N"), "styles and the place of its dates are inside");
    assert!(page.contains("before any wood with bark leaves the property"), "the rule on moving logs");
    assert!(page.contains("350") && page.contains("Deadly:"), "holes for ten logs, and look-alikes");
    assert!(page.contains("data-sheets=\"2\""));
}

#[test]
fn a_picture_travels_inside_the_handout() {
    let farm =
        handout("  - {shows: words, says: Our stacks., picture: {file: stack.png, shows: A stack in the shade}}\n");
    image::RgbImage::new(1, 1).save(farm.path().join("handouts/stack.png")).unwrap();
    let output = farm.publish();
    assert_eq!(code(&output), 0, "{}", said(&output));
    let page = farm.page("handouts/ten.html");
    assert!(page.contains("src=\"data:image/jpeg;base64,/9j/") && page.contains("alt=\"A stack in the shade\""));
}

#[test]
fn gear_is_counted_by_the_heads_that_wear_it_at_one_time() {
    let farm = handout(
        "  - shows: stations\n    stations:\n      - {at: '10:00', name: Drill, does: Drill., heads: 4, wears: [eye protection]}\n      \
         - {at: '10:00', name: Wax, does: Wax., heads: 3, wears: [eye protection, gloves]}\n      \
         - {at: '13:00', name: Stack, does: Stack., heads: 5, wears: [gloves]}\n  - {shows: kit}\n",
    );
    assert_eq!(code(&farm.publish()), 0);
    let page = farm.page("handouts/ten.html");
    let gear = page.split("Protective gear, by heads").nth(1).unwrap().split("</table>").next().unwrap();
    assert!(
        gear.contains("Eye protection</th><td class=\"num\">7<") && gear.contains("Gloves</th><td class=\"num\">5<")
    );
}

/// What each caution in a part of a page says, from its word on.
fn cautions(part: &str) -> Vec<&str> {
    part.split("<b class=\"word\">")
        .skip(1)
        .map(|rest| rest.split("</p>").next().unwrap().split("</li>").next().unwrap())
        .collect()
}

/// The parts of a page between two marks.
fn between<'a>(page: &'a str, from: &str, to: &str) -> Vec<&'a str> {
    page.split(from).skip(1).map(|rest| rest.split(to).next().unwrap()).collect()
}

#[test]
fn a_handout_has_three_cautions_at_most_above_its_work_and_each_of_its_tasks_once() {
    let tasks = ["felling", "bucking", "hauling"];
    let steps = format!("  - {{shows: steps, method: rack-log, tasks: [{}]}}\n", tasks.join(", "));
    let farm = handout(&steps);
    let page = farm.drawn("handouts/ten.html");
    let boxes = between(&page, "<div class=\"cuts leads\">", "<h3>");
    assert_eq!(boxes.len(), tasks.len());
    assert!(boxes.iter().all(|leads| (1..=3).contains(&cautions(leads).len())));
    let first_step = page.split("<ol class=\"do\">").nth(1).unwrap().split("<h3>").next().unwrap();
    assert!(first_step.contains("trained feller"), "what leads felling stands above its first step");
    let all = cautions(&page);
    let each: BTreeSet<&&str> = all.iter().collect();
    assert_eq!(each.len(), all.len(), "no caution stands twice");
    let book = Reckoned::of(farm.path()).book;
    let oak = &book.woods["red-oak"];
    let of_the_tasks = book.cautions.values().filter(|caution| {
        let record = &caution.record;
        let task = record.tasks.iter().any(|task| tasks.contains(&task.id()));
        let wood = caution.woods.is_empty() || caution.speaks_of_wood(oak);
        task && wood && caution.mushrooms.is_empty() && record.with.is_none()
    });
    let told: Vec<&str> = of_the_tasks.map(|caution| caution.record.hazard.as_str()).collect();
    assert!(told.len() > 20 && told.len() == all.len(), "{} of {}", all.len(), told.len());
}

#[test]
fn a_part_that_asks_for_cautions_has_all_of_them_a_line_each_those_that_lead_first() {
    let page =
        handout("  - {shows: picking}\n  - {shows: cautions, tasks: [harvest, drilling]}\n").drawn("handouts/ten.html");
    let [picking, asked] = between(&page, "<h2 class=\"notch\">", "</section>")[..] else { panic!("two parts") };
    assert_eq!(cautions(picking).len(), 3, "what leads picking stands above it alone");
    let asked = cautions(asked);
    assert!(asked[0].contains("Clamp the log"), "what leads drilling comes first: {}", asked[0]);
    assert!(asked.len() > 10 && !asked.iter().any(|says| cautions(picking).contains(says)));
}

#[test]
fn every_code_of_the_pocket_edition_stands_in_it() {
    let guide = files(demo_guide());
    let page = std::str::from_utf8(&guide["pocket.html"]).unwrap();
    let main = page.split("<main").nth(1).unwrap().split("</main>").next().unwrap();
    let ids: BTreeSet<&str> = values(main, "id").into_iter().collect();
    let targets: Vec<&str> = main.split("<a href=\"").skip(1).map(|rest| rest.split('"').next().unwrap()).collect();
    assert!(targets.len() > 60, "{}", targets.len());
    for target in targets.iter().filter(|target| !target.starts_with("tel:")) {
        assert!(ids.contains(target.trim_start_matches('#')), "{target} stands nowhere in it");
    }
    for code in main.split("class=\"code\">").skip(1).map(|rest| rest.split('<').next().unwrap()) {
        let whole = code.len() > 2;
        assert!(!whole || ids.contains(code.to_lowercase().as_str()), "{code} stands nowhere in it");
    }
}

/// Letters that fill the 48 pages of A6 in the broadest of the usual fonts; a browser holds the demo farms to the pages.
const POCKETFUL: usize = 66_000;

#[test]
fn a_farm_that_grows_everything_on_every_wood_keeps_to_a_pocket() {
    let book = Reckoned::of(Farm::with(&[]).path()).book;
    let mushrooms = book.mushrooms.values().filter(|mushroom| mushroom.is_species()).map(|found| found.id.as_str());
    let woods = book.woods.values().filter(|wood| wood.is_species()).map(|found| found.id.as_str());
    let (mushrooms, woods): (Vec<&str>, Vec<&str>) = (mushrooms.collect(), woods.collect());
    assert!(mushrooms.len() > 20 && woods.len() > 100, "{} {}", mushrooms.len(), woods.len());
    let farm = Farm::with(&[]);
    let place = "place: {latitude: 44, longitude: -72, where: US-VT}\nname: All\nseason: 2026\n";
    farm.write("farm.yaml", &format!("{place}grows: [{}]\nwoods: [{}]\n", mushrooms.join(", "), woods.join(", ")));
    let page = farm.drawn("pocket.html");
    let book = page.split("<div class=\"pocket\">").nth(1).unwrap().split("</main>").next().unwrap();
    let pieces = book.split('<').filter(|piece| !piece.starts_with("title") && !piece.starts_with("desc"));
    let letters: usize = pieces.filter_map(|piece| piece.split_once('>')).map(|(_, text)| text.trim().len()).sum();
    assert!(letters < POCKETFUL, "{letters} letters");
    let has = |letter: &str| values(book, "id").iter().filter(|id| id.starts_with(letter)).count();
    assert_eq!([has("m-"), has("w-")], [mushrooms.len(), woods.len()], "each has its card or its line");
}

#[test]
fn each_batch_and_each_planned_one_has_a_label() {
    let guide = files(demo_guide());
    let parts = guide.iter().filter(|(path, _)| path.starts_with("yard/log-tags"));
    let page: String = parts.map(|(_, page)| std::str::from_utf8(page).unwrap()).collect();
    for batch in ["2024-red-oak-cool-weather", "2026-sugar-maple-early-autumn"] {
        assert!(page.contains(batch), "{batch}");
    }
    assert!(page.contains("To be inoculated this season") && page.matches("class=\"tag\"").count() > 7);
}

#[test]
fn the_pairing_table_says_what_its_choice_needs_and_shows_no_choice_without_script() {
    let guide = files(demo_guide());
    let page = std::str::from_utf8(&guide["pairings.html"]).unwrap();
    assert!(page.contains("<form class=\"choose\" id=\"choose\" hidden"));
    assert!(page.contains("data-mushroom=\"shiitake\" data-methods=\"rack-log \" data-months=\""));
    assert!(page.contains("<tr data-wood=\"american-beech\">") && page.contains("data-rating=\"3\""));
}

#[test]
fn a_log_with_its_holes_is_drawn_to_scale_with_its_measures_beside_it() {
    let guide = files(demo_guide());
    let page = std::str::from_utf8(&guide["winter/inoculation.html"]).unwrap();
    let drawing = page.split("<svg class=\"log\"").nth(1).unwrap().split("</svg>").next().unwrap();
    // 40 in of log, a hole each 6 in from 3 in on: seven in a row; the next row has six, half a spacing on.
    let (filled, open) = (drawing.matches("class=\"hole\"").count(), drawing.matches("class=\"hole-next\"").count());
    assert!(filled > 0 && filled % 7 == 0 && open % 6 == 0, "{filled} {open}");
    assert!(page.contains("rows round the log"));
}

#[test]
fn each_page_tells_when_a_pair_of_the_farm_is_felled_for_and_inoculated() {
    let guide = files(demo_guide());
    for path in ["working/pairings-lions-mane.html", "woods/american-beech.html"] {
        let page = std::str::from_utf8(&guide[path]).unwrap();
        assert!(page.contains("<b>Here:</b>") && page.contains("inoculate April 1 to May 15, 2027"), "{path}");
    }
}
