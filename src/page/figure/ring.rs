//! The end grain of a rating: three rings round a pith off centre, as many inked as the rating says, with a bark edge.
//! A failure is crossed by a crack, a mere mention has dashed rings, an untried pair one dashed ring and a question mark.

use std::fmt::Write;

use super::svg::at;
use crate::reckon::findings::Word;

const RADII: [f64; 3] = [3.5, 6.75, 10.0];

const WORDS: [(Word, &str); 6] = [
    (Word::Thrives, "ring-3"),
    (Word::DoesWell, "ring-2"),
    (Word::GetsBy, "ring-1"),
    (Word::Fails, "ring-0"),
    (Word::Mentioned, "ring-m"),
    (Word::Untried, "ring-u"),
];

/// The id of the drawing of a word; the word itself must stand beside it.
pub fn id(word: Word) -> &'static str {
    WORDS.iter().find(|(other, _)| *other == word).map_or("", |(_, id)| id)
}

/// The drawings of all glyphs.
pub fn defs() -> String {
    let symbols: String = WORDS.iter().map(|(word, id)| symbol(*word, id)).collect();
    format!(r#"<svg class="ring defs" aria-hidden="true">{symbols}</svg>"#)
}

fn symbol(word: Word, id: &str) -> String {
    let mut out = format!(r#"<symbol id="{id}" viewBox="0 0 24 24">"#);
    let inked = match word {
        Word::Thrives => 3,
        Word::DoesWell => 2,
        Word::GetsBy => 1,
        Word::Fails | Word::Mentioned | Word::Untried => 0,
    };
    let dashed = matches!(word, Word::Mentioned | Word::Untried);
    if word == Word::Untried {
        out.push_str(
            r#"<circle class="ring-dash" cx="12" cy="12" r="10"/><text class="ring-q" x="12" y="16">?</text></symbol>"#,
        );
        return out;
    }
    for (index, radius) in RADII.into_iter().enumerate() {
        let class = match (index < inked, dashed) {
            (true, _) => "ring-ink",
            (false, true) => "ring-dash",
            (false, false) => "ring-hair",
        };
        let shift = 0.5 * (2.0 - index as f64);
        let _ = write!(out, r#"<circle class="{class}" cx="{}" cy="12" r="{}"/>"#, at(12.0 - shift), at(radius));
    }
    out.push_str(r#"<circle class="ring-pith" cx="10.8" cy="12" r="0.9"/>"#);
    if word == Word::Fails {
        out.push_str(r#"<path class="ring-crack" d="M10.8 12 L20.5 5"/>"#);
    }
    out.push_str("</symbol>");
    out
}
