//! A part of a handout that lacks what it shows, or has what it does not show; a picture that lies nowhere.

use std::sync::Arc;

use crate::{
    book::lay::Pile,
    fault::{Fault, suggest},
    read::{Node, Picture, node::Tree},
    record::Kind,
};

/// The keys that only some parts use, each with the words of `shows` that use it.
const USED: [(&str, &[&str]); 5] = [
    ("mushrooms", &["pairings", "year", "picking", "look-alikes"]),
    ("method", &["steps"]),
    ("tasks", &["steps", "cautions"]),
    ("stations", &["stations"]),
    ("ask", &["ask"]),
];

/// The keys without which a part shows nothing.
const NEEDED: [(&str, &str, &str); 4] = [
    ("steps", "method", "add `method:` with the id of a method, such as `method: rack-log`"),
    ("stations", "stations", "add `stations:` with a row for each, each with `at:`, `name:`, `does:` and `heads:`"),
    ("ask", "ask", "add `ask:` with a row for each, each with `about:` and `whom:`"),
    ("words", "says", "add `says:` with the words"),
];

/// Checks every handout.
#[must_use]
pub fn check(pile: &Pile, pictures: &[Arc<Picture>]) -> Vec<Fault> {
    let handouts = pile.iter().filter(|((kind, _), _)| *kind == Kind::Handout);
    handouts.flat_map(|(_, laid)| of_handout(&laid.node, pictures)).collect()
}

fn of_handout(handout: &Node, pictures: &[Arc<Picture>]) -> Vec<Fault> {
    let Some(Tree::List(sections)) = handout.get("sections").map(|node| &node.value) else { return Vec::new() };
    let has = |key: &str| handout.get(key).is_some();
    let works = sections.iter().any(|section| section.get("stations").is_some());
    let mut faults = Vec::new();
    for section in sections {
        let Some(shows) = section.get("shows").and_then(Node::text) else { continue };
        faults.extend(needless(section, shows));
        faults.extend(lacking(section, shows));
        let fault =
            |wrong: &str, instead: &str| Fault::new("missing-key", wrong).instead(instead).at(section.place.clone());
        if shows == "amounts" && !has("logs") {
            faults.push(fault(
                "this part shows amounts, but the handout does not say for how many logs",
                "add a line `logs: 10` at the top of the file, beside `sheets:`",
            ));
        }
        if shows == "kit" && !works {
            faults.push(fault(
                "this part counts the gear of the stations, but the handout has no stations",
                "add a part with `shows: stations` to this handout",
            ));
        }
        faults.extend(section.get("picture").and_then(|picture| nowhere(picture.get("file")?, pictures)));
    }
    faults
}

/// Keys that the part does not use.
fn needless(section: &Node, shows: &str) -> Vec<Fault> {
    let unused = USED.iter().filter(|(key, users)| section.get(key).is_some() && !users.contains(&shows));
    let fault = |(key, users): &(&str, &[&str])| {
        Fault::new("unknown-key", format!("a part that shows `{shows}` does not use `{key}`"))
            .instead(format!("take it away, or write `shows: {}`", users.join("` or `shows: ")))
            .at(section.key_place("", key))
    };
    unused.map(fault).collect()
}

fn lacking(section: &Node, shows: &str) -> Option<Fault> {
    let (_, key, instead) = NEEDED.iter().find(|(shown, key, _)| *shown == shows && section.get(key).is_none())?;
    let fault = Fault::new("missing-key", format!("a part that shows `{shows}` needs something under `{key}:`"));
    Some(fault.instead(*instead).at(section.place.clone()))
}

fn nowhere(file: &Node, pictures: &[Arc<Picture>]) -> Option<Fault> {
    let name = file.text()?;
    let known = || pictures.iter().map(|picture| picture.name.as_str());
    if known().any(|other| other == name) {
        return None;
    }
    let fault = Fault::new("no-picture", format!("there is no picture `{name}` in the folder `handouts`"));
    let fault = fault.instead(match suggest::closest(name, known()) {
        Some(meant) => format!("write `{meant}`, if that is meant"),
        None => "put a PNG, JPEG or WebP file of that name beside the handout".to_owned(),
    });
    Some(fault.at(file.place.clone()))
}
