//! How long do logs rest, and by when must they be inoculated?
//!
//! A log felled on any day of the felling window may be inoculated from the least to the most days of rest later:
//! inoculation runs from (first felling day + least rest) to (last felling day + most rest), within the farm's own
//! inoculation window where it has one. Trees that fit come down from (first day of inoculation − most rest) to (last
//! day of inoculation − least rest). Sources disagree sharply on the rest; they stand side by side in three schools,
//! by the least rest that each allows, and are never averaged.

use super::days::{Days, Interval, day};

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
    /// Every school, the shortest rest first.
    pub const ALL: [Self; 3] = [Self::AtOnce, Self::Weeks, Self::Longer];

    /// The school of a source whose least rest is so many days.
    ///
    /// ```
    /// use hostwood::reckon::rest::School;
    /// assert_eq!([1.0, 14.0, 30.0].map(School::of), School::ALL);
    /// ```
    #[must_use]
    pub fn of(least_days: f64) -> Self {
        match least_days {
            days if days < 7.0 => Self::AtOnce,
            days if days < 28.0 => Self::Weeks,
            _ => Self::Longer,
        }
    }

    /// The school as a reader meets it on a page.
    #[must_use]
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
    /// From the first to the last day of inoculation.
    pub inoculation: Interval,
    /// The part of the felling stretch whose trees can be inoculated then, no sooner and no later than the rest allows.
    pub fits: Interval,
}

/// Carries a felling stretch forward by the rest, within the days on which the farm inoculates.
///
/// `most` is `None` where a source names no longest rest; then the window of inoculation alone ends it, and without a
/// window the least rest after the last felling day does.
#[must_use]
pub fn carry(felling: Interval, least: i32, most: Option<i32>, window: Option<&Days>) -> Vec<Carried> {
    let rested = felling.stretched(least, most.unwrap_or(if window.is_some() { 364 } else { least }));
    let allowed = match window {
        Some(window) => Days::of(rested).and(window),
        None => Days::of(rested),
    };
    allowed
        .intervals(rested.from)
        .into_iter()
        .map(|inoculation| {
            let begins = offset(rested.from, inoculation.from) + least;
            let ends = begins + i32::from(inoculation.days()) - 1;
            let last_felled = i32::from(felling.days()) - 1;
            let first = most.map_or(0, |most| (begins - most).max(0));
            let last = last_felled.min(ends - least);
            let from = i32::from(felling.from);
            Carried { felling, inoculation, fits: Interval { from: day(from + first), to: day(from + last) } }
        })
        .collect()
}

/// How many days after one day of the year another falls.
fn offset(from: u16, to: u16) -> i32 {
    (i32::from(to) - i32::from(from)).rem_euclid(365)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_to_four_weeks_after_the_dormant_window_of_common_practice() {
        let dormant = Interval { from: 319, to: 90 };
        let carried = carry(dormant, 14, Some(28), None);
        assert_eq!(carried.len(), 1);
        assert_eq!(carried[0].inoculation, Interval { from: 333, to: 118 });
        assert_eq!(carried[0].fits, dormant);
    }

    #[test]
    fn the_farms_own_window_cuts_the_inoculation_short_and_moves_the_last_felling_day() {
        let dormant = Interval { from: 319, to: 110 };
        let window = Days::of(Interval { from: 91, to: 115 });
        let carried = carry(dormant, 14, Some(28), Some(&window));
        assert_eq!(carried[0].inoculation, Interval { from: 91, to: 115 });
        assert_eq!(carried[0].fits, Interval { from: 63, to: 101 });
    }
}
