//! A pairing in words, with what its sources say.

use serde::Serialize;

use super::{Anchor, and, capital, cite::Cite, number_word, rating::Rating};
use crate::{
    book::Evidence,
    page::Context,
    reckon::findings::{
        Pairing, Role, Row,
        pairing::{Reach, team},
    },
    record::evidence::EvidenceKind,
};

/// A pairing as pages show it.
#[derive(Debug, Clone, Serialize)]
pub struct Pair {
    /// The mushroom.
    pub mushroom: Anchor,
    /// The wood.
    pub wood: Anchor,
    /// The rating.
    pub rating: Rating,
    /// Where its working stands.
    pub working: String,
    /// How far sources agree, in words.
    pub agreement: &'static str,
    /// Who said what, counted: "Four rank it first, one lists it, one avoids it."
    pub counts: String,
    /// Whether all of it was said of a group.
    pub inherited: bool,
    /// The rows that were said of the pair itself.
    pub rows: Vec<SaidRow>,
    /// From which groups more was inherited, each with its working.
    pub groups: Vec<Anchor>,
    /// Who said what of those groups, where something was said of the pair itself too.
    pub beside: Vec<Beside>,
}

/// A word on the group beside a word on the wood itself.
#[derive(Debug, Clone, Serialize)]
pub struct Beside {
    /// Who says so.
    pub short: String,
    /// The source on its page.
    pub href: String,
    /// The rating it gives.
    pub rating: u8,
}

/// A row of evidence as pages show it.
#[derive(Debug, Clone, Serialize)]
pub struct SaidRow {
    /// Who says so.
    pub cite: Cite,
    /// The source's own word.
    pub says: String,
    /// How it was grown.
    pub grown: &'static str,
    /// What kind of word it is.
    pub kind: &'static str,
    /// The rating it gives.
    pub rating: Option<u8>,
    /// What a reader should know about it.
    pub note: Option<String>,
    /// Whether it has a vote.
    pub votes: bool,
    /// Whether this farm says it.
    pub own: bool,
}

impl Pair {
    /// A pairing seen from a page.
    #[must_use]
    pub fn of(pair: &Pairing, context: &Context<'_>) -> Self {
        let route = &context.route;
        let mushroom = Anchor::mushroom(&pair.mushroom, context);
        let wood = Anchor::wood(&pair.wood, context);
        Self {
            mushroom,
            wood,
            rating: Rating::of(pair.word),
            working: route.pairing(&pair.mushroom.id, &pair.wood.id),
            agreement: agreement(pair),
            counts: counts(pair, context),
            inherited: pair.reach == Reach::Genus,
            rows: pair.rows.iter().filter(|row| !row.inherited).map(|row| said(row, context)).collect(),
            groups: groups(pair, context),
            beside: if pair.is_direct() { beside(pair, context) } else { Vec::new() },
        }
    }
}

/// A row of evidence seen from a page.
#[must_use]
pub fn said(row: &Row, context: &Context<'_>) -> SaidRow {
    let evidence = &context.book.evidence[row.evidence];
    let record = &evidence.record;
    SaidRow {
        cite: Cite::of(&record.source, record.mark, context),
        says: record.says.clone(),
        grown: record.grown.words(),
        kind: record.kind.words(),
        rating: record.rating,
        note: record.note.clone(),
        votes: row.role == Role::Vote,
        own: record.kind == EvidenceKind::OwnLogs,
    }
}

/// The votes on the groups of a pair.
fn beside(pair: &Pairing, context: &Context<'_>) -> Vec<Beside> {
    let votes = pair.rows.iter().filter(|row| row.inherited && row.role == Role::Vote);
    votes
        .filter_map(|row| {
            let record = &context.book.evidence[row.evidence].record;
            let cite = Cite::of(&record.source, record.mark, context);
            Some(Beside { short: cite.short, href: cite.href, rating: record.rating? })
        })
        .collect()
}

/// The groups from which a pairing inherits, each with the working of what was said there.
fn groups(pair: &Pairing, context: &Context<'_>) -> Vec<Anchor> {
    let mut seen = Vec::new();
    let mut groups = Vec::new();
    for row in pair.rows.iter().filter(|row| row.inherited) {
        let evidence = &context.book.evidence[row.evidence];
        let key = (evidence.mushroom.id.as_str(), evidence.wood.id.as_str());
        if !seen.contains(&key) {
            seen.push(key);
            groups.push(Anchor {
                href: context.route.pairing(key.0, key.1),
                text: format!("{} on {}", evidence.mushroom.name(), evidence.wood.name()),
            });
        }
    }
    groups
}

/// How far sources agree, in words.
#[must_use]
pub fn agreement(pair: &Pairing) -> &'static str {
    match (pair.agreement(), pair.consensus.is_some()) {
        (None, false) => "no rating",
        (None, true) => "one source only",
        (Some(index), _) if index > 0.999 => "all agree",
        (Some(index), _) if index >= 0.8 => "nearly agree",
        (Some(index), _) if index >= 0.5 => "sources differ",
        (Some(_), _) => "sources disagree",
    }
}

/// Who said what, counted by teams.
#[must_use]
pub fn counts(pair: &Pairing, context: &Context<'_>) -> String {
    let voices: Vec<u8> =
        pair.consensus.iter().flat_map(|found| found.voices.iter().map(|voice| voice.rating)).collect();
    let voted =
        |row: &Evidence| pair.consensus.iter().any(|found| found.voices.iter().any(|voice| voice.team == team(row)));
    let teams = |role: Role| {
        let mut teams: Vec<&str> = pair
            .rows
            .iter()
            .filter(|row| row.role == role)
            .map(|row| &context.book.evidence[row.evidence])
            .filter(|row| !voted(row))
            .map(team)
            .collect();
        teams.sort_unstable();
        teams.dedup();
        teams.len()
    };
    let rated = |rating: u8| voices.iter().filter(|voice| **voice == rating).count();
    let parts = [
        (rated(3), "ranks it first", "rank it first"),
        (rated(2), "says it does well", "say it does well"),
        (rated(1), "says it gets by", "say it gets by"),
        (rated(0), "avoids it", "avoid it"),
        (teams(Role::Mention), "mentions it", "mention it"),
        (teams(Role::Apart), "speaks of the wild or of sawdust only", "speak of the wild or of sawdust only"),
    ];
    let words: Vec<String> = parts
        .into_iter()
        .filter(|(number, ..)| *number > 0)
        .map(|(number, one, many)| format!("{} {}", number_word(number), if number == 1 { one } else { many }))
        .collect();
    capital(&and(&words)) + "."
}
