//! Bars before and after, with a line where something is to be kept.

use super::hatch::FORESEEN;
use super::svg::{Anchor, at, drawing, path, rect, text};

/// A bar: its name, its length, and the length in words.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// Its name.
    pub name: String,
    /// Its length.
    pub value: f64,
    /// The length in words.
    pub words: String,
    /// Whether it is hatched: what is foreseen rather than measured.
    pub foreseen: bool,
}

const LEFT: f64 = 66.0;
const LONGEST: f64 = 230.0;
const ROW: f64 = 34.0;

/// Draws bars on one scale; the line stands at `keep`.
pub fn svg(id: &str, title: &str, bars: &[Bar], keep: Option<(f64, &str)>) -> String {
    let most = bars.iter().map(|bar| bar.value).chain(keep.map(|(value, _)| value)).fold(1e-9, f64::max);
    let scale = LONGEST / most;
    let height = ROW * bars.len() as f64 + 34.0;
    let bar = |(index, bar): (usize, &Bar)| {
        let (top, end) = (ROW * index as f64 + 6.0, LEFT + bar.value * scale + 8.0);
        let fill = if bar.foreseen { format!("url(#{FORESEEN})") } else { "currentColor".to_owned() };
        let class = format!(r#"class="bar-edge-filled" fill="{fill}""#);
        text("lab", [LEFT - 8.0, top + 15.0], Anchor::End, &bar.name)
            + &rect(&class, [LEFT, top, bar.value * scale, 20.0])
            + &text("lab", [end, top + 15.0], Anchor::Start, &bar.words)
    };
    let line = keep.map(|(value, words)| {
        let x = LEFT + value * scale;
        path("keep-line", &format!("M{} 0V{}", at(x), at(height - 24.0)))
            + &text("lab", [x, height - 8.0], Anchor::Middle, words)
    });
    let shows = bars.iter().enumerate().map(bar).chain(line);
    drawing("bars", [400.0, height], "", [id, title], "The same figures are in the table below.", shows)
}
