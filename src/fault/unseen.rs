//! Characters that nobody sees, but that a terminal obeys: control characters, and those that turn the direction of text.

use std::borrow::Cow;
use std::fmt::Write;

/// Whether a character is one that nobody sees and that a terminal obeys.
///
/// ```
/// use hostwood::fault::unseen::is_unseen;
/// assert!(is_unseen('\u{1b}') && is_unseen('\n') && is_unseen('\u{202e}'));
/// assert!(!is_unseen('é') && !is_unseen(' '));
/// ```
pub fn is_unseen(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// A text with such characters written out.
///
/// ```
/// use hostwood::fault::unseen::written_out;
/// assert_eq!(written_out("red\u{1b}[31m\noak"), r"red\u{1b}[31m\noak");
/// ```
pub fn written_out(text: &str) -> Cow<'_, str> {
    if !text.contains(is_unseen) {
        return Cow::Borrowed(text);
    }
    let write = |mut out: String, c: char| {
        match c {
            '\n' | '\r' | '\t' => out.extend(c.escape_default()),
            c if is_unseen(c) => out.extend(c.escape_unicode()),
            c => out.push(c),
        }
        out
    };
    Cow::Owned(text.chars().fold(String::new(), write))
}

/// JSON in which such characters stand as JSON writes them; its meaning stays the same.
///
/// ```
/// use hostwood::fault::unseen::written_out_in_json;
/// assert_eq!(written_out_in_json("{\n\"a\": \"\u{202e}\"}"), "{\n\"a\": \"\\u202e\"}");
/// ```
pub fn written_out_in_json(json: &str) -> String {
    let write = |mut out: String, c: char| {
        if is_unseen(c) && c != '\n' {
            let _ = write!(out, "\\u{:04x}", u32::from(c));
        } else {
            out.push(c);
        }
        out
    };
    json.chars().fold(String::with_capacity(json.len()), write)
}
