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
//!
//! [`walk`] visits every value of a record together with its schema.

pub mod between;
pub mod chain;
pub mod links;
pub mod names;
pub mod observed;
pub mod ordered;
pub mod quantity;
pub mod structure;
pub mod walk;

use std::collections::BTreeSet;

use super::lay::{Laid, Pile};
use crate::{
    fault::Fault,
    record::{Kind, schema},
};

/// The ids of all records, for checks that look one up.
pub type Ids = BTreeSet<(Kind, String)>;

/// Checks every record of a pile and gives all faults found.
#[must_use]
pub fn all(pile: &Pile) -> Vec<Fault> {
    let ids: Ids = pile.keys().cloned().collect();
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
