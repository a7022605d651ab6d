//! Characters of a tree in words.

use super::cite::Cite;
use crate::book::Wood;
use crate::book::spelling::american;
use crate::page::Context;
use crate::quantity::Units;
use crate::reckon::findings::TreeKey;
use crate::reckon::findings::tree_key::{Refused, refusals};
use crate::record::character::Character;

/// States of a character in words, as the edition spells them: "red, brown or black".
pub fn states(asked: Character, states: &[usize], context: &Context<'_>) -> String {
    let all = asked.states();
    let words: Vec<String> = states.iter().map(|state| spelt(all[*state].1, context)).collect();
    or(&words)
}

/// What a character is called at the head of a lead.
pub fn name(asked: Character, context: &Context<'_>) -> String {
    spelt(asked.words(), context)
}

/// How a wood shows a character, where its record says so.
pub fn shown(wood: &Wood, asked: Character, context: &Context<'_>) -> Option<String> {
    Some(states(asked, &wood.record.characters.told(asked)?.states, context))
}

/// The name of the block in which a key says what a wood is.
pub fn block(wood: &Wood) -> String {
    format!("end-{}", wood.id)
}

/// Why a wood is left standing here; a law stands with its rule.
pub fn refused(wood: &Wood, context: &Context<'_>) -> Vec<(String, Option<Cite>)> {
    let reason = |refused| match refused {
        Refused::Kind(row) => (row.says.clone(), Some(Cite::by(row, context))),
        Refused::Law(rule) => (rule.record.says.clone(), None),
    };
    refusals(wood, context.book).into_iter().map(reason).collect()
}

/// The character of a wood to look at beside those that a key asked, and how the wood shows it.
pub fn check(key: &TreeKey, at: usize, context: &Context<'_>) -> Option<(String, String)> {
    let asked = key.check(at)?;
    Some((name(asked, context), shown(&key.woods[at].wood, asked, context)?))
}

fn spelt(words: &str, context: &Context<'_>) -> String {
    match context.units() {
        Units::Us => american(words),
        Units::Metric => words.to_owned(),
    }
}

/// Words as a choice: with semicolons where one of them has a comma of its own.
fn or(words: &[String]) -> String {
    let between = if words.iter().any(|word| word.contains(',')) { "; " } else { ", " };
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{}{}or {last}", first.join(between), if between == "; " { "; " } else { " " }),
    }
}
