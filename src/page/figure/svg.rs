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

/// A drawing: its class, breadth and height, further data of it, its id and title, what a reader finds beside it, and what
/// it shows.
pub fn drawing(
    class: &str,
    size: [f64; 2],
    data: &str,
    [id, title]: [&str; 2],
    beside: &str,
    shows: impl IntoIterator<Item = String>,
) -> String {
    let ([width, height], title) = (size.map(at), escaped(title));
    let shows: String = shows.into_iter().collect();
    format!(
        r#"<svg class="{class}" viewBox="0 0 {width} {height}"{data} role="img" aria-labelledby="{id}-title {id}-desc"><title id="{id}-title">{title}</title><desc id="{id}-desc">{beside}</desc>{shows}</svg>"#
    )
}

/// What all pages of a guide share of a kind of drawing.
pub fn shared(class: &str, shows: &str) -> String {
    format!(r#"<svg class="{class}" aria-hidden="true">{shows}</svg>"#)
}

/// Words at a place, that begin there, or have their middle or end there.
pub fn text(class: &str, place: [f64; 2], anchor: Anchor, words: &str) -> String {
    let ([x, y], words) = (place.map(at), escaped(words));
    let anchor = match anchor {
        Anchor::Start => "",
        Anchor::Middle => r#" text-anchor="middle""#,
        Anchor::End => r#" text-anchor="end""#,
    };
    format!(r#"<text class="{class}" x="{x}" y="{y}"{anchor}>{words}</text>"#)
}

/// What of words stands at their place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// Their beginning.
    Start,
    /// Their middle.
    Middle,
    /// Their end.
    End,
}

/// A box by its left and upper edge, its width and height, with its attributes.
pub fn rect(attributes: &str, sides: [f64; 4]) -> String {
    let [x, y, width, height] = sides.map(at);
    format!(r#"<rect {attributes} x="{x}" y="{y}" width="{width}" height="{height}"/>"#)
}

/// A circle by its middle and radius.
pub fn circle(class: &str, x: f64, y: f64, radius: f64) -> String {
    let [x, y, radius] = [x, y, radius].map(at);
    format!(r#"<circle class="{class}" cx="{x}" cy="{y}" r="{radius}"/>"#)
}

/// A line by its way.
pub fn path(class: &str, way: &str) -> String {
    format!(r#"<path class="{class}" d="{way}"/>"#)
}

/// The way of a cross in a box, by its left, upper, right and lower edge.
pub fn cross(edges: [f64; 4]) -> String {
    let [left, top, right, low] = edges.map(at);
    format!("M{left} {top}L{right} {low}M{left} {low}L{right} {top}")
}
