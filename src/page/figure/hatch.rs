//! The hatches of every drawing: lines of ink that keep their family's colour and print in grey.

use super::strip::Family;
use super::svg::shared;

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
    const TURNED: &str = r#" patternTransform="rotate(45)""#;
    let families = [Family::Cut, Family::Inoculate, Family::Fruit, Family::Rest, Family::Soak];
    let mut patterns: String = families.iter().map(|family| pattern(&id(*family), family.class(), TURNED)).collect();
    patterns += &pattern(RUN, Family::Rest.class(), "");
    patterns += &pattern(FORESEEN, "bars", TURNED);
    shared("defs", &format!("<defs>{patterns}</defs>"))
}

fn pattern(id: &str, class: &str, turned: &str) -> String {
    format!(
        r#"<pattern id="{id}" class="{class}" width="6" height="6" patternUnits="userSpaceOnUse"{turned}><path class="hatch" d="M1 0V6"/></pattern>"#
    )
}
