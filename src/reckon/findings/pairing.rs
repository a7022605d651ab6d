//! Every pair of mushroom and wood that anyone has spoken of.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use strum::IntoStaticStr;

use crate::book::{Book, Evidence, Mushroom, Wood};
use crate::reckon::pairing::{Accord, Consensus, Voice, consensus, weight};
use crate::record::evidence::EvidenceKind;
use crate::record::wood::Rank;

pub use crate::record::evidence::Word;

/// How near the words about a pair come to it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Reach {
    /// All was said of the pair itself.
    Direct,
    /// All was said of a group to which it belongs.
    Genus,
    /// Some of each.
    Mixed,
}

impl Reach {
    /// The reach as tables write it.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

/// What a row does for a pair.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// It votes.
    Vote,
    /// It names the pair without a judgement that counts.
    Mention,
    /// It speaks of the wild or of sawdust.
    Apart,
}

/// A row that speaks of a pair.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Row {
    /// Its place in the book's evidence.
    pub evidence: usize,
    /// Whether it was said of a group to which the pair belongs.
    pub inherited: bool,
    /// What it does.
    pub role: Role,
}

/// What is known of one pair.
#[derive(Debug, Clone)]
pub struct Pairing {
    /// The mushroom.
    pub mushroom: Arc<Mushroom>,
    /// The wood.
    pub wood: Arc<Wood>,
    /// What the votes come to; `None` where nobody has a vote.
    pub consensus: Option<Consensus>,
    /// The word for it.
    pub word: Word,
    /// How near the words come to the pair.
    pub reach: Reach,
    /// How many teams spoke of it.
    pub sources: usize,
    /// Every row that speaks of it, those of the pair itself first.
    pub rows: Vec<Row>,
}

impl Pairing {
    /// The rating, where there is one.
    pub fn rating(&self) -> Option<u8> {
        self.consensus.as_ref().map(|consensus| consensus.rating)
    }

    /// Agreement between the voices, where there is more than one.
    pub fn agreement(&self) -> Option<f64> {
        self.consensus.as_ref().and_then(|consensus| consensus.agreement)
    }

    /// How far the voices agree, where there is more than one.
    pub fn accord(&self) -> Option<Accord> {
        self.agreement().map(Accord::of)
    }

    /// Whether any row was said of the pair itself.
    pub fn is_direct(&self) -> bool {
        self.rows.iter().any(|row| !row.inherited)
    }
}

/// Every pair that anyone has spoken of, by the ids of mushroom and wood.
pub fn all(book: &Book) -> Vec<Pairing> {
    let mut pairs: BTreeMap<(&str, &str), Vec<Row>> = BTreeMap::new();
    for (index, row) in book.evidence.iter().enumerate() {
        for mushroom in book.mushrooms.values().filter(|mushroom| mushroom.line().any(|id| id == row.mushroom.id)) {
            for wood in book.woods.values().filter(|wood| wood.line().any(|id| id == row.wood.id)) {
                let inherited = mushroom.id != row.mushroom.id || wood.id != row.wood.id;
                let row = Row { evidence: index, inherited, role: role(row) };
                pairs.entry((&mushroom.id, &wood.id)).or_default().push(row);
            }
        }
    }
    let pair = |((mushroom, wood), rows): ((&str, &str), _)| {
        Some(pairing(book, book.mushrooms.get(mushroom)?, book.woods.get(wood)?, rows))
    };
    pairs.into_iter().filter_map(pair).collect()
}

fn role(row: &Evidence) -> Role {
    let wide = row.mushroom.record.rank == Rank::Any || row.wood.record.rank == Rank::Any;
    match () {
        () if !row.record.grown.counts() => Role::Apart,
        () if wide || row.record.kind == EvidenceKind::List || row.record.rating.is_none() => Role::Mention,
        () => Role::Vote,
    }
}

fn pairing(book: &Book, mushroom: &Arc<Mushroom>, wood: &Arc<Wood>, mut rows: Vec<Row>) -> Pairing {
    rows.sort_by_key(|row| (row.inherited, row.evidence));
    let votes: Vec<Voice> =
        rows.iter().filter(|row| row.role == Role::Vote).filter_map(|row| vote(book, row)).collect();
    let consensus = consensus(&votes);
    let on_logs = rows.iter().any(|row| row.role != Role::Apart);
    // Rows of the wild and of sawdust count only where none speaks of logs.
    let counting = || rows.iter().filter(|row| !on_logs || row.role != Role::Apart);
    let teams: BTreeSet<&str> = counting().map(|row| team(&book.evidence[row.evidence])).collect();
    Pairing {
        mushroom: Arc::clone(mushroom),
        wood: Arc::clone(wood),
        word: match &consensus {
            Some(consensus) => Word::of(consensus.rating),
            None if on_logs => Word::Mentioned,
            None => Word::Untried,
        },
        reach: match (counting().any(|row| !row.inherited), counting().any(|row| row.inherited)) {
            (_, false) => Reach::Direct,
            (false, true) => Reach::Genus,
            (true, true) => Reach::Mixed,
        },
        sources: teams.len(),
        consensus,
        rows,
    }
}

fn vote(book: &Book, row: &Row) -> Option<Voice> {
    let evidence = &book.evidence[row.evidence];
    Some(Voice {
        team: team(evidence).to_owned(),
        rating: evidence.record.rating?,
        weight: weight(evidence.record.kind),
        inherited: row.inherited,
    })
}

/// Who speaks in a row: the team of its source, or the source itself.
pub fn team(evidence: &Evidence) -> &str {
    evidence.source.record.team.as_deref().unwrap_or(&evidence.source.id)
}
