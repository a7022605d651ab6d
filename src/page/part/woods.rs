//! Several woods in a few words.

use std::sync::Arc;

use super::and;
use crate::book::Wood;
use crate::page::Context;

/// Woods in words, for headings: all of them by name where they are few.
pub fn wood_words(woods: &[Arc<Wood>]) -> String {
    let names: Vec<String> = woods.iter().map(|wood| wood.name().to_owned()).collect();
    and(&names)
}

/// The woods of a felling in a few words.
pub fn short_woods(woods: &[Arc<Wood>], context: &Context<'_>) -> String {
    let all = context.findings.woods().len();
    match woods {
        woods if woods.len() == all => "all woods".to_owned(),
        [one] => one.name().to_owned(),
        woods if common_group(woods).is_some() => common_group(woods).unwrap_or_default(),
        _ => "other woods".to_owned(),
    }
}

/// The short name of a group to which all of some woods belong: "oaks".
fn common_group(woods: &[Arc<Wood>]) -> Option<String> {
    let (first, rest) = woods.split_first()?;
    let mut group = first.part_of.as_ref();
    while let Some(candidate) = group {
        if rest.iter().all(|wood| wood.line().any(|id| id == candidate.id)) {
            return candidate.record.names.get(1).cloned().or_else(|| Some(candidate.name().to_owned()));
        }
        group = candidate.part_of.as_ref();
    }
    None
}
