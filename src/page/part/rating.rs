//! A rating as glyph, digit and word.

use serde::Serialize;

use crate::page::figure::ring;
use crate::reckon::findings::Word;

/// A rating as pages show it.
#[derive(Debug, Clone, Serialize)]
pub struct Rating {
    /// The style of the glyph: `r3` to `r0`, `rm` mentioned, `ru` untried.
    pub class: &'static str,
    /// The digit, where there is one.
    pub digit: Option<u8>,
    /// The word, always.
    pub word: &'static str,
    /// The id of its end grain.
    pub ring: &'static str,
}

impl Rating {
    /// The rating behind a word.
    pub fn of(word: Word) -> Self {
        let class = match word {
            Word::Thrives => "r3",
            Word::DoesWell => "r2",
            Word::GetsBy => "r1",
            Word::Fails => "r0",
            Word::Mentioned => "rm",
            Word::Untried => "ru",
        };
        Self { class, digit: word.rating(), word: word.words(), ring: ring::id(word) }
    }
}
