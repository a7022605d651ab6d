//! Spelling, dates and units follow the edition: American and month first beside inches, British and day first beside
//! centimetres. What a source is called, a quotation and a record stay as they were written.

use std::collections::BTreeMap;
use std::path::Path;

use hostwood::quantity::date::month_name;

use crate::harness::{demo_guide, files, larkbeck_guide};

const BRITISH: [&str; 12] = [
    "colour",
    "grey",
    "mould",
    "metre",
    "litre",
    "labelled",
    "modelled",
    "neighbour",
    "colonised",
    "sterilised",
    "fibre",
    "sulphur",
];
const AMERICAN: [&str; 8] = ["color", "mold", "liter", "labeled", "modeled", "neighbor", "colonized", "sterilized"];

/// The words of a page without what others wrote: titles, quotations, records; a stroke stands where a cell ends.
fn words(html: &str) -> Vec<String> {
    let mut rest = html.to_owned();
    for tag in ["script", "style", "svg", "pre", "cite", "q", "small"] {
        let (open, close) = (format!("<{tag}"), format!("</{tag}>"));
        while let Some(from) = rest.find(&format!("{open}>")).or_else(|| rest.find(&format!("{open} "))) {
            let to = rest[from..].find(&close).map_or(rest.len(), |end| from + end + close.len());
            rest.replace_range(from..to, " ");
        }
    }
    let mut text = String::new();
    for (place, part) in rest.split('<').enumerate() {
        let ends_a_cell = ["/td>", "/th>", "/summary>"].iter().any(|tag| part.starts_with(tag));
        text.push_str(if ends_a_cell { " | " } else { " " });
        text.push_str(if place == 0 { part } else { part.split_once('>').map_or("", |(_, after)| after) });
    }
    text.split_whitespace().map(str::to_owned).collect()
}

/// The pages in which the guide speaks for itself.
fn pages(guide: &Path) -> BTreeMap<String, Vec<String>> {
    let own = |path: &str| {
        path.ends_with(".html")
            && !["sources.html", "a-to-z.html", "pocket.html"].contains(&path)
            && !path.starts_with("working/")
            && !path.starts_with("records/")
    };
    let pages = files(guide).into_iter().filter(|(path, _)| own(path));
    pages.map(|(path, bytes)| (path, words(std::str::from_utf8(&bytes).unwrap()))).collect()
}

fn is_day(word: &str) -> bool {
    word.trim_matches([',', '.', ';', '(', ')']).parse().is_ok_and(|day: u8| (1..=31).contains(&day))
}

fn is_month(word: &str) -> bool {
    let word = word.trim_matches([',', '.', ';', '(', ')', ':']);
    (1..=12).any(|month| month_name(month) == word)
}

fn short_month(word: &str) -> bool {
    (1..=12).any(|month| month_name(month)[..3] == *word)
}

/// Which of some stems begin a word of a page.
fn spelt(words: &[String], stems: &[&str]) -> Vec<String> {
    let small = words.iter().map(|word| word.to_lowercase());
    small
        .filter(|word| stems.iter().any(|stem| word.trim_start_matches(|c: char| !c.is_alphabetic()).starts_with(stem)))
        .filter(|word| !["colorado", "sulphureus"].iter().any(|name| word.starts_with(name)) && !word.contains(".yaml"))
        .collect()
}

#[test]
fn the_edition_in_inches_is_spelt_and_dated_as_americans_do() {
    let mut dates = 0;
    for (path, words) in pages(demo_guide()) {
        assert_eq!(spelt(&words, &BRITISH), [""; 0], "{path}");
        for three in words.windows(3) {
            // These pages list days one under the other, so that what ends in a number may stand before the next month.
            let is_other = ["index.html", "seasons.html"].contains(&path.as_str()) || is_month(&three[0]);
            assert!(is_other || !(is_day(&three[1]) && is_month(&three[2])), "{path}: {}", three.join(" "));
            dates += usize::from(is_month(&three[0]) && is_day(&three[1]));
        }
    }
    assert!(dates > 100, "only {dates} dates");
}

#[test]
fn the_edition_in_centimetres_is_spelt_and_dated_as_the_british_do() {
    let mut dates = 0;
    for (path, words) in pages(larkbeck_guide()) {
        assert_eq!(spelt(&words, &AMERICAN), [""; 0], "{path}");
        for three in words.windows(3) {
            // A month that ends a phrase stands before no day of its own, and a day before the next month is that month's.
            let is_temperature =
                three[2].starts_with("°C") || three[0].ends_with([';', ',', '.', ':']) || short_month(&three[2]);
            assert!(is_temperature || !(is_month(&three[0]) && is_day(&three[1])), "{path}: {}", three.join(" "));
            dates += usize::from(is_day(&three[0]) && is_month(&three[1]));
        }
    }
    assert!(dates > 50, "only {dates} dates");
}

#[test]
fn a_quantity_in_a_sentence_stands_in_the_units_of_the_edition_before_those_of_its_source() {
    let says = |guide: &Path, words: &str| {
        pages(guide).into_iter().any(|(path, page)| path == "mushrooms/shiitake.html" && page.join(" ").contains(words))
    };
    assert!(says(demo_guide(), "dry it at 140 °F until"), "{:?}", pages(demo_guide())["mushrooms/shiitake.html"]);
    assert!(says(larkbeck_guide(), "dry it at 60 °C (140 °F) until"));
    assert!(says(demo_guide(), "20 °F colder") && says(larkbeck_guide(), "11 °C (20 °F) colder"));
    for guide in [demo_guide(), larkbeck_guide()] {
        for (path, words) in pages(guide) {
            let open = words.iter().find(|word| word.contains('{') && !word.starts_with("{where"));
            assert!(open.is_none(), "{path}: {open:?}");
        }
    }
}
