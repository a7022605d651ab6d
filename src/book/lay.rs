//! Lays the farm's records over the handbook's, key by key.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde_json::Value;

use crate::fault::{Fault, File, Place};
use crate::read::node::Tree;
use crate::read::{Entry, Node, Text, sheet};
use crate::record::{Kind, Layout, schema};

/// Who wrote a record.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Writer {
    /// The built-in handbook alone.
    Handbook,
    /// The farm alone.
    Farm,
    /// The handbook, with keys replaced by the farm.
    Both,
}

impl Writer {
    /// The writer as a reader meets it on a page.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Handbook => "handbook",
            Self::Farm => "this farm",
            Self::Both => "handbook, amended by this farm",
        }
    }
}

/// Where a record comes from.
#[derive(Debug, Clone)]
pub struct Origin {
    /// Who wrote it.
    pub writer: Writer,
    /// Where it begins in each file that wrote it, the handbook's first.
    pub places: Vec<Place>,
    /// What stands in the columns that the farm added to its sheet for itself, each under the head that `farm.yaml` gives it.
    pub beside: Vec<(String, String)>,
}

impl Origin {
    /// The files that wrote the record, the handbook's first.
    pub fn files(&self) -> impl Iterator<Item = &Arc<File>> {
        self.places.iter().map(|place| &place.file)
    }
}

/// A record after laying, before it is checked.
#[derive(Debug, Clone)]
pub(super) struct Laid {
    /// What it says.
    pub node: Node,
    /// Where it comes from.
    pub origin: Origin,
    /// The Markdown under a note's header.
    pub text: Option<Text>,
}

/// All records by kind and id.
#[derive(Debug, Default)]
pub(super) struct Pile(BTreeMap<(Kind, String), Laid>);

impl Pile {
    /// The records of one kind, by their ids.
    pub(super) fn of(&self, kind: Kind) -> impl Iterator<Item = (&str, &Laid)> {
        let from = self.0.range((kind, String::new())..);
        from.take_while(move |((of, _), _)| *of == kind).map(|((_, id), laid)| (id.as_str(), laid))
    }

    /// The same, to be changed.
    fn of_mut(&mut self, kind: Kind) -> impl Iterator<Item = &mut Laid> {
        let from = self.0.range_mut((kind, String::new())..);
        from.take_while(move |((of, _), _)| *of == kind).map(|(_, laid)| laid)
    }

    /// What the records of one kind say, in the order of their ids.
    pub(super) fn nodes(&self, kind: Kind) -> impl Iterator<Item = &Node> {
        self.of(kind).map(|(_, laid)| &laid.node)
    }

    /// The record of a kind with an id.
    pub(super) fn get(&self, kind: Kind, id: &str) -> Option<&Laid> {
        self.0.get(&(kind, id.to_owned()))
    }

    /// The record of a kind with an id, beside its id.
    pub(super) fn entry(&self, kind: Kind, id: &str) -> Option<(&str, &Laid)> {
        self.0.get_key_value(&(kind, id.to_owned())).map(|((_, id), laid)| (id.as_str(), laid))
    }

    /// What the record of a kind with an id says.
    pub(super) fn node(&self, kind: Kind, id: &str) -> Option<&Node> {
        self.get(kind, id).map(|laid| &laid.node)
    }

    /// What the farm's own record says.
    pub(super) fn farm(&self) -> Option<&Node> {
        self.nodes(Kind::Farm).next()
    }
}

/// The kinds whose records stand in sheets, and the keys that each of them has by itself.
pub(super) fn sheets() -> impl Iterator<Item = (Kind, Value)> {
    let sheets = Kind::ALL.into_iter().filter(|kind| kind.layout() == Layout::Sheets);
    sheets.map(|kind| (kind, schema::of(kind)["properties"].take()))
}

/// Sets aside what stands in the columns that the farm added to its sheets for itself, by the heads that `farm.yaml` names.
fn set_aside(pile: &mut Pile) {
    let Some(own) = pile.farm().and_then(|farm| farm.get("columns")).cloned() else { return };
    for (kind, known) in sheets() {
        let heads = own.items(kind.at()).iter().filter_map(Node::text).map(|head| (sheet::key(head), head));
        let heads: BTreeMap<String, &str> = heads.filter(|(key, _)| known.get(key).is_none()).collect();
        for laid in pile.of_mut(kind).filter(|laid| !heads.is_empty() && laid.node.place.file.is_sheet()) {
            let Tree::Map(entries) = &mut laid.node.value else { continue };
            let beside = entries.extract_if(.., |(key, _)| heads.contains_key(&key.text));
            laid.origin.beside = beside.map(|(key, node)| (heads[&key.text].to_owned(), node.plain())).collect();
        }
    }
}

/// Lays the farm's entries over the handbook's.
pub(super) fn lay(handbook: Vec<Entry>, farm: Vec<Entry>, faults: &mut Vec<Fault>) -> Pile {
    let mut pile = heap(handbook, faults);
    for ((kind, id), over) in heap(farm, faults).0 {
        let key = if kind == Kind::Evidence { (kind, format!("own-{id}")) } else { (kind, id) };
        let laid = match pile.0.remove(&key) {
            Some(under) => both(under, over),
            None => over,
        };
        pile.0.insert(key, laid);
    }
    set_aside(&mut pile);
    pile
}

fn both(under: Laid, over: Laid) -> Laid {
    let places = under.origin.places.into_iter().chain(over.origin.places).collect();
    Laid {
        node: under.node.under(over.node),
        origin: Origin { writer: Writer::Both, places, beside: Vec::new() },
        text: over.text.or(under.text),
    }
}

fn heap(entries: Vec<Entry>, faults: &mut Vec<Fault>) -> Pile {
    let mut pile = Pile::default();
    for entry in entries {
        let writer = if entry.file().handbook { Writer::Handbook } else { Writer::Farm };
        let key = (entry.kind, entry.id.clone());
        if let Some(earlier) = pile.0.get(&key) {
            faults.push(twice(&entry, earlier));
            continue;
        }
        let origin = Origin { writer, places: vec![entry.place], beside: Vec::new() };
        pile.0.insert(key, Laid { node: entry.node, origin, text: entry.text });
    }
    pile
}

fn twice(entry: &Entry, earlier: &Laid) -> Fault {
    let first = earlier.origin.files().next().map_or("", |file| file.name.as_str());
    if entry.kind == Kind::Tree {
        return Fault::new("id-twice", format!("the tag `{}` hangs on another tree already, in `{first}`", entry.id))
            .instead("write what the tag of this tree says, or hang a new one")
            .at(entry.node.place_of("tag"));
    }
    Fault::new("id-twice", format!("the {} `{}` is already written in `{first}`", entry.kind.word(), entry.id))
        .instead("give one of the two another id")
        .at(entry.place.clone())
}
