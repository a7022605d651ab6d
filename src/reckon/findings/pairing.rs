//! Every pair of mushroom and wood that anyone has spoken of.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use strum::IntoStaticStr;

use crate::book::{Book, Evidence, Mushroom, Wood};
use crate::reckon::pairing::{
    AS_REFERENCE, Accord, BELOW_REFERENCE, Consensus, Voice, by_team, consensus, one_step_less, weight,
};
use crate::record::evidence::{EvidenceKind, Way};
use crate::record::wood::Rank;

pub use crate::record::evidence::Word;

/// How near the words about a pair come to it: those that vote, where any does.
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
    /// The reach of words, of each of which it is known whether it was said of a group.
    fn of(inherited: impl Iterator<Item = bool>) -> Self {
        let inherited: Vec<bool> = inherited.collect();
        match (inherited.contains(&false), inherited.contains(&true)) {
            (_, false) => Self::Direct,
            (false, true) => Self::Genus,
            (true, true) => Self::Mixed,
        }
    }

    /// The reach as tables write it.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

/// What a row does for a pair.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// It votes in the verdict of its way.
    Vote,
    /// It says which wood did better, and grades none.
    Order,
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
    /// The grade that it gives the pair, 0–3, where it votes.
    pub grade: Option<u8>,
}

impl Row {
    /// What a row does for a pair. Said of mushrooms in general on a wood in general, it counts one step less for a kind,
    /// but on its reference wood, which thrives by convention.
    fn of(
        evidence: usize,
        row: &Evidence,
        (role, grade): (Role, Option<u8>),
        mushroom: &Mushroom,
        wood: &Wood,
    ) -> Self {
        let same = mushroom.id == row.mushroom.id;
        let general = !same && row.wood.record.rank != Rank::Species && !mushroom.refers_to(wood);
        let grade = grade.map(|grade| if general { one_step_less(grade) } else { grade });
        Self { evidence, inherited: !(same && row.names(&wood.id)), role, grade }
    }
}

/// What is known of one pair.
#[derive(Debug, Clone)]
pub struct Pairing {
    /// The mushroom.
    pub mushroom: Arc<Mushroom>,
    /// The wood.
    pub wood: Arc<Wood>,
    /// The way in which the mushroom is grown here.
    pub way: Way,
    /// What the votes of each way come to, where it has any.
    pub verdicts: BTreeMap<Way, Consensus>,
    /// The word for it in that way.
    pub word: Word,
    /// How near the words come to the pair.
    pub reach: Reach,
    /// How many teams spoke of it.
    pub sources: usize,
    /// Every row that speaks of it, those of the pair itself first.
    pub rows: Vec<Row>,
}

impl Pairing {
    /// The verdict for a way, and the way whose verdict it is: the nearest one's where the way itself has no graded voice.
    pub fn verdict(&self, asked: Way) -> Option<(Way, &Consensus)> {
        asked.nearest().iter().find_map(|way| Some((*way, self.verdicts.get(way)?)))
    }

    /// What the votes come to in the way grown here, or in the nearest; `None` where nobody has a vote.
    pub fn consensus(&self) -> Option<&Consensus> {
        self.verdict(self.way).map(|(_, found)| found)
    }

    /// The way whose verdict is shown, where there is one.
    pub fn by(&self) -> Option<Way> {
        self.verdict(self.way).map(|(way, _)| way)
    }

    /// The way that stands in for one, where that has no graded voice of its own.
    pub fn stands_in(&self, asked: Way) -> Option<Way> {
        self.verdict(asked).map(|(way, _)| way).filter(|way| *way != asked)
    }

    /// The word for it in a way.
    pub fn word_in(&self, asked: Way) -> Word {
        match self.verdict(asked) {
            Some((_, found)) => Word::of(found.rating),
            None if self.rows.iter().any(|row| row.role != Role::Apart) => Word::Mentioned,
            None => Word::Untried,
        }
    }

    /// The rating, where there is one.
    pub fn rating(&self) -> Option<u8> {
        self.consensus().map(|consensus| consensus.rating)
    }

    /// Agreement between the voices, where there is more than one.
    pub fn agreement(&self) -> Option<f64> {
        self.consensus().and_then(|consensus| consensus.agreement)
    }

    /// How far the voices agree, where there is more than one.
    pub fn accord(&self) -> Option<Accord> {
        self.agreement().map(Accord::of)
    }

    /// Whether any row was said of the pair itself.
    pub fn is_direct(&self) -> bool {
        self.rows.iter().any(|row| !row.inherited)
    }

    /// The voices on the groups of the pair in the way that is shown, those teams too that speak of the pair itself.
    pub fn of_groups(&self, book: &Book) -> Vec<Voice> {
        let rows = self.rows.iter().filter(|row| row.inherited && way(book, row) == self.by());
        by_team(&rows.filter_map(|row| vote(book, row)).collect::<Vec<_>>())
    }
}

/// A wood with a verdict of its own on a mushroom, beside a wood of its genus on which nobody has tried it.
#[derive(Debug, Clone)]
pub struct Kin {
    /// The wood that was tried.
    pub wood: Arc<Wood>,
    /// The way of growing to which its verdict belongs: the one shown, where that stands on words about the wood itself.
    pub way: Way,
    /// The verdict.
    pub word: Word,
}

impl Kin {
    /// The most that are told of one pair.
    pub const MOST: usize = 3;

    fn of(pair: &Pairing) -> Option<Self> {
        let own = pair.verdicts.iter().filter(|(_, found)| found.voices.iter().any(|voice| !voice.inherited));
        let (way, found) = own.min_by_key(|(way, found)| (Some(**way) != pair.by(), Reverse(found.rating)))?;
        Some(Self { wood: Arc::clone(&pair.wood), way: *way, word: Word::of(found.rating) })
    }
}

/// By mushroom and genus, the woods with a verdict of their own, the best first.
pub fn kin(pairings: &[Pairing]) -> BTreeMap<(String, String), Vec<Kin>> {
    let species = pairings.iter().filter(|pair| pair.wood.is_species());
    let key = |pair: &Pairing| (pair.mushroom.id.clone(), pair.wood.genus().to_owned());
    let mut kin = super::grouped(species.filter_map(|pair| Some((key(pair), Kin::of(pair)?))));
    for kin in kin.values_mut() {
        kin.sort_by(|a, b| (a.word, a.wood.name()).cmp(&(b.word, b.wood.name())));
    }
    kin
}

/// Every pair that anyone has spoken of, by the ids of mushroom and wood.
pub fn all(book: &Book) -> Vec<Pairing> {
    let mut pairs: BTreeMap<(&str, &str), Vec<Row>> = BTreeMap::new();
    for (index, row) in book.evidence.iter().enumerate() {
        let judged = judged(row);
        for mushroom in book.mushrooms.values().filter(|mushroom| mushroom.line().any(|id| id == row.mushroom.id)) {
            for wood in book.woods.values().filter(|wood| wood.line().any(|id| row.names(id))) {
                let said = Row::of(index, row, judged, mushroom, wood);
                pairs.entry((&mushroom.id, &wood.id)).or_default().push(said);
            }
        }
        for wood in row.unsaid.iter().filter(|_| row.record.grown.way().is_some()) {
            let order = Row { evidence: index, inherited: false, role: Role::Order, grade: None };
            pairs.entry((&row.mushroom.id, &wood.id)).or_default().push(order);
        }
    }
    let ways = ways_here(book);
    let pair = |((mushroom, wood), rows): ((&str, &str), _)| {
        Some(pairing(book, book.mushrooms.get(mushroom)?, book.woods.get(wood)?, *ways.get(mushroom)?, rows))
    };
    pairs.into_iter().filter_map(pair).collect()
}

/// The way in which each mushroom is grown here: that of most of this farm's own words on it, else that of its logs or of
/// what is wished for, else its most usual one.
fn ways_here(book: &Book) -> BTreeMap<&str, Way> {
    let mut named: BTreeMap<&str, [Vec<Way>; 3]> = BTreeMap::new();
    for row in book.evidence.iter().filter(|row| row.record.kind == EvidenceKind::OwnLogs) {
        named.entry(&row.mushroom.id).or_default()[0].extend(row.record.grown.way());
    }
    for batch in book.batches.values() {
        let mushroom = &batch.strain.mushroom;
        named.entry(&mushroom.id).or_default()[1].push(mushroom.way_of_logs());
    }
    for (wish, strain) in book.plans.values().flat_map(|plan| plan.wishes()) {
        let mushroom = &strain.mushroom;
        named.entry(&mushroom.id).or_default()[2].extend(wish.ways(mushroom.way_of_logs()));
    }
    let here = |mushroom: &Mushroom| {
        let mut named = named.get(mushroom.id.as_str()).into_iter().flatten();
        named.find_map(|ways| most(ways, mushroom)).unwrap_or_else(|| mushroom.usual_way())
    };
    book.mushrooms.values().map(|mushroom| (mushroom.id.as_str(), here(mushroom))).collect()
}

/// The way named most often; of equals the more usual one.
fn most(named: &[Way], mushroom: &Mushroom) -> Option<Way> {
    let usual = |way: Way| mushroom.ways().position(|usual| usual == way).unwrap_or(usize::MAX);
    let often = |way: Way| named.iter().filter(|other| **other == way).count();
    let ways = Way::ALL.into_iter().filter(|way| often(*way) > 0);
    ways.min_by_key(|way| (Reverse(often(*way)), usual(*way)))
}

/// What a row does, and the grade by which it votes.
fn judged(row: &Evidence) -> (Role, Option<u8>) {
    let wide = row.mushroom.record.rank == Rank::Any || row.wood.record.rank == Rank::Any;
    let grade = grade(row).filter(|_| !wide && row.record.kind != EvidenceKind::List);
    let role = match grade {
        _ if row.record.grown.way().is_none() => Role::Apart,
        Some(_) => Role::Vote,
        None if !row.below.is_empty() || !row.above.is_empty() => Role::Order,
        None => Role::Mention,
    };
    (role, grade)
}

/// The grade of a row: its source's own, or that of a trial which compares with a reference wood of the mushroom.
fn grade(row: &Evidence) -> Option<u8> {
    row.record.grown.way()?;
    let refers = |wood: &Wood| row.mushroom.refers_to(wood);
    let compared = || match () {
        () if row.record.kind != EvidenceKind::Trial || row.woods().any(refers) => None,
        () if row.below.iter().any(|wood| refers(wood)) => Some(BELOW_REFERENCE),
        () if row.above.iter().any(|wood| refers(wood)) => Some(AS_REFERENCE),
        () => None,
    };
    row.record.rating.or_else(compared)
}

fn pairing(book: &Book, mushroom: &Arc<Mushroom>, wood: &Arc<Wood>, asked: Way, mut rows: Vec<Row>) -> Pairing {
    rows.sort_by_key(|row| (row.inherited, row.evidence));
    let votes = |of: Way| rows.iter().filter(move |row| way(book, row) == Some(of)).filter_map(|row| vote(book, row));
    let verdict = |way: Way| Some((way, consensus(&votes(way).collect::<Vec<_>>())?));
    let verdicts = Way::ALL.into_iter().filter_map(verdict).collect();
    let mut pair = Pairing {
        mushroom: Arc::clone(mushroom),
        wood: Arc::clone(wood),
        way: asked,
        verdicts,
        word: Word::Untried,
        reach: Reach::Direct,
        sources: 0,
        rows,
    };
    let on_logs = pair.rows.iter().any(|row| row.role != Role::Apart);
    // Rows of other ways count only where this one has no verdict, those of the wild and of sawdust where none has a row.
    let speaks = |row: &&Row| match pair.by() {
        Some(by) => way(book, row) == Some(by),
        None => !on_logs || row.role != Role::Apart,
    };
    let counting = || pair.rows.iter().filter(speaks);
    let teams: BTreeSet<&str> = counting().map(|row| book.evidence[row.evidence].team()).collect();
    let reach = match pair.consensus() {
        Some(found) => Reach::of(found.voices.iter().map(|voice| voice.inherited)),
        None => Reach::of(counting().map(|row| row.inherited)),
    };
    (pair.sources, pair.reach, pair.word) = (teams.len(), reach, pair.word_in(asked));
    pair
}

fn way(book: &Book, row: &Row) -> Option<Way> {
    book.evidence[row.evidence].record.grown.way()
}

fn vote(book: &Book, row: &Row) -> Option<Voice> {
    let evidence = &book.evidence[row.evidence];
    Some(Voice {
        team: evidence.team().to_owned(),
        rating: row.grade?,
        weight: weight(evidence.record.kind),
        inherited: row.inherited,
        trial: evidence.record.kind == EvidenceKind::Trial,
    })
}
