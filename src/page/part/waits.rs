//! Trees that wait, since felled this winter they have no day to be inoculated.

use std::collections::BTreeMap;

use super::{and, tree};
use crate::page::Context;
use crate::reckon::findings::TreeFinding;
use crate::reckon::findings::winter::of_wood;

/// Which of some trees wait, and why, wood by wood.
pub fn lines<'a>(trees: impl IntoIterator<Item = &'a TreeFinding>, context: &Context<'_>) -> Vec<String> {
    let findings = context.findings;
    let mut waiting: BTreeMap<&str, Vec<&TreeFinding>> = BTreeMap::new();
    for tree in trees {
        let wood = &tree.tree.wood;
        if tree.may_fall() && !findings.winter().waits(&wood.id).is_empty() {
            waiting.entry(wood.id.as_str()).or_default().push(tree);
        }
    }
    waiting.values().filter_map(|trees| line(trees, context)).collect()
}

/// The trees of one wood.
fn line(trees: &[&TreeFinding], context: &Context<'_>) -> Option<String> {
    let wood = &trees.first()?.tree.wood;
    let mushrooms = context.findings.winter().waits(&wood.id).iter();
    let mushrooms: Vec<String> = mushrooms.map(|mushroom| mushroom.name().to_owned()).collect();
    let lie = if of_wood(context.findings, wood).ready > 0 { "; logs that lie are used" } else { "" };
    Some(format!(
        "{} {}: {} felled in these days has no day to inoculate {}{lie}",
        tree::tags(trees),
        if trees.len() == 1 { "waits" } else { "wait" },
        wood.name(),
        and(&mushrooms),
    ))
}
