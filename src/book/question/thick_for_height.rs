//! A sheet of trees whose thicknesses read like centimetres under a head of inches.

use std::collections::BTreeMap;

use super::Odd;
use crate::book::lay::Pile;
use crate::book::{Book, Tree};
use crate::record::{Kind, Link};

/// Trees of a stand are many times as high as they are thick, 60 to 100 times as a rule (common practice); a sheet of
/// centimetres under inches makes them two and a half times too thick, so that the middle one falls below this.
const LEAST: f64 = 40.0;

/// So many trees with a height of their own make a sheet; a single old oak of a field can be thick and low.
const FEW: usize = 3;

/// Asks of each stand in which the middle tree is that thick for its height.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let mut stands: BTreeMap<&str, Vec<(f64, &Tree)>> = BTreeMap::new();
    for tree in &book.trees {
        let (Some(stand), Some(height)) = (&tree.stand, &tree.record.height) else { continue };
        stands.entry(&stand.id).or_default().push((height.base() / tree.record.dbh().base(), tree));
    }
    stands.into_iter().filter_map(|(stand, trees)| odd(stand, trees, pile)).collect()
}

fn odd(stand: &str, mut trees: Vec<(f64, &Tree)>, pile: &Pile) -> Option<Odd> {
    trees.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (middle, _) = *trees.get(trees.len() / 2).filter(|_| trees.len() >= FEW)?;
    let (_, first) = trees.first().filter(|_| middle < LEAST)?;
    let node = pile.node(Kind::Tree, &first.tag().0)?;
    let key = if first.record.dbh.is_some() { "dbh" } else { "girth" };
    Some(Odd {
        about: Link::to(Kind::Stand, stand),
        place: node.place_of(key),
        what: format!("the trees of `{stand}` are very thick for their height, {}", as_if(first)),
        instead: "look at the heads, such as `DBH (cm)`, `Girth (cm)` and `Height (m)`, and their units".to_owned(),
    })
}

/// What so great a thickness is as a rule: centimetres as inches, or the girth as the thickness.
fn as_if(tree: &Tree) -> &'static str {
    let inches =
        [&tree.record.dbh, &tree.record.girth].into_iter().flatten().any(|size| size.written().ends_with("in"));
    if inches {
        "as if centimetres stood under a head of inches"
    } else {
        "as if the girth stood under the head of the thickness"
    }
}
