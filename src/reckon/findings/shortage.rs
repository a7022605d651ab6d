//! What a wish lacks, why, and what would cure it.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::winter::{Winter, WishFinding, allowed, ready, stand};
use super::{Findings, TreeFinding};
use crate::book::Wood;
use crate::quantity::Length;
use crate::record::plan::Floor;
use crate::record::tree::Tag;

/// What a wish lacks.
#[derive(Debug, Clone)]
pub struct Shortage {
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
    /// No tree is marked and no log lies ready, so that trees are missing and not woods.
    NoTrees,
    /// No wood at hand is good enough for the strain.
    NoWood(Floor),
    /// The limits of stands hold trees back.
    Limits(Vec<String>),
    /// Trees of woods that are good enough have no day to come down and be inoculated.
    NoDay(Vec<Arc<Wood>>),
    /// Trees of woods that would be good enough are marked, but their wood is in doubt.
    Doubt(Vec<Tag>),
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
    /// Their thickness at breast height.
    pub diameter: Length,
    /// Logs that one of them gives.
    pub logs_each: u32,
}

/// What a wish lacks, and why.
pub fn of(found: &WishFinding, winter: &Winter, findings: &Findings) -> Option<Shortage> {
    let logs = found.left().map_or(0, |left| left - found.logs());
    if logs == 0 {
        return None;
    }
    let floor = found.plan.record.floor;
    let suits = |wood: &Arc<Wood>| found.allows(wood, findings);
    let from_trees = |wood: &Arc<Wood>| !findings.has_no_day(&found.strain.mushroom, wood);
    let suiting: BTreeSet<&str> =
        winter.woods.iter().filter(|wood| suits(wood).is_some()).map(|wood| wood.id.as_str()).collect();
    let stands = findings.measured();
    let spared = |tree: &&TreeFinding| tree.may_fall() && tree.logs() > 0 && !winter.falls(tree.tree.tag());
    let (dated, waiting): (Vec<&TreeFinding>, Vec<&TreeFinding>) = (findings.trees().iter().filter(spared))
        .filter(|tree| suiting.contains(tree.tree.wood.id.as_str()))
        .partition(|tree| from_trees(&tree.tree.wood));
    let held: BTreeSet<&str> = (dated.into_iter())
        .filter_map(|tree| Some(&stands[stand(tree, stands)?]))
        .filter(|stand| stand.allowance().is_ok())
        .map(|stand| stand.stand.record.name.as_str())
        .collect();
    let lower =
        |wood: &&Arc<Wood>| suits(wood).is_none() && allowed(found.word(wood, findings), Floor::Mentioned).is_some();
    let waiting: BTreeMap<&str, &Arc<Wood>> =
        waiting.into_iter().map(|tree| (tree.tree.wood.id.as_str(), &tree.tree.wood)).collect();
    let doubtful = findings.trees().iter().filter(|tree| tree.is_left_in_doubt() && tree.logs() > 0);
    let doubtful: Vec<Tag> =
        doubtful.filter(|tree| suits(&tree.tree.wood).is_some()).map(|tree| tree.tree.tag().clone()).collect();
    let why = if !winter.is_by_trees {
        Why::NoTrees
    } else if !held.is_empty() {
        Why::Limits(held.into_iter().map(str::to_owned).collect())
    } else if !waiting.is_empty() {
        Why::NoDay(waiting.into_values().cloned().collect())
    } else if !doubtful.is_empty() {
        Why::Doubt(doubtful)
    } else if !is_wood_at_hand(&winter.woods, findings) {
        Why::NoTrees
    } else if suiting.is_empty() {
        Why::NoWood(floor)
    } else {
        Why::UsedUp(floor, winter.woods.iter().filter(lower).cloned().collect())
    };
    let with_a_day = winter.woods.iter().filter(|wood| from_trees(wood));
    let cures = with_a_day.filter_map(|wood| Some((suits(wood)?, cure(findings.trees(), logs, wood)?)));
    let best = cures.max_by(|a, b| a.0.cmp(&b.0).then(b.1.trees.cmp(&a.1.trees)).then(b.1.wood.id.cmp(&a.1.wood.id)));
    Some(Shortage { logs, why, cure: best.map(|(_, cure)| cure) })
}

/// Whether any log lies ready or stands in a marked tree.
fn is_wood_at_hand(woods: &[Arc<Wood>], findings: &Findings) -> bool {
    let standing = || findings.trees().iter().any(|tree| tree.may_fall() && tree.logs() > 0);
    woods.iter().any(|wood| ready(findings, wood) > 0) || standing()
}

/// How many trees like the middle one of a wood would give so many logs.
fn cure(trees: &[TreeFinding], logs: u32, wood: &Arc<Wood>) -> Option<Cure> {
    let of_wood = trees.iter().filter(|tree| tree.tree.wood.id == wood.id && tree.logs() > 0);
    let mut of_wood: Vec<(u32, Length)> = of_wood.map(|tree| (tree.logs(), tree.tree.record.dbh())).collect();
    of_wood.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.base().total_cmp(&b.1.base())));
    let (logs_each, diameter) = of_wood.get((of_wood.len().max(1) - 1) / 2)?.clone();
    Some(Cure { wood: Arc::clone(wood), trees: logs.div_ceil(logs_each), diameter, logs_each })
}
