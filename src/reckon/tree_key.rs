//! Which tree is this? The key of least effort for a set of woods.
//!
//! A key is a chain of couplets, each a question with two leads. With the set S of woods that are left, a lead keeps those
//! that show one of its states. A wood of which a question knows nothing, or that shows states of both leads, goes both ways;
//! what earlier leads have shut out is then left out of the later ones. Where no question parts what is left, the woods end
//! together.
//!
//! | quantity | formula |
//! |---|---|
//! | effort of the rest of a key | f(S) = e + p f(S₁) + (1 − p) f(S₂), and 0 at an end |
//! | effort until it is known whether to refuse | R(S) = e + q R(S₁) + (1 − q) R(S₂), and 0 where S has kinds to refuse alone, or none |
//!
//! | symbol | meaning |
//! |---|---|
//! | e | effort of the question |
//! | p | share of the weight of S on the first lead; a wood that goes both ways counts half on each |
//! | q | the same where each kind to refuse counts alike, each other kind alike, and those as much as these together, however rare they are |
//!
//! Of all keys the one with the least R is taken, and among these the one with the least f. Up to [`EXACT`] woods that is exact,
//! by dynamic programming over what can be left. Beyond, a few questions of the most gain are tried while more than [`EXACT_REST`]
//! woods are left, and then every one, so that the key is never worse than the one by gain ratio (Quinlan 1993, from memory). No
//! chain of questions with two answers needs fewer on average than Huffman's code of the same weights (Huffman 1952, from
//! memory). The shorter lead of a couplet names one state or two. Efforts and weights are in any one unit.

mod grower;
mod solver;

use super::formula::Formula;
use crate::record::said::Mark;
use grower::Grower;
use solver::{Cost, Solver};

/// The effort that a key is chosen by.
pub const EFFORT: Formula = Formula {
    name: "Effort of a key",
    math: r#"<math display="block"><mrow><mi>f</mi><mo>=</mo><mi>e</mi><mo>+</mo><mi>p</mi><msub><mi>f</mi><mn>1</mn></msub><mo>+</mo><mrow><mo>(</mo><mn>1</mn><mo>−</mo><mi>p</mi><mo>)</mo></mrow><msub><mi>f</mi><mn>2</mn></msub></mrow></math>"#,
    words: "The effort of a question, and that of the rest of the key on each of its leads, by the share of the woods that take it; nothing at an end. The key is the one that tells with the least effort whether a tree is to be left, where kinds to leave count together as much as all others, however rare; and among such keys the one of the least effort in all.",
    symbols: &[
        ("f", "effort to the end of the key, on average"),
        ("f₁, f₂", "the same from the first and from the second lead on"),
        ("e", "effort of the question, divided by how far its character is trusted, from 0 to 1; each stands below"),
        ("p", "share of the woods, by their trees, that take the first lead"),
    ],
    sources: &[],
    own: "the efforts are this project's own choice",
};

/// The least number of questions that any key can do with.
pub const SHORTEST: Formula = Formula {
    name: "The shortest chain of questions",
    math: r#"<math display="block"><mrow><mi>n</mi><mo>≥</mo><munder><mo>∑</mo><mi>joins</mi></munder><mrow><mo>(</mo><msub><mi>p</mi><mn>1</mn></msub><mo>+</mo><msub><mi>p</mi><mn>2</mn></msub><mo>)</mo></mrow></mrow></math>"#,
    words: "The two rarest ends are joined, again and again, until one is left; the shares of all that was joined, added up, are the least number of questions with two answers, whatever is asked.",
    symbols: &[
        ("n", "questions to the end of the key, on average"),
        ("p₁, p₂", "shares of the two rarest that are left"),
    ],
    sources: &[("huffman-1952", Mark::Memory)],
    own: "",
};

/// Woods up to which every key is weighed.
pub const EXACT: usize = 18;
/// Where there are more, the woods that are left from which on every key is weighed.
pub const EXACT_REST: usize = 12;
/// Woods that one key can hold.
pub const MOST: usize = 128;
/// States that one question can have.
pub const STATES: usize = 64;

/// Woods of a key, a bit each.
type Set = u128;
/// States of a question, a bit each.
type States = u64;

/// A wood as a key sees it.
#[derive(Debug, Clone)]
pub struct Taxon {
    /// How common it is.
    pub weight: f64,
    /// Whether it is a kind to refuse.
    pub is_refused: bool,
    /// The places of its states, question by question; none where nothing is known.
    pub states: Vec<Vec<usize>>,
}

/// Woods and the questions by which they are told apart.
#[derive(Debug)]
pub struct Matrix {
    efforts: Vec<f64>,
    weights: Vec<f64>,
    /// What each wood counts until it is known whether to refuse it.
    stakes: Vec<f64>,
    refused: Set,
    questions: Vec<Question>,
}

/// A question: which woods show each of its states, and of which it knows nothing.
#[derive(Debug)]
struct Question {
    shown: Vec<Set>,
    unknown: Set,
}

/// A question with its two leads, as it parts a set.
#[derive(Debug, Clone)]
struct Split {
    question: usize,
    leads: [States; 2],
    woods: [Set; 2],
}

/// A key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Key {
    /// Its couplets, the first of which one reads first.
    pub couplets: Vec<Couplet>,
    /// Where one begins: the first couplet, or the end where nothing is to be told apart.
    pub start: Goal,
}

/// A question with two leads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Couplet {
    /// The place of the question.
    pub question: usize,
    /// The couplets that lead here, by their places.
    pub from: Vec<usize>,
    /// The woods that are left.
    pub taxa: Vec<usize>,
    /// The leads.
    pub leads: [Lead; 2],
}

/// One answer to a couplet's question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lead {
    /// The places of the states that it names.
    pub states: Vec<usize>,
    /// The woods that it keeps.
    pub taxa: Vec<usize>,
    /// Where it leads.
    pub goal: Goal,
}

/// Where a lead leads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Goal {
    /// To another couplet, by its place.
    Couplet(usize),
    /// To the wood, or to those that cannot be told apart.
    End(Vec<usize>),
}

impl Matrix {
    /// Woods with the efforts of the questions that tell them apart; those beyond [`MOST`] are left out, and states beyond
    /// [`STATES`] are not known.
    pub fn of(efforts: &[f64], taxa: &[Taxon]) -> Self {
        let taxa = &taxa[..taxa.len().min(MOST)];
        let set = |wanted: &dyn Fn(&Taxon) -> bool| {
            taxa.iter().enumerate().filter(|(_, taxon)| wanted(taxon)).fold(0, |set: Set, (place, _)| set | 1 << place)
        };
        let question = |at: usize| {
            let told = |taxon: &Taxon| -> States {
                let states = taxon.states.get(at).into_iter().flatten().filter(|state| **state < STATES);
                states.fold(0, |told, state| told | 1 << state)
            };
            let count = taxa.iter().map(|taxon| STATES - told(taxon).leading_zeros() as usize).max().unwrap_or(0);
            Question {
                shown: (0..count).map(|state| set(&|taxon| told(taxon) & (1 << state) != 0)).collect(),
                unknown: set(&|taxon| told(taxon) == 0),
            }
        };
        let refused = taxa.iter().filter(|taxon| taxon.is_refused).count();
        let stake = |taxon: &Taxon| (if taxon.is_refused { taxa.len() - refused } else { refused }).max(1);
        #[expect(clippy::cast_precision_loss, reason = "a key has at most 128 woods")]
        let stake = |taxon| stake(taxon) as f64;
        Self {
            efforts: efforts.to_vec(),
            weights: taxa.iter().map(|taxon| taxon.weight).collect(),
            stakes: taxa.iter().map(stake).collect(),
            refused: set(&|taxon| taxon.is_refused),
            questions: (0..efforts.len()).map(question).collect(),
        }
    }

    /// Whether every key of it is weighed.
    pub const fn is_exact(&self) -> bool {
        self.weights.len() <= EXACT
    }

    /// The key of least effort, kinds to refuse first.
    ///
    /// ```
    /// use hostwood::reckon::tree_key::{Goal, Matrix, Taxon};
    /// let taxon = |weight, states: [usize; 2]| Taxon { weight, is_refused: false, states: states.map(|s| vec![s]).into() };
    /// // Leaf scars of white, green and black ash; the end bud of black ash is black (Pennsylvania trees 1971).
    /// let ashes = [taxon(1.0, [0, 0]), taxon(1.0, [1, 0]), taxon(2.0, [2, 1])];
    /// let key = Matrix::of(&[1.0, 1.0], &ashes).key();
    /// assert_eq!(key.couplets[0].leads[0].goal, Goal::End(vec![2])); // half of the trees end at the first couplet
    /// assert_eq!(key.couplets.len(), 2);
    /// ```
    pub fn key(&self) -> Key {
        let exact = if self.is_exact() { EXACT } else { EXACT_REST };
        let mut solver = Solver::of(self, exact);
        let key = self.grown(|woods| solver.best(woods));
        let by_gain = self.by_gain();
        let cost = |key| Cost { to_refuse: self.effort_to_refuse(key), average: self.effort(key) };
        if cost(&by_gain).is_less(cost(&key)) { by_gain } else { key }
    }

    /// The key by the most gain of each question for its effort, which looks no further than the next couplet.
    pub fn by_gain(&self) -> Key {
        self.grown(|woods| self.of_most_gain(woods).into_iter().next())
    }

    /// The average number of couplets to the end of a wood.
    pub fn expected(&self, key: &Key) -> f64 {
        let share = |first, second| self.share(first, second);
        key.walked(&|_| 1.0, &share)
    }

    /// The average effort to the end of a wood.
    pub fn effort(&self, key: &Key) -> f64 {
        let share = |first, second| self.share(first, second);
        key.walked(&|couplet| self.efforts[couplet.question], &share)
    }

    /// The average effort until it is known whether to refuse, by what is at stake.
    pub fn effort_to_refuse(&self, key: &Key) -> f64 {
        let effort = |couplet: &Couplet| {
            if self.is_settled(set_of(&couplet.taxa)) { 0.0 } else { self.efforts[couplet.question] }
        };
        key.walked(&effort, &|first, second| self.share_at_stake(first, second))
    }

    /// The least average number of questions with two answers that tells apart what the key tells apart.
    pub fn bound(&self, key: &Key) -> f64 {
        let mut groups: Vec<Set> = Vec::new();
        for end in key.ends() {
            let (joined, apart): (Vec<Set>, Vec<Set>) = groups.iter().partition(|group| *group & set_of(end) != 0);
            groups = apart;
            groups.push(joined.into_iter().fold(set_of(end), |all, group| all | group));
        }
        huffman(&groups.iter().map(|group| self.weight(*group)).collect::<Vec<_>>())
    }

    /// Of the states that are shut those that a wood of a set can show.
    fn shut_of(&self, woods: Set, shut: &[States]) -> Vec<States> {
        self.questions.iter().zip(shut).map(|(question, shut)| question.present(woods) & shut).collect()
    }

    /// Whether a set has kinds to refuse alone, or none.
    const fn is_settled(&self, set: Set) -> bool {
        set & self.refused == 0 || set & !self.refused == 0
    }

    fn weight(&self, set: Set) -> f64 {
        sum(&self.weights, set)
    }

    /// The share of the weight of two sets that is the first one's.
    fn share(&self, first: Set, second: Set) -> f64 {
        share(&self.weights, first, second)
    }

    /// The same by what is at stake.
    fn share_at_stake(&self, first: Set, second: Set) -> f64 {
        share(&self.stakes, first, second)
    }

    /// How much is not known of a wood that is one of a set, in bits.
    fn entropy(&self, set: Set) -> f64 {
        let whole = self.weight(set);
        bits(set).map(|place| surprise(self.weights[place] / whole)).sum()
    }

    /// What a question tells of a wood of a set, for each bit of its answer and by its effort.
    fn gain(&self, woods: Set, split: &Split) -> f64 {
        let [first, second] = split.woods;
        let share = self.share(first, second);
        let rest = share * self.entropy(first) + (1.0 - share) * self.entropy(second);
        (self.entropy(woods) - rest) / (surprise(share) + surprise(1.0 - share)) / self.efforts[split.question]
    }

    /// Every question that parts a set, with each pair of leads of which one names a state or two.
    fn splits(&self, woods: Set) -> Vec<Split> {
        let mut splits = Vec::new();
        for (place, question) in self.questions.iter().enumerate() {
            let present = question.present(woods);
            let mut push = |named: States| {
                let leads = [named, present & !named];
                let kept = leads.map(|states| woods & question.kept(states));
                if !kept.contains(&woods) {
                    splits.push(Split { question: place, leads, woods: kept });
                }
            };
            for_each_short(present, &mut push);
        }
        splits
    }

    /// The questions that part a set, those of the most gain first.
    fn of_most_gain(&self, woods: Set) -> Vec<Split> {
        let mut gains: Vec<(f64, Split)> =
            self.splits(woods).into_iter().map(|split| (self.gain(woods, &split), split)).collect();
        gains.sort_by(|a, b| b.0.total_cmp(&a.0));
        gains.into_iter().map(|(_, split)| split).collect()
    }

    fn grown(&self, best: impl FnMut(Set) -> Option<Split>) -> Key {
        Grower::of(self, best).key()
    }
}

impl Question {
    /// The states that woods of a set show.
    fn present(&self, woods: Set) -> States {
        let shown = self.shown.iter().enumerate().filter(|(_, shown)| **shown & woods != 0);
        shown.fold(0, |all, (state, _)| all | 1 << state)
    }

    /// The woods that a lead with these states keeps.
    fn kept(&self, states: States) -> Set {
        bits(states.into()).fold(self.unknown, |kept, state| kept | self.shown[state])
    }
}

/// Hands on each state by itself and each two together as the shorter lead of a question, each pair of leads once.
fn for_each_short(present: States, push: &mut impl FnMut(States)) {
    let count = present.count_ones();
    let first = present & present.wrapping_neg();
    match count {
        0 | 1 => (),
        2 => push(first),
        _ => bits(present.into()).for_each(|one| push(1 << one)),
    }
    if count >= 4 {
        let ones = if count == 4 { first } else { present };
        for one in bits(ones.into()) {
            let later = present & (States::MAX << one) & !(1 << one);
            bits(later.into()).for_each(|other| push(1 << one | 1 << other));
        }
    }
}

impl Key {
    /// What a wood costs, where each couplet has its effort and each lead its share.
    fn walked(&self, effort: &dyn Fn(&Couplet) -> f64, share: &dyn Fn(Set, Set) -> f64) -> f64 {
        // Every lead goes on to a later couplet, so that each cost is known before it is asked for.
        let mut costs = vec![0.0; self.couplets.len()];
        let after = |goal: &Goal, costs: &[f64]| match goal {
            Goal::Couplet(at) => costs[*at],
            Goal::End(_) => 0.0,
        };
        for (at, couplet) in self.couplets.iter().enumerate().rev() {
            let [first, second] = &couplet.leads;
            let on_first = share(set_of(&first.taxa), set_of(&second.taxa));
            costs[at] = effort(couplet)
                + on_first * after(&first.goal, &costs)
                + (1.0 - on_first) * after(&second.goal, &costs);
        }
        after(&self.start, &costs)
    }

    /// Every end, in the order of the couplets.
    pub fn ends(&self) -> impl Iterator<Item = &[usize]> {
        let goals = self.couplets.iter().flat_map(|couplet| couplet.leads.iter().map(|lead| &lead.goal));
        std::iter::once(&self.start).chain(goals).filter_map(|goal| match goal {
            Goal::End(taxa) => Some(taxa.as_slice()),
            Goal::Couplet(_) => None,
        })
    }
}

/// The average number of bits of Huffman's code for weights, which no chain of questions with two answers is below.
///
/// ```
/// use hostwood::reckon::tree_key::huffman;
/// assert!((huffman(&[0.4, 0.2, 0.2, 0.1, 0.1]) - 2.2).abs() < 1e-12); // a textbook's code, from memory
/// ```
pub fn huffman(weights: &[f64]) -> f64 {
    let whole: f64 = weights.iter().sum();
    let mut left = weights.to_vec();
    let mut bits = 0.0;
    while left.len() > 1 {
        left.sort_by(|a, b| b.total_cmp(a));
        let joined = left.split_off(left.len() - 2).iter().sum::<f64>();
        bits += joined;
        left.push(joined);
    }
    if whole > 0.0 { bits / whole } else { 0.0 }
}

fn sum(weights: &[f64], set: Set) -> f64 {
    bits(set).map(|place| weights[place]).sum()
}

/// The share of the weights of two sets that is the first one's; what is in both counts half on each.
fn share(weights: &[f64], first: Set, second: Set) -> f64 {
    let both = sum(weights, first & second) / 2.0;
    let on_first = sum(weights, first & !second) + both;
    on_first / (on_first + sum(weights, second & !first) + both)
}

fn surprise(share: f64) -> f64 {
    if share > 0.0 { -share * share.log2() } else { 0.0 }
}

fn set_of(taxa: &[usize]) -> Set {
    taxa.iter().fold(0, |set, place| set | 1 << place)
}

fn members(set: Set) -> Vec<usize> {
    bits(set).collect()
}

/// The places of the bits of a set.
fn bits(set: Set) -> impl Iterator<Item = usize> {
    let mut left = set;
    std::iter::from_fn(move || {
        let place = (left != 0).then(|| left.trailing_zeros() as usize);
        left &= left.wrapping_sub(1);
        place
    })
}
