//! A plan, linked to its strains.

use std::sync::Arc;

use super::{Listed, Origin, Register, Strain, one, twins};
use crate::record;
use crate::record::plan::{Offer, Wish};

/// A plan, linked.
#[derive(Debug)]
pub struct Plan {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::plan::Plan,
    /// The strain of each wish, in the order of the wishes.
    pub strains: Vec<Arc<Strain>>,
}

impl Plan {
    /// Each wish with its strain.
    pub fn wishes(&self) -> impl Iterator<Item = (&Wish, &Arc<Strain>)> {
        self.record.wishes.iter().zip(&self.strains)
    }

    /// The packages in which a strain is to be had.
    pub fn offers<'a>(&'a self, strain: &'a str) -> impl Iterator<Item = &'a Offer> {
        let of = move |offer: &&Offer| offer.strains.is_empty() || offer.strains.iter().any(|id| id.as_str() == strain);
        self.record.offers.iter().filter(of)
    }
}

/// Links plans.
pub(super) fn link(records: Vec<Listed<record::plan::Plan>>, strains: &Register<Strain>) -> Register<Plan> {
    twins(records, |Listed { id, origin, record }| {
        let strains: Option<_> = record.wishes.iter().map(|wish| one(&wish.strain, strains)).collect();
        Some(Plan { id, origin, record, strains: strains? })
    })
}
