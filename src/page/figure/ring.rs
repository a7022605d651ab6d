//! The end grain of a rating: three rings round a pith off centre, as many inked as the rating says, with a bark edge.
//! A failure is crossed by a crack, a mere mention has dashed rings, an untried pair one dashed ring and a question mark.

use std::fmt::Write;

use super::svg::at;
use crate::reckon::findings::Word;

const RADII: [f64; 3] = [3.5, 6.75, 10.0];

/// Draws the glyph; the word that must stand beside it is its label.
#[must_use]
pub fn svg(word: Word) -> String {
    let mut out = String::from(r#"<svg class="ring" viewBox="0 0 24 24" aria-hidden="true" focusable="false">"#);
    let inked = match word {
        Word::Thrives => 3,
        Word::DoesWell => 2,
        Word::GetsBy => 1,
        Word::Fails | Word::Mentioned | Word::Untried => 0,
    };
    let dashed = matches!(word, Word::Mentioned | Word::Untried);
    if word == Word::Untried {
        out.push_str(r#"<circle class="ring-dash" cx="12" cy="12" r="10"/><text class="ring-q" x="12" y="16">?</text></svg>"#);
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
    out.push_str("</svg>");
    out
}
