//! A photograph that lies nowhere, or whose words do not say what is to be seen.

use std::collections::BTreeSet;

use crate::book::lay::Pile;
use crate::fault::{Fault, suggest};
use crate::read::Node;
use crate::record::Kind;

/// Kinds of records whose pages show photographs.
const SHOWN: [Kind; 4] = [Kind::Mushroom, Kind::Wood, Kind::Stand, Kind::Batch];

/// Checks the photographs of every record that has some; `known` are the names in their folder.
pub(super) fn check(pile: &Pile, known: &BTreeSet<&str>) -> Vec<Fault> {
    let records = SHOWN.into_iter().flat_map(|kind| pile.nodes(kind));
    let photos = records.flat_map(|record| record.items("photos"));
    photos.flat_map(|photo| of_photo(photo, known)).collect()
}

fn of_photo(photo: &Node, known: &BTreeSet<&str>) -> Vec<Fault> {
    let nowhere = photo.get("file").and_then(|file| {
        let fault = missing(file.text()?, known)?;
        Some(fault.at(file.place.clone()))
    });
    let wordless = photo.get("shows").filter(|shows| shows.text().is_some_and(|text| text.trim().is_empty()));
    nowhere.into_iter().chain(wordless.map(|shows| without_words().at(shows.place.clone()))).collect()
}

/// The fault of a photograph that lies nowhere.
pub(super) fn missing(name: &str, known: &BTreeSet<&str>) -> Option<Fault> {
    let fault = || Fault::new("no-picture", format!("there is no picture `{name}` in the folder `photos`"));
    let put = || "put a JPEG, PNG or WebP file of that name into the folder `photos`".to_owned();
    (!known.contains(name)).then(|| fault().instead(suggest::instead_of(name, known.iter().copied(), put)))
}

/// The fault of a photograph without words.
pub(super) fn without_words() -> Fault {
    Fault::new("no-words", "this photograph does not say what is to be seen on it")
        .instead("say it in a few words, for who cannot see it: `A stack of oak under the hemlocks`")
}
