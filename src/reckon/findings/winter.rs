//! This winter's wishes, the trees that come down for them, and which wood goes to which strain.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::inoculation::each_once;
use super::ledger::{Done, done};
use super::shortage::{self, Shortage};
use super::stands::Measured;
use super::{Findings, TreeFinding, Word};
use crate::book::{Lot, Mushroom, Plan, Strain, Wood};
use crate::reckon::allocation::{Candidate, Pair, Question, Value, Wanted, solve};
use crate::reckon::{Gap, density, planning};
use crate::record::evidence::Way;
use crate::record::lot::Pieces;
use crate::record::plan::{Floor, Wish};
use crate::record::tree::{Decision, Tag};

/// The winter's answer.
#[derive(Debug, Clone)]
pub struct Winter {
    /// The woods at hand, from lots and from marked trees.
    pub woods: Vec<Arc<Wood>>,
    /// The wishes of every plan of the season.
    pub wishes: Vec<WishFinding>,
    /// What the answer reaches; a gap where there is no plan, or no answer.
    pub value: Result<Value, Gap>,
    /// By how much the first unfinished stage could be better.
    pub gap: f64,
    felled: BTreeSet<Tag>,
    wanted: BTreeSet<String>,
    waiting: BTreeMap<String, Vec<Arc<Mushroom>>>,
    pub(super) is_by_trees: bool,
}

impl Winter {
    /// Whether a tree comes down this winter.
    pub fn falls(&self, tag: &Tag) -> bool {
        self.felled.contains(tag)
    }

    /// The mushrooms for which trees of a wood would come down, if they had a day for it.
    pub fn waits(&self, wood: &str) -> &[Arc<Mushroom>] {
        let wanted = self.takes(wood);
        self.waiting.get(wood).filter(|_| !wanted).map_or(&[], Vec::as_slice)
    }

    /// Whether trees of a wood may come down for a wish.
    pub fn takes(&self, wood: &str) -> bool {
        self.wanted.contains(wood)
    }

    /// The plans of the season, each once.
    pub fn plans(&self) -> Vec<Arc<Plan>> {
        let mut plans: Vec<Arc<Plan>> = self.wishes.iter().map(|wish| Arc::clone(&wish.plan)).collect();
        plans.dedup_by(|a, b| a.id == b.id);
        plans
    }

    /// Whether batches have made everything that the plans ask for.
    pub fn is_done(&self) -> bool {
        !self.wishes.is_empty() && self.wishes.iter().all(WishFinding::is_done)
    }

    /// Whether trees may still have to come down: some do, some are missing, or nothing is planned that would say.
    pub fn needs_trees(&self) -> bool {
        let needs = |wish: &WishFinding| {
            let pieces = wish.other.totems.is_some() || wish.other.stumps.is_some();
            pieces || wish.short.is_some() || wish.left().is_err()
        };
        self.wishes.is_empty() || self.number() > 0 || self.wishes.iter().any(needs)
    }

    /// Drilled logs that its wishes ask for in all.
    pub fn wanted(&self) -> u32 {
        self.wishes.iter().filter_map(|wish| wish.wanted.as_ref().ok()).sum()
    }

    /// Drilled logs that are still asked for.
    pub fn left(&self) -> u32 {
        self.wishes.iter().filter_map(|wish| wish.left().ok()).sum()
    }

    /// Drilled logs that the wishes get.
    pub fn placed(&self) -> u32 {
        self.wishes.iter().map(WishFinding::logs).sum()
    }

    /// Drilled logs that they lack.
    pub fn missing(&self) -> u32 {
        self.wishes.iter().filter_map(|wish| wish.short.as_ref()).map(|short| short.logs).sum()
    }

    /// How many trees come down.
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
    /// The drilled logs that it asks for in all.
    pub wanted: Result<u32, Gap>,
    /// What batches have made of it.
    pub done: Done,
    /// What it still asks for beside drilled logs.
    pub other: Wish,
    /// What it gets, wood by wood.
    pub placed: Vec<Placed>,
    /// What it lacks, and what would cure that.
    pub short: Option<Shortage>,
    /// Logs that it lacks and that are ordered for all the same, since no tree is marked in this winter.
    pub unplaced: u32,
}

impl WishFinding {
    /// The drilled logs that it still asks for.
    ///
    /// # Errors
    /// A gap where the wish gives a weight and not logs.
    pub fn left(&self) -> Result<u32, Gap> {
        self.wanted.clone().map(|wanted| wanted.saturating_sub(self.done.logs))
    }

    /// Whether batches have made everything that it asks for.
    pub fn is_done(&self) -> bool {
        let other = self.other.totems.is_some() || self.other.stumps.is_some() || self.other.bed.is_some();
        self.left() == Ok(0) && !other
    }

    /// Logs that it gets.
    pub fn logs(&self) -> u32 {
        self.placed.iter().map(|placed| placed.logs).sum()
    }

    /// The pair of its strain and a wood, where the plan's floor lets the wood be used.
    fn pair(&self, wood: &Arc<Wood>, findings: &Findings) -> Option<Pair> {
        let rating = self.allows(wood, findings)?;
        Some(Pair { rating, from_trees: !findings.has_no_day(&self.strain.mushroom, wood) })
    }

    /// The rating of its strain on a wood, where the plan's floor lets the wood be used; nought where it has none.
    pub(super) fn allows(&self, wood: &Wood, findings: &Findings) -> Option<u8> {
        allowed(self.word(wood, findings), self.plan.record.floor)
    }

    /// The word for its logs on a wood.
    pub(super) fn word(&self, wood: &Wood, findings: &Findings) -> Word {
        let mushroom = &self.strain.mushroom;
        findings.word_in(&mushroom.id, &wood.id, mushroom.way_of_logs())
    }
}

/// Logs of one wood for one strain.
#[derive(Debug, Clone)]
pub struct Placed {
    /// The wood.
    pub wood: Arc<Wood>,
    /// How many logs.
    pub logs: u32,
    /// The word of the pair, grown on logs.
    pub word: Word,
    /// The way whose verdict stands in, where nobody has judged the pair on such logs.
    pub stands_in: Option<Way>,
}

/// What there is of one wood, and what of it is used, in logs.
#[derive(Debug, Clone)]
pub struct OfWood {
    /// Those of lots that lie ready.
    pub ready: u32,
    /// Those of trees that may come down.
    pub marked: u32,
    /// Those of trees that come down.
    pub felled: u32,
    /// Those that each wish gets, where it gets any.
    pub placed: Vec<(u32, Arc<Strain>)>,
}

/// What there is of a wood.
pub fn of_wood(findings: &Findings, wood: &Wood) -> OfWood {
    let winter = findings.winter();
    let marked = || findings.trees().iter().filter(|tree| tree.may_fall() && tree.tree.wood.id == wood.id);
    let placed = |wish: &WishFinding| {
        let of_wood = wish.placed.iter().filter(|placed| placed.wood.id == wood.id);
        (of_wood.map(|placed| placed.logs).sum::<u32>(), Arc::clone(&wish.strain))
    };
    OfWood {
        ready: ready(findings, wood),
        marked: marked().map(TreeFinding::logs).sum(),
        felled: marked().filter(|tree| winter.falls(tree.tree.tag())).map(TreeFinding::logs).sum(),
        placed: winter.wishes.iter().map(placed).filter(|(logs, _)| *logs > 0).collect(),
    }
}

/// Solves the winter of a book.
pub fn of(findings: &Findings) -> Winter {
    let plans = findings.book.plans.values().filter(|plan| plan.record.season == findings.choice.season);
    let plans: Vec<Arc<Plan>> = plans.cloned().collect();
    if plans.is_empty() {
        return without_a_plan(findings);
    }
    let done = done(findings, &plans);
    let wishes: Vec<WishFinding> = plans.iter().flat_map(wishes).zip(done).map(with_done).collect();
    let (woods, units) = (at_hand(findings), units(findings.trees()));
    let place = |wood: &Wood| woods.binary_search_by(|other| other.id.cmp(&wood.id)).unwrap_or_default();
    let wanted = |found: &WishFinding| Wanted {
        logs: found.left().unwrap_or(0),
        pairs: woods.iter().map(|wood| found.pair(wood, findings)).collect(),
    };
    let question = Question {
        woods: woods.len(),
        ready: woods.iter().map(|wood| ready(findings, wood)).collect(),
        trees: units.iter().map(|unit| candidate(unit, findings, &place)).collect(),
        allowances: allowances(findings.measured()),
        wishes: wishes.iter().map(wanted).collect(),
    };
    let pairs = |place: usize| {
        let of_wood = question.wishes.iter().zip(&wishes).filter(|(wish, _)| wish.logs > 0);
        of_wood.filter_map(move |(wish, found)| Some((wish.pairs[place]?, &found.strain.mushroom)))
    };
    let takes = |place: &usize| pairs(*place).any(|(pair, _)| pair.from_trees);
    let wanted = (0..woods.len()).filter(takes).map(|place| woods[place].id.clone()).collect();
    let apart = |place: usize| pairs(place).filter(|(pair, _)| !pair.from_trees).map(|(_, mushroom)| mushroom);
    let waiting = woods.iter().enumerate().map(|(place, wood)| (wood.id.clone(), each_once(apart(place)))).collect();
    let answer = solve(&question);
    let reached = answer.as_ref();
    let mut winter = Winter {
        wishes: Vec::new(),
        value: reached.map(|answer| answer.value).map_err(Clone::clone),
        gap: reached.map_or(f64::INFINITY, |answer| answer.gap),
        felled: reached.map(|answer| felled(findings.trees(), &units, &answer.felled)).unwrap_or_default(),
        wanted,
        waiting,
        woods,
        is_by_trees: plans_by_trees(findings),
    };
    let logs = |wish: usize| reached.map(|answer| answer.placed[wish].as_slice()).unwrap_or_default();
    let served = |(index, found)| served(found, logs(index), &winter, findings);
    let wishes = wishes.into_iter().enumerate().map(served).collect();
    winter.wishes = wishes;
    winter
}

/// The wishes of a plan, before anything is placed.
fn wishes(plan: &Arc<Plan>) -> impl Iterator<Item = WishFinding> {
    plan.wishes().map(|(wish, strain)| WishFinding {
        plan: Arc::clone(plan),
        wish: wish.clone(),
        strain: Arc::clone(strain),
        wanted: wanted(wish),
        done: Done::default(),
        other: wish.clone(),
        placed: Vec::new(),
        short: None,
        unplaced: 0,
    })
}

/// A wish with what batches have made of it.
fn with_done((found, done): (WishFinding, Done)) -> WishFinding {
    WishFinding { other: done.left_of(&found.wish), done, ..found }
}

/// A wish that gets so many logs of each wood at hand.
fn served(mut found: WishFinding, logs: &[u32], winter: &Winter, findings: &Findings) -> WishFinding {
    let woods = winter.woods.iter().zip(logs).filter(|(_, logs)| **logs > 0);
    let placed = |(wood, logs): (&Arc<Wood>, &u32)| Placed {
        wood: Arc::clone(wood),
        logs: *logs,
        word: found.word(wood, findings),
        stands_in: findings
            .pairing(&found.strain.mushroom.id, &wood.id)
            .and_then(|pair| pair.stands_in(found.strain.mushroom.way_of_logs())),
    };
    found.placed = woods.map(placed).collect();
    found.short = shortage::of(&found, winter, findings);
    found.unplaced = found.short.as_ref().filter(|_| !winter.is_by_trees).map_or(0, |short| short.logs);
    found
}

/// The winter where nothing is wished for: all marked trees come down that have a day for any mushroom of the farm, or those
/// of them that give most logs within the limits.
fn without_a_plan(findings: &Findings) -> Winter {
    let units = units(findings.trees());
    let one_more = |candidate: Candidate| Candidate { logs: candidate.logs + 1, ..candidate };
    let waiting: BTreeMap<String, Vec<Arc<Mushroom>>> = at_hand(findings)
        .iter()
        .filter(|wood| findings.mushrooms().iter().all(|mushroom| findings.has_no_day(mushroom, wood)))
        .map(|wood| (wood.id.clone(), findings.mushrooms().to_vec()))
        .collect();
    let waits = |wood: &Wood| usize::from(waiting.contains_key(&wood.id));
    let trees: Vec<Candidate> = units.iter().map(|unit| one_more(candidate(unit, findings, &waits))).collect();
    let logs = trees.iter().map(|candidate| candidate.logs).sum();
    let answer = solve(&Question {
        woods: 2,
        ready: vec![0; 2],
        trees,
        allowances: allowances(findings.measured()),
        wishes: vec![Wanted { logs, pairs: vec![Some(Pair { rating: 0, from_trees: true }), None] }],
    });
    Winter {
        woods: Vec::new(),
        wishes: Vec::new(),
        value: Err(Gap::Outside(
            "no plan is written for this winter, so the marked trees are listed that give most logs within the limits",
        )),
        gap: 0.0,
        felled: answer.map(|answer| felled(findings.trees(), &units, &answer.felled)).unwrap_or_default(),
        wanted: BTreeSet::new(),
        waiting,
        is_by_trees: true,
    }
}

/// The woods at hand, from lots and from trees that may come down, in the order of their ids.
pub(super) fn at_hand(findings: &Findings) -> Vec<Arc<Wood>> {
    let marked = findings.trees().iter().filter(|tree| tree.may_fall()).map(|tree| &tree.tree.wood);
    let loose = findings.ledger().loose_woods().filter_map(|wood| findings.book.woods.get(wood));
    let lying = findings.book.lots.values().filter(|lot| findings.ledger().waiting(lot) > 0).map(|lot| &lot.wood);
    let woods = marked.chain(lying).chain(loose);
    let woods: BTreeMap<&str, &Arc<Wood>> = woods.map(|wood| (wood.id.as_str(), wood)).collect();
    woods.into_values().cloned().collect()
}

/// The tags of the units that fall.
fn felled(trees: &[TreeFinding], units: &[Vec<usize>], falls: &[bool]) -> BTreeSet<Tag> {
    let units = units.iter().zip(falls).filter(|(_, falls)| **falls);
    units.flat_map(|(unit, _)| unit.iter().map(|index| trees[*index].tree.tag().clone())).collect()
}

/// The drilled logs that a wish asks for; nought where it asks for totems, stumps or a bed alone.
fn wanted(wish: &Wish) -> Result<u32, Gap> {
    match drilled(wish) {
        None if wish.a_week.is_some() => Err(Gap::Outside(
            "the wish gives a weight and not logs; choose a row of the planning sheet and write its `logs` into the plan",
        )),
        logs => Ok(logs.unwrap_or(0)),
    }
}

/// The drilled logs that a wish writes, for itself and for its guests.
pub(super) fn drilled(wish: &Wish) -> Option<u32> {
    let guests = wish.guests.map(|guests| planning::by_guests(guests, wish.logs_a_guest));
    wish.logs.into_iter().chain(guests).reduce(u32::saturating_add)
}

/// Logs of a wood that lie ready, in lots or beside them; rounds are not drilled.
pub(super) fn ready(findings: &Findings, wood: &Wood) -> u32 {
    let drilled = |lot: &&Arc<Lot>| lot.wood.id == wood.id && lot.record.pieces == Pieces::Log;
    let lots = findings.book.lots.values().filter(drilled);
    lots.map(|lot| findings.ledger().waiting(lot)).sum::<u32>() + findings.ledger().loose(wood)
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

/// The place of a tree's stand among the stands, which stand in the order of their ids.
pub(super) fn stand(tree: &TreeFinding, stands: &[Measured]) -> Option<usize> {
    let stand = tree.tree.stand.as_ref()?;
    stands.binary_search_by(|other| other.stand.id.cmp(&stand.id)).ok()
}

fn allowances(stands: &[Measured]) -> Vec<Option<f64>> {
    stands.iter().map(|stand| Some(stand.allowance().ok()?.square_feet())).collect()
}

fn candidate(unit: &[usize], findings: &Findings, place: &impl Fn(&Wood) -> usize) -> Candidate {
    let of = || unit.iter().map(|index| &findings.trees()[*index]);
    let first = &findings.trees()[unit[0]];
    Candidate {
        wood: place(&first.tree.wood),
        logs: of().map(TreeFinding::logs).sum(),
        stand: stand(first, findings.measured()),
        basal_area: of().map(|tree| density::tree(&tree.tree.record.dbh()).square_feet()).sum(),
    }
}

/// The rating behind a word that a floor lets be used, nought where it has none; a pair that fails is never used.
pub(super) fn allowed(word: Word, floor: Floor) -> Option<u8> {
    let least = match floor {
        Floor::Thrives => word == Word::Thrives,
        Floor::DoesWell => matches!(word, Word::Thrives | Word::DoesWell),
        Floor::GetsBy => matches!(word, Word::Thrives | Word::DoesWell | Word::GetsBy),
        Floor::Mentioned => !matches!(word, Word::Fails | Word::Untried),
        Floor::Untried => word != Word::Fails,
    };
    least.then(|| word.rating().unwrap_or(0))
}

/// Whether the farm marks trees for this winter: such a tree stands, or came down in it.
fn plans_by_trees(findings: &Findings) -> bool {
    let marked = |tree: &&TreeFinding| tree.tree.record.decision == Decision::Fell;
    let is_for_it = |tree: &TreeFinding| tree.may_fall() || tree.is_left_in_doubt() || findings.is_of_this_winter(tree);
    findings.trees().iter().filter(marked).any(is_for_it)
}
