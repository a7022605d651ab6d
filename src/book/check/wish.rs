//! A wish that asks for nothing, or for a form of spawn that no log takes.

use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::read::Node;
use crate::read::node::Tree;
use crate::record::Kind;
use crate::record::strain::SpawnForm;

/// The keys by which a wish asks for something.
const ASKS: [&str; 6] = ["logs", "a_week", "guests", "totems", "stumps", "bed"];

/// Checks every wish of every plan.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let wishes = pile.nodes(Kind::Plan).flat_map(|plan| plan.items("wishes"));
    wishes.flat_map(|wish| [nothing(wish), grain(wish)]).flatten().collect()
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
    let logs = ["logs", "a_week", "guests"].iter().any(|key| wish.get(key).is_some());
    (logs && wish.word("spawn") == Some(SpawnForm::Grain.id())).then(|| {
        Fault::new("unknown-word", "grain is not for drilled logs")
            .instead("write `sawdust`, `plug` or `thimble`")
            .at(wish.place_of("spawn"))
    })
}
