//! Formulas of the winter's work in `MathML`.

use super::Formula;
use crate::record::said::Mark;

/// The stem above 17.3 ft.
#[must_use]
pub const fn upper_stem() -> Formula {
    Formula {
        name: "Stem above 17.3 ft",
        math: r#"<math display="block"><mrow><msup><mi>DIB</mi><mrow><mn>2</mn></mrow></msup><mo>=</mo><msup><mi>F</mi><mrow><mn>2</mn></mrow></msup><mo>(</mo><mi>b</mi><msup><mrow><mo>(</mo><mi>z</mi><mo>−</mo><mn>1</mn><mo>)</mo></mrow><mrow><mn>2</mn></mrow></msup><mo>+</mo><mo>[</mo><mi>z</mi><mo>&lt;</mo><mi>a</mi><mo>]</mo><mfrac><mrow><mn>1</mn><mo>−</mo><mi>b</mi></mrow><mrow><msup><mi>a</mi><mrow><mn>2</mn></mrow></msup></mrow></mfrac><msup><mrow><mo>(</mo><mi>a</mi><mo>−</mo><mi>z</mi><mo>)</mo></mrow><mrow><mn>2</mn></mrow></msup><mo>)</mo><mspace width="2em"/><mi>z</mi><mo>=</mo><mfrac><mrow><mi>h</mi><mo>−</mo><mn>17.3</mn></mrow><mrow><mi>H</mi><mo>−</mo><mn>17.3</mn></mrow></mfrac></mrow></math>"#,
        words: "The upper stem runs from the diameter at 17.3 ft to nothing at the tip, with one bend.",
        symbols: &[
            ("DIB", "diameter inside bark at height h, inches"),
            ("F", "diameter inside bark at 17.3 ft: d₄ (a₁₇ + b₁₇ (17.3 / H)²)"),
            ("a, b", "bend and form of the species"),
            ("h, H", "height above the ground and of the tree, feet"),
        ],
        sources: &[("r9", Mark::Read)],
        own: "",
    }
}

/// The stem from breast height to 17.3 ft.
#[must_use]
pub const fn lower_stem() -> Formula {
    Formula {
        name: "Stem from breast height to 17.3 ft",
        math: r#"<math display="block"><mrow><msup><mi>DIB</mi><mrow><mn>2</mn></mrow></msup><mo>=</mo><msup><msub><mi>d</mi><mrow><mn>4</mn></mrow></msub><mrow><mn>2</mn></mrow></msup><mo>−</mo><mo>(</mo><msup><msub><mi>d</mi><mrow><mn>4</mn></mrow></msub><mrow><mn>2</mn></mrow></msup><mo>−</mo><msup><mi>F</mi><mrow><mn>2</mn></mrow></msup><mo>)</mo><mfrac><mrow><mi>s</mi><mo>−</mo><msup><mrow><mo>(</mo><mn>1</mn><mo>−</mo><mi>h</mi><mo>/</mo><mi>H</mi><mo>)</mo></mrow><mrow><mi>p</mi></mrow></msup></mrow><mrow><mi>s</mi><mo>−</mo><msup><mrow><mo>(</mo><mn>1</mn><mo>−</mo><mn>17.3</mn><mo>/</mo><mi>H</mi><mo>)</mo></mrow><mrow><mi>p</mi></mrow></msup></mrow></mfrac><mspace width="2em"/><mi>s</mi><mo>=</mo><msup><mrow><mo>(</mo><mn>1</mn><mo>−</mo><mn>4.5</mn><mo>/</mo><mi>H</mi><mo>)</mo></mrow><mrow><mi>p</mi></mrow></msup></mrow></math>"#,
        words: "The lower stem passes through the diameter at breast height and the one at 17.3 ft. Over bark it is thicker by D / d₄ throughout, which is this project's own assumption.",
        symbols: &[
            ("d₄", "diameter inside bark at breast height: a₄ + b₄ D"),
            ("D", "diameter over bark at breast height, inches"),
            ("p", "exponent of the species"),
        ],
        sources: &[("r9", Mark::Read)],
        own: "",
    }
}

/// The butt below breast height.
#[must_use]
pub const fn butt() -> Formula {
    Formula {
        name: "Butt below breast height",
        math: r#"<math display="block"><mrow><mi>DOB</mi><mo>=</mo><mi>D</mi><mo>+</mo><mi>D</mi><msub><mi>B</mi><mrow><mn>1</mn></mrow></msub><mfrac><mrow><mn>4.5</mn><mo>−</mo><mi>h</mi></mrow><mrow><mi>h</mi><mo>+</mo><mn>1</mn></mrow></mfrac></mrow></math>"#,
        words: "The swell of the butt, over bark.",
        symbols: &[("DOB", "diameter over bark at height h, inches"), ("B₁", "swell of the species or its group")],
        sources: &[("raile-1982", Mark::Read)],
        own: "",
    }
}

/// The stem without coefficients.
#[must_use]
pub const fn fallback() -> Formula {
    Formula {
        name: "Stem without coefficients",
        math: r#"<math display="block"><mrow><mi>DOB</mi><mo>=</mo><mi>D</mi><msup><mrow><mo>(</mo><mfrac><mrow><mi>H</mi><mo>−</mo><mi>h</mi></mrow><mrow><mi>H</mi><mo>−</mo><mn>4.5</mn></mrow></mfrac><mo>)</mo></mrow><mrow><mn>0.8</mn></mrow></msup></mrow></math>"#,
        words: "Where a wood has no coefficients, one curve stands in for every stem.",
        symbols: &[("D, H, h", "as above")],
        sources: &[("ormerod-1973", Mark::SecondHand)],
        own: "",
    }
}

/// The volume of a log.
#[must_use]
pub const fn newton() -> Formula {
    Formula {
        name: "Volume of a log",
        math: r#"<math display="block"><mrow><mi>V</mi><mo>=</mo><mfrac><mrow><msub><mi>A</mi><mrow><mi>b</mi></mrow></msub><mo>+</mo><mn>4</mn><msub><mi>A</mi><mrow><mi>m</mi></mrow></msub><mo>+</mo><msub><mi>A</mi><mrow><mi>s</mi></mrow></msub></mrow><mrow><mn>6</mn></mrow></mfrac><mi>L</mi></mrow></math>"#,
        words: "The areas of butt, middle and small end, the middle counted four times.",
        symbols: &[("A", "π / 576 D², square feet from inches"), ("L", "length, feet")],
        sources: &[("for274", Mark::Read)],
        own: "",
    }
}

/// Basal area and trees from a prism or plots.
#[must_use]
pub const fn basal_area() -> Formula {
    Formula {
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
    }
}

/// Quadratic mean diameter and stocking.
#[must_use]
pub const fn quadratic_mean() -> Formula {
    Formula {
        name: "Quadratic mean diameter and stocking",
        math: r#"<math display="block"><mrow><mi>Q</mi><mo>=</mo><msqrt><mfrac><mrow><mi>BA</mi></mrow><mrow><mi>π</mi><mo>/</mo><mn>576</mn><mo>·</mo><mi>N</mi></mrow></mfrac></msqrt><mspace width="2em"/><mi>S</mi><mo>=</mo><mo>−</mo><mn>0.00507</mn><mi>N</mi><mo>+</mo><mn>0.01698</mn><mo>∑</mo><mi>D</mi><mo>+</mo><mn>0.00317</mn><mo>∑</mo><msup><mi>D</mi><mrow><mn>2</mn></mrow></msup></mrow></math>"#,
        words: "The diameter of the tree of mean basal area; and stocking in per cent for upland central hardwoods.",
        symbols: &[("BA", "basal area, ft²/ac"), ("N, ∑D, ∑D²", "trees, diameters and their squares, an acre")],
        sources: &[("larsen", Mark::Read), ("gingrich-1967", Mark::Memory)],
        own: "",
    }
}

/// What may come out of a stand.
#[must_use]
pub const fn removal() -> Formula {
    Formula {
        name: "What may come out",
        math: r#"<math display="block"><mrow><mi>R</mi><mo>=</mo><mi>min</mi><mo>(</mo><mi>BA</mi><mo>−</mo><mi>T</mi><mo>,</mo><mfrac><mrow><mi>BA</mi></mrow><mrow><mn>3</mn></mrow></mfrac><mo>)</mo><mo>·</mo><mi>a</mi></mrow></math>"#,
        words: "Down to the target, and at most a third in one entry.",
        symbols: &[("BA, T", "basal area of the stand, basal area to keep"), ("a", "area of the stand")],
        sources: &[("common-practice", Mark::Memory)],
        own: "the stand's own target; a third as the most is the rule of the trade",
    }
}

/// Room and competition.
#[must_use]
pub const fn release() -> Formula {
    Formula {
        name: "Room and competition",
        math: r#"<math display="block"><mrow><mi>touch</mi><mo>:</mo><mi>r</mi><mo>&lt;</mo><mn>1.75</mn><mfrac><mrow><msub><mi>D</mi><mrow><mi>i</mi></mrow></msub><mo>+</mo><msub><mi>D</mi><mrow><mi>j</mi></mrow></msub></mrow><mrow><mn>2</mn></mrow></mfrac><mspace width="2em"/><mi>C</mi><mo>=</mo><mo>∑</mo><mfrac><mrow><msub><mi>D</mi><mrow><mi>j</mi></mrow></msub><mo>/</mo><msub><mi>D</mi><mrow><mi>i</mi></mrow></msub></mrow><mrow><mi>r</mi></mrow></mfrac></mrow></math>"#,
        words: "Two crowns touch where the stems stand closer than half the sum of their widths, 1.75 ft for each inch of diameter (from memory). A side is open where no touching crown lies in its quarter. C is the press of all tagged neighbours within 8 m.",
        symbols: &[
            ("r", "distance between two stems: feet for the touch, metres for C"),
            ("D", "diameters at breast height, inches"),
        ],
        sources: &[("hegyi-1974", Mark::SecondHand), ("common-practice", Mark::Memory)],
        own: "the width of crowns is the rule of the trade",
    }
}

/// The recommended weight limit.
#[must_use]
pub const fn lifting() -> Formula {
    Formula {
        name: "Recommended weight limit",
        math: r#"<math display="block"><mrow><mi>RWL</mi><mo>=</mo><mi>LC</mi><mo>·</mo><mi>HM</mi><mo>·</mo><mi>VM</mi><mo>·</mo><mi>DM</mi><mo>·</mo><mi>AM</mi><mo>·</mo><mi>FM</mi><mo>·</mo><mi>CM</mi><mspace width="2em"/><mi>LI</mi><mo>=</mo><mfrac><mrow><mi>load</mi></mrow><mrow><mi>RWL</mi></mrow></mfrac></mrow></math>"#,
        words: "The load constant, made smaller by reach, height of the hands, way up or down, twist, pace and grip; reckoned where the lift begins and, where the log is set down with care, where it ends. The lower limit counts.",
        symbols: &[
            ("LC", "51 lb, or 23 kg"),
            ("HM", "10 / H in, or 25 / H cm"),
            ("VM", "1 − 0.0075 |V − 30| in, or 1 − 0.003 |V − 75| cm"),
            ("DM", "0.82 + 1.8 / D in, or 0.82 + 4.5 / D cm"),
            ("AM", "1 − 0.0032 A, degrees"),
            ("FM, CM", "tables of pace and grip"),
        ],
        sources: &[("niosh-94-110", Mark::Copy)],
        own: "",
    }
}

/// Who gets which wood.
#[must_use]
pub const fn allocation() -> Formula {
    Formula {
        name: "Who gets which wood",
        math: r#"<math display="block"><mrow><mi>max</mi><mo>∑</mo><msub><mi>y</mi><mrow><mi>w</mi><mi>s</mi></mrow></msub><mspace width="2em"/><msub><mo>∑</mo><mrow><mi>s</mi></mrow></msub><msub><mi>y</mi><mrow><mi>w</mi><mi>s</mi></mrow></msub><mo>≤</mo><msub><mi>l</mi><mrow><mi>w</mi></mrow></msub><mo>+</mo><mo>∑</mo><msub><mi>n</mi><mrow><mi>t</mi></mrow></msub><msub><mi>x</mi><mrow><mi>t</mi></mrow></msub><mspace width="2em"/><mo>∑</mo><msub><mi>g</mi><mrow><mi>t</mi></mrow></msub><msub><mi>x</mi><mrow><mi>t</mi></mrow></msub><mo>≤</mo><mi>R</mi></mrow></math>"#,
        words: "First the most logs placed; of such answers the one that uses most logs from lots; then the highest sum of ratings; then fewest trees, a clump counting as one; then the earliest tags; with these trees the earlier wishes are served first. Each stage keeps what the earlier ones reached.",
        symbols: &[
            ("y", "logs of wood w for strain s, whole"),
            ("x", "1 where tree t comes down, else 0"),
            ("l, n", "logs from lots, logs that a tree gives"),
            ("g, R", "basal area of a tree, and what may come out of its stand"),
        ],
        sources: &[],
        own: "integer programming, as in any textbook; solved exactly and checked against an independent solver",
    }
}

/// The cheapest packages.
#[must_use]
pub const fn packages() -> Formula {
    Formula {
        name: "Cheapest packages",
        math: r#"<math display="block"><mrow><mi>f</mi><mo>(</mo><mi>n</mi><mo>)</mo><mo>=</mo><munder><mi>min</mi><mi>p</mi></munder><mo>(</mo><mi>f</mi><mo>(</mo><mi>n</mi><mo>−</mo><msub><mi>s</mi><mrow><mi>p</mi></mrow></msub><mo>)</mo><mo>+</mo><msub><mi>c</mi><mrow><mi>p</mi></mrow></msub><mo>)</mo></mrow></math>"#,
        words: "The cheapest way to cover a need ends with some package; before it, what is left is covered most cheaply too. Of equally cheap sets the one that leaves less over stands, then the one of fewer packages.",
        symbols: &[("n", "need, whole grams or pieces"), ("s, c", "what a package holds and costs")],
        sources: &[],
        own: "dynamic programming, as in any textbook; checked against exhaustive search",
    }
}

/// Logs for a weight a week.
#[must_use]
pub const fn planning() -> Formula {
    Formula {
        name: "Logs for a weight a week",
        math: r#"<math display="block"><mrow><msub><mi>n</mi><mrow><mi>flush</mi></mrow></msub><mo>=</mo><mn>9</mn><mo>⌈</mo><mfrac><mrow><mi>w</mi></mrow><mrow><mi>f</mi></mrow></mfrac><mo>⌉</mo><mspace width="2em"/><msub><mi>n</mi><mrow><mi>life</mi></mrow></msub><mo>=</mo><mo>⌈</mo><mfrac><mrow><mi>w</mi><mi>k</mi><mi>y</mi></mrow><mrow><mi>l</mi></mrow></mfrac><mo>⌉</mo></mrow></math>"#,
        words: "By a flush: as many logs are soaked each week as give the weight, in a cycle of nine weeks. By a life: what is wanted in a year, times the years, over what a log gives in all.",
        symbols: &[
            ("w, k", "weight a week, weeks of the year"),
            ("f", "weight a flush"),
            ("l, y", "weight over a life, years of it"),
        ],
        sources: &[("uk-85", Mark::Copy)],
        own: "the cycle is the source's; the yield is each source's own",
    }
}

/// Cost and return of a log.
#[must_use]
pub const fn money() -> Formula {
    Formula {
        name: "Cost and return of a log",
        math: r#"<math display="block"><mrow><mi>c</mi><mo>=</mo><mfrac><mrow><msub><mi>p</mi><mrow><mi>spawn</mi></mrow></msub></mrow><mrow><mi>m</mi></mrow></mfrac><mo>+</mo><mfrac><mrow><msub><mi>p</mi><mrow><mi>wax</mi></mrow></msub></mrow><mrow><mi>M</mi></mrow></mfrac><mo>+</mo><mi>t</mi><mo>·</mo><mi>h</mi><mspace width="2em"/><mi>r</mi><mo>=</mo><mi>l</mi><mo>·</mo><mi>q</mi><mspace width="2em"/><msub><mi>l</mi><mrow><mn>0</mn></mrow></msub><mo>=</mo><mfrac><mrow><mi>c</mi></mrow><mrow><mi>q</mi></mrow></mfrac></mrow></math>"#,
        words: "What packages cost, shared over the logs, and the hours; the return is a published yield times the farm's price; a log pays for itself at l₀.",
        symbols: &[
            ("p", "cost of the packages"),
            ("m, M", "logs of the strain, logs in all"),
            ("t, h", "hours a log, cost of an hour"),
            ("l, q", "yield over a life, price by weight"),
        ],
        sources: &[],
        own: "the farm's own prices",
    }
}

/// Moisture, weight and loss.
#[must_use]
pub const fn moisture() -> Formula {
    Formula {
        name: "Moisture, weight and loss",
        math: r#"<math display="block"><mrow><mi>w</mi><mo>=</mo><mfrac><mrow><mi>d</mi></mrow><mrow><mn>1</mn><mo>+</mo><mi>d</mi></mrow></mfrac><mspace width="2em"/><msub><mi>m</mi><mrow><mn>2</mn></mrow></msub><mo>=</mo><msub><mi>m</mi><mrow><mn>1</mn></mrow></msub><mfrac><mrow><mn>1</mn><mo>−</mo><msub><mi>w</mi><mrow><mn>1</mn></mrow></msub></mrow><mrow><mn>1</mn><mo>−</mo><msub><mi>w</mi><mrow><mn>2</mn></mrow></msub></mrow></mfrac><mspace width="2em"/><mi>loss</mi><mo>=</mo><mfrac><mrow><msub><mi>m</mi><mrow><mn>0</mn></mrow></msub><mo>−</mo><mi>m</mi></mrow><mrow><msub><mi>m</mi><mrow><mn>0</mn></mrow></msub></mrow></mfrac></mrow></math>"#,
        words: "Moisture by the wet weight from moisture by the dry weight; the weight of a log at another moisture, since its dry wood stays the same; and what it has lost since inoculation. A loss of more than a tenth calls for water in the first season. Later the fungus has eaten wood, and no verdict is given.",
        symbols: &[("w, d", "water over wet weight, water over dry weight"), ("m", "weights of one log")],
        sources: &[("uk-83", Mark::Copy), ("uk-82", Mark::Read), ("wh4", Mark::Read)],
        own: "water over wet and over dry weight by their definitions; the tenth by the first source, 35 and 23 % by the second, taken as wet basis; what wood holds and when it sinks by the third",
    }
}
