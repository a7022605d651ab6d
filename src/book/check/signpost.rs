//! A signpost of the finder that leads nowhere, or that nobody can type.

use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::read::Node;
use crate::record::Kind;

/// Checks every signpost.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    pile.nodes(Kind::Signpost).flat_map(of_signpost).collect()
}

fn of_signpost(signpost: &Node) -> Vec<Fault> {
    let leads = signpost.get("page").is_some() || !signpost.items("to").is_empty();
    let nowhere = (!leads).then(|| {
        Fault::new("leads-nowhere", "these words of the finder lead nowhere")
            .instead("add `page:` with a page, such as `page: soak-rota`, or `to:` with records, such as `to: [method:soaking]`")
            .at(signpost.place.clone())
    });
    let unfound = signpost
        .items("words")
        .iter()
        .filter(|words| words.text().is_some_and(|text| !text.chars().any(char::is_alphanumeric)));
    let unfound = unfound.map(|words| {
        Fault::new("leads-nowhere", "nobody can look for this: there is no letter in it")
            .instead("write a word as a grower types it, such as `fridge`")
            .at(words.place.clone())
    });
    nowhere.into_iter().chain(unfound).collect()
}
