//! The band of a caution: heavy cuts for Stop, light ones for Take care, a plain line for Bear in mind.

use std::fmt::Write;

use super::svg::at;
use crate::record::caution::Severity;

/// How far the cuts are drawn; the box cuts the band off where it ends.
const HEIGHT: f64 = 600.0;

/// Draws the band; Bear in mind has a plain line by its border alone.
#[must_use]
pub fn svg(severity: Severity) -> String {
    let (width, step) = match severity {
        Severity::Grave => (18.0, 12.0),
        Severity::Harm => (12.0, 8.0),
        Severity::Watch => return String::new(),
    };
    let mut path = String::new();
    let mut top = -width;
    while top < HEIGHT {
        let _ = write!(path, "M0 {}L{} {}", at(top + width), at(width), at(top));
        top += step;
    }
    format!(r#"<svg class="saw" aria-hidden="true" focusable="false"><path class="saw-line" d="{path}"/></svg>"#)
}
