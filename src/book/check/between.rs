//! A value outside a believable range.

use serde_json::{Map, Value};

use super::unbelievable;
use crate::fault::Fault;
use crate::quantity;
use crate::quantity::plain;
use crate::read::Node;
use crate::read::node::Tree;

/// Checks a value, or each of a list of values, against the lowest and highest that the schema believes.
pub(super) fn check(schema: &Map<String, Value>, node: &Node) -> Vec<Fault> {
    let Some([low, high]) = schema.get("between").and_then(Value::as_array).map(Vec::as_slice) else {
        return Vec::new();
    };
    match &node.value {
        Tree::List(items) => {
            let inner = schema.get("items").and_then(Value::as_object).unwrap_or(schema);
            items.iter().filter_map(|item| outside(inner, item, low, high)).collect()
        }
        _ => outside(schema, node, low, high).into_iter().collect(),
    }
}

fn outside(schema: &Map<String, Value>, node: &Node, low: &Value, high: &Value) -> Option<Fault> {
    let format = schema.get("format").and_then(Value::as_str);
    let value = size(format, &node.json())?;
    let slack = value.abs() * 1e-9;
    if value + slack >= size(format, low)? && value - slack <= size(format, high)? {
        return None;
    }
    let wrong = format!("`{}` is not believable here", node.plain());
    let look = format!("look at the number and its unit; `{}` to `{}` can be", plain(low), plain(high));
    Some(unbelievable(wrong, look, node.place.clone()))
}

/// The size of a number or of a quantity, by the format that the schema gives; `None` where it has none.
pub(super) fn size(format: Option<&str>, value: &Value) -> Option<f64> {
    match (format, value) {
        (Some(format), Value::String(text)) => quantity::magnitude(format, text)?.ok(),
        (Some(format), _) if quantity::is_format(format) => None,
        (_, value) => value.as_f64(),
    }
}
