//! The band of a caution: heavy cuts for Stop, light ones for Take care; Bear in mind has a plain line by its border alone.

use std::fmt::Write;

use super::svg::at;

/// How far the cuts are drawn; the box cuts the band off where it ends.
const HEIGHT: f64 = 600.0;

/// The drawings of both bands.
pub fn defs() -> String {
    let (stop, care) = (symbol("saw-stop", 18.0, 12.0), symbol("saw-care", 12.0, 8.0));
    format!(r#"<svg class="defs" aria-hidden="true">{stop}{care}</svg>"#)
}

fn symbol(id: &str, width: f64, step: f64) -> String {
    let mut path = String::new();
    let mut top = -width;
    while top < HEIGHT {
        let _ = write!(path, "M0 {}L{} {}", at(top + width), at(width), at(top));
        top += step;
    }
    format!(r#"<symbol id="{id}"><path class="saw-line" d="{path}"/></symbol>"#)
}
