//! Checks records, one file a check.
//!
//! | file | what it looks for |
//! |---|---|
//! | [`structure`] | unknown, missing and mistyped keys, words outside a list, numbers out of bounds |
//! | [`quantity`] | a quantity without a unit or with a unit of another kind, a date that does not exist, a window's end that cannot be told |
//! | [`between`] | a value outside a believable range |
//! | [`ordered`] | a range whose ends are swapped |
//! | [`names`] | an id that names no record, a source that is cited but not listed |
//! | [`links`] | a link in Markdown that leads to nothing |
//! | [`chain`] | a group that is part of itself |
//! | [`batch`] | a batch that cannot be: more logs than its lot, no such tree, a weight that no log can have |
//! | [`diary`] | a line of the day book that cannot be |
//! | [`harvest`] | a harvest that cannot be |
//! | [`handout`] | a part of a handout that lacks what it shows, a picture that lies nowhere |
//! | [`soak`] | more soaks than the season has weeks |
//! | [`wish`] | a wish that asks for nothing, or for a form of spawn that no log takes |
//! | [`clump`] | stems of one stump of which some are to stay and some to come down |
//! | [`observed`] | two dates observed in one season, one in the wrong half of the year, buds that swell with hardly a winter since leaf colour |
//! | [`no_cut`] | a window that the farm keeps as a no-cut window and that is none |
//! | [`unseen`] | a name that holds a character which nobody can see |
//! | [`short`] | two sources that a reader cannot tell apart |
//!
//! [`walk`] visits every value of a record together with its schema.

pub mod batch;
pub mod between;
pub mod chain;
pub mod clump;
pub mod diary;
pub mod handout;
pub mod harvest;
pub mod links;
pub mod names;
pub mod no_cut;
pub mod observed;
pub mod ordered;
pub mod quantity;
pub mod short;
pub mod soak;
pub mod structure;
pub mod unseen;
pub mod walk;
pub mod wish;

use std::{
    cell::RefCell,
    collections::{BTreeMap, BTreeSet, btree_map::Entry},
    sync::Arc,
};

use super::lay::{self, Laid, Pile, Writer};
use crate::{
    fault::{Fault, suggest},
    read::{Lost, Node, Picture, node::Tree},
    record::{Kind, schema},
};

/// The ids of all records, for checks that look one up.
#[derive(Debug)]
pub struct Ids {
    known: BTreeSet<(Kind, String)>,
    called: BTreeMap<(Kind, String), String>,
    lost: BTreeSet<Lost>,
    meant: RefCell<BTreeMap<(Kind, String), Option<String>>>,
}

/// Misspelt ids of a farm for which the closest is looked for; where there are more, something else is wrong.
const MISSPELT: usize = 200;

impl Ids {
    /// The ids of a pile, and of records that exist but could not be read.
    #[must_use]
    pub fn of_pile(pile: &Pile, lost: Vec<Lost>) -> Self {
        let mut called = BTreeMap::new();
        for ((kind, id), laid) in pile {
            for name in names_of(&laid.node) {
                called.entry((*kind, plain(&name))).or_insert_with(|| id.clone());
            }
        }
        let known = pile.keys().cloned().collect();
        Self { known, called, lost: lost.into_iter().collect(), meant: RefCell::default() }
    }

    /// The id that was meant: that of a record with such a common name, or else the closest.
    #[must_use]
    pub fn meant(&self, kind: Kind, text: &str) -> Option<String> {
        let called = self.called.get(&(kind, plain(text))).cloned();
        called.or_else(|| self.closest(kind, text))
    }

    fn closest(&self, kind: Kind, text: &str) -> Option<String> {
        let mut meant = self.meant.borrow_mut();
        let misspelt = meant.len();
        match meant.entry((kind, text.to_owned())) {
            Entry::Occupied(known) => known.get().clone(),
            Entry::Vacant(_) if misspelt >= MISSPELT => None,
            Entry::Vacant(new) => new.insert(suggest::closest(text, self.of(kind)).map(str::to_owned)).clone(),
        }
    }

    /// Whether a record exists, even one that could not be read.
    #[must_use]
    pub fn has(&self, kind: Kind, id: &str) -> bool {
        let lost = || [Lost::All(kind), Lost::One(kind, id.to_owned())].iter().any(|lost| self.lost.contains(lost));
        self.known.contains(&(kind, id.to_owned())) || lost()
    }

    /// The ids of a kind.
    pub fn of(&self, kind: Kind) -> impl Iterator<Item = &str> {
        let from = self.known.range((kind, String::new())..);
        from.take_while(move |(of, _)| *of == kind).map(|(_, id)| id.as_str())
    }
}

/// Checks every record of a pile and gives all faults found.
#[must_use]
pub fn all(pile: &Pile, lost: Vec<Lost>, pictures: &[Arc<Picture>]) -> Vec<Fault> {
    let ids = Ids::of_pile(pile, lost);
    let mut faults = Vec::new();
    for kind in Kind::ALL {
        let schema = schema::of(kind);
        let structure = structure::Checker::new(&schema);
        let handbook = lay::of_kind(pile, kind).filter(|(_, laid)| laid.origin.writer != Writer::Farm);
        let handbook: Vec<&str> = handbook.map(|(id, _)| id).collect();
        for (id, laid) in lay::of_kind(pile, kind) {
            let found = structure.check(kind, &laid.node);
            faults.extend(found.into_iter().map(|fault| names::hint(fault, id, laid, &handbook)));
            faults.extend(values(&schema, laid, &ids));
            faults.extend(links::check(laid, &ids));
            faults.extend(unseen::check(&laid.node));
            faults.extend(chain::check(kind, id, pile));
        }
    }
    faults.extend(batch::check(pile));
    faults.extend(diary::check(pile));
    faults.extend(harvest::check(pile));
    faults.extend(handout::check(pile, pictures));
    faults.extend(soak::check(pile));
    faults.extend(wish::check(pile));
    faults.extend(clump::check(pile));
    faults.extend(observed::check(pile));
    faults.extend(no_cut::check(pile));
    faults.extend(short::check(pile));
    faults
}

/// The names by which people call a record.
fn names_of(node: &Node) -> Vec<String> {
    let single = ["name", "short", "term", "title"].into_iter().filter_map(|key| node.get(key)?.text());
    let many = match node.get("names").map(|names| &names.value) {
        Some(Tree::List(items)) => items.iter().filter_map(Node::text).collect(),
        _ => Vec::new(),
    };
    single.chain(many).map(str::to_owned).collect()
}

/// A name without what a spelling may change.
fn plain(name: &str) -> String {
    name.to_lowercase().replace([' ', '_'], "-").replace('\'', "")
}

fn values(schema: &serde_json::Value, laid: &Laid, ids: &Ids) -> Vec<Fault> {
    let mut faults = Vec::new();
    walk::walk(schema, &laid.node, &mut |schema, node| {
        let before = faults.len();
        faults.extend(structure::emptied(schema, node));
        faults.extend(names::twice(schema, node));
        faults.extend(quantity::check(schema, node));
        faults.extend(names::check(schema, node, ids));
        if faults.len() == before {
            faults.extend(between::check(schema, node));
            faults.extend(ordered::check(schema, node));
        }
    });
    faults
}
