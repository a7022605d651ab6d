//! The band of a caution: heavy cuts for Stop, light ones for Take care; Bear in mind has a plain line by its border alone.

use super::svg::{at, shared};

/// How far the cuts are drawn; the box cuts the band off where it ends.
const HEIGHT: f64 = 600.0;

/// The drawings of both bands.
pub fn defs() -> String {
    let (stop, care) = (symbol("saw-stop", 18.0, 12.0), symbol("saw-care", 12.0, 8.0));
    shared("defs", &(stop + &care))
}

fn symbol(id: &str, width: f64, step: f64) -> String {
    let tops = std::iter::successors(Some(-width), |top| Some(top + step)).take_while(|top| *top < HEIGHT);
    let cut = |top: f64| format!("M0 {}L{} {}", at(top + width), at(width), at(top));
    let path: String = tops.map(cut).collect();
    format!(r#"<symbol id="{id}"><path class="saw-line" d="{path}"/></symbol>"#)
}
