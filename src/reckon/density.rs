//! How dense is a stand, before and after?
//!
//! | quantity | formula | source |
//! |---|---|---|
//! | basal area of a tree | g = π / 576 D² (ft², D in inches) | Larsen |
//! | prism point | BA = factor × trees counted; a counted tree stands for factor / g trees an acre | Larsen; PS; SREF |
//! | fixed plots | a tree stands for 1 / (plots × size) trees an acre | Larsen |
//! | quadratic mean diameter | Q = √(BA / (π / 576 N)) | Larsen |
//! | stocking | −0.00507 N + 0.01698 ΣD + 0.00317 ΣD², per cent | Gingrich 1967, from memory; upland central hardwoods |
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | D | diameter over bark at breast height | in |
//! | N, ΣD, ΣD² | trees, their diameters, the squares of these, an acre | 1/ac, in/ac, in²/ac |
//! | BA | basal area | ft²/ac |
//!
//! A third of the basal area at most comes out in one entry (from memory). Not rounded here.

use super::formula::Formula;
use super::taper::SQUARE_FEET;
use crate::quantity::{Area, BasalArea, Length, Percent};
use crate::record::said::Mark;

/// The most of a stand's basal area that comes out at once (from memory).
pub const LARGEST_SHARE: f64 = 1.0 / 3.0;

/// Basal area and trees from a prism or plots.
pub const BASAL_AREA: Formula = Formula {
    name: "Basal area and trees",
    math: r#"<math display="block"><mrow><mi>BA</mi><mo>=</mo><mi>f</mi><mfrac><mrow><mi>n</mi></mrow><mrow><mi>k</mi></mrow></mfrac><mspace width="2em"/><mi>N</mi><mo>=</mo><mo>∑</mo><mfrac><mrow><mi>f</mi></mrow><mrow><mi>k</mi><mi>g</mi></mrow></mfrac><mspace width="2em"/><mi>g</mi><mo>=</mo><mfrac><mrow><mi>π</mi></mrow><mrow><mn>576</mn></mrow></mfrac><msup><mi>D</mi><mrow><mn>2</mn></mrow></msup></mrow></math>"#,
    words: "Each tree counted with the prism stands for the factor; divided by its own basal area it stands for so many trees. On plots a tree stands for one over the area measured.",
    symbols: &[
        ("f", "factor of the prism, ft²/ac"),
        ("n, k", "trees counted, points"),
        ("g", "basal area of a tree; ft² with D in inches"),
        ("N", "trees an acre"),
    ],
    sources: &[("larsen", Mark::Read), ("sref-handbook", Mark::Read)],
    own: "",
};

/// Quadratic mean diameter and stocking.
pub const QUADRATIC_MEAN: Formula = Formula {
    name: "Quadratic mean diameter and stocking",
    math: r#"<math display="block"><mrow><mi>Q</mi><mo>=</mo><msqrt><mfrac><mrow><mi>BA</mi></mrow><mrow><mi>π</mi><mo>/</mo><mn>576</mn><mo>·</mo><mi>N</mi></mrow></mfrac></msqrt><mspace width="2em"/><mi>S</mi><mo>=</mo><mo>−</mo><mn>0.00507</mn><mi>N</mi><mo>+</mo><mn>0.01698</mn><mo>∑</mo><mi>D</mi><mo>+</mo><mn>0.00317</mn><mo>∑</mo><msup><mi>D</mi><mrow><mn>2</mn></mrow></msup></mrow></math>"#,
    words: "The diameter of the tree of mean basal area; and stocking in per cent for upland central hardwoods.",
    symbols: &[("BA", "basal area, ft²/ac"), ("N, ∑D, ∑D²", "trees, diameters and their squares, an acre")],
    sources: &[("larsen", Mark::Read), ("gingrich-1967", Mark::Memory)],
    own: "",
};

/// What may come out of a stand.
pub const REMOVAL: Formula = Formula {
    name: "What may come out",
    math: r#"<math display="block"><mrow><mi>R</mi><mo>=</mo><mi>min</mi><mo>(</mo><mi>BA</mi><mo>−</mo><mi>T</mi><mo>,</mo><mfrac><mrow><mi>BA</mi></mrow><mrow><mn>3</mn></mrow></mfrac><mo>)</mo><mo>·</mo><mi>a</mi></mrow></math>"#,
    words: "Down to the target, and at most a third in one entry.",
    symbols: &[("BA, T", "basal area of the stand, basal area to keep"), ("a", "area of the stand")],
    sources: &[("common-practice", Mark::Memory)],
    own: "the stand's own target; a third as the most is the rule of the trade",
};

/// The density of a stand.
#[derive(Debug, Clone, PartialEq)]
pub struct Density {
    /// Basal area.
    pub basal_area: BasalArea,
    /// Its stems, where diameters were measured.
    pub stems: Option<Stems>,
}

/// The stems of an acre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stems {
    /// How many stand on an acre.
    pub an_acre: f64,
    /// The sum of their diameters, in inches.
    pub inches: f64,
}

/// What came out of a stand, or comes out.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Removal {
    /// How many trees; a part of one where they were reckoned from their basal area.
    pub trees: f64,
    /// The sum of their diameters, in inches.
    pub inches: f64,
    /// What their stems take up at breast height, in square feet.
    pub square_feet: f64,
}

impl Removal {
    /// Trees of these diameters.
    pub fn of(diameters: &[Length]) -> Self {
        let square_feet = diameters.iter().map(|diameter| tree(diameter).square_feet()).sum();
        Self { trees: diameters.len() as f64, inches: diameters.iter().map(Length::inches).sum(), square_feet }
    }

    /// So many trees of one thickness that take up so many square feet together.
    ///
    /// ```
    /// use hostwood::{quantity::Length, reckon::density::Removal};
    /// let two = Removal::alike(2.0, 2.0 * 0.19635);
    /// assert!((two.inches - 12.0).abs() < 1e-3); // two trees of 6 in
    /// ```
    pub fn alike(trees: f64, square_feet: f64) -> Self {
        Self { trees, inches: (trees * square_feet / SQUARE_FEET).sqrt(), square_feet }
    }

    /// Both together.
    pub fn and(self, other: Self) -> Self {
        Self {
            trees: self.trees + other.trees,
            inches: self.inches + other.inches,
            square_feet: self.square_feet + other.square_feet,
        }
    }
}

impl Density {
    /// From points counted with a prism of a factor, with the diameters of all counted trees.
    ///
    /// ```
    /// use hostwood::{quantity::{BasalArea, Length}, reckon::density::Density};
    /// let tally = [4.0, 6.0, 6.0, 8.0, 8.0, 10.0, 12.0].map(Length::of_inches);
    /// let stand = Density::of_prism(&BasalArea::of_square_feet_an_acre(10.0), &[7], &tally).unwrap();
    /// assert!((stand.basal_area.square_feet_an_acre() - 70.0).abs() < 1e-9);
    /// assert!((stand.stems.unwrap().an_acre - 304.81).abs() < 0.005); // derived example, factor 10
    /// assert!((stand.quadratic_mean().unwrap().inches() - 6.4888).abs() < 1e-4); // printed cut off, not rounded
    /// ```
    pub fn of_prism(factor: &BasalArea, counts: &[u32], diameters: &[Length]) -> Option<Self> {
        let points = counts.len() as f64;
        let counted: u32 = counts.iter().sum();
        if points == 0.0 {
            return None;
        }
        let feet = factor.square_feet_an_acre();
        let stands_for = |diameter: &Length| feet / (tree(diameter).square_feet() * points);
        let stems = (counted as usize == diameters.len() && counted > 0).then(|| Stems {
            an_acre: diameters.iter().map(stands_for).sum(),
            inches: diameters.iter().map(|diameter| diameter.inches() * stands_for(diameter)).sum(),
        });
        Some(Self { basal_area: BasalArea::of_square_feet_an_acre(feet * f64::from(counted) / points), stems })
    }

    /// From so many plots of one size, with the diameters of all their trees.
    ///
    /// ```
    /// use hostwood::{quantity::{Area, Length}, reckon::density::Density};
    /// let tally = [4.0, 6.0, 6.0, 8.0, 10.0].map(Length::of_inches);
    /// let plot = Density::of_plots(&Area::read("0.1 ac").unwrap(), 1, &tally).unwrap();
    /// assert!((plot.basal_area.square_feet_an_acre() - 13.7445).abs() < 5e-5); // derived example, a tenth of an acre
    /// assert!((plot.quadratic_mean().unwrap().inches() - 7.0993).abs() < 5e-5);
    /// ```
    pub fn of_plots(size: &Area, number: u32, diameters: &[Length]) -> Option<Self> {
        let acres = size.acres() * f64::from(number);
        let all = Removal::of(diameters);
        (acres > 0.0).then(|| Self {
            basal_area: BasalArea::of_square_feet_an_acre(all.square_feet / acres),
            stems: Some(Stems { an_acre: all.trees / acres, inches: all.inches / acres }),
        })
    }

    /// What is left when trees of these diameters come out of an area.
    pub fn without(&self, diameters: &[Length], area: &Area) -> Self {
        self.less(Removal::of(diameters), area)
    }

    /// What is left when something comes out of an area.
    pub fn less(&self, out: Removal, area: &Area) -> Self {
        let acres = area.acres();
        let stems = self.stems.map(|stems| Stems {
            an_acre: (stems.an_acre - out.trees / acres).max(0.0),
            inches: (stems.inches - out.inches / acres).max(0.0),
        });
        let left = (self.basal_area.square_feet_an_acre() - out.square_feet / acres).max(0.0);
        Self { basal_area: BasalArea::of_square_feet_an_acre(left), stems }
    }

    /// Quadratic mean diameter.
    ///
    /// ```
    /// use hostwood::{quantity::BasalArea, reckon::density::{Density, Stems}};
    /// let stems = Some(Stems { an_acre: 200.0, inches: 1600.0 });
    /// let stand = Density { basal_area: BasalArea::of_square_feet_an_acre(80.0), stems };
    /// assert!((stand.quadratic_mean().unwrap().inches() - 8.5638).abs() < 5e-5); // derived example, 80 ft²/ac and 200 trees
    /// ```
    pub fn quadratic_mean(&self) -> Option<Length> {
        let stems = self.stems.filter(|stems| stems.an_acre > 0.0)?;
        Some(Length::of_inches((self.basal_area.square_feet_an_acre() / (SQUARE_FEET * stems.an_acre)).sqrt()))
    }

    /// Stocking, by the equation for upland central hardwoods (from memory).
    ///
    /// ```
    /// use hostwood::{quantity::{BasalArea, Length}, reckon::density::{Density, Stems, tree}};
    /// let basal_area = BasalArea::of_square_feet_an_acre(200.0 * tree(&Length::of_inches(10.0)).square_feet());
    /// let stand = Density { basal_area, stems: Some(Stems { an_acre: 200.0, inches: 2000.0 }) };
    /// assert!((stand.stocking().unwrap().base() - 96.35).abs() < 0.005); // check value, 200 trees of 10 in
    /// ```
    pub fn stocking(&self) -> Option<Percent> {
        let squares = self.basal_area.square_feet_an_acre() / SQUARE_FEET;
        let percent = |stems: Stems| -0.005_07 * stems.an_acre + 0.016_98 * stems.inches + 0.003_17 * squares;
        self.stems.map(|stems| Percent::of_part(percent(stems) / 100.0))
    }
}

/// Basal area of one tree by its diameter.
///
/// ```
/// use hostwood::{quantity::Length, reckon::density::tree};
/// let of = |inches| tree(&Length::of_inches(inches)).square_feet();
/// assert!((of(6.0) - 0.19635).abs() < 5e-6 && (of(10.0) - 0.54542).abs() < 5e-6); // derived examples
/// ```
pub fn tree(diameter: &Length) -> Area {
    Area::of_square_feet(SQUARE_FEET * diameter.inches().powi(2))
}

/// How much basal area may come out of a stand of an area: down to the target, and at most a third.
///
/// ```
/// use hostwood::{quantity::{Area, BasalArea}, reckon::density::allowance};
/// let (feet, area) = (BasalArea::of_square_feet_an_acre, Area::read("2 ac").unwrap());
/// let most = allowance(&feet(100.0), Some(&feet(70.0)), &area);
/// assert!((most.square_feet() - 60.0).abs() < 1e-9); // 30 of 100 ft²/ac on 2 acres
/// assert!(allowance(&feet(60.0), Some(&feet(70.0)), &area).square_feet() == 0.0); // below the target already
/// ```
pub fn allowance(stands: &BasalArea, target: Option<&BasalArea>, area: &Area) -> Area {
    let above = target.map_or(f64::INFINITY, |target| stands.base() - target.base());
    Area::of_square_metres(above.min(stands.base() * LARGEST_SHARE).max(0.0) * area.base())
}
