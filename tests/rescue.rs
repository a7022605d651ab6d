//! How help finds whoever is hurt: the rescue card, wherever a saw runs or people work together.

use crate::harness::{Farm, demo};

/// What stands on the rescue card of a page.
fn card(page: &str) -> &str {
    let mut cards =
        page.split("<section class=\"rescue\"").skip(1).map(|rest| rest.split("</section>").next().unwrap());
    let card = cards.next().expect("the page has a rescue card");
    assert!(cards.next().is_none(), "the page has two");
    card
}

/// A handout with one part, on a farm that has said nothing of rescue.
fn handout(part: &str) -> String {
    let text = format!("title: Ours\nsheets: 2\nmushrooms: [shiitake]\nwoods: [red-oak]\nsections:\n  - {part}\n");
    Farm::with(&[("handouts/ours.yaml", &text)]).drawn("handouts/ours.html")
}

#[test]
fn every_sheet_with_a_saw_has_the_card_and_a_way_to_it_above_its_first_tree() {
    for name in ["sorrel-hollow", "larkbeck"] {
        let farm = demo(name);
        let rescue = farm.book.farm.record.rescue.clone().unwrap();
        for path in ["winter/felling.html", "winter/bucking.html"] {
            let page = farm.page(path);
            let (hospital, phone) = (rescue.hospital.clone().unwrap(), rescue.phone.clone().unwrap());
            assert!(card(&page).contains(&hospital) && card(&page).contains(&phone), "{name}: {path}");
            let above = page.split("<tbody>").next().unwrap();
            assert!(above.contains("href=\"#rescue\"") && above.contains("href=\"tel:"), "{name}: {path}");
        }
        for path in ["safety.html", "pocket.html"] {
            assert!(card(&farm.page(path)).contains(&rescue.hospital.clone().unwrap()), "{name}: {path}");
        }
    }
}

#[test]
fn what_the_farm_has_not_said_is_a_blank_to_write_on() {
    let farm = Farm::with(&[]);
    for path in ["winter/felling.html", "safety.html", "pocket.html"] {
        let page = farm.drawn(path);
        // The number, the place more nearly, the way in, the telephone and the hospital.
        assert_eq!(card(&page).matches("class=\"blank\"").count(), 5, "{path}: {}", card(&page));
        assert!(card(&page).contains("44.0° N, 72.0° W") && card(&page).contains("60 miles"), "{path}");
    }
    assert!(!card(&demo("sorrel-hollow").page("winter/felling.html")).contains("____"));
}

#[test]
fn a_sheet_names_the_corner_posts_of_the_stands_where_trees_come_down() {
    let stand =
        |name: &str, north: &str| format!("name: {name}\ncorner: {{latitude: {north}, longitude: -72.01234}}\n");
    let tree = |decision: &str| format!("Tag,Wood,DBH,Logs,Decision\n{decision},red-oak,8 in,4,{decision}\n");
    let farm = Farm::with(&[
        ("woodlot/knoll.yaml", &stand("The knoll", "44.012345")),
        ("woodlot/knoll.csv", &tree("fell").replace("\nfell,", "\n1,")),
        ("woodlot/bog.yaml", &stand("The bog", "44.5")),
        ("woodlot/bog.csv", &tree("keep").replace("\nkeep,", "\n2,")),
    ]);
    let page = farm.drawn("winter/felling.html");
    assert!(card(&page).contains("The knoll: <b>44.01235° N, 72.01234° W</b>"), "{}", card(&page));
    assert!(!card(&page).contains("The bog"), "no tree comes down there");
    assert!(card(&farm.drawn("safety.html")).contains("The bog: <b>44.5° N, 72.01234° W</b>"));
    assert!(farm.drawn("stands/bog.html").contains("44.5° N, 72.01234° W"));
}

#[test]
fn a_handout_of_a_work_day_has_the_card_and_a_paper_to_read_has_none() {
    let stations = "{shows: stations, stations: [{at: '10:00', name: Gate, does: Names., heads: 4}]}";
    for part in [stations, "{shows: steps, method: rack-log, tasks: [hauling]}", "{shows: steps, method: rack-log}"] {
        assert!(card(&handout(part)).contains("Hospital"), "{part}");
    }
    for part in ["{shows: pairings}", "{shows: picking}", "{shows: steps, method: rack-log, tasks: [stacking]}"] {
        assert!(!handout(part).contains("class=\"rescue\""), "{part}");
    }
}
