//! When does the air suit a strain?
//!
//! The chance that a day's mean lies in a strain's band is P = Φ((hi − μ)/s) − Φ((lo − μ)/s), with the usual mean μ and
//! the day-to-day deviation s of that day; the suitable days of a week are the sum of P over its seven days. Where several
//! sources give a band, the least and the most over them stand side by side.
//!
//! This is about air. The log follows it late and is damped by shade, and rain decides for many strains: it is never the
//! chance of mushrooms. Checked against daily records of Seattle.

use super::climate::Air;
use super::days::Days;
use super::formula::Formula;
use crate::quantity::{Range, Temperature};

/// The chance of a suitable day from which a stretch counts as suiting best.
pub const LIKELY: f64 = 0.5;
/// The chance from which it counts as possible.
pub const POSSIBLE: f64 = 0.25;

/// Days of a month that must suit before the month is said to: a week (this project's choice).
pub const DAYS_OF_A_MONTH: usize = 7;

/// The chance that a day suits.
pub const SUITABLE: Formula = Formula {
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
};

/// The suitable days among some days, least and most over the bands; `None` without a band.
///
/// ```
/// use hostwood::{quantity::Temperature, reckon::{climate::Air, fruiting::suitable}};
/// let steady = Air::of(&[15.0; 12], Some(&[4.0; 12]));
/// let band = [10.0, 20.0].map(Temperature::of_celsius).into();
/// let [least, most] = suitable(&steady, &[band], &(1..=7)).unwrap();
/// assert!((least - 7.0 * 0.788_700_45).abs() < 1e-6 && least == most); // scipy 1.17.1
/// ```
pub fn suitable(
    air: &Air,
    bands: &[Range<Temperature>],
    days: &(impl IntoIterator<Item = u16> + Clone),
) -> Option<[f64; 2]> {
    let each = bands.iter().map(|band| air.expected(days.clone(), band));
    each.map(|days| [days, days]).reduce(|[least, most], [days, _]| [least.min(days), most.max(days)])
}

/// The days that suit by every band, and those that at least one band calls possible.
pub fn stretches(air: &Air, bands: &[Range<Temperature>]) -> (Days, Days) {
    let likely = bands.iter().map(|band| air.likely(band, LIKELY));
    let best = likely.reduce(|all, one| all.and(&one)).unwrap_or_else(Days::none);
    let possible = bands.iter().map(|band| air.likely(band, POSSIBLE));
    (best, possible.fold(Days::none(), |any, one| any.or(&one)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reckon::days::Interval;

    fn band(low: f64, high: f64) -> Range<Temperature> {
        [low, high].map(Temperature::of_celsius).into()
    }

    #[test]
    fn harvard_forest_suits_when_worked_out_elsewhere() {
        let means = [-5.17, -4.18, 0.51, 6.93, 12.77, 17.59, 20.31, 19.58, 15.52, 8.97, 3.55, -1.97];
        let scatter = [6.07, 5.17, 5.28, 5.08, 4.40, 3.85, 2.89, 2.89, 4.02, 4.48, 4.90, 5.22];
        let air = Air::of(&means, Some(&scatter));
        let best = |low, high| stretches(&air, &[band(low, high)]).0.intervals(1);
        let run = |from, to| Interval { from, to };
        assert_eq!(best(10.0, 21.0), [run(122, 283)]);
        assert_eq!(best(5.0, 16.0), [run(98, 154), run(257, 310)]);
        assert_eq!(best(13.0, 27.0), [run(138, 270)]);
        // Expected days a year beside those of 1990–2014: 138.9, 121.5 and 137.4.
        for (low, high, days) in [(10.0, 21.0, 133.9), (5.0, 16.0, 117.9), (13.0, 27.0, 134.8)] {
            assert!((air.expected(1..=365, &band(low, high)) - days).abs() < 0.05);
        }
    }

    #[test]
    fn sources_that_disagree_make_a_week_possible_and_not_best() {
        let air = Air::of(&[12.0; 12], Some(&[1.0; 12]));
        let bands = [band(10.0, 20.0), band(15.0, 25.0)];
        let (best, possible) = stretches(&air, &bands);
        assert_eq!((best.count(), possible.count()), (0, 365));
        let [least, most] = suitable(&air, &bands, &(1..=7)).unwrap();
        assert!(least < 0.1 && most > 6.8);
        assert_eq!(suitable(&air, &[], &(1..=7)), None);
    }
}
