//! How long do logs rest, and by when must they be inoculated?
//!
//! A log felled on any day of the felling window may be inoculated from the least to the most days of rest later:
//! inoculation runs from (first felling day + least rest) to (last felling day + most rest), within the farm's own
//! inoculation window where it has one. Trees that fit come down from (first day of inoculation − most rest) to (last
//! day of inoculation − least rest). Sources disagree sharply on the rest; they stand side by side in three schools,
//! by the least rest that each allows, and are never averaged.

use super::days::{Days, Interval, Stretch, day};
use super::formula::Formula;

/// The rest of common practice, where the farm has not chosen: two to four weeks.
pub const COMMON_PRACTICE_DAYS: [f64; 2] = [14.0, 28.0];

/// A school of thought on rest, by the least rest that a source allows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum School {
    /// Inoculate at once; less than a week is enough.
    AtOnce,
    /// Let the cells of the wood die first: some weeks.
    Weeks,
    /// A month or more.
    Longer,
}

impl School {
    /// The school of a source whose least rest is so many days.
    ///
    /// ```
    /// use hostwood::reckon::rest::School;
    /// assert_eq!([1.0, 14.0, 30.0].map(School::of), [School::AtOnce, School::Weeks, School::Longer]);
    /// ```
    pub fn of(least_days: f64) -> Self {
        match least_days {
            days if days < 7.0 => Self::AtOnce,
            days if days < 28.0 => Self::Weeks,
            _ => Self::Longer,
        }
    }

    /// The school as a reader meets it on a page.
    pub const fn words(self) -> &'static str {
        match self {
            Self::AtOnce => "no rest needed",
            Self::Weeks => "two to four weeks first",
            Self::Longer => "a month or longer",
        }
    }
}

/// When logs of one felling stretch may be inoculated.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Carried {
    /// The felling stretch.
    pub felling: Interval,
    /// From the first to the last day of inoculation, counted from the first felling day.
    pub inoculation: Stretch,
    /// The felling days whose trees can be inoculated then, no sooner and no later than the rest allows.
    pub fits: Stretch,
}

/// Rest carried forward.
pub const REST: Formula = Formula {
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
};

/// Carries a felling stretch forward by the rest, within the days on which the farm inoculates.
///
/// `most` is `None` where a source names no longest rest; then the window of inoculation alone ends it, and without a
/// window the least rest after the last felling day does. Nothing is carried where the most is less than the least.
pub fn carry(felling: Interval, least: i32, most: Option<i32>, window: Option<&Days>) -> Vec<Carried> {
    let last_felled = i32::from(felling.days()) - 1;
    let longest = most.unwrap_or(if window.is_some() { least + 364 } else { least });
    let allowed = |after: &i32| window.is_none_or(|window| window.contains(day(i32::from(felling.from) + after)));
    let days: Vec<i32> = (least..=last_felled + longest).filter(allowed).collect();
    days.chunk_by(|one, next| one + 1 == *next)
        .filter_map(|part| Some((*part.first()?, *part.last()?)))
        .filter(|(first, _)| *first < least + 365)
        .map(|(first, last)| {
            let stretch = |first: i32, last: i32| Stretch { start: felling.from, first, last };
            let fits = stretch((first - longest).max(0), (last - least).min(last_felled));
            Carried { felling, inoculation: stretch(first, last), fits }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn two_to_four_weeks_after_the_dormant_window_of_common_practice() {
        let dormant = Interval { from: 319, to: 90 };
        let carried = carry(dormant, 14, Some(28), None);
        assert_eq!(carried.len(), 1);
        assert_eq!(carried[0].inoculation.interval(), Interval { from: 333, to: 118 });
        assert_eq!(carried[0].fits.interval(), dormant);
    }

    #[test]
    fn the_farms_own_window_cuts_the_inoculation_short_and_moves_the_felling_days() {
        let dormant = Interval { from: 319, to: 110 };
        let window = Days::of(Interval { from: 91, to: 115 });
        let carried = carry(dormant, 14, Some(28), Some(&window));
        assert_eq!(carried[0].inoculation.interval(), Interval { from: 91, to: 115 });
        assert_eq!(carried[0].fits.interval(), Interval { from: 63, to: 101 });
    }

    #[test]
    fn a_window_that_is_open_when_felling_begins_starts_only_after_the_rest() {
        let dormant = Interval { from: 319, to: 90 };
        let window = Days::of(Interval { from: 244, to: 166 });
        let carried = carry(dormant, 14, None, Some(&window));
        assert_eq!(carried[0].inoculation.first, 14);
        assert_eq!(carried[0].inoculation.interval().to, 166);
    }

    #[test]
    fn a_most_below_the_least_carries_nothing() {
        assert!(carry(Interval { from: 319, to: 324 }, 60, Some(28), None).is_empty());
    }

    proptest! {
        #[test]
        fn every_inoculation_follows_its_felling_by_a_rest_within_the_bounds(
            from in 1u16..366, days in 0i32..250, least in 0i32..100, more in 0i32..200, open in 1u16..366, length in 0i32..300,
        ) {
            let felling = Interval { from, to: day(i32::from(from) + days) };
            let window = Days::of(Interval { from: open, to: day(i32::from(open) + length) });
            for carried in carry(felling, least, Some(least + more), Some(&window)) {
                prop_assert!(carried.fits.first <= carried.fits.last);
                prop_assert!(carried.fits.first >= 0 && carried.fits.last <= days);
                prop_assert!(carried.inoculation.first - carried.fits.first >= least);
                prop_assert!(carried.inoculation.first - carried.fits.first <= least + more);
                prop_assert!(carried.inoculation.last - carried.fits.last <= least + more);
                prop_assert!(window.contains(carried.inoculation.interval().from));
            }
        }
    }
}
