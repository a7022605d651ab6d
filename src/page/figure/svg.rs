//! Parts of SVG.

use crate::quantity::measure::rounded;

/// Text made safe to stand in SVG or HTML.
///
/// ```
/// assert_eq!(hostwood::page::figure::svg::escaped("a < b & c"), "a &lt; b &amp; c");
/// ```
pub fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

/// A coordinate with at most two decimals.
pub fn at(number: f64) -> String {
    rounded(number, 2)
}
