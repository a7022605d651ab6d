//! How fast does a wood grow, and how many stems grow into log size each year?
//!
//! | quantity | formula | source |
//! |---|---|---|
//! | growth of a tree in a year | ΔG = 0.7 b₁ S (1 − e^(−b₂ D)) m, m = e^(−b₃ L), 0.5 at least | Teck & Hilt 1991, as the Forest Service codes it |
//! | growth between two counts | (BA₂ + R − BA₁) / n | the balance of two counts |
//! | stems into log size | n₂ / 2 in · ΔD · a | ours: the stems of the two inches above the limit stand for those below it |
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | D, ΔD | diameter over bark at breast height, and what it gains in a year | in |
//! | ΔG | what its basal area gains in a year | ft² |
//! | S | site index, the height that leading trees reach in 50 years | ft |
//! | L | basal area of the trees that are thicker | ft²/ac |
//! | BA₁, BA₂, R, n | the earlier count, the later one, what came out between, the summers between | ft²/ac |
//!
//! The model holds in the north-eastern United States; elsewhere two counts tell. Not rounded here.

use super::formula::Formula;
use super::taper::SQUARE_FEET;
use crate::record::said::Mark;

/// Site indices of poor and of good ground in feet, between which the growth of a stand is told (ours).
pub const SITES: [f64; 2] = [50.0, 70.0];

/// The part of the potential growth that trees reach.
const REACHED: f64 = 0.7;

/// The part of its growth that a tree keeps at least, however many are thicker.
const LEAST: f64 = 0.5;

/// Growth.
pub const GROWTH: Formula = Formula {
    name: "Growth, and stems that reach log size",
    math: r#"<math display="block"><mrow><mi>Δ</mi><mi>G</mi><mo>=</mo><mn>0.7</mn><msub><mi>b</mi><mrow><mn>1</mn></mrow></msub><mi>S</mi><mo>(</mo><mn>1</mn><mo>−</mo><msup><mi>e</mi><mrow><mo>−</mo><msub><mi>b</mi><mrow><mn>2</mn></mrow></msub><mi>D</mi></mrow></msup><mo>)</mo><msup><mi>e</mi><mrow><mo>−</mo><msub><mi>b</mi><mrow><mn>3</mn></mrow></msub><mi>L</mi></mrow></msup><mspace width="2em"/><mi>Δ</mi><mi>BA</mi><mo>=</mo><mfrac><mrow><msub><mi>BA</mi><mrow><mn>2</mn></mrow></msub><mo>+</mo><mi>R</mi><mo>−</mo><msub><mi>BA</mi><mrow><mn>1</mn></mrow></msub></mrow><mrow><mi>n</mi></mrow></mfrac><mspace width="2em"/><mi>I</mi><mo>=</mo><mfrac><mrow><msub><mi>N</mi><mrow><mn>2</mn></mrow></msub></mrow><mrow><mn>2</mn></mrow></mfrac><mi>Δ</mi><mi>D</mi><mi>a</mi></mrow></math>"#,
    words: "By two counts where there are two: what grew is the later one and what came out, less the earlier. Else by the published model of each wood, on poor and on good ground; what thicker trees take away is halved at most. What a trial of black cherry found lies within that range, and so does what release gave red oak; to sugar maple, yellow birch and white ash it gives more after a release than a trial of 31 years found. The stems of the two inches above the limit of log size stand for those below it.",
    symbols: &[
        ("G, D", "basal area of a tree, ft²; its diameter, in"),
        ("S", "site index at 50 years, ft: 50 to 70 here"),
        ("L", "basal area of the thicker trees, ft²/ac"),
        ("R, n", "what came out between two counts, ft²/ac; the summers between"),
        ("I, N₂, a", "stems a year; stems of the two inches above the limit, an acre; acres"),
    ],
    sources: &[
        ("teck-hilt-1991", Mark::Copy),
        ("smith-miller-lamson-1994", Mark::Copy),
        ("ward-2002", Mark::Copy),
        ("leak-solomon-1997", Mark::Copy),
    ],
    own: "the two site indices, and that stems just below log size are as many as those just above; trees that die are not taken off",
};

/// How a wood grows, by the published model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rate {
    /// Square feet a year for each foot of site index.
    pub site: f64,
    /// How soon thickness tells, by the inch.
    pub thickness: f64,
    /// How much thicker neighbours take away, by the square foot on an acre.
    pub crowding: f64,
}

/// What the diameter of a tree gains in a year, in inches.
///
/// ```
/// use hostwood::reckon::growth::{Rate, a_year};
/// let red_oak = Rate { site: 0.000_892_0, thickness: 0.097_970_2, crowding: 0.018_024 };
/// // By hand: 0.7 × 0.000892 × 60 × (1 − e^−0.78376) × 0.5 = 0.010178 ft², so 8 in becomes 8.1158 in.
/// assert!((a_year(&red_oak, 8.0, 60.0, 40.0) - 0.1158).abs() < 5e-5);
/// ```
pub fn a_year(rate: &Rate, inches: f64, site: f64, thicker: f64) -> f64 {
    let potential = REACHED * rate.site * site * (1.0 - (-rate.thickness * inches).exp());
    let gains = potential * (-rate.crowding * thicker).exp().max(LEAST);
    (inches.powi(2) + gains / SQUARE_FEET).sqrt() - inches
}

/// What the diameter of a tree gains in so many years, in inches.
///
/// ```
/// use hostwood::reckon::growth::{Rate, in_years};
/// let cherry = Rate { site: 0.000_792_9, thickness: 0.156_890_4, crowding: 0.016_537 };
/// // Smith, Miller & Lamson 1994: black cherry of 12.5 in gained 1.0 in in five years where it was free, else 0.6 in.
/// assert!((in_years(&cherry, 12.5, 60.0, 0.0, 5) - 1.0).abs() < 0.1);
/// assert!((in_years(&cherry, 12.5, 60.0, 80.0, 5) - 0.6).abs() < 0.1);
/// ```
pub fn in_years(rate: &Rate, inches: f64, site: f64, thicker: f64, years: u32) -> f64 {
    (0..years).fold(inches, |now, _| now + a_year(rate, now, site, thicker)) - inches
}

/// What a stand gained a year between two counts, in the unit of the counts; `None` where no summer lies between.
///
/// ```
/// use hostwood::reckon::growth::between;
/// assert_eq!(between(90.0, 20.0, 82.0, 4), Some(3.0)); // 82 + 20 − 90 in four summers
/// assert_eq!(between(90.0, 20.0, 82.0, 0), None);
/// ```
pub fn between(earlier: f64, out: f64, later: f64, summers: i16) -> Option<f64> {
    (summers > 0).then(|| (later + out - earlier) / f64::from(summers))
}

/// Stems of one thickness: how thick in inches, and how many.
pub type Stems = (f64, f64);

/// The basal area of the stems that are thicker than one, in square feet.
pub fn thicker(stems: &[Stems], inches: f64) -> f64 {
    stems.iter().filter(|(other, _)| *other > inches).map(|(other, number)| SQUARE_FEET * other.powi(2) * number).sum()
}

/// The stems that reach a thickness each year, where each gains so many inches a year.
///
/// ```
/// use hostwood::reckon::growth::into;
/// // 30 stems in the two inches above 5 in, that gain a tenth of an inch a year.
/// assert!((into(&[(5.5, 20.0), (6.5, 10.0), (9.0, 40.0)], 5.0, 0.1) - 1.5).abs() < 1e-9);
/// ```
pub fn into(stems: &[Stems], limit: f64, gains: f64) -> f64 {
    const WINDOW: f64 = 2.0;
    let near = stems.iter().filter(|(inches, _)| (limit..limit + WINDOW).contains(inches));
    near.map(|(_, number)| number).sum::<f64>() / WINDOW * gains
}

/// The winter in which the last stem between two thicknesses falls, counted from nought, where so many fall each winter and
/// so many grow into that size and each gains so much; `None` where they outlast the years looked at.
///
/// ```
/// use hostwood::reckon::growth::last;
/// assert_eq!(last(&[(5.5, 10.0)], [5.0, 7.0], 3.0, 0.0, 0.0), Some(3)); // 3, 3, 3 and the last one
/// assert_eq!(last(&[(5.5, 10.0)], [5.0, 7.0], 3.0, 3.0, 0.0), None); // as many grow as fall
/// ```
pub fn last(stems: &[Stems], sizes: [f64; 2], fall: f64, grow: f64, gains: f64) -> Option<i16> {
    const YEARS: i16 = 60;
    let mut stems: Vec<Stems> =
        stems.iter().copied().filter(|(inches, _)| (sizes[0]..=sizes[1]).contains(inches)).collect();
    for year in 0..YEARS {
        let stands: f64 = stems.iter().map(|(_, number)| number).sum();
        if stands <= fall {
            return Some(year);
        }
        let left = 1.0 - fall / stands;
        stems = stems.into_iter().map(|(inches, number)| (inches + gains, number * left)).collect();
        stems.retain(|(inches, _)| *inches <= sizes[1]);
        stems.push((sizes[0], grow));
    }
    None
}
