//! How dense is a stand, before and after?
//!
//! | quantity | formula | source |
//! |---|---|---|
//! | basal area of a tree | g = π / 576 D² (ft², D in inches) | Larsen |
//! | prism point | BA = factor × trees counted; a counted tree stands for factor / g trees an acre | Larsen; PS; SREF |
//! | fixed plots | a tree stands for 1 / (plots × size) trees an acre | Larsen |
//! | quadratic mean diameter | Q = √(BA / (π / 576 N)) | Larsen |
//! | stocking | −0.00507 N + 0.01698 ΣD + 0.00317 ΣD², per cent | Gingrich 1967, from memory; upland central hardwoods |
//! | limiting distance | 8.69626 / √factor × D (ft, D in inches) | PS |
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | D | diameter over bark at breast height | in |
//! | N, ΣD, ΣD² | trees, their diameters, the squares of these, an acre | 1/ac, in/ac, in²/ac |
//! | BA | basal area | ft²/ac |
//!
//! A third of the basal area at most comes out in one entry (from memory). Not rounded here.

use super::taper::SQUARE_FEET;

/// The most of a stand's basal area that comes out at once (from memory).
pub const LARGEST_SHARE: f64 = 1.0 / 3.0;

/// The density of a stand, an acre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Density {
    /// Basal area, ft²/ac.
    pub basal_area: f64,
    /// Trees an acre and the sum of their diameters (in/ac), where diameters were measured.
    pub trees: Option<[f64; 2]>,
}

impl Density {
    /// From points counted with a prism of a factor in ft²/ac, with the diameters of all counted trees in inches.
    ///
    /// ```
    /// use hostwood::reckon::density::Density;
    /// let tally = [4.0, 6.0, 6.0, 8.0, 8.0, 10.0, 12.0];
    /// let stand = Density::of_prism(10.0, &[7], &tally).unwrap();
    /// assert!((stand.basal_area - 70.0).abs() < 1e-9);
    /// assert!((stand.trees.unwrap()[0] - 304.81).abs() < 0.005); // derived example, factor 10
    /// assert!((stand.quadratic_mean().unwrap() - 6.4888).abs() < 1e-4); // printed cut off, not rounded
    /// ```
    #[must_use]
    pub fn of_prism(factor: f64, counts: &[u32], diameters: &[f64]) -> Option<Self> {
        let points = counts.len() as f64;
        let counted: u32 = counts.iter().sum();
        if points == 0.0 {
            return None;
        }
        let stands_for = |inches: f64| factor / (tree(inches) * points);
        let trees = (counted as usize == diameters.len() && counted > 0).then(|| {
            [
                diameters.iter().map(|inches| stands_for(*inches)).sum(),
                diameters.iter().map(|inches| inches * stands_for(*inches)).sum(),
            ]
        });
        Some(Self { basal_area: factor * f64::from(counted) / points, trees })
    }

    /// From plots of so many acres each, with the diameters of all their trees in inches.
    ///
    /// ```
    /// use hostwood::reckon::density::Density;
    /// let plot = Density::of_plots(0.1, 1, &[4.0, 6.0, 6.0, 8.0, 10.0]).unwrap();
    /// assert!((plot.basal_area - 13.7445).abs() < 5e-5); // derived example, a tenth of an acre
    /// assert!((plot.quadratic_mean().unwrap() - 7.0993).abs() < 5e-5);
    /// ```
    #[must_use]
    pub fn of_plots(acres: f64, number: u32, diameters: &[f64]) -> Option<Self> {
        let measured = acres * f64::from(number);
        (measured > 0.0).then(|| Self {
            basal_area: diameters.iter().map(|inches| tree(*inches)).sum::<f64>() / measured,
            trees: Some([diameters.len() as f64 / measured, diameters.iter().sum::<f64>() / measured]),
        })
    }

    /// What is left when trees of these diameters come out of so many acres.
    #[must_use]
    pub fn without(&self, diameters: &[f64], acres: f64) -> Self {
        let taken: f64 = diameters.iter().map(|inches| tree(*inches)).sum();
        let trees = self.trees.map(|[trees, sum]| {
            [(trees - diameters.len() as f64 / acres).max(0.0), (sum - diameters.iter().sum::<f64>() / acres).max(0.0)]
        });
        Self { basal_area: (self.basal_area - taken / acres).max(0.0), trees }
    }

    /// Quadratic mean diameter, in inches.
    ///
    /// ```
    /// use hostwood::reckon::density::Density;
    /// let stand = Density { basal_area: 80.0, trees: Some([200.0, 1600.0]) };
    /// assert!((stand.quadratic_mean().unwrap() - 8.5638).abs() < 5e-5); // derived example, 80 ft²/ac and 200 trees
    /// ```
    #[must_use]
    pub fn quadratic_mean(&self) -> Option<f64> {
        self.trees.filter(|[trees, _]| *trees > 0.0).map(|[trees, _]| (self.basal_area / (SQUARE_FEET * trees)).sqrt())
    }

    /// Stocking in per cent, by the equation for upland central hardwoods (from memory).
    ///
    /// ```
    /// use hostwood::reckon::density::{Density, tree};
    /// let stand = Density { basal_area: 200.0 * tree(10.0), trees: Some([200.0, 2000.0]) };
    /// assert!((stand.stocking().unwrap() - 96.35).abs() < 0.005); // check value, 200 trees of 10 in
    /// ```
    #[must_use]
    pub fn stocking(&self) -> Option<f64> {
        self.trees.map(|[trees, sum]| -0.005_07 * trees + 0.016_98 * sum + 0.003_17 * self.basal_area / SQUARE_FEET)
    }
}

/// Basal area of one tree, in square feet, from its diameter in inches.
///
/// ```
/// use hostwood::reckon::density::tree;
/// assert!((tree(6.0) - 0.19635).abs() < 5e-6 && (tree(10.0) - 0.54542).abs() < 5e-6); // derived examples
/// ```
#[must_use]
pub fn tree(inches: f64) -> f64 {
    SQUARE_FEET * inches.powi(2)
}

/// How far away a tree of so many inches still counts with a prism of a factor in ft²/ac, in feet.
///
/// ```
/// use hostwood::reckon::density::limiting_distance;
/// assert!((limiting_distance(10.0, 12.0) - 33.0).abs() < 0.05); // PS: factor 10, 12 in
/// assert!((limiting_distance(20.0, 12.0) - 23.3).abs() < 0.05); // PS: factor 20, 12 in
/// ```
#[must_use]
pub fn limiting_distance(factor: f64, inches: f64) -> f64 {
    8.696_26 / factor.sqrt() * inches
}

/// How much basal area may come out of a stand, in square feet: down to the target, and at most a third.
///
/// ```
/// use hostwood::reckon::density::allowance;
/// assert!((allowance(100.0, Some(70.0), 2.0) - 60.0).abs() < 1e-9); // 30 of 100 ft²/ac on 2 acres
/// assert!(allowance(60.0, Some(70.0), 2.0) == 0.0); // what stands is below the target already
/// ```
#[must_use]
pub fn allowance(basal_area: f64, target: Option<f64>, acres: f64) -> f64 {
    let above = target.map_or(f64::INFINITY, |target| basal_area - target);
    above.min(basal_area * LARGEST_SHARE).max(0.0) * acres
}
