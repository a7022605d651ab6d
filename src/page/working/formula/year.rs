//! The formulas of the year and of the yard.

use super::Formula;
use crate::record::said::Mark;

/// The curve of the year.
#[must_use]
pub const fn curve() -> Formula {
    Formula {
        name: "The usual mean of a day",
        math: r#"<math display="block"><mrow><mfrac><mn>2</mn><msub><mi>h</mi><mi>p</mi></msub></mfrac><msub><mi>v</mi><mi>p</mi></msub><mo>+</mo><mrow><mo>(</mo><mfrac><mn>4</mn><msub><mi>h</mi><mi>p</mi></msub></mfrac><mo>+</mo><mfrac><mn>4</mn><msub><mi>h</mi><mi>k</mi></msub></mfrac><mo>)</mo></mrow><msub><mi>v</mi><mi>k</mi></msub><mo>+</mo><mfrac><mn>2</mn><msub><mi>h</mi><mi>k</mi></msub></mfrac><msub><mi>v</mi><mi>n</mi></msub><mo>=</mo><mfrac><mrow><mn>6</mn><msub><mi>M</mi><mi>p</mi></msub></mrow><msub><mi>h</mi><mi>p</mi></msub></mfrac><mo>+</mo><mfrac><mrow><mn>6</mn><msub><mi>M</mi><mi>k</mi></msub></mrow><msub><mi>h</mi><mi>k</mi></msub></mfrac></mrow></math>"#,
        words: "One parabola a month, joined in value and slope all round the year, such that the days of each month have the mean that was written down.",
        symbols: &[
            ("v", "value of the curve where a month begins"),
            ("M, h", "mean and days of a month"),
            ("p, k, n", "the month before, the month, the month after"),
        ],
        sources: &[("rymes-myers-2001", Mark::SecondHand)],
        own: "this project's own derivation; the end that the source's steps come to",
    }
}

/// The sum by which leaves colour.
#[must_use]
pub const fn colour() -> Formula {
    Formula {
        name: "When leaves colour, where nobody wrote it down",
        math: r#"<math display="block"><mrow><munder><mo>∑</mo><mrow><mi>P</mi><mo>&lt;</mo><mn>14.5</mn></mrow></munder><mi>max</mi><msup><mrow><mo>(</mo><mn>0</mn><mo>,</mo><mn>28.5</mn><mo>−</mo><mi>T</mi><mo>)</mo></mrow><mn>2</mn></msup><msup><mrow><mo>(</mo><mfrac><mi>P</mi><mn>14.5</mn></mfrac><mo>)</mo></mrow><mn>2</mn></msup><mo>&gt;</mo><mn>8268</mn></mrow></math>"#,
        words: "From the day on which daylight falls below 14.5 hours, cold and light add up; at the sum half of the leaves have coloured. Thirty per cent is taken 4 days before. Buds swell where the usual mean rises above 5 °C.",
        symbols: &[("P", "daylight, hours"), ("T", "mean of the day, °C, scattered about its usual value")],
        sources: &[("delpierre-2009", Mark::SecondHand), ("forsythe-1995", Mark::SecondHand), ("hf003", Mark::Derived)],
        own: "fitted to oak and beech in France; daylight by the second source, the 4 days from the third; the 5 °C are this project's choice",
    }
}

/// The warmth of a day.
#[must_use]
pub const fn warmth() -> Formula {
    Formula {
        name: "Degree-days",
        math: r#"<math display="block"><mrow><mi>W</mi><mo>=</mo><mfrac><mrow><mo>(</mo><mi>m</mi><mo>−</mo><mi>b</mi><mo>)</mo><mrow><mo>(</mo><mfrac><mi>π</mi><mn>2</mn></mfrac><mo>−</mo><mi>θ</mi><mo>)</mo></mrow><mo>+</mo><mi>a</mi><mi>cos</mi><mi>θ</mi></mrow><mi>π</mi></mfrac><mspace width="2em"/><mi>θ</mi><mo>=</mo><mi>arcsin</mi><mfrac><mrow><mi>b</mi><mo>−</mo><mi>m</mi></mrow><mi>a</mi></mfrac></mrow></math>"#,
        words: "The part of one sine wave through the day's lowest and highest that lies above the base; by the plain average, what the mean lies above it. The table climate has both, and the mean over days that scatter.",
        symbols: &[("m, a", "the day's mean, half of its range"), ("b", "base, 5 °C")],
        sources: &[("baskerville-emin-1969", Mark::Memory)],
        own: "proved by integration",
    }
}

/// The chance that a day suits.
#[must_use]
pub const fn suitable() -> Formula {
    Formula {
        name: "Suitable days",
        math: r#"<math display="block"><mrow><mi>n</mi><mo>=</mo><munder><mo>∑</mo><mi>days</mi></munder><mi>Φ</mi><mrow><mo>(</mo><mfrac><mrow><mi>h</mi><mo>−</mo><mi>μ</mi></mrow><mi>s</mi></mfrac><mo>)</mo></mrow><mo>−</mo><mi>Φ</mi><mrow><mo>(</mo><mfrac><mrow><mi>l</mi><mo>−</mo><mi>μ</mi></mrow><mi>s</mi></mfrac><mo>)</mo></mrow></mrow></math>"#,
        words: "The chance that the mean of a day lies in the strain's band, added up over days. This is about air alone: a log follows it late, shade damps it, and rain decides for many strains. It is never a chance of mushrooms.",
        symbols: &[
            ("l, h", "lowest and highest temperature of the band"),
            ("μ, s", "usual mean of the day, day-to-day deviation"),
            ("Φ", "the normal distribution"),
        ],
        sources: &[],
        own: "the normal distribution, as any textbook has it; checked against four years of daily records of Seattle",
    }
}

/// From inoculation to the first mushrooms.
#[must_use]
pub const fn first() -> Formula {
    Formula {
        name: "First mushrooms",
        math: r#"<math display="block"><mrow><mi>first</mi><mo>=</mo><mi>inoculated</mi><mo>+</mo><mi>r</mi><mspace width="2em"/><mi>crops</mi><mo>=</mo><mi>year</mi><mrow><mo>(</mo><mi>inoculated</mi><mo>+</mo><mfrac><mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow><mn>2</mn></mfrac><mo>)</mo></mrow></mrow></math>"#,
        words: "Each source's shortest and longest spawn run, counted on from inoculation. Crops are counted from the growing year in which the middle of the usual runs falls, or from the first harvest, once there is one.",
        symbols: &[
            ("r", "spawn run of a source, shortest and longest"),
            ("a, b", "lower medians of the shortest and the longest runs"),
        ],
        sources: &[],
        own: "each source's own span; the middle is this handbook's choice",
    }
}

/// The yield of a year.
#[must_use]
pub const fn yields() -> Formula {
    Formula {
        name: "What a year should give",
        math: r#"<math display="block"><mrow><msub><mi>y</mi><mi>k</mi></msub><mo>=</mo><mi>n</mi><mi>Y</mi><mfrac><msub><mi>p</mi><mi>k</mi></msub><mrow><mo>∑</mo><mi>p</mi></mrow></mfrac><mspace width="2em"/><mi>Y</mi><mo>=</mo><mi>e</mi><mi>W</mi></mrow></math>"#,
        words: "A source's yield over the life of a log, spread over its years: years 2 and 3 of four give twice what years 1 and 4 give, and other lives are drawn out or together. A yield in per cent of the log is counted on the green weight of a log of this batch. The least and the most over all sources stand side by side, never a mean.",
        symbols: &[
            ("n", "logs left"),
            ("Y", "yield of a log over its life, fresh"),
            ("pₖ", "part of year k"),
            ("e", "fresh mushrooms as a part of the green log"),
            ("W", "green weight of the log"),
        ],
        sources: &[("md-11", Mark::Copy)],
        own: "the years are the source's; the yield is each source's own",
    }
}

/// The rota.
#[must_use]
pub const fn rota() -> Formula {
    Formula {
        name: "The soak rota",
        math: r#"<math display="block"><mrow><msub><mi>N</mi><mi>g</mi></msub><mo>=</mo><mo>⌊</mo><mfrac><mi>N</mi><mi>R</mi></mfrac><mo>⌋</mo><mo>+</mo><mo>[</mo><mi>g</mi><mo>&lt;</mo><mi>N</mi><mi>mod</mi><mi>R</mi><mo>]</mo><mspace width="2em"/><mi>soaks</mi><mo>=</mo><mo>⌈</mo><mfrac><mrow><mi>W</mi><mo>−</mo><mi>g</mi></mrow><mi>R</mi></mfrac><mo>⌉</mo></mrow></math>"#,
        words: "As many groups as weeks between two soaks of a log, one group a week. Each week as many logs go in as its group holds, those that have waited longest; none before its rest from the last soak, or from a flush that came by itself, is over, and none before twelve months from inoculation.",
        symbols: &[
            ("N", "logs of the strain that are old enough"),
            ("R", "weeks from soak to soak"),
            ("g", "group, counted from nought"),
            ("W", "weeks of the season in which a soak may begin"),
        ],
        sources: &[("uk-85", Mark::Copy), ("corn-force", Mark::Copy)],
        own: "the groups by the first source, natural flushes by the second",
    }
}
