//! Unknown, missing and mistyped keys, words outside a list, numbers out of bounds.

use jsonschema::error::ValidationErrorKind as Wrong;
use jsonschema::{ValidationError, Validator};
use serde_json::{Map, Value};

use super::columns;
use crate::fault::{Fault, suggest};
use crate::quantity::measure::rounded;
use crate::quantity::{is_format, plain};
use crate::read::Node;
use crate::read::node::Tree;
use crate::record::Kind;

/// Checks records of one kind against its schema.
pub(super) struct Checker<'a> {
    schema: &'a Value,
    validator: Option<Validator>,
}

impl<'a> Checker<'a> {
    /// A checker for one schema.
    pub(super) fn new(schema: &'a Value) -> Self {
        Self { schema, validator: jsonschema::validator_for(schema).ok() }
    }

    /// All structural faults of a record.
    pub(super) fn check(&self, kind: Kind, node: &Node) -> Vec<Fault> {
        let Some(validator) = &self.validator else {
            return vec![Fault::new("no-schema", format!("records of kind {} cannot be checked", kind.word()))];
        };
        let value = node.json();
        validator.iter_errors(&value).flat_map(|error| self.faults(kind, node, &error)).collect()
    }

    fn faults(&self, kind: Kind, node: &Node, error: &ValidationError<'_>) -> Vec<Fault> {
        let pointer = error.instance_path().as_str();
        let here = node.at(pointer);
        let one = |fault: Fault| vec![fault.at(here.place.clone())];
        match error.kind() {
            Wrong::AdditionalProperties { unexpected } => {
                let known = self.sibling(error, "properties").and_then(Value::as_object);
                let places = here.key_places();
                let place = |key: &str| places.get(key).copied().unwrap_or(&here.place).clone();
                let own = |key: &str| columns::named(kind, key, here).unwrap_or_default();
                unexpected.iter().map(|key| unknown_key(key, known, &own(key)).at(place(key))).collect()
            }
            Wrong::Required { property } => vec![missing(kind, node, pointer, property, self.example(error, property))],
            Wrong::Type { .. } if self.is_bare_number(here, error) => Vec::new(),
            Wrong::Type { .. } => one(mistyped(self.sibling(error, "type"), self.parent(error), here)),
            Wrong::Enum { .. } | Wrong::OneOfNotValid { .. } | Wrong::Constant { .. } => {
                one(self.outside_list(here, error))
            }
            Wrong::Minimum { .. } | Wrong::Maximum { .. } => one(self.out_of_bounds(here, error)),
            Wrong::Pattern { .. } => one(no_tag(here)),
            Wrong::MinItems { limit } | Wrong::MaxItems { limit } => one(miscounted(*limit, self.parent(error), here)),
            other => one(Fault::new("wrong-value", format!("this value does not fit ({})", other.keyword()))),
        }
    }

    /// Whether a number stands where a quantity is wanted, of which the check of quantities speaks.
    fn is_bare_number(&self, here: &Node, error: &ValidationError<'_>) -> bool {
        let format = self.sibling(error, "format").and_then(Value::as_str);
        matches!(here.value, Tree::Number(_)) && format.is_some_and(is_format)
    }

    /// The part of the schema in which the failing keyword stands.
    fn parent(&self, error: &ValidationError<'_>) -> Option<&Value> {
        let path = error.schema_path().as_str();
        self.schema.pointer(path.rsplit_once('/').map_or("", |(parent, _)| parent))
    }

    /// How a key that is missing may be written.
    fn example(&self, error: &ValidationError<'_>, property: &Value) -> Option<String> {
        let key = property.as_str()?;
        let schema = self.sibling(error, "properties")?.get(key)?;
        let target = schema.get("$ref").and_then(Value::as_str);
        let schema = target.and_then(|target| self.schema.pointer(target.trim_start_matches('#'))).unwrap_or(schema);
        let words = listed(schema);
        let example = schema.pointer("/examples/0").or_else(|| schema.pointer("/items/examples/0"));
        Some(match (words.as_slice(), example, schema.get("type").and_then(Value::as_str)) {
            ([], Some(example), Some("array")) => format!("`{key}: [{0}, {0}]`", plain(example)),
            ([], Some(example), _) => format!("`{key}: {}`", plain(example)),
            ([], None, Some("array")) => format!("`{key}: [first, second]`"),
            ([], None, Some("object")) => {
                let inner = schema.get("required").and_then(Value::as_array).into_iter().flatten();
                let inner: Vec<&str> = inner.filter_map(Value::as_str).collect();
                return Some(format!(
                    "`{key}:` with {} indented below it",
                    suggest::either(inner).replace(" or ", " and ")
                ));
            }
            ([], None, _) => return None,
            (words, _, _) => suggest::either(
                words.iter().map(|word| format!("{key}: {word}")).collect::<Vec<_>>().iter().map(String::as_str),
            ),
        })
    }

    fn sibling(&self, error: &ValidationError<'_>, key: &str) -> Option<&Value> {
        self.parent(error)?.get(key)
    }

    fn outside_list(&self, here: &Node, error: &ValidationError<'_>) -> Fault {
        let words = self.parent(error).map(listed).unwrap_or_default();
        let known = || words.iter().map(String::as_str);
        let fault = Fault::new("unknown-word", format!("{} is not one of the words that can stand here", found(here)));
        let otherwise = || format!("write {}", suggest::either(known()));
        fault.instead(suggest::instead_of(here.text().unwrap_or_default(), known(), otherwise))
    }

    fn out_of_bounds(&self, here: &Node, error: &ValidationError<'_>) -> Fault {
        let bound = |key: &str| self.sibling(error, key).and_then(Value::as_f64).map(|bound| rounded(bound, 3));
        let fault = Fault::new("not-believable", format!("`{}` is not believable here", here.json()));
        fault.instead(match (bound("minimum"), bound("maximum")) {
            (Some(low), Some(high)) => format!("write a number from {low} to {high}"),
            (Some(low), None) => format!("write a number of at least {low}"),
            (None, Some(high)) => format!("write a number of at most {high}"),
            (None, None) => "look at the number again".to_owned(),
        })
    }
}

/// The words that a schema allows, where it lists them.
fn listed(schema: &Value) -> Vec<String> {
    let words = schema.get("enum").and_then(Value::as_array).into_iter().flatten();
    let choices = schema.get("oneOf").and_then(Value::as_array).into_iter().flatten();
    let named = choices.filter_map(|choice| choice.get("const"));
    words.chain(named).filter_map(Value::as_str).map(str::to_owned).collect()
}

/// Unknown keys without a value, which the schema does not see since an empty key clears.
pub(super) fn emptied(schema: &Map<String, Value>, node: &Node) -> Vec<Fault> {
    let (Tree::Map(entries), Some(Value::Bool(false))) = (&node.value, schema.get("additionalProperties")) else {
        return Vec::new();
    };
    let known = schema.get("properties").and_then(Value::as_object);
    let unknown = entries.iter().filter(|(key, value)| {
        matches!(value.value, Tree::Null) && known.is_none_or(|known| !known.contains_key(&key.text))
    });
    unknown.map(|(key, _)| unknown_key(&key.text, known, "").at(key.place.clone())).collect()
}

fn unknown_key(key: &str, known: Option<&Map<String, Value>>, or: &str) -> Fault {
    let known: Vec<&str> = known.into_iter().flat_map(Map::keys).map(String::as_str).collect();
    let fault = Fault::new("unknown-key", format!("`{key}` is no key that can stand here"));
    let otherwise = || format!("the keys here are {}", suggest::either(known.iter().copied()));
    fault.instead(suggest::instead_of(key, known.iter().copied(), otherwise) + or)
}

fn missing(kind: Kind, node: &Node, pointer: &str, property: &Value, example: Option<String>) -> Fault {
    let key = property.as_str().unwrap_or("");
    if node.at(pointer).get(key).is_some() {
        let fault = Fault::new("missing-key", format!("`{key}` is empty, but a {} record needs it", kind.word()));
        return fault
            .instead("give it a value, or take the line away to keep the handbook's")
            .at(node.at(pointer).key_place(key));
    }
    let inside = pointer.rsplit('/').find(|step| !step.is_empty() && step.parse::<usize>().is_err());
    let what = inside.map_or_else(|| format!("this {} record", kind.word()), |step| format!("this part of `{step}`"));
    let fault = Fault::new("missing-key", format!("{what} does not say `{key}`"));
    if node.place.file.is_sheet() {
        return fault.instead(format!("write it into this row, under the head of `{key}`")).at(node.place.clone());
    }
    let line = example.unwrap_or_else(|| format!("`{key}:` with its value"));
    fault.instead(format!("add a line {line}")).at(node.at(pointer).place.clone())
}

/// A text that no tag can bear, the only one for which a schema has a pattern.
fn no_tag(here: &Node) -> Fault {
    Fault::new("not-believable", format!("{} is too long for a tag, or blank", found(here)))
        .instead("write what the tag says in at most 20 letters, such as `K-17`")
}

fn miscounted(limit: u64, schema: Option<&Value>, here: &Node) -> Fault {
    let number = |key: &str| schema.and_then(|schema| schema.get(key)).and_then(Value::as_u64);
    let example = schema.and_then(|schema| schema.pointer("/items/examples/0")).and_then(Value::as_str);
    let exact = number("minItems") == number("maxItems");
    let wanted = if exact { limit.to_string() } else { format!("at least {limit}") };
    let are = if limit == 1 { "is" } else { "are" };
    let fault = Fault::new("wrong-count", format!("this list has {}, but {wanted} {are} wanted", count(here)));
    fault.instead(match (exact && limit == 2, example) {
        (true, Some(example)) => format!("write the lower and the higher end, as in `[{example}, {example}]`"),
        (true, None) => "write the lower and the higher end, as in `[20, 25]`".to_owned(),
        (false, _) => format!("write {wanted}"),
    })
}

fn mistyped(wanted: Option<&Value>, schema: Option<&Value>, here: &Node) -> Fault {
    let quantity = schema.and_then(|schema| schema.get("format")).is_some();
    let wanted = match wanted.and_then(Value::as_str) {
        Some("string") if quantity => "a number with a unit, or a date",
        Some("string") => "text",
        Some("array") => "a list",
        Some("object") => "a group of keys",
        Some("integer") => "a whole number",
        Some("number") => "a number",
        Some("boolean") => "`true` or `false`",
        _ => "another kind of value",
    };
    let example = schema.and_then(|schema| schema.pointer("/examples/0")).map(plain);
    let bound = |key: &str| schema.and_then(|schema| schema.get(key)).and_then(Value::as_f64);
    let text = if here.text().is_some() { "the text " } else { "" };
    let fault = Fault::new("wrong-type", format!("{text}{} stands here, but {wanted} is wanted", found(here)));
    if matches!(here.value, Tree::Null) {
        return fault.instead(format!("write {wanted}, or take the dash or the line away"));
    }
    let number = here.text().map(|text| text.replace(',', ".")).filter(|text| text.parse::<f64>().is_ok());
    if let ("text", Tree::Map(entries)) = (wanted, &here.value)
        && let [(key, rest)] = entries.as_slice()
    {
        return fault.instead(format!(
            "put it in quotes, since a colon stands in it: `'{}: {}'`",
            key.text,
            rest.plain()
        ));
    }
    if let ("a number" | "a whole number", Some(number)) = (wanted, &number) {
        return fault.instead(format!("write `{number}`, with a point and without quotes"));
    }
    fault.instead(match (wanted, example) {
        (_, Some(example)) => format!("write {wanted}, such as `{example}`"),
        ("a number" | "a whole number", None) if bound("minimum").is_some() && bound("maximum").is_some() => {
            let [low, high] = ["minimum", "maximum"].map(|key| rounded(bound(key).unwrap_or_default(), 3));
            format!("write {wanted} from {low} to {high}")
        }
        ("a list", _) => "begin each item with `- `, or write `[first, second]`".to_owned(),
        ("text", _) if matches!(here.value, Tree::List(_) | Tree::Map(_)) => "write one text".to_owned(),
        ("text", _) => "put it in quotes".to_owned(),
        ("a group of keys", _) => "write its keys on the lines below, indented".to_owned(),
        _ => format!("write {wanted}"),
    })
}

fn found(here: &Node) -> String {
    match here.json() {
        Value::Null => "nothing".to_owned(),
        Value::Array(_) => "a list".to_owned(),
        Value::Object(_) => "a group of keys".to_owned(),
        Value::String(text) => format!("`{}`", text.chars().take(40).collect::<String>()),
        other => format!("`{other}`"),
    }
}

fn count(here: &Node) -> String {
    match here.json().as_array().map_or(0, Vec::len) {
        1 => "1 item".to_owned(),
        number => format!("{number} items"),
    }
}
