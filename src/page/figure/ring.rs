//! The end grain of a rating: three rings round a pith off centre, as many inked as the rating says, with a bark edge.
//! A failure is crossed by a crack, a mere mention has dashed rings, an untried pair one dashed ring and a question mark.

use super::svg::{circle, shared};
use crate::reckon::findings::Word;

const RADII: [f64; 3] = [3.5, 6.75, 10.0];
const PITH: &str = r#"<circle class="ring-pith" cx="10.8" cy="12" r="0.9"/>"#;

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
    shared("ring defs", &symbols)
}

fn symbol(word: Word, id: &str) -> String {
    let (inked, others) = match word {
        Word::Thrives => (3, "ring-hair"),
        Word::DoesWell => (2, "ring-hair"),
        Word::GetsBy => (1, "ring-hair"),
        Word::Fails => (0, "ring-hair"),
        Word::Mentioned | Word::Untried => (0, "ring-dash"),
    };
    let ring = |(index, radius): (usize, f64)| {
        let class = if index < inked { "ring-ink" } else { others };
        circle(class, 11.0 + 0.5 * index as f64, 12.0, radius)
    };
    let rings = || RADII.into_iter().enumerate().map(ring).collect::<String>() + PITH;
    let shows = match word {
        Word::Untried => circle("ring-dash", 12.0, 12.0, 10.0) + r#"<text class="ring-q" x="12" y="16">?</text>"#,
        Word::Fails => rings() + r#"<path class="ring-crack" d="M10.8 12 L20.5 5"/>"#,
        _ => rings(),
    };
    format!(r#"<symbol id="{id}" viewBox="0 0 24 24">{shows}</symbol>"#)
}
