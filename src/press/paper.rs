//! What of the styles depends on the paper: the size of the sheets, and how much of one a handout may fill.

use serde::Serialize;

use crate::record::handout::Paper;

/// The margins of a handout, in millimetres: at the top, at either side, at the bottom.
const MARGINS: [f64; 3] = [10.0, 14.0, 12.0];
/// Where a handout is laid out as on paper: on paper, and on a screen that is broad enough for it.
pub const AS_PAPER: &str = "print, screen and (min-width: 56rem)";
/// Pixels of a style sheet in a millimetre.
const PIXELS: f64 = 96.0 / 25.4;

/// Width and height in millimetres.
const fn size(paper: Paper) -> [f64; 2] {
    match paper {
        Paper::A4 => [210.0, 297.0],
        Paper::Letter => [215.9, 279.4],
    }
}

const fn name(paper: Paper) -> &'static str {
    match paper {
        Paper::A4 => "A4",
        Paper::Letter => "letter",
    }
}

/// The sheets of the guide; the pairing table lies on its side, and a card takes half of one, less what rounding may add.
pub fn sheet(paper: Paper) -> String {
    let (name, [_, height]) = (name(paper), size(paper));
    let half = height / 2.0 - 0.1;
    format!("@page {{ size: {name}; }}\n@page broad {{ size: {name} landscape; }}\n:root {{ --half: {half:.1}mm; }}\n")
}

/// Width and height of a page of the pocket edition, in millimetres: a quarter of A4, or half of a letter.
const fn leaf(paper: Paper) -> [f64; 2] {
    match paper {
        Paper::A4 => [105.0, 148.0],
        Paper::Letter => [139.7, 215.9],
    }
}

/// The pages of the pocket edition.
pub fn pocket(paper: Paper) -> String {
    let [width, height] = leaf(paper);
    format!("@page {{ size: {width}mm {height}mm; }}\n")
}

/// The sheets of the pocket edition that are folded once, two pages to a side.
pub fn saddle(paper: Paper) -> String {
    let [leaf, tall] = folded(paper);
    format!(
        "@page {{ size: {} landscape; margin: 0; }}\n:root {{ --leaf: {leaf}mm; --tall: {tall}mm; }}\n",
        name(paper)
    )
}

/// Width and height of half a sheet, in millimetres.
fn folded(paper: Paper) -> [f64; 2] {
    let [width, height] = size(paper);
    [height / 2.0, width]
}

/// What a handout may fill.
#[derive(Debug, Serialize)]
pub struct Sheet {
    /// The rules for its sheets, and for how broad its text is where it is laid out as on paper.
    pub rule: String,
    /// How tall the text of one sheet is, in pixels of a style sheet.
    pub tall: f64,
}

/// What a handout on some paper may fill.
pub fn handout(paper: Paper) -> Sheet {
    let [width, height] = size(paper);
    let [top, side, bottom] = MARGINS;
    Sheet {
        rule: format!(
            "@page {{ size: {}; margin: {top}mm {side}mm {bottom}mm; }}\n@media {AS_PAPER} {{ .handout {{ width: {}mm; }} }}\n",
            name(paper),
            width - 2.0 * side
        ),
        tall: ((height - top - bottom) * PIXELS * 100.0).floor() / 100.0,
    }
}
