//! The record types as JSON Schema, for editors and for the checks of a book.
//!
//! Four keywords are this project's own: `names` (the kind of record that an id must name), `between` (the lowest and
//! highest believable value), `ordered` (a list of two whose first is not above its second) and `rising` (keys of which
//! none is above the next). Editors pass over them.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use schemars::Schema;
use schemars::generate::SchemaSettings;
use schemars::transform::{Transform, transform_subschemas};
use serde_json::{Value, json};

use super::Kind;

/// The key under which any record answers the questions that are asked about it.
pub const CHECKED: &str = "checked";

/// The JSON Schema (draft 2020-12) of one record of a kind.
///
/// ```
/// use hostwood::record::{Kind, schema};
/// let schema = schema::of(Kind::Wood);
/// assert_eq!(schema["properties"]["leaf"]["$ref"], "#/$defs/Leaf");
/// ```
pub fn of(kind: Kind) -> Value {
    let settings = SchemaSettings::draft2020_12().with_transform(AsWritten);
    let mut schema = kind.schema(settings.into_generator()).to_value();
    if let Some(properties) = schema.get_mut("properties").and_then(Value::as_object_mut) {
        properties.insert(CHECKED.to_owned(), checked());
    }
    schema
}

/// Every key of every kind of record, also those inside of others.
///
/// ```
/// use hostwood::record::schema;
/// assert!(["wood", "latitude", "checked"].iter().all(|key| schema::keys().contains(*key)));
/// ```
pub fn keys() -> &'static BTreeSet<String> {
    static KEYS: LazyLock<BTreeSet<String>> = LazyLock::new(|| {
        let mut keys = BTreeSet::new();
        for kind in Kind::ALL {
            gather(&of(kind), &mut keys);
        }
        keys
    });
    &KEYS
}

fn gather(schema: &Value, keys: &mut BTreeSet<String>) {
    match schema {
        Value::Object(object) => {
            let properties = object.get("properties").and_then(Value::as_object);
            keys.extend(properties.into_iter().flat_map(|properties| properties.keys().cloned()));
            object.values().for_each(|part| gather(part, keys));
        }
        Value::Array(parts) => parts.iter().for_each(|part| gather(part, keys)),
        _ => {}
    }
}

/// The answers to questions.
fn checked() -> Value {
    json!({
        "description": "Questions of `hostwood proof` that are answered: the name of each, a colon and why the record is right.",
        "type": "array",
        "items": {"type": "string", "examples": ["no-where: the farm moves with the season"]},
    })
}

/// No record takes a key that its type does not have, nor `null`: an empty key clears a value before records are checked.
#[derive(Debug, Clone)]
struct AsWritten;

impl Transform for AsWritten {
    fn transform(&mut self, schema: &mut Schema) {
        if let Some(object) = schema.as_object_mut() {
            if object.contains_key("properties") {
                object.insert("additionalProperties".to_owned(), Value::Bool(false));
            }
            if let Some(Value::Array(types)) = object.get_mut("type") {
                types.retain(|kind| kind != "null");
                if let [only] = types.as_slice() {
                    let only = only.clone();
                    object.insert("type".to_owned(), only);
                }
            }
            if let Some(Value::Array(choices)) = object.get_mut("anyOf") {
                choices.retain(|choice| choice.get("type").is_none_or(|kind| kind != "null"));
                if let [Value::Object(only)] = choices.as_slice() {
                    let only = only.clone();
                    object.remove("anyOf");
                    object.extend(only);
                }
            }
        }
        transform_subschemas(self, schema);
    }
}
