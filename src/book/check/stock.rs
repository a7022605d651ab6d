//! Spawn in stock that cannot be: of no day, or opened or arrived before it could be.

use super::{diary, unbelievable};
use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::quantity::Date;
use crate::read::Node;
use crate::read::node::Tree;
use crate::record::Kind;

/// The days of a bag in the order in which they come, and what happened on each.
const DAYS: [(&str, &str); 3] = [("ordered", "was ordered"), ("arrived", "arrived"), ("opened", "was opened")];

/// Checks what every plan has in stock.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let stock = pile.nodes(Kind::Plan).flat_map(|plan| plan.items("stock"));
    stock.flat_map(|stock| [undated(stock), sooner(stock), diary::too_late(pile, stock, "arrived")]).flatten().collect()
}

fn undated(stock: &Node) -> Option<Fault> {
    let dated = ["ordered", "arrived", "counted"].iter().any(|key| stock.get(key).is_some());
    (matches!(stock.value, Tree::Map(_)) && !dated).then(|| {
        Fault::new("missing-key", "on which day this was in stock is not said")
            .instead("write the day under `counted`, under `arrived`, or under `ordered` while it is on its way")
            .at(stock.place.clone())
    })
}

fn sooner(stock: &Node) -> Option<Fault> {
    let days = DAYS.into_iter().filter_map(|(key, words)| Some((key, words, stock.read(key, Date::read)?)));
    let days: Vec<(&str, &str, Date)> = days.collect();
    let pairs = days.windows(2).map(|pair| (pair[0], pair[1]));
    let ((_, first, _), (key, then, day)) = pairs.into_iter().find(|((.., first), (.., then))| then < first)?;
    let wrong = format!("this {then} on {}, before it {first}", day.written());
    Some(unbelievable(wrong, "look at both dates", stock.place_of(key)))
}
