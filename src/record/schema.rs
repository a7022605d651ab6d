//! The record types as JSON Schema, for editors and for the checks of a book.
//!
//! Four keywords are this project's own: `names` (the kind of record that an id must name), `between` (the lowest and
//! highest believable value), `ordered` (a list of two whose first is not above its second) and `rising` (keys of which
//! none is above the next). Editors pass over them.

use schemars::{
    Schema,
    generate::SchemaSettings,
    transform::{Transform, transform_subschemas},
};
use serde_json::Value;

use super::{
    Kind, Record, batch, caution, diary, evidence, farm, handout, harvest, lot, method, mushroom, note, plan, source,
    stand, strain, term, tree, trouble, window, wood,
};

/// The JSON Schema (draft 2020-12) of one record of a kind.
///
/// ```
/// use hostwood::record::{Kind, schema};
/// let schema = schema::of(Kind::Wood);
/// assert_eq!(schema["properties"]["leaf"]["$ref"], "#/$defs/Leaf");
/// ```
#[must_use]
pub fn of(kind: Kind) -> Value {
    match kind {
        Kind::Farm => generate::<farm::Farm>(),
        Kind::Mushroom => generate::<mushroom::Mushroom>(),
        Kind::Wood => generate::<wood::Wood>(),
        Kind::Strain => generate::<strain::Strain>(),
        Kind::Method => generate::<method::Method>(),
        Kind::Evidence => generate::<evidence::Evidence>(),
        Kind::Window => generate::<window::Window>(),
        Kind::Caution => generate::<caution::Caution>(),
        Kind::Source => generate::<source::Source>(),
        Kind::Term => generate::<term::Term>(),
        Kind::Stand => generate::<stand::Stand>(),
        Kind::Tree => generate::<tree::Tree>(),
        Kind::Lot => generate::<lot::Lot>(),
        Kind::Plan => generate::<plan::Plan>(),
        Kind::Batch => generate::<batch::Batch>(),
        Kind::Diary => generate::<diary::Diary>(),
        Kind::Harvest => generate::<harvest::Harvest>(),
        Kind::Trouble => generate::<trouble::Trouble>(),
        Kind::Note => generate::<note::Note>(),
        Kind::Handout => generate::<handout::Handout>(),
    }
}

fn generate<T: Record>() -> Value {
    let settings = SchemaSettings::draft2020_12().with_transform(WithoutNull);
    settings.into_generator().into_root_schema_for::<T>().to_value()
}

/// Takes `null` out of optional values: an empty key clears a value before records are checked.
#[derive(Debug, Clone)]
struct WithoutNull;

impl Transform for WithoutNull {
    fn transform(&mut self, schema: &mut Schema) {
        if let Some(object) = schema.as_object_mut() {
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
