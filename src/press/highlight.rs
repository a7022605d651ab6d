//! Shows a record with its keys, texts and numbers set apart.
//!
//! The syntax of records is packed from `record.sublime-syntax` by `examples/pack_syntax.rs`, so that no start of the program
//! pays for the many syntaxes that are never used.

use std::fmt::Write;
use std::sync::LazyLock;

use syntect::parsing::{ParseState, Scope, ScopeStack, SyntaxSet};

use crate::page::figure::svg::escaped;

static SYNTAX: LazyLock<SyntaxSet> = LazyLock::new(|| {
    syntect::dumps::from_uncompressed_data(include_bytes!("highlight/record.packdump")).unwrap_or_default()
});

/// Scopes and the element that sets them apart, the first that fits; a record is long, so the elements are short.
const ELEMENTS: [(&str, &str); 4] =
    [("comment", "i"), ("entity.name.tag", "b"), ("constant.numeric", "var"), ("string", "samp")];

/// A record's text as HTML; text that the syntax cannot follow is shown plain.
///
/// ```
/// let html = hostwood::press::highlight::html("leaf: broad\n");
/// assert!(html.contains("<b>leaf</b>"));
/// ```
pub fn html(text: &str) -> String {
    colour(text).unwrap_or_else(|| escaped(text))
}

fn colour(text: &str) -> Option<String> {
    let syntax = SYNTAX.find_syntax_by_name("Hostwood record")?;
    let mut state = ParseState::new(syntax);
    let mut stack = ScopeStack::new();
    let mut out = String::new();
    for line in text.split_inclusive('\n') {
        let ops = state.parse_line(line, &SYNTAX).ok()?;
        let mut start = 0;
        for (end, op) in ops {
            piece(&mut out, line.get(start..end)?, &stack);
            start = end;
            stack.apply(&op).ok()?;
        }
        piece(&mut out, line.get(start..)?, &stack);
    }
    Some(out)
}

fn piece(out: &mut String, text: &str, stack: &ScopeStack) {
    if text.is_empty() {
        return;
    }
    let _ = match element(stack) {
        Some(element) if !text.trim().is_empty() => write!(out, "<{element}>{}</{element}>", escaped(text)),
        _ => write!(out, "{}", escaped(text)),
    };
}

fn element(stack: &ScopeStack) -> Option<&'static str> {
    let scope = stack.as_slice().last()?;
    let within = |prefix: &str| Scope::new(prefix).is_ok_and(|prefix| prefix.is_prefix_of(*scope));
    ELEMENTS.into_iter().find(|(prefix, _)| within(prefix)).map(|(_, element)| element)
}
