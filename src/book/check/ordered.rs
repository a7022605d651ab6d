//! A range whose ends are swapped.

use serde_json::{Map, Value};

use super::between::size;
use crate::fault::Fault;
use crate::read::Node;
use crate::read::node::Tree;

/// Checks that the first of a list of two is not above the second, and that keys which rise do so.
pub(super) fn check(schema: &Map<String, Value>, node: &Node) -> Vec<Fault> {
    list(schema, node).into_iter().chain(keys(schema, node)).collect()
}

/// Keys of a mapping, or the ends of ranges under them, of which none must be above the next.
fn keys(schema: &Map<String, Value>, node: &Node) -> Option<Fault> {
    let mut earlier: Option<(&str, &Node, f64)> = None;
    for key in schema.get("rising").and_then(Value::as_array)?.iter().filter_map(Value::as_str) {
        let Some(value) = node.get(key) else { continue };
        let property = schema.get("properties")?.get(key)?;
        let format = property.get("format").or_else(|| property.get("items")?.get("format")).and_then(Value::as_str);
        let ends = match &value.value {
            Tree::List(items) => items.iter().collect(),
            _ => vec![value],
        };
        for end in ends {
            let size = size(format, &end.json())?;
            if let Some((other, low, _)) = earlier.filter(|(_, _, least)| *least > size) {
                let wrong = format!("`{other}` is {}, which is more than {} under `{key}`", low.plain(), end.plain());
                return Some(Fault::new("range-swapped", wrong).instead("swap the two").at(low.place.clone()));
            }
            earlier = Some((key, end, size));
        }
    }
    None
}

fn list(schema: &Map<String, Value>, node: &Node) -> Option<Fault> {
    schema.get("ordered").and_then(Value::as_bool).filter(|ordered| *ordered)?;
    let Tree::List(items) = &node.value else { return None };
    let [low, high] = items.as_slice() else { return None };
    let format = schema.get("items").and_then(|items| items.get("format")).and_then(Value::as_str);
    if size(format, &low.json())? <= size(format, &high.json())? {
        return None;
    }
    let (low, high) = (low.plain(), high.plain());
    Some(
        Fault::new("range-swapped", format!("the range begins with {low}, which is more than {high}"))
            .instead(format!("write the lower end first: `[{high}, {low}]`"))
            .at(node.place.clone()),
    )
}
