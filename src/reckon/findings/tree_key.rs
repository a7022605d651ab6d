//! The keys of this farm's woods, bare and in leaf.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::Findings;
use crate::book::{Book, Rule, Wood};
use crate::reckon::tree_key::{self, Couplet, Key, Matrix, Taxon};
use crate::record::character::{Character, DeadLeaves, Reach, When};
use crate::record::rule::Subject;
use crate::record::tree::Tag;
use crate::record::wood::{Rank, Refusal};

/// A key of this farm's woods.
#[derive(Debug, Clone)]
pub struct TreeKey {
    /// Whether for bare trees or for trees in leaf.
    pub when: When,
    /// The characters that decide, in the order of the key's questions.
    pub questions: Vec<Character>,
    /// The woods, in the order of the key's taxa.
    pub woods: Vec<KeyWood>,
    /// Woods of the farm of which no character is told, and those that the key has no room for.
    pub untold: Vec<Arc<Wood>>,
    /// The key.
    pub key: Key,
    /// The average number of couplets to a wood.
    pub expected: f64,
    /// The average that no key is below.
    pub bound: f64,
    /// The average effort to the end of a wood.
    pub effort: f64,
    /// The average effort until it is known whether to refuse.
    pub effort_to_refuse: f64,
    /// Whether no key is better.
    pub is_exact: bool,
}

/// A wood in a key.
#[derive(Debug, Clone)]
pub struct KeyWood {
    /// The wood.
    pub wood: Arc<Wood>,
    /// Standing trees of it that the farm has tagged.
    pub trees: usize,
    /// The tags of those of them that are in doubt.
    pub doubtful: Vec<Tag>,
    /// Whether it is a kind to refuse here.
    pub is_refused: bool,
}

/// Why a kind is refused.
#[derive(Debug, Clone)]
pub enum Refused<'a> {
    /// For what it is.
    Kind(&'a Refusal),
    /// By a law of the place on felling it.
    Law(&'a Arc<Rule>),
}

impl TreeKey {
    /// The key for bare trees, and the one for trees in leaf.
    pub(super) fn both(findings: &Findings) -> Vec<Self> {
        vec![Self::of(When::Winter, findings), Self::of(When::Summer, findings)]
    }

    fn of(when: When, findings: &Findings) -> Self {
        let efforts: Vec<(Character, f64)> =
            Character::ALL.into_iter().filter_map(|asked| Some((asked, effort(asked, when)?))).collect();
        let questions: Vec<Character> = efforts.iter().map(|(asked, _)| *asked).collect();
        let is_told = |wood: &Wood| questions.iter().any(|asked| wood.record.characters.told(*asked).is_some());
        let (told, mut untold): (Vec<_>, Vec<_>) = woods(findings).into_iter().partition(|wood| is_told(wood));
        untold.extend(told.iter().skip(tree_key::MOST).cloned());
        let woods: Vec<KeyWood> =
            told.into_iter().take(tree_key::MOST).map(|wood| KeyWood::of(wood, findings)).collect();
        let taxa: Vec<Taxon> = woods.iter().map(|of| of.taxon(&questions)).collect();
        let matrix = Matrix::of(&efforts.iter().map(|(_, effort)| *effort).collect::<Vec<_>>(), &taxa);
        let key = matrix.key();
        Self {
            when,
            questions,
            woods,
            untold,
            expected: matrix.expected(&key),
            bound: matrix.bound(&key),
            effort: matrix.effort(&key),
            effort_to_refuse: matrix.effort_to_refuse(&key),
            is_exact: matrix.is_exact(),
            key,
        }
    }

    /// The characters that the key asks, each once, with the effort of looking at it.
    pub fn asked(&self) -> impl Iterator<Item = (Character, f64)> {
        let asked: BTreeSet<usize> = self.key.couplets.iter().map(|couplet| couplet.question).collect();
        asked.into_iter().filter_map(|at| Some((self.questions[at], effort(self.questions[at], self.when)?)))
    }

    /// A character that no way to a wood asks, the one in which the most other woods are told to differ; what is looked at
    /// with less effort first.
    pub fn check(&self, at: usize) -> Option<Character> {
        let on_way = |couplet: &&Couplet| couplet.taxa.contains(&at);
        let asked: Vec<Character> =
            self.key.couplets.iter().filter(on_way).map(|couplet| self.questions[couplet.question]).collect();
        let is_seen = |of: &Character| of.when() == When::Always || of.when() == self.when;
        let told = |at: usize, of: Character| self.woods[at].wood.record.characters.told(of).map(|told| told.states);
        let parted = |of: Character| {
            let own =
                told(at, of).filter(|states| of != Character::DeadLeaves || *states == [DeadLeaves::Kept as usize])?;
            let is_other = |other: &Vec<usize>| !other.iter().any(|state| own.contains(state));
            let others = (0..self.woods.len()).filter_map(|other| told(other, of)).filter(is_other).count();
            (others > 0).then_some((others, std::cmp::Reverse(of.reach()), std::cmp::Reverse(of)))
        };
        let left = Character::ALL.into_iter().filter(|of| is_seen(of) && !asked.contains(of));
        left.filter_map(parted).max().map(|(_, _, of)| of.0)
    }
}

impl KeyWood {
    fn of(wood: Arc<Wood>, findings: &Findings) -> Self {
        let stands = |tree: &&super::TreeFinding| tree.tree.wood.id == wood.id && !tree.is_down();
        let standing = || findings.trees().iter().filter(stands);
        let doubtful = standing().filter(|tree| tree.is_doubtful()).map(|tree| tree.tree.tag().clone()).collect();
        Self { trees: standing().count(), doubtful, is_refused: !refusals(&wood, &findings.book).is_empty(), wood }
    }

    /// The wood as the key weighs it: by its tagged trees and one more, so that what nobody tagged has a weight too.
    fn taxon(&self, questions: &[Character]) -> Taxon {
        let states =
            |asked: &Character| self.wood.record.characters.told(*asked).map_or_else(Vec::new, |told| told.states);
        #[expect(clippy::cast_precision_loss, reason = "a count of trees")]
        let weight = self.trees as f64 + 1.0;
        Taxon { weight, is_refused: self.is_refused, states: questions.iter().map(states).collect() }
    }
}

/// The woods of the farm and the kinds to refuse that grow here, in the order of their ids.
fn woods(findings: &Findings) -> Vec<Arc<Wood>> {
    let book = &findings.book;
    let refused = book.woods.values().filter(|wood| wood.record.refuse.iter().any(|row| book.here.holds(&row.holds)));
    let mut woods: Vec<Arc<Wood>> = findings.woods().iter().chain(refused).cloned().collect();
    woods.sort_by(|a, b| a.id.cmp(&b.id));
    woods.dedup_by(|a, b| a.id == b.id);
    woods
}

/// Why a wood is left standing here: its own reasons, as a conifer those of all conifers, and laws on felling it.
pub fn refusals<'a>(wood: &'a Wood, book: &'a Book) -> Vec<Refused<'a>> {
    let of_conifers = book.woods.values().filter(|of| of.is_conifer() && of.record.rank == Rank::Any);
    let of_conifers = of_conifers.filter(|of| wood.is_conifer() && of.id != wood.id).flat_map(|of| &of.record.refuse);
    let kinds = wood.record.refuse.iter().chain(of_conifers).filter(|row| book.here.holds(&row.holds));
    let is_of_it = |rule: &&Arc<Rule>| !rule.woods.is_empty() && wood.is_among(&rule.woods);
    let laws = book.rules.values().filter(|rule| rule.record.about == Subject::Felling).filter(is_of_it);
    kinds.map(Refused::Kind).chain(laws.map(Refused::Law)).collect()
}

/// The effort of looking at a character of a tree, bare or in leaf; nothing where it decides nothing then.
///
/// The trust in each is that of the reference of characters. Efforts are our own choice: 0.5 at a glance, 1 at the stem, 1.5 for a cut into
/// the bark, 2.5 for a twig, which may hang out of reach, and for a leaf from the ground, which may be a neighbour's. That no fruit was found and that dead leaves have fallen decide nothing.
pub fn effort(asked: Character, when: When) -> Option<f64> {
    let is_seen = asked.when() == When::Always || asked.when() == when;
    let decides = !matches!(asked, Character::Fruit | Character::DeadLeaves);
    let reach = match asked.reach() {
        Reach::Glance => 0.5,
        Reach::Stem | Reach::Crown => 1.0,
        Reach::Leaf if when == When::Summer => 1.0,
        Reach::Knife => 1.5,
        Reach::Leaf | Reach::Twig => 2.5,
    };
    (is_seen && decides).then(|| reach / asked.trust())
}
