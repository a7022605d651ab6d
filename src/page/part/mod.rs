//! What several pages share.
//!
//! | file | what it holds |
//! |---|---|
//! | [`frame`] | what stands round every page: farm, season, thumb index, edition |
//! | [`cite`] | who says so, and how far it was read; a row that a source says |
//! | [`rating`] | a rating as glyph, digit and word |
//! | [`pair`] | a pairing in words, with what its sources say |
//! | [`caution`] | a caution with its word and band |
//! | [`date`] | stretches of the year in words |
//! | [`sheet`] | the record behind a page |

pub mod caution;
pub mod cite;
pub mod date;
pub mod frame;
pub mod pair;
pub mod rating;
pub mod sheet;

use serde::Serialize;

/// A link and its text.
#[derive(Debug, Clone, Serialize)]
pub struct Anchor {
    /// Where it leads.
    pub href: String,
    /// What it says.
    pub text: String,
}

/// A number or a short text that leads to its working or its source.
#[derive(Debug, Clone, Serialize)]
pub struct Figure {
    /// What it says.
    pub text: String,
    /// Where its working stands.
    pub href: Option<String>,
    /// Whether it says why there is no figure.
    pub gap: bool,
}

impl Figure {
    /// A figure with its working.
    #[must_use]
    pub fn worked(text: impl Into<String>, href: String) -> Self {
        Self { text: text.into(), href: Some(href), gap: false }
    }

    /// The words that stand where there is no figure.
    #[must_use]
    pub fn gap(text: impl Into<String>) -> Self {
        Self { text: text.into(), href: None, gap: true }
    }
}

/// A word with a capital first letter.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().collect::<String>() + letters.as_str())
}

/// A small number as a word.
#[must_use]
pub fn number_word(number: usize) -> String {
    const WORDS: [&str; 13] =
        ["none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    WORDS.get(number).map_or_else(|| number.to_string(), |&word| word.to_owned())
}

/// Words in one sentence part: "a, b and c".
#[must_use]
pub fn and(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}
