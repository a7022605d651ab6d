//! A window that the farm keeps as a no-cut window and that is none.

use crate::{book::lay::Pile, fault::Fault, read::node::Tree, record::Kind};

/// Checks that each window under `no_cut` of the farm is of the kind `no-cut`.
#[must_use]
pub fn check(pile: &Pile) -> Vec<Fault> {
    let farm = pile.get(&(Kind::Farm, "farm".to_owned()));
    let Some(Tree::List(items)) = farm.and_then(|farm| farm.node.get("no_cut")).map(|node| &node.value) else {
        return Vec::new();
    };
    let wrong = items.iter().filter_map(|item| {
        let id = item.text()?;
        let kind = pile.get(&(Kind::Window, id.to_owned()))?.node.get("kind")?.text()?;
        let fault = Fault::new("not-a-no-cut-window", format!("the window `{id}` is of the kind `{kind}`"));
        let fault = fault.instead("name a window of the kind `no-cut`, or take it from this list");
        (kind != "no-cut").then(|| fault.at(item.place.clone()))
    });
    wrong.collect()
}
