//! A quantity without a unit or with a unit of another kind, a date that does not exist, a window's end that cannot be told.

use serde_json::{Map, Value};

use crate::fault::{Fault, MONTH_FIRST};
use crate::quantity;
use crate::read::Node;
use crate::read::node::Tree;

/// Checks a value that the schema calls a quantity.
pub(super) fn check(schema: &Map<String, Value>, node: &Node) -> Option<Fault> {
    let format = schema.get("format").and_then(Value::as_str)?;
    let fault = match &node.value {
        Tree::Text(text) => quantity::magnitude(format, text)?.err()?,
        Tree::Number(number) if quantity::is_format(format) => {
            quantity::magnitude(format, &number.to_string())?.err()?
        }
        _ => return None,
    };
    let fault = match (fault.rule, fault.instead.clone(), schema.get("examples").and_then(|all| all[0].as_str())) {
        // The example of this very key says more than that of any quantity of its kind.
        ("no-unit", Some(instead), Some(example)) if format != "season-end" && instead.matches('`').count() == 2 => {
            let (words, _) = instead.split_once('`').unwrap_or((&instead, ""));
            fault.instead(format!("{words}`{example}`"))
        }
        _ => fault,
    };
    let fault = match (fault.rule, &fault.instead) {
        ("no-unit", Some(instead)) if node.place.file.is_sheet() => {
            let head = if format == "mass" { "`Weight (lb)`" } else { "`DBH (in)` or `Girth (in)`" };
            let instead = format!("{instead}, or the unit into the head of the column, such as {head}");
            fault.instead(instead)
        }
        (MONTH_FIRST, Some(instead)) if node.place.file.is_sheet() => {
            let head = "or say it once for all, in the head of the column: `Date (month first)` or `Date (day first)`";
            let instead = format!("{instead}; {head}");
            fault.instead(instead)
        }
        _ => fault,
    };
    Some(fault.at(node.place.clone()))
}
