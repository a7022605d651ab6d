//! How thick is a stem at any height?
//!
//! | part of the stem | formula |
//! |---|---|
//! | breast height | d₄ = a₄ + b₄ D, or D − 0.1 in where that is not below D |
//! | at 17.3 ft | F = d₄ (a₁₇ + b₁₇ (17.3 / H)²) |
//! | below 4.5 ft | DOB = D + D B₁ (4.5 − h) / (h + 1), DIB = d₄ + D B₂ (4.5 − h) / (h + 1) |
//! | 4.5 to 17.3 ft | DIB² = d₄² − (d₄² − F²) (s − (1 − h/H)^p) / (s − (1 − 17.3/H)^p), s = (1 − 4.5/H)^p |
//! | above 17.3 ft | DIB² = F² (b (z − 1)² + \[z < a\] (1 − b) (a − z)² / a²), z = (h − 17.3) / (H − 17.3) |
//! | over bark, above 4.5 ft | DOB = DIB D / d₄ (a constant share of bark, this project's assumption) |
//! | without coefficients | DOB = D ((H − h) / (H − 4.5))^0.8 (Ormerod 1973) |
//!
//! | symbol | meaning | unit | range |
//! |---|---|---|---|
//! | D | diameter over bark at 4.5 ft | in | 4 to 21: 4-inch stems stand at the edge of the data, the thickest check tree has 20.6 in |
//! | H | height of the tree | ft | above 17.4 |
//! | h | height above the ground | ft | 0 to H |
//!
//! Source: Clark, Souter & Schlaegel 1991 with the coefficients of the Eastern Region; Raile 1982 below breast height;
//! Ormerod 1973, whose exponent 0.8 is the quoted form's. Not rounded here.

use std::f64::consts::PI;

use super::Gap;
use super::formula::Formula;
use crate::quantity::Length;
use crate::record::said::Mark;

/// Square feet of a circle one inch across: π / 576.
pub const SQUARE_FEET: f64 = PI / 576.0;

/// Breast height and the height of the form ratio, in feet.
const BREAST: f64 = 4.5;
const FORM: f64 = 17.3;

/// The exponent of the fallback.
const ORMEROD: f64 = 0.8;

/// Diameters for which the model is used, in inches; the height above which it is, in feet.
const DIAMETERS: [f64; 2] = [4.0, 21.0];
const LOWEST_TREE: f64 = 17.4;

/// The stem from breast height to 17.3 ft.
pub const LOWER_STEM: Formula = Formula {
    name: "The lower stem",
    math: r#"<math display="block"><mrow><msup><mi>DIB</mi><mrow><mn>2</mn></mrow></msup><mo>=</mo><msup><msub><mi>d</mi><mrow><mn>4</mn></mrow></msub><mrow><mn>2</mn></mrow></msup><mo>−</mo><mo>(</mo><msup><msub><mi>d</mi><mrow><mn>4</mn></mrow></msub><mrow><mn>2</mn></mrow></msup><mo>−</mo><msup><mi>F</mi><mrow><mn>2</mn></mrow></msup><mo>)</mo><mfrac><mrow><mi>s</mi><mo>−</mo><msup><mrow><mo>(</mo><mn>1</mn><mo>−</mo><mi>h</mi><mo>/</mo><mi>H</mi><mo>)</mo></mrow><mrow><mi>p</mi></mrow></msup></mrow><mrow><mi>s</mi><mo>−</mo><msup><mrow><mo>(</mo><mn>1</mn><mo>−</mo><mn>17.3</mn><mo>/</mo><mi>H</mi><mo>)</mo></mrow><mrow><mi>p</mi></mrow></msup></mrow></mfrac><mspace width="2em"/><mi>s</mi><mo>=</mo><msup><mrow><mo>(</mo><mn>1</mn><mo>−</mo><mn>4.5</mn><mo>/</mo><mi>H</mi><mo>)</mo></mrow><mrow><mi>p</mi></mrow></msup></mrow></math>"#,
    words: "From breast height up to 17.3 ft the stem passes through the diameter at breast height and the one at 17.3 ft. Over bark it is thicker by D / d₄ throughout, which is this project's own assumption.",
    symbols: &[
        ("d₄", "diameter inside bark at breast height: a₄ + b₄ D"),
        ("D", "diameter over bark at breast height, inches"),
        ("p", "exponent of the species"),
    ],
    sources: &[("r9", Mark::Read)],
    own: "",
};

/// The stem above 17.3 ft.
pub const UPPER_STEM: Formula = Formula {
    name: "The upper stem",
    math: r#"<math display="block"><mrow><msup><mi>DIB</mi><mrow><mn>2</mn></mrow></msup><mo>=</mo><msup><mi>F</mi><mrow><mn>2</mn></mrow></msup><mo>(</mo><mi>b</mi><msup><mrow><mo>(</mo><mi>z</mi><mo>−</mo><mn>1</mn><mo>)</mo></mrow><mrow><mn>2</mn></mrow></msup><mo>+</mo><mo>[</mo><mi>z</mi><mo>&lt;</mo><mi>a</mi><mo>]</mo><mfrac><mrow><mn>1</mn><mo>−</mo><mi>b</mi></mrow><mrow><msup><mi>a</mi><mrow><mn>2</mn></mrow></msup></mrow></mfrac><msup><mrow><mo>(</mo><mi>a</mi><mo>−</mo><mi>z</mi><mo>)</mo></mrow><mrow><mn>2</mn></mrow></msup><mo>)</mo><mspace width="2em"/><mi>z</mi><mo>=</mo><mfrac><mrow><mi>h</mi><mo>−</mo><mn>17.3</mn></mrow><mrow><mi>H</mi><mo>−</mo><mn>17.3</mn></mrow></mfrac></mrow></math>"#,
    words: "Above that the stem runs from the diameter at 17.3 ft to nothing at the tip, with one bend.",
    symbols: &[
        ("DIB", "diameter inside bark at height h, inches"),
        ("F", "diameter inside bark at 17.3 ft: d₄ (a₁₇ + b₁₇ (17.3 / H)²)"),
        ("a, b", "bend and form of the species"),
        ("h, H", "height above the ground and of the tree, feet"),
    ],
    sources: &[("r9", Mark::Read)],
    own: "",
};

/// The butt below breast height.
pub const BUTT: Formula = Formula {
    name: "Butt below breast height",
    math: r#"<math display="block"><mrow><mi>DOB</mi><mo>=</mo><mi>D</mi><mo>+</mo><mi>D</mi><msub><mi>B</mi><mrow><mn>1</mn></mrow></msub><mfrac><mrow><mn>4.5</mn><mo>−</mo><mi>h</mi></mrow><mrow><mi>h</mi><mo>+</mo><mn>1</mn></mrow></mfrac></mrow></math>"#,
    words: "The swell of the butt, over bark.",
    symbols: &[("DOB", "diameter over bark at height h, inches"), ("B₁", "swell of the species or its group")],
    sources: &[("raile-1982", Mark::Read)],
    own: "",
};

/// The stem without coefficients.
pub const FALLBACK: Formula = Formula {
    name: "Stem without coefficients",
    math: r#"<math display="block"><mrow><mi>DOB</mi><mo>=</mo><mi>D</mi><msup><mrow><mo>(</mo><mfrac><mrow><mi>H</mi><mo>−</mo><mi>h</mi></mrow><mrow><mi>H</mi><mo>−</mo><mn>4.5</mn></mrow></mfrac><mo>)</mo></mrow><mrow><mn>0.8</mn></mrow></msup></mrow></math>"#,
    words: "Where a wood has no coefficients, one curve stands in for every stem.",
    symbols: &[("D, H, h", "as above")],
    sources: &[("ormerod-1973", Mark::SecondHand)],
    own: "",
};

/// Coefficients of one species or group, in inches and feet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coefficients {
    /// Constant and slope of the diameter inside bark at breast height.
    pub breast: [f64; 2],
    /// Constant and slope of the form ratio.
    pub form: [f64; 2],
    /// Exponent of the lower stem.
    pub lower: f64,
    /// Bend and form of the upper stem.
    pub upper: [f64; 2],
    /// Swell of the butt outside and inside bark.
    pub stump: [f64; 2],
}

/// A stem whose thickness can be told at any height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stem {
    dbh: f64,
    height: f64,
    scale: f64,
    model: Model,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Model {
    Clark { by: Coefficients, breast: f64, form: f64 },
    Ormerod,
}

impl Stem {
    /// The stem of a tree; without coefficients the fallback stands in.
    ///
    /// # Errors
    ///
    /// A [`Gap`] where the tree is thinner, thicker or lower than the model reaches.
    ///
    /// ```
    /// use hostwood::{quantity::Length, reckon::taper::{Coefficients, Stem}};
    /// let red_oak = Coefficients {
    ///     breast: [-0.193, 0.94], form: [0.921, -1.05], lower: 2.331, upper: [0.355, 1.247], stump: [0.12798, 0.12506],
    /// };
    /// let stem = Stem::of(&Length::of_inches(8.0), &Length::of_feet(55.0), Some(red_oak)).unwrap();
    /// assert!((stem.inside(20.0).unwrap() - 5.734).abs() < 0.0005); // reference profile, red oak, 8 in and 55 ft
    /// ```
    pub fn of(dbh: &Length, height: &Length, by: Option<Coefficients>) -> Result<Self, Gap> {
        let (dbh, height) = (dbh.inches(), height.feet());
        let [thinnest, thickest] = DIAMETERS;
        if dbh < thinnest - 1e-9 {
            return Err(Gap::Outside(
                "the stem is thinner than the 4 in at which the measured trees begin; count its logs by eye",
            ));
        }
        if dbh > thickest + 1e-9 {
            return Err(Gap::Outside(
                "the stem is thicker than the 21 in at which the measured trees end; count its logs by eye",
            ));
        }
        if height <= LOWEST_TREE {
            return Err(Gap::Outside("the tree is not above the 17.4 ft that the model needs; count its logs by eye"));
        }
        let model = match by {
            Some(by) => {
                let straight = by.breast[0] + by.breast[1] * dbh;
                let breast = if straight >= dbh || straight <= 0.0 { dbh - 0.1 } else { straight };
                Model::Clark { by, breast, form: breast * (by.form[0] + by.form[1] * (FORM / height).powi(2)) }
            }
            None => Model::Ormerod,
        };
        Ok(Self { dbh, height, scale: 1.0, model })
    }

    /// The same stem, thinner everywhere by a factor, to see how far a count depends on the model.
    pub const fn thinner(self, scale: f64) -> Self {
        Self { scale, ..self }
    }

    /// Height of the tree, in feet.
    pub const fn height(&self) -> f64 {
        self.height
    }

    /// Diameter over bark at a height in feet, in inches.
    pub fn outside(&self, at: f64) -> f64 {
        let at = at.clamp(0.0, self.height);
        self.scale
            * match self.model {
                Model::Clark { by, .. } if at < BREAST => self.dbh * (1.0 + by.stump[0] * swell(at)),
                Model::Clark { by, breast, form } => self.clark(by, breast, form, at) * self.dbh / breast,
                Model::Ormerod => self.dbh * ((self.height - at) / (self.height - BREAST)).powf(ORMEROD),
            }
    }

    /// Diameter inside bark at a height in feet, in inches; `None` by the fallback, which knows no bark.
    pub fn inside(&self, at: f64) -> Option<f64> {
        let at = at.clamp(0.0, self.height);
        match self.model {
            Model::Clark { by, breast, .. } if at < BREAST => {
                Some(self.scale * (breast + self.dbh * by.stump[1] * swell(at)))
            }
            Model::Clark { by, breast, form } => Some(self.scale * self.clark(by, breast, form, at)),
            Model::Ormerod => None,
        }
    }

    fn clark(&self, by: Coefficients, breast: f64, form: f64, at: f64) -> f64 {
        let squared = if at <= FORM {
            let part = |height: f64| (1.0 - height / self.height).powf(by.lower);
            let (top, here, end) = (part(BREAST), part(at), part(FORM));
            breast.powi(2) - (breast.powi(2) - form.powi(2)) * (top - here) / (top - end)
        } else {
            let z = (at - FORM) / (self.height - FORM);
            let [bend, shape] = by.upper;
            let below = if z < bend { (1.0 - shape) / bend.powi(2) * (bend - z).powi(2) } else { 0.0 };
            form.powi(2) * (shape * (z - 1.0).powi(2) + below)
        };
        squared.max(0.0).sqrt()
    }

    /// The height in feet at which the stem over or inside bark is so many inches thick, by halving.
    pub fn height_where(&self, inches: f64, thickness: impl Fn(&Self, f64) -> f64) -> f64 {
        let (mut low, mut high) = (0.0, self.height);
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if thickness(self, middle) > inches {
                low = middle;
            } else {
                high = middle;
            }
        }
        low
    }

    /// Volume between two heights in feet, in cubic feet, by Newton's rule over short pieces.
    pub fn volume(&self, from: f64, to: f64, thickness: impl Fn(&Self, f64) -> f64) -> f64 {
        let pieces = ((to - from) / 0.1).ceil().max(1.0);
        let step = (to - from) / pieces;
        let area = |at: f64| SQUARE_FEET * thickness(self, at).powi(2);
        (0..pieces as u32)
            .map(|piece| from + f64::from(piece) * step)
            .map(|at| super::volume::newton(area(at), area(at + step / 2.0), area(at + step), step))
            .sum()
    }
}

/// What the swell of the butt is multiplied by at a height below breast height.
fn swell(at: f64) -> f64 {
    (BREAST - at) / (at + 1.0)
}
