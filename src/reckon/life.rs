//! When does a log first fruit, for how many years, and what should it have given?
//!
//! | question | formula | source |
//! |---|---|---|
//! | first mushrooms | inoculated + the shortest and the longest spawn run | each source's span |
//! | the year in which crops begin | the growing year of inoculated + (a + b) / 2, a and b the lower medians of the shortest and the longest runs | this project's choice |
//! | life by thickness | about one year for each inch of diameter | common practice |
//! | the yield of year k | the yield over a life × the part of year k | MD-11: years 2 and 3 double years 1 and 4 |
//! | the yield by weight | a part of the green log | the source's part; the weight of the log |
//!
//! A growing year is the calendar year north of the equator, and July to June south of it, called by the year of its July.
//! Yields are never averaged: the least and the most over the sources stand side by side.

use super::formula::Formula;
use crate::quantity::{Date, Duration, Length, Mass, Range};
use crate::record::said::{Mark, Span};

/// Months after which a log may be made to fruit for the first time (UK-85).
pub const FORCED_AFTER_MONTHS: i64 = 12;

/// Years after inoculation up to which a batch is followed to this season (this project's choice).
pub const FOLLOWED_YEARS: i16 = 20;

/// The growing year in which a day lies.
///
/// ```
/// use hostwood::{quantity::Date, reckon::life::growing_year};
/// let day = |text| Date::read(text).unwrap();
/// assert_eq!(growing_year(day("2027-03-01"), false), 2027);
/// assert_eq!([growing_year(day("2027-03-01"), true), growing_year(day("2027-09-01"), true)], [2026, 2027]);
/// ```
pub fn growing_year(date: Date, south: bool) -> i16 {
    date.0.year() - i16::from(south && date.0.month() < 7)
}

/// From inoculation to the first mushrooms.
pub const FIRST: Formula = Formula {
    name: "First mushrooms",
    math: r#"<math display="block"><mrow><mi>first</mi><mo>=</mo><mi>inoculated</mi><mo>+</mo><mi>r</mi><mspace width="2em"/><mi>crops</mi><mo>=</mo><mi>year</mi><mrow><mo>(</mo><mi>inoculated</mi><mo>+</mo><mfrac><mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow><mn>2</mn></mfrac><mo>)</mo></mrow></mrow></math>"#,
    words: "Each source's shortest and longest spawn run, counted on from inoculation. Crops are counted from the growing year in which the middle of the usual runs falls, or from the first harvest, once there is one.",
    symbols: &[
        ("r", "spawn run of a source, shortest and longest"),
        ("a, b", "lower medians of the shortest and the longest runs"),
    ],
    sources: &[],
    own: "each source's own span; the middle is this handbook's choice",
};

/// From the first to the last day on which a batch first fruits, by a spawn run.
///
/// ```
/// use hostwood::{quantity::{Date, Duration}, reckon::life::first};
/// // WE-02, beds of wine cap: 58 and 44 days from spawn to first mushrooms.
/// let (day, run) = (|text| Date::read(text).unwrap(), |days| [Duration::of_days(days), Duration::of_days(days)].into());
/// assert_eq!(first(day("2006-07-19"), &run(58.0))[0], day("2006-09-15"));
/// assert_eq!(first(day("2006-08-30"), &run(44.0))[0], day("2006-10-13"));
/// ```
pub fn first(inoculated: Date, run: &Range<Duration>) -> [Date; 2] {
    [&run.low, &run.high].map(|run| inoculated.after(run))
}

/// The middle of what sources give for the spawn run; `None` without a source.
pub fn usual_run(spans: &[Span]) -> Option<Duration> {
    let median = |end: fn(&Range<Duration>) -> &Duration| {
        let mut days: Vec<f64> = spans.iter().map(|span| end(&span.range).days()).collect();
        days.sort_by(f64::total_cmp);
        days.get(days.len().checked_sub(1)? / 2).copied()
    };
    Some(Duration::of_days(f64::midpoint(median(|run| &run.low)?, median(|run| &run.high)?)))
}

/// The parts of a life's yield that its years give, from a profile of some years drawn out or together; even parts without
/// one.
///
/// ```
/// use hostwood::reckon::life::shares;
/// let [a, b, c, d] = shares(4, Some(&[1.0, 2.0, 2.0, 1.0]))[..] else { panic!() };
/// assert!((4.0 * a - 0.67).abs() < 5e-3 && (4.0 * b - 1.33).abs() < 5e-3); // WE-20, MD-11: of 4 lb
/// assert_eq!((a, b), (d, c));
/// ```
pub fn shares(years: u32, profile: Option<&[f64]>) -> Vec<f64> {
    let profile = profile.filter(|profile| profile.iter().sum::<f64>() > 0.0).unwrap_or(&[1.0]);
    let last = profile.len() - 1;
    let at = |year: u32| {
        let place = if years > 1 { f64::from(year) * last as f64 / f64::from(years - 1) } else { last as f64 / 2.0 };
        let before = (place.floor() as usize).min(last);
        let after = (before + 1).min(last);
        profile[before] + (place - before as f64) * (profile[after] - profile[before])
    };
    let parts: Vec<f64> = (0..years).map(at).collect();
    let sum: f64 = parts.iter().sum();
    parts.into_iter().map(|part| part / sum).collect()
}

/// One source's yield over a life: least and most, over at least and at most so many years.
#[derive(Debug, Clone, PartialEq)]
pub struct LifeYield {
    /// What one log gives, least and most.
    pub a_log: [Mass; 2],
    /// Years, least and most.
    pub years: [u32; 2],
}

/// The yield of a year.
pub const YIELDS: Formula = Formula {
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
};

/// What each year of a life should give by all sources, least and most.
///
/// ```
/// use hostwood::{quantity::Mass, reckon::life::{LifeYield, year_by_year}};
/// let three = LifeYield { a_log: [4.0, 5.0].map(Mass::of_kilograms), years: [3, 3] };
/// let years = year_by_year([&three], Some(&[1.0, 2.0, 2.0, 1.0]));
/// assert_eq!(years, [[1.0, 1.25], [2.0, 2.5], [1.0, 1.25]].map(|year| year.map(Mass::of_kilograms)));
/// ```
pub fn year_by_year<'a>(yields: impl IntoIterator<Item = &'a LifeYield>, profile: Option<&[f64]>) -> Vec<[Mass; 2]> {
    let lives = |of: &'a LifeYield| of.years.map(|years| (&of.a_log, shares(years.max(1), profile)));
    let lines: Vec<(&[Mass; 2], Vec<f64>)> = yields.into_iter().flat_map(lives).collect();
    let longest = lines.iter().map(|(_, shares)| shares.len()).max().unwrap_or(0);
    let of_year = |year: usize| {
        let part = |shares: &[f64]| shares.get(year).copied().unwrap_or(0.0);
        let each = lines.iter().map(|(a_log, shares)| a_log.each_ref().map(|end| end.base() * part(shares)));
        each.reduce(|[a, b], [c, d]| [a.min(c), b.max(d)]).unwrap_or([0.0; 2]).map(Mass::of_kilograms)
    };
    (0..longest).map(of_year).collect()
}

/// Years that logs of a thickness crop, by the rule of one year an inch.
///
/// ```
/// use hostwood::{quantity::Length, reckon::life::years_by_inches};
/// assert_eq!(years_by_inches(&Length::of_inches(4.6)), 5); // common practice
/// ```
pub fn years_by_inches(diameter: &Length) -> u32 {
    diameter.inches().round().max(1.0) as u32
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn logs_of_each_season_first_fruit_when_the_bulletin_expects_it() {
        // WE-03, UK-83: 6 to 12 months; of February and March often the same autumn, of October and November the next.
        let day = |text: &str| Date::read(text).unwrap();
        let run = ["6 months", "12 months"].map(|text| Duration::read(text).unwrap()).into();
        let span = |text: &str| first(day(text), &run);
        for spring in ["2025-02-01", "2025-02-28", "2025-03-31"] {
            let [soonest, latest] = span(spring);
            let autumn = [day("2025-08-01"), day("2025-11-30")];
            assert!(soonest >= autumn[0] && soonest <= autumn[1] && latest > autumn[1], "{spring}");
        }
        for autumn in ["2025-10-01", "2025-11-30"] {
            let [soonest, latest] = span(autumn);
            assert!(soonest >= day("2026-03-31"), "not in the year of inoculation: {autumn}");
            assert!(latest >= day("2026-10-01") && latest <= day("2026-11-30"), "by the next autumn: {autumn}");
        }
    }

    #[test]
    fn a_hundred_new_logs_a_year_come_to_what_was_worked_out() {
        // WE-20, MD-11: 100 logs a year at 4 lb each give 66.7, 200, 333.3, 400 and 400 lb.
        let parts = shares(4, Some(&[1.0, 2.0, 2.0, 1.0]));
        let year = |year: usize| 400.0 * parts.iter().take(year).sum::<f64>();
        for (at, pounds) in [(1, 66.7), (2, 200.0), (3, 333.3), (4, 400.0), (5, 400.0)] {
            assert!((year(at) - pounds).abs() < 0.05);
        }
    }

    #[test]
    fn the_parts_of_a_life_are_the_whole_of_it() {
        for years in 1..12 {
            for profile in [None, Some(&[1.0, 2.0, 2.0, 1.0][..]), Some(&[3.0][..])] {
                let parts = shares(years, profile);
                assert_eq!(parts.len(), years as usize);
                assert!((parts.iter().sum::<f64>() - 1.0).abs() < 1e-12);
            }
        }
    }

    #[test]
    fn logs_of_spring_crop_from_the_second_growing_season() {
        // NIFA11, New York: not before the second growing season; the spans are those that shiitake's record has.
        let span =
            |run: &str| -> Span { serde_json::from_str(&format!(r#"{{"range": {run}, "source": "s"}}"#)).unwrap() };
        let runs = [(6, 18), (6, 18), (6, 24), (6, 12), (12, 12), (18, 24)]
            .map(|(least, most)| span(&format!(r#"["{least} months", "{most} months"]"#)));
        let usual = usual_run(&runs).unwrap();
        let begins = |text: &str| growing_year(Date::read(text).unwrap().after(&usual), false);
        assert_eq!([begins("2025-04-20"), begins("2025-10-20")], [2026, 2026]);
    }
}
