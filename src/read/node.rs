//! A tree of values that know where they stand.

use std::collections::BTreeMap;

use serde_json::{Map, Number, Value};

use crate::fault::{Fault, Place};
use crate::quantity::plain;

/// A value and its place.
#[derive(Debug, Clone)]
pub struct Node {
    /// The value.
    pub value: Tree,
    /// Where it stands.
    pub place: Place,
}

/// A value as YAML knows it.
#[derive(Debug, Clone)]
pub enum Tree {
    /// An empty value, which clears what the handbook says.
    Null,
    /// True or false.
    Bool(bool),
    /// A number.
    Number(Number),
    /// Text.
    Text(String),
    /// A list.
    List(Vec<Node>),
    /// A mapping; keys keep their places and may stand twice until a check has spoken.
    Map(Vec<(Key, Node)>),
}

/// A key of a mapping and its place.
#[derive(Debug, Clone)]
pub struct Key {
    /// The key.
    pub text: String,
    /// Where it stands.
    pub place: Place,
}

/// A number as records hold it: one without a part is whole, so that `12.0` counts logs as `12` does.
pub(super) fn number(value: f64) -> Option<Number> {
    let whole = value.fract() == 0.0 && value.abs() < 9e15;
    if whole { Some(Number::from(value as i64)) } else { Number::from_f64(value) }
}

impl Node {
    /// The value under a key of a mapping.
    pub fn get(&self, key: &str) -> Option<&Self> {
        let Tree::Map(entries) = &self.value else { return None };
        entries.iter().find(|(name, _)| name.text == key).map(|(_, node)| node)
    }

    /// The text, where the value is text.
    pub fn text(&self) -> Option<&str> {
        let Tree::Text(text) = &self.value else { return None };
        Some(text)
    }

    /// The text under a key of a mapping.
    pub fn word(&self, key: &str) -> Option<&str> {
        self.get(key)?.text()
    }

    /// The items of the list under a key; none where there is no list.
    pub fn items(&self, key: &str) -> &[Self] {
        let Some(Tree::List(items)) = self.get(key).map(|node| &node.value) else { return &[] };
        items
    }

    /// The whole number under a key.
    pub fn number(&self, key: &str) -> Option<u64> {
        let Tree::Number(number) = &self.get(key)?.value else { return None };
        number.as_u64()
    }

    /// The quantity or the date under a key, by the function that reads its text; `None` where it cannot be read.
    ///
    /// ```
    /// use hostwood::{quantity::Mass, read::Node};
    /// fn weight(harvest: &Node) -> Option<Mass> {
    ///     harvest.read("weight", Mass::read)
    /// }
    /// ```
    pub fn read<T>(&self, key: &str, read: impl FnOnce(&str) -> Result<T, Fault>) -> Option<T> {
        read(self.word(key)?).ok()
    }

    /// The value as the record writes it: text without its quotes, or a number.
    pub fn plain(&self) -> String {
        plain(&self.json())
    }

    /// The place of the value under a key; of the whole mapping where there is none.
    pub fn place_of(&self, key: &str) -> Place {
        self.get(key).unwrap_or(self).place.clone()
    }

    /// Calls `visit` with every text in the tree: the key under which it stands, the text, and its node.
    pub fn texts<'a>(&'a self, key: &'a str, visit: &mut impl FnMut(&'a str, &'a str, &'a Self)) {
        match &self.value {
            Tree::Text(text) => visit(key, text, self),
            Tree::List(items) => items.iter().for_each(|item| item.texts(key, visit)),
            Tree::Map(entries) => entries.iter().for_each(|(key, value)| value.texts(&key.text, visit)),
            Tree::Null | Tree::Bool(_) | Tree::Number(_) => {}
        }
    }

    /// The node under a JSON pointer such as `/density/basic`; the nearest one above it where there is none.
    pub fn at(&self, pointer: &str) -> &Self {
        let mut node = self;
        for step in pointer.split('/').skip(1) {
            let step = step.replace("~1", "/").replace("~0", "~");
            let next = match &node.value {
                Tree::Map(_) => node.get(&step),
                Tree::List(items) => step.parse::<usize>().ok().and_then(|index| items.get(index)),
                _ => None,
            };
            match next {
                Some(next) => node = next,
                None => return node,
            }
        }
        node
    }

    /// The place of every key of a mapping.
    pub fn key_places(&self) -> BTreeMap<&str, &Place> {
        let Tree::Map(entries) = &self.value else { return BTreeMap::new() };
        entries.iter().map(|(key, _)| (key.text.as_str(), &key.place)).collect()
    }

    /// The place of a key of a mapping, or of the mapping itself where it has no such key.
    pub fn key_place(&self, key: &str) -> Place {
        self.key_places().get(key).copied().unwrap_or(&self.place).clone()
    }

    /// The tree as JSON, without empty values.
    pub fn json(&self) -> Value {
        match &self.value {
            Tree::Null => Value::Null,
            Tree::Bool(value) => Value::Bool(*value),
            Tree::Number(value) => Value::Number(value.clone()),
            Tree::Text(value) => Value::String(value.clone()),
            Tree::List(items) => items.iter().map(Self::json).collect(),
            Tree::Map(entries) => Value::Object(
                entries
                    .iter()
                    .filter(|(_, node)| !matches!(node.value, Tree::Null))
                    .map(|(key, node)| (key.text.clone(), node.json()))
                    .collect::<Map<_, _>>(),
            ),
        }
    }

    /// Lays another tree over this one key by key: mappings are merged, anything else is replaced.
    pub fn under(self, over: Self) -> Self {
        match (self.value, over.value) {
            (Tree::Map(entries), Tree::Map(others)) => {
                let places: BTreeMap<String, usize> =
                    others.iter().enumerate().map(|(place, (key, _))| (key.text.clone(), place)).collect();
                let mut others: Vec<Option<(Key, Self)>> = others.into_iter().map(Some).collect();
                let mut over_it = |key: &Key| others.get_mut(*places.get(&key.text)?)?.take();
                let mut laid: Vec<(Key, Self)> = Vec::with_capacity(entries.len());
                for (key, below) in entries {
                    laid.push(match over_it(&key) {
                        Some((key, node)) => (key, below.under(node)),
                        None => (key, below),
                    });
                }
                laid.extend(others.into_iter().flatten());
                Self { value: Tree::Map(laid), place: over.place }
            }
            (_, value) => Self { value, place: over.place },
        }
    }
}
