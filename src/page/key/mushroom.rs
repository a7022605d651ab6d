//! The mushroom at hand: held part by part against what is taken for those that the farm grows. It rejects, and never clears.

use std::collections::BTreeSet;
use std::sync::Arc;

use serde::Serialize;

use crate::book::{Listed, Mushroom};
use crate::page::part::caution::{self, Caution};
use crate::page::part::cite::Cite;
use crate::page::part::help::Help;
use crate::page::part::look_alike::{self, LookAlike};
use crate::page::part::table::Table;
use crate::page::part::{Anchor, rule};
use crate::page::{Context, Page};
use crate::record::Kind;
use crate::record::look_alike::LookAlike as Record;

/// The cautions that make the stop rule.
const STOP: [&str; 3] = ["uninvited-fungus", "id-every-character", "cup-at-the-foot"];

/// The page.
#[derive(Debug, Serialize)]
pub struct View {
    stop: Vec<Caution>,
    poison: Help,
    grown: Vec<Grown>,
    /// Look-alikes of what the farm does not grow.
    others: Vec<Other>,
    /// That the handbook may lack those of the place.
    lacks: Option<&'static str>,
    picking: Anchor,
    /// What a spore print is, and how one is taken.
    spore_print: String,
}

/// A mushroom that the farm grows, with what may be taken for it.
#[derive(Debug, Serialize)]
struct Grown {
    id: String,
    mushroom: Anchor,
    print: String,
    pairs: Vec<Pair>,
}

/// The mushroom beside one look-alike.
#[derive(Debug, Serialize)]
struct Pair {
    id: String,
    /// The name under which links find the look-alike; on its first pair alone.
    anchor: Option<String>,
    alike: LookAlike,
    table: Option<Table>,
    same: Option<String>,
    tellers: Vec<Cite>,
}

/// A look-alike of something that the farm does not grow.
#[derive(Debug, Serialize)]
struct Other {
    id: String,
    record: Record,
    cites: Vec<Cite>,
}

/// The view of the mushroom at hand.
pub fn view(context: &Context<'_>) -> View {
    let mut met = BTreeSet::new();
    let grown_here = context.findings.mushrooms().iter();
    let of_grown = grown_here.map(|mushroom| Grown::of(mushroom, &mut met, context)).collect();
    let others = context.book.look_alikes.values().filter(|other| !met.contains(&other.id));
    View {
        stop: caution::named(&STOP, context),
        poison: Help::poison(context),
        grown: of_grown,
        others: others.map(|other| Other::of(other, context)).collect(),
        lacks: rule::look_alikes(context),
        picking: Anchor::page(&Page::Selling, context),
        spore_print: context.route.record(Kind::Term, "spore-print"),
    }
}

impl Grown {
    fn of(mushroom: &Arc<Mushroom>, met: &mut BTreeSet<String>, context: &Context<'_>) -> Self {
        let alikes = look_alike::all(mushroom, context).into_iter();
        Self {
            id: mushroom.id.clone(),
            mushroom: Anchor::mushroom(mushroom, context),
            print: look_alike::own_print(mushroom),
            pairs: alikes.filter_map(|alike| Pair::of(mushroom, alike, met, context)).collect(),
        }
    }
}

impl Pair {
    fn of(mushroom: &Mushroom, alike: LookAlike, met: &mut BTreeSet<String>, context: &Context<'_>) -> Option<Self> {
        let other = context.book.look_alikes.get(&alike.id)?;
        Some(Self {
            id: look_alike::block(mushroom, other),
            anchor: met.insert(alike.id.clone()).then(|| anchor(&alike.id)),
            table: look_alike::compared(mushroom, other),
            same: look_alike::same(mushroom, &other.record),
            tellers: look_alike::tellers(mushroom, &other.record, context),
            alike,
        })
    }
}

impl Other {
    fn of(other: &Listed<Record>, context: &Context<'_>) -> Self {
        let cites = Cite::all(&other.record.sources, other.record.mark, context);
        Self { id: anchor(&other.id), record: other.record.clone(), cites }
    }
}

fn anchor(id: &str) -> String {
    format!("look-alike-{id}")
}
