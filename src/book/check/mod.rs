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
//! | [`observed`] | two dates observed in one season |
//! | [`no_cut`] | a window that the farm keeps as a no-cut window and that is none |
//! | [`short`] | two sources that a reader cannot tell apart |
//!
//! [`walk`] visits every value of a record together with its schema.

pub mod between;
pub mod chain;
pub mod links;
pub mod names;
pub mod no_cut;
pub mod observed;
pub mod ordered;
pub mod quantity;
pub mod short;
pub mod structure;
pub mod walk;

use std::collections::BTreeSet;

use super::lay::{Laid, Pile};
use crate::{
    fault::Fault,
    read::Lost,
    record::{Kind, schema},
};

/// The ids of all records, for checks that look one up.
#[derive(Debug)]
pub struct Ids {
    known: BTreeSet<(Kind, String)>,
    lost: Vec<Lost>,
}

impl Ids {
    /// Whether a record exists, even one that could not be read.
    #[must_use]
    pub fn has(&self, kind: Kind, id: &str) -> bool {
        let lost = |lost: &Lost| match lost {
            Lost::One(of, name) => *of == kind && name == id,
            Lost::All(of) => *of == kind,
        };
        self.known.contains(&(kind, id.to_owned())) || self.lost.iter().any(lost)
    }

    /// The ids of a kind.
    pub fn of(&self, kind: Kind) -> impl Iterator<Item = &str> {
        self.known.iter().filter(move |(of, _)| *of == kind).map(|(_, id)| id.as_str())
    }
}

/// Checks every record of a pile and gives all faults found.
#[must_use]
pub fn all(pile: &Pile, lost: Vec<Lost>) -> Vec<Fault> {
    let ids = Ids { known: pile.keys().cloned().collect(), lost };
    let mut faults = Vec::new();
    for kind in Kind::ALL {
        let schema = schema::of(kind);
        let structure = structure::Checker::new(&schema);
        for ((_, id), laid) in pile.iter().filter(|((of, _), _)| *of == kind) {
            faults.extend(structure.check(kind, &laid.node));
            faults.extend(values(&schema, laid, &ids));
            faults.extend(links::check(laid, &ids));
            faults.extend(chain::check(kind, id, pile));
        }
    }
    faults.extend(observed::check(pile));
    faults.extend(no_cut::check(pile));
    faults.extend(short::check(pile));
    faults
}

fn values(schema: &serde_json::Value, laid: &Laid, ids: &Ids) -> Vec<Fault> {
    let mut faults = Vec::new();
    walk::walk(schema, &laid.node, &mut |schema, node| {
        let before = faults.len();
        faults.extend(quantity::check(schema, node));
        faults.extend(names::check(schema, node, ids));
        if faults.len() == before {
            faults.extend(between::check(schema, node));
            faults.extend(ordered::check(schema, node));
        }
    });
    faults
}
