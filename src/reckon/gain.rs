//! How many of the reckoned logs does this farm get?
//!
//! Part = Σ got / Σ reckoned, over felled trees whose logs were both reckoned by their stems and counted at cutting, from
//! two earlier winters and ten trees on; both limits are our choice. Rot, sweep, branches and a farm's own eye for a log
//! make the difference; no stem model knows them. Source: a ratio estimate, as in any textbook of sampling.

use std::collections::BTreeSet;

use super::formula::Formula;

/// Earlier winters from which the part is told.
pub const WINTERS: usize = 2;
/// Felled trees from which the part is told.
pub const TREES: usize = 10;

/// A felled tree: its winter, the logs that were reckoned of it and those that it gave.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cut {
    /// The winter in which it came down.
    pub winter: i16,
    /// Logs that were reckoned.
    pub reckoned: u32,
    /// Logs fit to fill that it gave.
    pub got: u32,
}

/// What a farm's trees gave beside what was reckoned of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Gain {
    /// Felled trees behind it.
    pub trees: usize,
    /// Winters in which they came down.
    pub winters: usize,
    /// Logs that were reckoned of them.
    pub reckoned: u32,
    /// Logs that they gave.
    pub got: u32,
}

/// The part of the reckoned logs that a farm gets.
pub const GAIN: Formula = Formula {
    name: "What this farm gets of the reckoned",
    math: r#"<math display="block"><mrow><mi>q</mi><mo>=</mo><mfrac><mrow><mo>∑</mo><mi>c</mi></mrow><mrow><mo>∑</mo><mi>r</mi></mrow></mfrac></mrow></math>"#,
    words: "The logs that felled trees gave by those that were reckoned of them. What a marked tree is told to give is its reckoned logs by this part; each is made whole so that the trees of a wood, added up in the order of their tags, are right to the half log.",
    symbols: &[
        ("q", "part of the reckoned logs that come out fit to fill"),
        ("c", "logs counted at cutting, of a tree of an earlier winter"),
        ("r", "logs that were reckoned of the same tree"),
    ],
    sources: &[],
    own: "a ratio, as in any textbook of sampling; from two winters and ten trees on, which is our choice",
};

impl Gain {
    /// What a farm got, where it has felled and counted enough.
    ///
    /// ```
    /// use hostwood::reckon::gain::{Cut, Gain};
    /// let cut: Vec<Cut> = (0..10).map(|tree| Cut { winter: 2024 + tree % 2, reckoned: 6, got: 5 }).collect();
    /// assert!((Gain::of(&cut).unwrap().part() - 5.0 / 6.0).abs() < 1e-9);
    /// assert_eq!(Gain::of(&cut[1..]), None);
    /// ```
    pub fn of(cut: &[Cut]) -> Option<Self> {
        let winters = cut.iter().map(|tree| tree.winter).collect::<BTreeSet<_>>().len();
        let sum = |of: fn(&Cut) -> u32| cut.iter().map(of).sum();
        let gain = Self { trees: cut.len(), winters, reckoned: sum(|tree| tree.reckoned), got: sum(|tree| tree.got) };
        (winters >= WINTERS && gain.trees >= TREES && gain.reckoned > 0).then_some(gain)
    }

    /// The part of the reckoned logs that it gets.
    pub fn part(&self) -> f64 {
        f64::from(self.got) / f64::from(self.reckoned)
    }

    /// The logs to be told of trees of one wood, in the order of their tags, from those that are reckoned.
    ///
    /// ```
    /// use hostwood::reckon::gain::Gain;
    /// let gain = Gain { trees: 40, winters: 3, reckoned: 200, got: 180 };
    /// assert_eq!(gain.share([5, 5, 5, 5]), [5, 4, 5, 4]); // 18 of 20
    /// ```
    pub fn share(&self, reckoned: impl IntoIterator<Item = u32>) -> Vec<u32> {
        let (mut sum, mut told) = (0, 0);
        let share = |logs| {
            sum += logs;
            let so_far = (f64::from(sum) * self.part()).round() as u32;
            let own = so_far - told;
            told = so_far;
            own
        };
        reckoned.into_iter().map(share).collect()
    }
}
