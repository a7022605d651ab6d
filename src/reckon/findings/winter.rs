//! This winter's wishes, the trees that come down for them, and which wood goes to which strain.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};

use super::{Pairing, TreeFinding, Word, stands::Measured};
use crate::{
    book::{Book, Plan, Strain, Wood},
    reckon::{
        Gap,
        allocation::{Candidate, Question, Value, Wanted, solve},
        density, planning,
    },
    record::{
        plan::{Floor, Wish},
        tree::Tag,
    },
};

/// The winter's answer.
#[derive(Debug, Clone)]
pub struct Winter {
    /// The woods at hand, from lots and from marked trees.
    pub woods: Vec<Arc<Wood>>,
    /// The wishes of every plan of the season.
    pub wishes: Vec<WishFinding>,
    /// For each wood, logs from lots that are placed.
    pub from_lots: Vec<u32>,
    /// What the answer reaches; a gap where there is no plan, or no answer.
    pub value: Result<Value, Gap>,
    /// By how much the first unfinished stage could be better.
    pub gap: f64,
    felled: BTreeSet<Tag>,
    wanted: BTreeSet<String>,
}

impl Winter {
    /// Whether a tree comes down this winter.
    #[must_use]
    pub fn falls(&self, tag: &Tag) -> bool {
        self.felled.contains(tag)
    }

    /// Whether a wish may take a wood.
    #[must_use]
    pub fn takes(&self, wood: &str) -> bool {
        self.wanted.contains(wood)
    }

    /// The plans of the season, each once.
    #[must_use]
    pub fn plans(&self) -> Vec<Arc<Plan>> {
        let mut plans: Vec<Arc<Plan>> = self.wishes.iter().map(|wish| Arc::clone(&wish.plan)).collect();
        plans.dedup_by(|a, b| a.id == b.id);
        plans
    }

    /// How many trees come down.
    #[must_use]
    pub fn number(&self) -> usize {
        self.felled.len()
    }
}

/// One wish and what it gets.
#[derive(Debug, Clone)]
pub struct WishFinding {
    /// The plan.
    pub plan: Arc<Plan>,
    /// The wish.
    pub wish: Wish,
    /// Its strain.
    pub strain: Arc<Strain>,
    /// The drilled logs that it asks for.
    pub wanted: Result<u32, Gap>,
    /// What it gets, wood by wood.
    pub placed: Vec<Placed>,
    /// What it lacks, and what would cure that.
    pub short: Option<Short>,
}

impl WishFinding {
    /// Logs that it gets.
    #[must_use]
    pub fn logs(&self) -> u32 {
        self.placed.iter().map(|placed| placed.logs).sum()
    }
}

/// Logs of one wood for one strain.
#[derive(Debug, Clone)]
pub struct Placed {
    /// The wood.
    pub wood: Arc<Wood>,
    /// How many logs.
    pub logs: u32,
    /// The rating of the pair, where it has one.
    pub rating: Option<u8>,
    /// Its word.
    pub word: Word,
}

/// What a wish lacks.
#[derive(Debug, Clone)]
pub struct Short {
    /// How many logs.
    pub logs: u32,
    /// Why.
    pub why: Why,
    /// The best wood for it at hand, and how many more trees of a thickness would do.
    pub cure: Option<Cure>,
}

/// Why a wish lacks logs.
#[derive(Debug, Clone)]
pub enum Why {
    /// No wood at hand is good enough for the strain.
    NoWood(Floor),
    /// The limits of stands hold trees back.
    Limits(Vec<String>),
    /// Every log of the woods that are good enough is placed; more woods at hand would do if the floor were lower.
    UsedUp(Floor, Vec<Arc<Wood>>),
}

/// What would cure a shortage.
#[derive(Debug, Clone)]
pub struct Cure {
    /// The wood.
    pub wood: Arc<Wood>,
    /// How many trees.
    pub trees: u32,
    /// Their thickness at breast height, in inches, and the logs that one gives.
    pub inches: f64,
    /// Logs that one of them gives.
    pub logs_each: u32,
}

/// Solves the winter of a book.
#[must_use]
pub fn of(
    book: &Book,
    season: i16,
    pairings: &[Pairing],
    trees: &[TreeFinding],
    stands: &[Measured],
    left: &BTreeMap<String, u32>,
) -> Winter {
    let plans: Vec<&Arc<Plan>> =
        book.plans.values().filter(|plan| plan.record.season.unwrap_or(book.farm.record.season) == season).collect();
    let marked = || trees.iter().filter(|tree| tree.may_fall());
    if plans.is_empty() {
        return Winter {
            woods: Vec::new(),
            wishes: Vec::new(),
            from_lots: Vec::new(),
            value: Err(Gap::Outside(
                "no plan is written for this winter, so the marked trees are listed that give most logs within the limits",
            )),
            gap: 0.0,
            felled: without_a_plan(trees, stands),
            wanted: BTreeSet::new(),
        };
    }
    let ready = ready(book, left);
    let mut woods: BTreeMap<&str, &Arc<Wood>> =
        marked().map(|tree| (tree.tree.wood.id.as_str(), &tree.tree.wood)).collect();
    woods.extend(book.lots.values().map(|lot| (lot.wood.id.as_str(), &lot.wood)));
    let woods: Vec<Arc<Wood>> = woods.into_values().cloned().collect();
    let places: BTreeMap<&str, usize> = woods.iter().zip(0..).map(|(wood, place)| (wood.id.as_str(), place)).collect();
    let place = |id: &str| places.get(id).copied().unwrap_or_default();
    let in_order = in_order(stands);
    let wishes: Vec<(&Arc<Plan>, &Wish, &Arc<Strain>)> =
        plans.iter().flat_map(|plan| plan.wishes().map(move |(wish, strain)| (*plan, wish, strain))).collect();
    let pair = |strain: &Strain, wood: &Wood| pairing(pairings, &strain.mushroom.id, &wood.id);
    let units = units(trees);
    let question = Question {
        woods: woods.len(),
        ready: woods.iter().map(|wood| ready.get(wood.id.as_str()).copied().unwrap_or(0)).collect(),
        trees: units.iter().map(|unit| candidate(unit, trees, &in_order, &place)).collect(),
        allowances: stands.iter().map(|stand| Some(stand.allowance().ok()?.square_feet())).collect(),
        wishes: wishes
            .iter()
            .map(|(plan, wish, strain)| Wanted {
                logs: self::wanted(wish).unwrap_or(0),
                pairs: woods.iter().map(|wood| allowed(pair(strain, wood), plan.record.floor)).collect(),
            })
            .collect(),
    };
    let takes = |place: usize| question.wishes.iter().any(|wish| wish.logs > 0 && wish.pairs[place].is_some());
    let wanted = (0..woods.len()).filter(|place| takes(*place)).map(|place| woods[place].id.clone()).collect();
    let answer = solve(&question);
    let felled: BTreeSet<Tag> = answer
        .iter()
        .flat_map(|answer| &answer.felled)
        .zip(&units)
        .filter(|(falls, _)| **falls)
        .flat_map(|(_, unit)| unit.iter().map(|index| trees[*index].tree.tag().clone()))
        .collect();
    let context = Shortage { trees, stands, felled: &felled, pairings };
    let findings = wishes.iter().enumerate().map(|(index, (plan, wish, strain))| {
        let logs = answer.as_ref().map(|answer| answer.placed[index].clone()).unwrap_or_default();
        let placed: Vec<Placed> = woods
            .iter()
            .zip(&logs)
            .filter(|(_, logs)| **logs > 0)
            .map(|(wood, logs)| {
                let pair = pair(strain, wood);
                Placed {
                    wood: Arc::clone(wood),
                    logs: *logs,
                    rating: pair.and_then(Pairing::rating),
                    word: pair.map_or(Word::Untried, |pair| pair.word),
                }
            })
            .collect();
        let wanted = self::wanted(wish);
        let lacking = wanted.as_ref().map_or(0, |wanted| wanted - logs.iter().sum::<u32>());
        WishFinding {
            plan: Arc::clone(plan),
            wish: (*wish).clone(),
            strain: Arc::clone(strain),
            wanted,
            placed,
            short: (lacking > 0).then(|| context.of(lacking, strain, plan.record.floor, &woods)),
        }
    });
    let wishes = findings.collect();
    Winter {
        woods: woods.clone(),
        wishes,
        from_lots: answer.as_ref().map(|answer| answer.from_lots.clone()).unwrap_or_default(),
        value: answer.as_ref().map(|answer| answer.value).map_err(Clone::clone),
        gap: answer.as_ref().map_or(f64::INFINITY, |answer| answer.gap),
        felled,
        wanted,
    }
}

/// The marked trees that come down where nothing is wished for: all of them, or those that give most logs within the limits.
fn without_a_plan(trees: &[TreeFinding], stands: &[Measured]) -> BTreeSet<Tag> {
    let units = units(trees);
    let in_order = in_order(stands);
    let one_more = |candidate: Candidate| Candidate { logs: candidate.logs + 1, ..candidate };
    let candidates: Vec<Candidate> =
        units.iter().map(|unit| one_more(candidate(unit, trees, &in_order, &|_| 0))).collect();
    let logs = candidates.iter().map(|candidate| candidate.logs).sum();
    let answer = solve(&Question {
        woods: 1,
        ready: vec![0],
        trees: candidates,
        allowances: stands.iter().map(|stand| Some(stand.allowance().ok()?.square_feet())).collect(),
        wishes: vec![Wanted { logs, pairs: vec![Some(0)] }],
    });
    let falls = answer.map(|answer| answer.felled).unwrap_or_default();
    let units = units.iter().zip(falls).filter(|(_, falls)| *falls).map(|(unit, _)| unit);
    units.flatten().map(|index| trees[*index].tree.tag().clone()).collect()
}

/// The drilled logs that a wish asks for; nought where it asks for totems, stumps or a bed alone.
fn wanted(wish: &Wish) -> Result<u32, Gap> {
    let guests = wish.guests.map(|guests| planning::by_guests(guests, wish.logs_a_guest));
    match (wish.logs, guests) {
        (None, None) if wish.a_week.is_some() => Err(Gap::Outside(
            "the wish gives a weight and not logs; choose a row of the planning sheet and write its `logs` into the plan",
        )),
        (logs, guests) => Ok(logs.unwrap_or(0) + guests.unwrap_or(0)),
    }
}

/// Logs of each wood that lie ready: those of lots, less what batches were made of them.
fn ready<'a>(book: &'a Book, left: &BTreeMap<String, u32>) -> BTreeMap<&'a str, u32> {
    let mut ready = BTreeMap::new();
    for lot in book.lots.values() {
        *ready.entry(lot.wood.id.as_str()).or_insert(0) += left.get(&lot.id).copied().unwrap_or(0);
    }
    ready
}

/// Logs of each lot that no batch has taken.
#[must_use]
pub fn left(book: &Book) -> BTreeMap<String, u32> {
    let mut left: BTreeMap<String, u32> = book.lots.values().map(|lot| (lot.id.clone(), lot.record.logs)).collect();
    for batch in book.batches.values() {
        if let Some(logs) = batch.lot.as_ref().and_then(|lot| left.get_mut(&lot.id)) {
            *logs = logs.saturating_sub(batch.record.logs);
        }
    }
    left
}

/// Trees that may come down, those of one stump together, in the order of tags.
fn units(trees: &[TreeFinding]) -> Vec<Vec<usize>> {
    let mut units: Vec<Vec<usize>> = Vec::new();
    let mut clumps: BTreeMap<(Option<&str>, &Tag), usize> = BTreeMap::new();
    for (index, tree) in trees.iter().enumerate().filter(|(_, tree)| tree.may_fall()) {
        let stand = tree.tree.stand.as_ref().map(|stand| stand.id.as_str());
        let next = units.len();
        let unit = tree.tree.record.clump.as_ref().map_or(next, |clump| *clumps.entry((stand, clump)).or_insert(next));
        match units.get_mut(unit) {
            Some(unit) => unit.push(index),
            None => units.push(vec![index]),
        }
    }
    units
}

/// The place of each stand in the list.
fn in_order(stands: &[Measured]) -> BTreeMap<&str, usize> {
    stands.iter().zip(0..).map(|(stand, place)| (stand.stand.id.as_str(), place)).collect()
}

fn candidate(
    unit: &[usize],
    trees: &[TreeFinding],
    stands: &BTreeMap<&str, usize>,
    place: &impl Fn(&str) -> usize,
) -> Candidate {
    let first = &trees[unit[0]].tree;
    Candidate {
        wood: place(&first.wood.id),
        logs: unit.iter().map(|index| trees[*index].logs()).sum(),
        stand: first.stand.as_ref().and_then(|stand| stands.get(stand.id.as_str()).copied()),
        basal_area: unit.iter().map(|index| density::tree(&trees[*index].tree.record.dbh).square_feet()).sum(),
    }
}

/// The pairing of a mushroom and a wood, in a list by both ids.
fn pairing<'a>(pairings: &'a [Pairing], mushroom: &str, wood: &str) -> Option<&'a Pairing> {
    let at =
        pairings.binary_search_by(|pair| (pair.mushroom.id.as_str(), pair.wood.id.as_str()).cmp(&(mushroom, wood)));
    at.ok().map(|index| &pairings[index])
}

/// The rating of a pair that a plan's floor lets be used, nought where it has none; a pair that fails is never used.
fn allowed(pair: Option<&Pairing>, floor: Floor) -> Option<u8> {
    let word = pair.map_or(Word::Untried, |pair| pair.word);
    let least = match floor {
        Floor::Thrives => word == Word::Thrives,
        Floor::DoesWell => matches!(word, Word::Thrives | Word::DoesWell),
        Floor::GetsBy => matches!(word, Word::Thrives | Word::DoesWell | Word::GetsBy),
        Floor::Mentioned => !matches!(word, Word::Fails | Word::Untried),
        Floor::Untried => word != Word::Fails,
    };
    least.then(|| pair.and_then(Pairing::rating).unwrap_or(0))
}

/// What a shortage is explained from.
struct Shortage<'a> {
    trees: &'a [TreeFinding],
    stands: &'a [Measured],
    felled: &'a BTreeSet<Tag>,
    pairings: &'a [Pairing],
}

impl Shortage<'_> {
    fn of(&self, logs: u32, strain: &Strain, floor: Floor, woods: &[Arc<Wood>]) -> Short {
        let rated = |wood: &Arc<Wood>| {
            let pair = pairing(self.pairings, &strain.mushroom.id, &wood.id);
            Some((allowed(pair, floor)?, Arc::clone(wood)))
        };
        let suits: Vec<(u8, Arc<Wood>)> = woods.iter().filter_map(rated).collect();
        let suiting: BTreeSet<&str> = suits.iter().map(|(_, wood)| wood.id.as_str()).collect();
        let limited = self.stands.iter().filter(|stand| stand.allowance().is_ok());
        let limited: BTreeSet<&str> = limited.map(|stand| stand.stand.id.as_str()).collect();
        let held: BTreeSet<String> = self
            .trees
            .iter()
            .filter(|tree| tree.may_fall() && tree.logs() > 0 && !self.felled.contains(tree.tree.tag()))
            .filter(|tree| suiting.contains(tree.tree.wood.id.as_str()))
            .filter_map(|tree| tree.tree.stand.as_ref())
            .filter(|stand| limited.contains(stand.id.as_str()))
            .map(|stand| stand.record.name.clone())
            .collect();
        let why = match (suits.is_empty(), held.is_empty()) {
            (true, _) => Why::NoWood(floor),
            (false, false) => Why::Limits(held.into_iter().collect()),
            (false, true) => Why::UsedUp(floor, self.lower(strain, floor, woods)),
        };
        let cure = suits
            .iter()
            .filter_map(|(rating, wood)| Some((*rating, self.cure(logs, wood)?)))
            .max_by(|a, b| a.0.cmp(&b.0).then(b.1.trees.cmp(&a.1.trees)).then(b.1.wood.id.cmp(&a.1.wood.id)))
            .map(|(_, cure)| cure);
        Short { logs, why, cure }
    }

    /// Woods at hand that the floor keeps out, though they do not fail.
    fn lower(&self, strain: &Strain, floor: Floor, woods: &[Arc<Wood>]) -> Vec<Arc<Wood>> {
        let kept_out = |wood: &&Arc<Wood>| {
            let pair = pairing(self.pairings, &strain.mushroom.id, &wood.id);
            allowed(pair, floor).is_none() && allowed(pair, Floor::Mentioned).is_some()
        };
        woods.iter().filter(kept_out).cloned().collect()
    }

    /// How many trees like the middle one of a wood would give so many logs.
    fn cure(&self, logs: u32, wood: &Arc<Wood>) -> Option<Cure> {
        let mut of_wood: Vec<(u32, f64)> = self
            .trees
            .iter()
            .filter(|tree| tree.tree.wood.id == wood.id && tree.logs() > 0)
            .map(|tree| (tree.logs(), tree.tree.record.dbh.inches()))
            .collect();
        of_wood.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let (logs_each, inches) = *of_wood.get((of_wood.len().max(1) - 1) / 2)?;
        Some(Cure { wood: Arc::clone(wood), trees: logs.div_ceil(logs_each), inches, logs_each })
    }
}
