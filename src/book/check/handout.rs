//! A part of a handout that lacks what it shows, or has what it does not show; a picture that lies nowhere.

use std::sync::Arc;

use crate::book::lay::Pile;
use crate::fault::{Fault, suggest};
use crate::read::{Node, Picture};
use crate::record::Kind;
use crate::record::handout::Shows;

/// The keys that only some parts use, each with the parts that use it.
const USED: [(&str, &[Shows]); 5] = [
    ("mushrooms", &[Shows::Pairings, Shows::Year, Shows::Picking, Shows::LookAlikes]),
    ("method", &[Shows::Steps]),
    ("tasks", &[Shows::Steps, Shows::Cautions]),
    ("stations", &[Shows::Stations]),
    ("ask", &[Shows::Ask]),
];

/// The keys without which a part shows nothing.
const NEEDED: [(Shows, &str, &str); 4] = [
    (Shows::Steps, "method", "add `method:` with the id of a method, such as `method: rack-log`"),
    (
        Shows::Stations,
        "stations",
        "add `stations:` with a row for each, each with `at:`, `name:`, `does:` and `heads:`",
    ),
    (Shows::Ask, "ask", "add `ask:` with a row for each, each with `about:` and `whom:`"),
    (Shows::Words, "says", "add `says:` with the words"),
];

/// Checks every handout.
pub(super) fn check(pile: &Pile, pictures: &[Arc<Picture>]) -> Vec<Fault> {
    pile.nodes(Kind::Handout).flat_map(|handout| of_handout(handout, pictures)).collect()
}

fn of_handout(handout: &Node, pictures: &[Arc<Picture>]) -> Vec<Fault> {
    let sections = handout.items("sections");
    let works = sections.iter().any(|section| section.get("stations").is_some());
    let mut faults = Vec::new();
    for section in sections {
        let Some(shows) = section.word("shows").and_then(|shows| shows.parse().ok()) else { continue };
        faults.extend(needless(section, shows));
        faults.extend(lacking(section, shows));
        let fault =
            |wrong: &str, instead: &str| Fault::new("missing-key", wrong).instead(instead).at(section.place.clone());
        if shows == Shows::Amounts && handout.get("logs").is_none() {
            faults.push(fault(
                "this part shows amounts, but the handout does not say for how many logs",
                "add a line `logs: 10` at the top of the file, beside `sheets:`",
            ));
        }
        if shows == Shows::Kit && !works {
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
fn needless(section: &Node, shows: Shows) -> Vec<Fault> {
    let unused = USED.iter().filter(|(key, users)| section.get(key).is_some() && !users.contains(&shows));
    let fault = |(key, users): &(&str, &[Shows])| {
        let users: Vec<&str> = users.iter().map(|user| user.id()).collect();
        Fault::new("unknown-key", format!("a part that shows `{}` does not use `{key}`", shows.id()))
            .instead(format!("take it away, or write `shows: {}`", users.join("` or `shows: ")))
            .at(section.key_place(key))
    };
    unused.map(fault).collect()
}

fn lacking(section: &Node, shows: Shows) -> Option<Fault> {
    let (_, key, instead) = NEEDED.iter().find(|(shown, key, _)| *shown == shows && section.get(key).is_none())?;
    let fault = Fault::new("missing-key", format!("a part that shows `{}` needs something under `{key}:`", shows.id()));
    Some(fault.instead(*instead).at(section.place.clone()))
}

fn nowhere(file: &Node, pictures: &[Arc<Picture>]) -> Option<Fault> {
    let name = file.text()?;
    let known = || pictures.iter().filter_map(|picture| picture.path.strip_prefix("handouts/"));
    if known().any(|other| other == name) {
        return None;
    }
    let fault = Fault::new("no-picture", format!("there is no picture `{name}` in the folder `handouts`"));
    let beside = || "put a PNG, JPEG or WebP file of that name beside the handout".to_owned();
    Some(fault.instead(suggest::instead_of(name, known(), beside)).at(file.place.clone()))
}
