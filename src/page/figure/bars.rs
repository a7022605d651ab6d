//! Bars before and after, with a line where something is to be kept.

use std::fmt::Write;

use super::hatch::FORESEEN;
use super::svg::{at, escaped};

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
    let mut out = String::new();
    let _ = write!(
        out,
        r#"<svg class="bars" viewBox="0 0 400 {}" role="img" aria-labelledby="{id}-title {id}-desc"><title id="{id}-title">{}</title><desc id="{id}-desc">The same figures stand in the table below.</desc>"#,
        at(height),
        escaped(title)
    );
    for (index, bar) in bars.iter().enumerate() {
        let top = ROW * index as f64 + 6.0;
        let fill = if bar.foreseen { format!("url(#{FORESEEN})") } else { "currentColor".to_owned() };
        let _ = write!(
            out,
            r#"<text class="lab" x="{}" y="{}" text-anchor="end">{}</text><rect class="bar-edge-filled" fill="{fill}" x="{LEFT}" y="{}" width="{}" height="20"/><text class="lab" x="{}" y="{}">{}</text>"#,
            at(LEFT - 8.0),
            at(top + 15.0),
            escaped(&bar.name),
            at(top),
            at(bar.value * scale),
            at(LEFT + bar.value * scale + 8.0),
            at(top + 15.0),
            escaped(&bar.words)
        );
    }
    if let Some((value, words)) = keep {
        let x = LEFT + value * scale;
        let _ = write!(
            out,
            r#"<path class="keep-line" d="M{0} 0V{1}"/><text class="lab" x="{0}" y="{2}" text-anchor="middle">{3}</text>"#,
            at(x),
            at(height - 24.0),
            at(height - 8.0),
            escaped(words)
        );
    }
    out.push_str("</svg>");
    out
}
