//! Visits every value of a record together with the part of the schema that speaks of it.

use serde_json::{Map, Value};

use crate::read::Node;
use crate::read::node::Tree;

/// Calls `visit` with the schema and the node of every value, from the outside in.
pub(super) fn walk(root: &Value, node: &Node, visit: &mut impl FnMut(&Map<String, Value>, &Node)) {
    step(root, root, node, visit);
}

fn step(root: &Value, schema: &Value, node: &Node, visit: &mut impl FnMut(&Map<String, Value>, &Node)) {
    let Some(object) = schema.as_object() else { return };
    visit(object, node);
    if let Some(target) = object.get("$ref").and_then(Value::as_str) {
        if let Some(target) = root.pointer(target.trim_start_matches('#')) {
            step(root, target, node, visit);
        }
        return;
    }
    match &node.value {
        Tree::Map(entries) => {
            for (key, value) in entries {
                if let Some(inner) = object.get("properties").and_then(|properties| properties.get(&key.text)) {
                    step(root, inner, value, visit);
                }
            }
        }
        Tree::List(items) => {
            for item in items {
                if let Some(inner) = object.get("items") {
                    step(root, inner, item, visit);
                }
            }
        }
        Tree::Null | Tree::Bool(_) | Tree::Number(_) | Tree::Text(_) => {}
    }
}
