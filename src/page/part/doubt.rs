//! Trees of which nobody is sure what they are, and what to look at.

use std::collections::BTreeMap;

use serde::Serialize;

use super::{Anchor, and, character};
use crate::page::Context;
use crate::quantity::{Length, Units, count};
use crate::reckon::findings::TreeFinding;
use crate::reckon::table::NAMED;
use crate::record::Kind;
use crate::record::character::When;

/// Marked trees of one wood in one stand that are left until it is known what they are.
#[derive(Debug, Serialize)]
pub struct Doubt {
    trees: String,
    /// What their rows say that they are.
    wood: Anchor,
    stand: Option<Anchor>,
    /// A character to look at beside those that the key asks of bare trees, and how the wood shows it.
    check: Option<(String, String)>,
}

/// Those of some trees that are marked and in doubt, wood by wood and stand by stand.
pub fn all<'a>(trees: impl IntoIterator<Item = &'a TreeFinding>, context: &Context<'_>) -> Vec<Doubt> {
    let mut alike: BTreeMap<(Option<&str>, &str), Vec<&TreeFinding>> = BTreeMap::new();
    for tree in trees.into_iter().filter(|tree| tree.is_left_in_doubt()) {
        let stand = tree.tree.stand.as_ref().map(|stand| stand.id.as_str());
        alike.entry((stand, tree.tree.wood.id.as_str())).or_default().push(tree);
    }
    alike.values().filter_map(|trees| of(trees, context)).collect()
}

/// Trees of one wood in one stand.
fn of(trees: &[&TreeFinding], context: &Context<'_>) -> Option<Doubt> {
    let tree = &trees.first()?.tree;
    let key = context.findings.tree_keys().iter().find(|key| key.when == When::Winter);
    let named = trees.iter().map(|tree| named(tree, context.units())).collect::<Vec<_>>();
    Some(Doubt {
        trees: if named.len() > NAMED { count(named.len(), "tree", "trees") } else { and(&named) },
        wood: Anchor::wood(&tree.wood, context),
        stand: tree.stand.as_ref().map(|stand| Anchor::record(Kind::Stand, &stand.id, context)),
        check: key.and_then(|key| {
            let at = key.woods.iter().position(|of| of.wood.id == tree.wood.id)?;
            character::check(key, at, context)
        }),
    })
}

/// A tree by its tag, and where it stands: "K-9 (40 ft east, 12 ft south)".
fn named(tree: &TreeFinding, units: Units) -> String {
    let record = &tree.tree.record;
    let far = |length: &Length, [onward, back]: [&str; 2]| {
        let (unit, number) = if units == Units::Us { ("ft", length.feet()) } else { ("m", length.base()) };
        format!("{:.0} {unit} {}", number.abs(), if number < 0.0 { back } else { onward })
    };
    match (&record.east, &record.north) {
        (Some(east), Some(north)) => {
            format!("{} ({}, {})", record.tag, far(east, ["east", "west"]), far(north, ["north", "south"]))
        }
        _ => record.tag.to_string(),
    }
}

/// The trees of the farm that are in doubt, each a link to its stand, and how many more there are.
pub fn links(context: &Context<'_>) -> (Vec<Anchor>, Option<String>) {
    let doubtful: Vec<&TreeFinding> = context.findings.trees().iter().filter(|tree| tree.is_doubtful()).collect();
    let link = |tree: &&TreeFinding| {
        let tag = &tree.tree.tag().0;
        let path = match &tree.tree.stand {
            Some(stand) => format!("{}#trees", context.route.record(Kind::Stand, &stand.id)),
            None => context.route.record(Kind::Tree, tag),
        };
        Anchor::to(path, tag, context)
    };
    let more = doubtful.len().saturating_sub(NAMED);
    (doubtful.iter().take(NAMED).map(link).collect(), (more > 0).then(|| format!("{more} more")))
}
