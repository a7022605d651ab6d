//! A wish that asks for nothing, or for a form of spawn that no log takes.

use crate::{
    book::lay::Pile,
    fault::Fault,
    read::{Node, node::Tree},
    record::Kind,
};

/// The keys by which a wish asks for something.
const ASKS: [&str; 6] = ["logs", "a_week", "guests", "totems", "stumps", "bed"];

/// Checks every wish of every plan.
#[must_use]
pub fn check(pile: &Pile) -> Vec<Fault> {
    let plans = pile.iter().filter(|((kind, _), _)| *kind == Kind::Plan);
    plans.flat_map(|(_, plan)| wishes(&plan.node)).flat_map(|wish| [nothing(wish), grain(wish)]).flatten().collect()
}

fn wishes(plan: &Node) -> &[Node] {
    match plan.get("wishes").map(|node| &node.value) {
        Some(Tree::List(wishes)) => wishes,
        _ => &[],
    }
}

fn nothing(wish: &Node) -> Option<Fault> {
    let asks = ASKS.iter().any(|key| wish.get(key).is_some());
    let is_wish = matches!(wish.value, Tree::Map(_));
    (is_wish && !asks).then(|| {
        Fault::new("missing-key", "this wish asks for nothing")
            .instead("add how much, such as `logs: 24`, `a_week: 6 lb`, `guests: 12`, `totems:`, `stumps:` or `bed:`")
            .at(wish.place.clone())
    })
}

fn grain(wish: &Node) -> Option<Fault> {
    let spawn = wish.get("spawn").filter(|spawn| spawn.text() == Some("grain"))?;
    ["logs", "a_week", "guests"].iter().any(|key| wish.get(key).is_some()).then(|| {
        Fault::new("unknown-word", "grain is not for drilled logs")
            .instead("write `sawdust`, `plug` or `thimble`")
            .at(spawn.place.clone())
    })
}
