//! Formulas in `MathML`, each with the meaning of its symbols and its source.

pub mod winter;
pub mod year;

use serde::Serialize;

use crate::{
    page::{Context, part::cite::Cite},
    record::{Id, said::Mark},
};

/// A formula.
#[derive(Debug, Clone, Serialize)]
pub struct Formula {
    /// The question it answers.
    pub name: &'static str,
    /// The formula in `MathML`.
    pub math: &'static str,
    /// The formula in words.
    pub words: &'static str,
    /// Symbol, meaning and unit.
    pub symbols: &'static [(&'static str, &'static str)],
    /// The ids of its sources in the handbook, each with how it came here.
    #[serde(skip)]
    pub sources: &'static [(&'static str, Mark)],
    /// What its sources do not say, and whose that is.
    pub own: &'static str,
}

/// A formula as pages show it.
#[derive(Debug, Clone, Serialize)]
pub struct Cited {
    /// The formula.
    #[serde(flatten)]
    pub formula: Formula,
    /// Its sources.
    pub cites: Vec<Cite>,
}

impl Formula {
    /// The formula with links to its sources.
    #[must_use]
    pub fn cited(self, context: &Context<'_>) -> Cited {
        let cite = |(id, mark): &(&str, Mark)| Cite::of(&Id::new(*id), *mark, context);
        Cited { cites: self.sources.iter().map(cite).collect(), formula: self }
    }
}

/// The weighted median.
#[must_use]
pub const fn median() -> Formula {
    Formula {
        name: "Rating",
        math: r#"<math display="block"><mrow><mi>r</mi><mo>=</mo><mo>min</mo><mo>{</mo><mi>k</mi><mo>:</mo><munder><mo>∑</mo><mrow><msub><mi>X</mi><mi>i</mi></msub><mo>≤</mo><mi>k</mi></mrow></munder><msub><mi>w</mi><mi>i</mi></msub><mo>≥</mo><mfrac><mn>1</mn><mn>2</mn></mfrac><mo>∑</mo><msub><mi>w</mi><mi>i</mi></msub><mo>}</mo></mrow></math>"#,
        words: "The lowest rating at which the voices that give it or less hold at least half of all the weight.",
        symbols: &[("r", "rating, 0 to 3"), ("Xᵢ", "rating of one voice"), ("wᵢ", "weight of that voice")],
        sources: &[("this-handbook", Mark::Ours)],
        own: "the weighted lower median, as any textbook has it; the weights are this handbook's own choice",
    }
}

/// The agreement between voices.
#[must_use]
pub const fn agreement() -> Formula {
    Formula {
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
    }
}

/// The weight of a green log.
#[must_use]
pub const fn weight() -> Formula {
    Formula {
        name: "Green weight",
        math: r#"<math display="block"><mrow><mi>W</mi><mo>=</mo><mfrac><mi>π</mi><mn>4</mn></mfrac><msup><mi>D</mi><mn>2</mn></msup><mi>L</mi><mo>·</mo><mi>w</mi><mfrac><mrow><mi>G</mi><mo>(</mo><mn>1</mn><mo>+</mo><mi>M</mi><mo>)</mo><mo>+</mo><mi>B</mi><msub><mi>G</mi><mi>b</mi></msub><mo>(</mo><mn>1</mn><mo>+</mo><msub><mi>M</mi><mi>b</mi></msub><mo>)</mo></mrow><mrow><mn>1</mn><mo>+</mo><mi>B</mi></mrow></mfrac></mrow></math>"#,
        words: "Volume over bark times the green density of wood and bark together; without figures for the bark, the wood's own density.",
        symbols: &[
            ("D, L", "diameter over bark at the middle, length"),
            ("w", "water, 62.4 lb/ft³ (999.6 kg/m³)"),
            ("G, M", "basic density of the wood, its moisture as a part of the dry weight"),
            ("B", "volume of bark over volume of wood"),
            ("G_b, M_b", "basic density and moisture of the bark"),
        ],
        sources: &[("fia", Mark::Read), ("wh4", Mark::Read)],
        own: "",
    }
}

/// The thickness of bark.
#[must_use]
pub const fn bark() -> Formula {
    Formula {
        name: "Bark thickness",
        math: r#"<math display="block"><mrow><mi>t</mi><mo>=</mo><mfrac><mrow><mi>D</mi><mo>−</mo><mo>(</mo><mi>a</mi><mo>+</mo><mi>b</mi><mi>D</mi><mo>)</mo></mrow><mn>2</mn></mfrac></mrow></math>"#,
        words: "Half of what the diameter loses when the bark is taken off, by a line fitted to measured trees.",
        symbols: &[("D", "diameter over bark, inches"), ("a, b", "constant, inches, and slope of the fitted line")],
        sources: &[("r9", Mark::Read)],
        own: "",
    }
}

/// Holes by area.
#[must_use]
pub const fn holes() -> Formula {
    Formula {
        name: "Holes",
        math: r#"<math display="block"><mrow><mi>N</mi><mo>=</mo><mfrac><mrow><mi>π</mi><mi>D</mi><mi>L</mi></mrow><mrow><mi>a</mi><mi>b</mi></mrow></mfrac></mrow></math>"#,
        words: "The bark of the log divided by the patch that one hole serves; whole holes are printed.",
        symbols: &[
            ("D, L", "diameter and length of the log"),
            ("a", "from hole to hole along the log"),
            ("b", "from row to row"),
        ],
        sources: &[],
        own: "geometry; the spacing is the pattern's",
    }
}

/// Spawn for a log.
#[must_use]
pub const fn spawn() -> Formula {
    Formula {
        name: "Spawn for a log",
        math: r#"<math display="block"><mrow><mi>s</mi><mo>=</mo><mfrac><mi>P</mi><mi>n</mi></mfrac><mo>·</mo><mfrac><mrow><mi>D</mi><mi>L</mi></mrow><mrow><msub><mi>D</mi><mn>0</mn></msub><msub><mi>L</mi><mn>0</mn></msub></mrow></mfrac><mspace width="2em"/><mi>packages</mi><mo>=</mo><mo>⌈</mo><mfrac><mrow><mi>m</mi><mi>s</mi></mrow><mi>P</mi></mfrac><mo>⌉</mo></mrow></math>"#,
        words: "The package divided by the logs it fills, in proportion to the bark of the log; packages are rounded up.",
        symbols: &[
            ("P, n", "weight of the package, logs that it fills"),
            ("D, L", "diameter and length of the log"),
            ("D₀, L₀", "diameter (middle of the stated range) and length for which n holds"),
            ("m", "number of logs"),
        ],
        sources: &[("common-practice", Mark::Memory)],
        own: "the scaling by bark is this handbook's own",
    }
}

/// Rest carried forward.
#[must_use]
pub const fn rest() -> Formula {
    Formula {
        name: "Inoculation after rest",
        math: r#"<math display="block"><mrow><mo>[</mo><msub><mi>F</mi><mn>1</mn></msub><mo>+</mo><msub><mi>R</mi><mn>1</mn></msub><mo>,</mo><mspace width="0.4em"/><msub><mi>F</mi><mn>2</mn></msub><mo>+</mo><msub><mi>R</mi><mn>2</mn></msub><mo>]</mo><mo>∩</mo><mi>I</mi></mrow></math>"#,
        words: "From the first felling day plus the least rest to the last felling day plus the most rest, within the days on which the farm inoculates.",
        symbols: &[
            ("F₁, F₂", "first and last felling day, after no-cut windows are taken away"),
            ("R₁, R₂", "least and most rest"),
            ("I", "the farm's own inoculation window, where it has one"),
        ],
        sources: &[],
        own: "intervals on the circle of the year; the rest is each source's",
    }
}

/// The usual day of an event.
#[must_use]
pub const fn usual() -> Formula {
    Formula {
        name: "Usual day of an event",
        math: r#"<math display="block"><mrow><mi>d</mi><mo>=</mo><mi>median</mi><mo>(</mo><msub><mi>d</mi><mn>1</mn></msub><mo>,</mo><mo>…</mo><mo>,</mo><msub><mi>d</mi><mi>n</mi></msub><mo>)</mo></mrow></math>"#,
        words: "The middle of the farm's own dates; of an even number of years, the later of the two middle days opens a window and the earlier closes one.",
        symbols: &[("d₁ … dₙ", "days of the year on which the event was observed")],
        sources: &[],
        own: "the farm's own observations",
    }
}
