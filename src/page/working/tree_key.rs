//! The working behind the keys of trees.

use crate::page::part::worked::{Block, Part};
use crate::page::part::{Anchor, capital, character};
use crate::page::{Context, Page};
use crate::quantity::measure::rounded;
use crate::reckon::findings::TreeKey;
use crate::reckon::formula::Formula;
use crate::reckon::tree_key::{EFFORT, EXACT, SHORTEST};
use crate::record::character::When;

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&EFFORT, &SHORTEST];

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let says = format!(
        "Every question that parts the woods is weighed for up to {EXACT} of them. A wood weighs as much as the standing \
         trees of it that are tagged, and one more. A wood of which a character is not told goes both ways and counts half \
         on each. That no fruit lies there or that the leaves are gone decides nothing. \
         [Every couplet in tree-key.csv]({}tables/tree-key.csv)",
        context.route.root()
    );
    let keys = context.findings.tree_keys();
    vec![
        Part::new("formulas", "Formulas").by(FORMULAS, context).says(says),
        Part::new("keys", "Both keys").blocks(keys.iter().map(|key| of_key(key, context))),
    ]
}

/// The block of a key: what it came to, what its questions cost, what its woods weigh.
fn of_key(key: &TreeKey, context: &Context<'_>) -> Block {
    let page = if key.when == When::Winter { Page::KeyWinter } else { Page::KeySummer };
    let best = if key.is_exact { "No key takes less effort" } else { "Not every key was weighed" };
    let efforts: Vec<String> = key
        .asked()
        .map(|(asked, effort)| format!("{} {}", character::name(asked, context), rounded(effort, 1)))
        .collect();
    let weights: Vec<String> = key.woods.iter().map(|of| format!("{} {}", of.wood.name(), of.trees + 1)).collect();
    Block::of(Anchor::page(&page, context))
        .named(key.when.id())
        .line(format!(
            "{best}: {} questions a tree on average, {} at the least; an effort of {} a tree, of {} until it is known \
             whether to leave it",
            rounded(key.expected, 2),
            rounded(key.bound, 2),
            rounded(key.effort, 2),
            rounded(key.effort_to_refuse, 2)
        ))
        .line(format!("Effort of each character that the key asks: {}", efforts.join(", ")))
        .line(format!("{}: {}", capital("weights"), weights.join(", ")))
        .made_by(FORMULAS)
}
