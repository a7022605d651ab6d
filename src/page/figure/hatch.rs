//! The hatches of every drawing: lines of ink that keep their family's colour and print in grey.

use std::fmt::Write;

use super::strip::Family;

/// The hatch of a running spawn: upright lines.
pub const RUN: &str = "hatch-run";
/// The hatch of what is foreseen rather than measured.
pub const FORESEEN: &str = "hatch-foreseen";

/// The id of a family's hatch.
pub fn id(family: Family) -> String {
    format!("hatch-{}", family.class())
}

/// The drawings of all hatches.
pub fn defs() -> String {
    let mut out = String::from(r#"<svg class="defs" aria-hidden="true"><defs>"#);
    for family in [Family::Cut, Family::Inoculate, Family::Fruit, Family::Rest, Family::Soak] {
        pattern(&mut out, &id(family), family.class(), r#" patternTransform="rotate(45)""#);
    }
    pattern(&mut out, RUN, Family::Rest.class(), "");
    pattern(&mut out, FORESEEN, "bars", r#" patternTransform="rotate(45)""#);
    out.push_str("</defs></svg>");
    out
}

fn pattern(out: &mut String, id: &str, class: &str, turned: &str) {
    let _ = write!(
        out,
        r#"<pattern id="{id}" class="{class}" width="6" height="6" patternUnits="userSpaceOnUse"{turned}><path class="hatch" d="M1 0V6"/></pattern>"#
    );
}
