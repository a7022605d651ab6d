//! How many logs does a wish need?
//!
//! | question | formula | source |
//! |---|---|---|
//! | logs soaked a week | b = ⌈w / f⌉, w a week, f a flush | the flush of each source |
//! | logs in rotation | b × cycle, soaked in turn | UK-85: nine weeks from one soak to the next |
//! | logs cropping, by a yield over a life | n = ⌈w k y / l⌉, k weeks of the year, l over y years | the yield of each source |
//! | new logs a year | n / y | so that as many start as end |
//! | trees | ⌈logs / logs a tree⌉ | this farm's own marked trees |
//! | tank | logs a soak × D² L | geometry: logs in rows, the gaps between them counted |
//! | ground | logs × D L | geometry: logs side by side, without paths |
//!
//! Yields are never averaged; each source gives its own row. Whole logs are rounded up.

use super::Gap;
use super::formula::Formula;
use crate::quantity::{Area, Length, Mass, Volume};
use crate::record::said::Mark;

/// Weeks from one soak of a log to the next (UK-85).
pub const CYCLE_WEEKS: u32 = 9;

/// Logs for so many guests; one for each where nobody says how many (this project's choice).
///
/// ```
/// use hostwood::reckon::planning::by_guests;
/// assert_eq!([by_guests(12, Some(2)), by_guests(12, None)], [24, 12]);
/// ```
pub fn by_guests(guests: u32, logs_a_guest: Option<u32>) -> u32 {
    guests * logs_a_guest.unwrap_or(1)
}
/// Logs for a weight a week.
pub const LOGS: Formula = Formula {
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
};

/// Logs for a weight a week by soaking: how many each week, and how many in all.
///
/// ```
/// use hostwood::{quantity::Mass, reckon::planning::by_flush};
/// let pounds = |text| Mass::read(text).unwrap();
/// assert_eq!(by_flush(&pounds("12 lb"), &pounds("1 lb")), [12, 108]); // WE-01: 12 a week in a cycle of nine weeks, 108
/// ```
pub fn by_flush(a_week: &Mass, a_flush: &Mass) -> [u32; 2] {
    let each = (a_week.base() / a_flush.base() - 1e-9).ceil().max(1.0) as u32;
    [each, each * CYCLE_WEEKS]
}

/// Logs for a weight a week over so many weeks of the year, by a yield over a life: how many cropping, how many new a year.
///
/// # Errors
///
/// A [`Gap`] where the weeks are not recorded.
///
/// ```
/// use hostwood::{quantity::Mass, reckon::planning::by_life};
/// let pounds = |text| Mass::read(text).unwrap();
/// // MD-11's four years and 4 lb (WE-20): 100 new logs a year make 400 lb a year from 400 logs.
/// assert_eq!(by_life(&pounds("20 lb"), Some(20), &pounds("4 lb"), 4.0).unwrap(), [400, 100]);
/// ```
pub fn by_life(a_week: &Mass, weeks: Option<u32>, over_life: &Mass, years: f64) -> Result<[u32; 2], Gap> {
    let weeks = weeks.ok_or(Gap::NotRecorded("for how many weeks the weight is wanted"))?;
    let up = |number: f64| (number - 1e-9).ceil().max(1.0) as u32;
    let cropping = a_week.base() * f64::from(weeks) * years / over_life.base();
    Ok([up(cropping), up(cropping / years)])
}

/// Trees that give so many logs.
pub fn trees(logs: u32, a_tree: f64) -> Option<u32> {
    (a_tree > 0.0).then(|| (f64::from(logs) / a_tree - 1e-9).ceil() as u32)
}

/// Volume of a tank in which so many logs lie in rows under water.
///
/// ```
/// use hostwood::{quantity::Length, reckon::planning::tank};
/// let tank = tank(12, &Length::of_inches(5.0), &Length::of_inches(40.0));
/// assert!((tank.get::<uom::si::volume::cubic_foot>() - 6.944).abs() < 5e-3); // geometry: 12 × 5 × 5 × 40 in
/// ```
pub fn tank(logs: u32, diameter: &Length, length: &Length) -> Volume {
    diameter.si() * diameter.si() * length.si() * f64::from(logs)
}

/// Ground on which so many logs lie side by side.
pub fn ground(logs: u32, diameter: &Length, length: &Length) -> Area {
    (diameter.si() * length.si() * f64::from(logs)).into()
}
