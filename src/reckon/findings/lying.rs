//! Lots that lie: until when their logs rest, and when they are filled.

use std::sync::Arc;

use super::inoculation::{each_once, open_for};
use super::season::days;
use super::{Findings, Word};
use crate::book::{Lot, Mushroom};
use crate::quantity::{Date, Days};
use crate::reckon::days::Days as Circle;
use crate::reckon::season::Basis;

/// A lot with logs that lie, and its days.
#[derive(Debug, Clone)]
pub struct Lying {
    /// The lot.
    pub lot: Arc<Lot>,
    /// Its logs that are left.
    pub logs: u32,
    /// The days on which it was felled.
    pub felled: Days,
    /// The first and the last day on which all its logs have rested as long as the farm's rest asks, and no longer.
    pub rested: (Date, Date),
    /// When they are filled, mushrooms with the same days together.
    pub fills: Vec<Fill>,
}

/// When the logs of a lot are filled.
#[derive(Debug, Clone)]
pub struct Fill {
    /// The mushrooms that share the days.
    pub mushrooms: Vec<Arc<Mushroom>>,
    /// The first and the last day.
    pub days: (Date, Date),
    /// Whether the rest is over before inoculation opens, so that the logs wait longer than the rest asks.
    pub late: bool,
    /// What the days rest on.
    pub basis: Basis,
}

impl Lying {
    /// The days on which its logs are filled with a mushroom.
    pub fn filled_with(&self, mushroom: &Mushroom) -> Option<(Date, Date)> {
        let fill = self.fills.iter().find(|fill| fill.mushrooms.iter().any(|of| of.id == mushroom.id))?;
        Some(fill.days)
    }
}

/// Every lot with logs left whose felling is known, in the order of their ids.
pub fn all(findings: &Findings) -> Vec<Lying> {
    findings.book.lots.values().filter_map(|lot| lying(findings, lot)).collect()
}

fn lying(findings: &Findings, lot: &Arc<Lot>) -> Option<Lying> {
    let logs = Some(findings.ledger().waiting(lot)).filter(|logs| *logs > 0)?;
    let (felled, rest) = (lot.felled?, findings.rest());
    let from = felled.to.after(&rest.low);
    let rested = (from, felled.from.after(&rest.high).max(from));
    let mut fills: Vec<Fill> = Vec::new();
    for fill in mushrooms(findings, lot).iter().filter_map(|mushroom| fill(findings, mushroom, rested)) {
        match fills.iter_mut().find(|other| other.days == fill.days) {
            Some(other) => other.mushrooms.extend(fill.mushrooms),
            None => fills.push(fill),
        }
    }
    Some(Lying { lot: Arc::clone(lot), logs, felled, rested, fills })
}

/// The mushrooms for which its logs are meant: those of wishes that get logs of its wood, else those of the farm that
/// somebody has spoken for on it.
fn mushrooms(findings: &Findings, lot: &Lot) -> Vec<Arc<Mushroom>> {
    let gets = findings.winter().wishes.iter().filter(|wish| wish.placed.iter().any(|of| of.wood.id == lot.wood.id));
    let wished = each_once(gets.map(|wish| &wish.strain.mushroom));
    if !wished.is_empty() {
        return wished;
    }
    let spoken_for =
        |mushroom: &&Arc<Mushroom>| !matches!(findings.word(&mushroom.id, &lot.wood.id), Word::Untried | Word::Fails);
    findings.mushrooms().iter().filter(spoken_for).cloned().collect()
}

/// The first days on which rested logs may be filled: within their rest, or else the next ones after it.
fn fill(findings: &Findings, mushroom: &Arc<Mushroom>, (from, to): (Date, Date)) -> Option<Fill> {
    let (windows, _) = open_for(findings, mushroom);
    let open = (!windows.is_empty()).then(|| days(&windows));
    let is_open = |date: &Date| open.as_ref().is_none_or(|open| open.contains(date.day_of_year().number()));
    let first = (0..=to.since(from) + 365).map(|days| from.plus(days)).find(is_open)?;
    let late = first > to;
    let most = if late { 365 } else { to.since(first) };
    let last = (0..=most).map(|days| first.plus(days)).take_while(is_open).last()?;
    let opens = windows.iter().filter(|(_, told)| Circle::of(told.interval()).contains(first.day_of_year().number()));
    Some(Fill {
        mushrooms: vec![Arc::clone(mushroom)],
        days: (first, last),
        late,
        basis: opens.map(|(_, told)| told.basis()).min().unwrap_or(Basis::Dated),
    })
}
