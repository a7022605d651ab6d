//! What grows on what, and do sources agree?
//!
//! The rating is the weighted median of the voices on the ordinal scale 0–3; where the median falls between two ratings
//! the lower one stands. The agreement is the consensus of Tastle & Wierman (2007),
//!
//! Cns = 1 + Σ pᵢ log₂(1 − |Xᵢ − μ| / d),
//!
//! | symbol | meaning | range |
//! |---|---|---|
//! | pᵢ | share of the weight that speaks for rating Xᵢ | 0–1 |
//! | Xᵢ | rating | 0–3 |
//! | μ | weighted mean rating | 0–3 |
//! | d | width of the scale | 3 |
//!
//! A team is one voice, however many rows it wrote. What is said of a group counts for its members as inherited, and all
//! inherited voices together weigh at most half of what was said of the wood itself; said of a group on both sides, a
//! grade counts one step less, but on the mushroom's reference wood. Neither they nor advice on the wood itself move it past its own graded trials. Bare
//! lists, orders without a grade, wild hosts and sawdust have no vote, and one way of growing none in another's verdict.
//!
//! A trial grades a wood by its own figure or word of fitness, or against the mushroom's reference wood, which thrives by
//! convention: what does no worse than it thrives too, and what does significantly worse does well. Any other comparison
//! is an order and gives no grade.
//!
//! Source: Tastle W.J., Wierman M.J. 2007, *Consensus and dissention: a measure of ordinal dispersion*, International
//! Journal of Approximate Reasoning 45(3):531–545. The weights are this handbook's own choice.

use super::formula::Formula;
use crate::record::evidence::EvidenceKind;
use crate::record::said::Mark;

/// Width of the scale of ratings.
const WIDTH: f64 = 3.0;

/// The most that inherited voices together weigh, as a share of the direct ones.
pub const INHERITED_SHARE: f64 = 0.5;

/// How far voices agree.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Accord {
    /// All of them say the same.
    All,
    /// They nearly agree.
    Nearly,
    /// They differ.
    Differ,
    /// They say opposite things.
    Opposed,
}

impl Accord {
    /// How far voices of an agreement from 0 to 1 agree, in bands of this handbook's own choice.
    ///
    /// ```
    /// use hostwood::reckon::pairing::Accord;
    /// assert_eq!([1.0, 0.8, 0.5, 0.0].map(Accord::of), [Accord::All, Accord::Nearly, Accord::Differ, Accord::Opposed]);
    /// ```
    pub const fn of(agreement: f64) -> Self {
        match agreement {
            index if index > 0.999 => Self::All,
            index if index >= 0.8 => Self::Nearly,
            index if index >= 0.5 => Self::Differ,
            _ => Self::Opposed,
        }
    }
}

/// The weight of a row by its kind: the one table of weights.
pub const fn weight(kind: EvidenceKind) -> f64 {
    match kind {
        EvidenceKind::Trial => 1.0,
        EvidenceKind::Advice | EvidenceKind::OwnLogs => 0.5,
        EvidenceKind::Observation => 0.25,
        EvidenceKind::List => 0.0,
    }
}

/// The grade of a wood that does as well as the reference wood, or better.
pub const AS_REFERENCE: u8 = 3;

/// The grade of a wood that does significantly worse than the reference wood.
pub const BELOW_REFERENCE: u8 = 2;

/// A grade that was said of a group on both sides, as of oysters in general on oaks in general, where a kind inherits it:
/// one step less, but never a failure that nobody saw.
///
/// ```
/// use hostwood::reckon::pairing::one_step_less;
/// assert_eq!([3, 2, 1, 0].map(one_step_less), [2, 1, 1, 0]);
/// ```
pub const fn one_step_less(grade: u8) -> u8 {
    if grade > 1 { grade - 1 } else { grade }
}

/// A word on a pair: that of one row that may vote, or of a team after its rows were taken together.
#[derive(Debug, Clone, PartialEq)]
pub struct Voice {
    /// Who speaks; rows of one team are one voice.
    pub team: String,
    /// The rating, 0–3.
    pub rating: u8,
    /// Its weight, above 0; that of a team after inherited voices were held down.
    pub weight: f64,
    /// Whether it was said of a group to which the pair belongs.
    pub inherited: bool,
    /// Whether it comes from a trial.
    pub trial: bool,
}

/// What the voices on a pair come to.
#[derive(Debug, Clone, PartialEq)]
pub struct Consensus {
    /// The rating, 0–3: the median, held within the wood's own graded trials.
    pub rating: u8,
    /// The weighted median of all voices, 0–3.
    pub median: u8,
    /// Agreement, 0–1; `None` where one voice speaks alone.
    pub agreement: Option<f64>,
    /// The voices, in the order in which their teams first spoke.
    pub voices: Vec<Voice>,
    /// Their weight.
    pub weights: Weights,
}

/// The weighted median.
pub const MEDIAN: Formula = Formula {
    name: "Rating",
    math: r#"<math display="block"><mrow><mi>r</mi><mo>=</mo><mo>min</mo><mo>{</mo><mi>k</mi><mo>:</mo><munder><mo>∑</mo><mrow><msub><mi>X</mi><mi>i</mi></msub><mo>≤</mo><mi>k</mi></mrow></munder><msub><mi>w</mi><mi>i</mi></msub><mo>≥</mo><mfrac><mn>1</mn><mn>2</mn></mfrac><mo>∑</mo><msub><mi>w</mi><mi>i</mi></msub><mo>}</mo></mrow></math>"#,
    words: "The lowest rating at which the voices that give it or less hold at least half of all the weight; where the wood has graded trials of its own, never above the best of them nor below the worst.",
    symbols: &[("r", "rating, 0 to 3"), ("Xᵢ", "rating of one voice"), ("wᵢ", "weight of that voice")],
    sources: &[("this-handbook", Mark::Ours)],
    own: "the weighted lower median, as any textbook has it; the weights are this handbook's own choice",
};

/// The agreement between voices.
pub const AGREEMENT: Formula = Formula {
    name: "Agreement",
    math: r#"<math display="block"><mrow><mi>Cns</mi><mo>=</mo><mn>1</mn><mo>+</mo><munder><mo>∑</mo><mi>i</mi></munder><msub><mi>p</mi><mi>i</mi></msub><msub><mi>log</mi><mn>2</mn></msub><mrow><mo>(</mo><mn>1</mn><mo>−</mo><mfrac><mrow><mo>|</mo><msub><mi>X</mi><mi>i</mi></msub><mo>−</mo><mi>μ</mi><mo>|</mo></mrow><mi>d</mi></mfrac><mo>)</mo></mrow></mrow></math>"#,
    words: "One where all voices agree, nought where they are split between the two ends of the scale.",
    symbols: &[
        ("pᵢ", "share of the weight that speaks for rating Xᵢ"),
        ("μ", "weighted mean rating"),
        ("d", "width of the scale, 3"),
    ],
    sources: &[("tastle-wierman-2007", Mark::Memory)],
    own: "",
};

/// The consensus of votes; `None` where there is none.
///
/// ```
/// use hostwood::reckon::pairing::{Voice, consensus};
/// let vote = |team: &str, rating| Voice { team: team.into(), rating, weight: 1.0, inherited: false, trial: false };
/// let split = consensus(&[vote("a", 0), vote("b", 3)]).unwrap();
/// assert_eq!((split.rating, split.agreement), (0, Some(0.0))); // Tastle & Wierman: split at the ends gives 0
/// ```
pub fn consensus(votes: &[Voice]) -> Option<Consensus> {
    let voices = voices(votes);
    let weights = Weights::of(voices.iter().map(|voice| (voice.rating, voice.weight)))?;
    let agreement = (voices.len() > 1).then(|| weights.agreement());
    let median = weights.median();
    Some(Consensus { rating: within_trials(median, votes), median, agreement, voices, weights })
}

/// A rating held between the worst and the best of the wood's own graded trials.
fn within_trials(rating: u8, votes: &[Voice]) -> u8 {
    let trials = || votes.iter().filter(|vote| vote.trial && !vote.inherited).map(|vote| vote.rating);
    match (trials().min(), trials().max()) {
        (Some(worst), Some(best)) => rating.clamp(worst, best),
        _ => rating,
    }
}

/// One voice of each team, in the order in which they first spoke.
pub fn by_team(votes: &[Voice]) -> Vec<Voice> {
    let mut teams: Vec<&str> = Vec::new();
    for vote in votes {
        if !teams.contains(&vote.team.as_str()) {
            teams.push(&vote.team);
        }
    }
    teams.into_iter().filter_map(|team| voice(team, votes)).collect()
}

/// Makes one voice of each team and holds inherited voices down.
fn voices(votes: &[Voice]) -> Vec<Voice> {
    let mut voices = by_team(votes);
    let sum = |inherited: bool| {
        voices.iter().filter(|voice| voice.inherited == inherited).map(|voice| voice.weight).sum::<f64>()
    };
    let (direct, inherited) = (sum(false), sum(true));
    if direct > 0.0 && inherited > direct * INHERITED_SHARE {
        let share = direct * INHERITED_SHARE / inherited;
        voices.iter_mut().filter(|voice| voice.inherited).for_each(|voice| voice.weight *= share);
    }
    voices
}

/// A team's voice: the median of what it said of the pair itself, or else of what it said of a group.
fn voice(team: &str, votes: &[Voice]) -> Option<Voice> {
    let of_team = |inherited: bool| votes.iter().filter(move |vote| vote.team == team && vote.inherited == inherited);
    let inherited = of_team(false).next().is_none();
    let weights = Weights::of(of_team(inherited).map(|vote| (vote.rating, vote.weight)))?;
    let weight = of_team(inherited).map(|vote| vote.weight).fold(0.0, f64::max);
    let trial = of_team(inherited).any(|vote| vote.trial);
    Some(Voice { team: team.to_owned(), rating: weights.median(), weight, inherited, trial })
}

/// The weight that speaks for each rating.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weights {
    /// By rating, 0 to 3.
    pub by: [f64; 4],
    /// All of it, above 0.
    pub total: f64,
    /// The weighted mean rating.
    pub mean: f64,
}

impl Weights {
    /// The weight of rated words; `None` where nothing has weight.
    pub fn of(votes: impl IntoIterator<Item = (u8, f64)>) -> Option<Self> {
        let mut by = [0.0; 4];
        for (rating, weight) in votes {
            by[usize::from(rating.min(3))] += weight;
        }
        let total: f64 = by.iter().sum();
        let mean = by.iter().zip(0u8..).map(|(weight, rating)| f64::from(rating) * weight).sum::<f64>() / total;
        (total > 0.0).then_some(Self { by, total, mean })
    }

    /// Each rating for which anybody speaks, the lowest first, with its weight.
    pub fn spoken(&self) -> impl Iterator<Item = (u8, f64)> {
        (0u8..).zip(self.by).filter(|(_, weight)| *weight > 0.0)
    }

    /// The weighted lower median.
    pub fn median(&self) -> u8 {
        let mut sum = 0.0;
        let half = |(_, weight): &(u8, f64)| {
            sum += weight;
            sum >= self.total / 2.0 - 1e-12
        };
        self.spoken().find(half).map_or(0, |(rating, _)| rating)
    }

    /// The consensus index of Tastle & Wierman.
    ///
    /// ```
    /// use hostwood::reckon::pairing::Weights;
    /// assert_eq!(Weights::of([(2, 1.0), (2, 0.5)]).unwrap().agreement(), 1.0); // all agree: 1
    /// ```
    pub fn agreement(&self) -> f64 {
        let apart = |rating: u8| (f64::from(rating) - self.mean).abs() / WIDTH;
        let sum: f64 = self.spoken().map(|(rating, weight)| weight / self.total * (1.0 - apart(rating)).log2()).sum();
        (1.0 + sum).clamp(0.0, 1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn agreement_lies_between_none_and_full(votes in prop::collection::vec((0u8..4, 0.1f64..2.0), 1..12)) {
            let index = Weights::of(votes.clone()).unwrap().agreement();
            prop_assert!((0.0..=1.0).contains(&index));
            let same = votes.iter().all(|(rating, _)| *rating == votes[0].0);
            prop_assert_eq!(same, (index - 1.0).abs() < 1e-9);
        }

        #[test]
        fn the_rating_is_one_that_somebody_gave(votes in prop::collection::vec((0u8..4, 0.1f64..2.0), 1..12)) {
            let rating = Weights::of(votes.clone()).unwrap().median();
            prop_assert!(votes.iter().any(|(given, _)| *given == rating));
        }

        #[test]
        fn inherited_voices_never_outvote_one_direct_voice(direct in 0u8..4, group in 0u8..4, many in 1usize..20) {
            let mut votes = vec![vote("own", direct, 0.5)];
            votes.extend((0..many).map(|team| genus(&team.to_string(), group)));
            prop_assert_eq!(consensus(&votes).unwrap().rating, direct);
        }

        #[test]
        fn rows_of_the_genus_and_advice_never_move_a_wood_past_its_own_graded_trials(
            trials in prop::collection::vec(0u8..4, 1..4),
            advice in prop::collection::vec(0u8..4, 0..12),
            group in prop::collection::vec(0u8..4, 0..12),
        ) {
            let mut votes: Vec<Voice> = Vec::new();
            let named = |kind: &str, (at, rating): (usize, &u8)| (format!("{kind} {at}"), *rating);
            votes.extend(trials.iter().enumerate().map(|row| named("trial", row)).map(|(team, rating)| {
                Voice { trial: true, ..vote(&team, rating, 1.0) }
            }));
            let alone = consensus(&votes).unwrap().rating;
            votes.extend(advice.iter().enumerate().map(|row| named("advice", row)).map(|(team, rating)| vote(&team, rating, 0.5)));
            votes.extend(group.iter().enumerate().map(|row| named("genus", row)).map(|(team, rating)| genus(&team, rating)));
            let found = consensus(&votes).unwrap();
            prop_assert!(trials.iter().min() <= Some(&found.rating) && Some(&found.rating) <= trials.iter().max());
            if trials.len() == 1 {
                prop_assert_eq!(found.rating, alone);
            }
        }

        #[test]
        fn a_row_that_repeats_a_team_adds_no_voice(ratings in prop::collection::vec(0u8..4, 1..8), again in 0usize..8) {
            let votes: Vec<Voice> =
                ratings.iter().enumerate().map(|(team, rating)| vote(&team.to_string(), *rating, 0.5)).collect();
            let repeated = votes[again % votes.len()].clone();
            let more: Vec<Voice> = votes.iter().cloned().chain([repeated]).collect();
            prop_assert_eq!(consensus(&votes), consensus(&more));
        }
    }

    fn vote(team: &str, rating: u8, weight: f64) -> Voice {
        Voice { team: team.into(), rating, weight, inherited: false, trial: false }
    }

    fn genus(team: &str, rating: u8) -> Voice {
        Voice { inherited: true, ..vote(team, rating, 1.0) }
    }

    #[test]
    fn rows_of_one_team_are_one_voice() {
        let vote = |team: &str, rating| vote(team, rating, 0.5);
        let many = consensus(&[vote("a", 3), vote("a", 3), vote("a", 3), vote("b", 1), vote("c", 1)]).unwrap();
        assert_eq!(many.rating, 1);
        assert_eq!(many.voices.len(), 3);
    }
}
