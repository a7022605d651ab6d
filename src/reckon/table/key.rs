//! The table of the keys.

use super::{Grid, Sheet, words};
use crate::reckon::Findings;
use crate::reckon::findings::TreeKey;
use crate::reckon::tree_key::{Couplet, Goal, Lead};

/// One state that a lead names.
#[derive(Clone, Copy)]
struct Row<'a> {
    key: &'a TreeKey,
    couplet: (usize, &'a Couplet),
    lead: (&'static str, &'a Lead),
    state: &'static str,
}

pub fn tree_key(findings: &Findings) -> Grid {
    Sheet::of(findings.tree_keys().iter().flat_map(rows))
        .column("season", |row| row.key.when.id())
        .column("couplet", |row| row.couplet.0)
        .column("lead", |row| row.lead.0)
        .column("character", |row| row.key.questions[row.couplet.1.question].id())
        .column("state", |row| row.state)
        .column("goto", |row| match row.lead.1.goal {
            Goal::Couplet(at) => Some(at + 1),
            Goal::End(_) => None,
        })
        .column("wood", |row| match &row.lead.1.goal {
            Goal::Couplet(_) => None,
            Goal::End(taxa) => Some(words(taxa.iter().map(|at| row.key.woods[*at].wood.id.as_str()))),
        })
        .grid(findings.choice.units)
}

fn rows(key: &TreeKey) -> Vec<Row<'_>> {
    let mut rows = Vec::new();
    for (at, couplet) in key.key.couplets.iter().enumerate() {
        let states = key.questions[couplet.question].states();
        for (name, lead) in ["a", "b"].into_iter().zip(&couplet.leads) {
            let row =
                |state: &usize| Row { key, couplet: (at + 1, couplet), lead: (name, lead), state: states[*state].0 };
            rows.extend(lead.states.iter().map(row));
        }
    }
    rows
}
