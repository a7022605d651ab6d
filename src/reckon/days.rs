//! Days of the year: stretches, and sets on its circle.

/// Days in the year on which sets are kept; 29 February counts as 28 February.
pub const YEAR: usize = 365;

/// A stretch of the year, both ends included; it may run over New Year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Interval {
    /// First day, 1 to 365.
    pub from: u16,
    /// Last day, 1 to 365.
    pub to: u16,
}

impl Interval {
    /// How many days it has.
    ///
    /// ```
    /// use hostwood::reckon::days::Interval;
    /// assert_eq!(Interval { from: 364, to: 2 }.days(), 4);
    /// ```
    pub fn days(self) -> u16 {
        (i32::from(self.to) - i32::from(self.from)).rem_euclid(365) as u16 + 1
    }
}

/// Some days counted on from a day of the year; they may run into the years after it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stretch {
    /// The day of the year from which is counted, 1 to 365.
    pub start: u16,
    /// Its first day, as days after the start.
    pub first: i32,
    /// Its last day, as days after the start.
    pub last: i32,
}

impl Stretch {
    /// The stretch on the circle of the year; all the year where it is longer.
    pub fn interval(self) -> Interval {
        let from = day(i32::from(self.start) + self.first);
        let days = (self.last - self.first).min(364);
        Interval { from, to: day(i32::from(from) + days) }
    }
}

impl From<Interval> for Stretch {
    fn from(interval: Interval) -> Self {
        Self { start: interval.from, first: 0, last: i32::from(interval.days()) - 1 }
    }
}

/// The day of the year with a number that may run past either end of the year.
pub fn day(number: i32) -> u16 {
    (number - 1).rem_euclid(365) as u16 + 1
}

/// Days from one day of the year to another, the shorter way round.
///
/// ```
/// assert_eq!(hostwood::reckon::days::apart(2, 364), 3);
/// ```
pub fn apart(day: u16, from: u16) -> i32 {
    (i32::from(day) - i32::from(from) + 182).rem_euclid(365) - 182
}

/// A set of days of the year.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Days([bool; YEAR]);

impl Days {
    /// No day.
    pub const fn none() -> Self {
        Self([false; YEAR])
    }

    /// The days of a stretch.
    pub fn of(interval: Interval) -> Self {
        let mut days = Self::none();
        for step in 0..interval.days() {
            days.0[usize::from(interval.from - 1 + step) % YEAR] = true;
        }
        days
    }

    /// The days for which something holds.
    pub fn where_holds(holds: impl Fn(u16) -> bool) -> Self {
        Self(std::array::from_fn(|index| holds(index as u16 + 1)))
    }

    /// Days in either set.
    pub fn or(&self, other: &Self) -> Self {
        self.join(other, |a, b| a || b)
    }

    /// Days in both sets.
    pub fn and(&self, other: &Self) -> Self {
        self.join(other, |a, b| a && b)
    }

    /// Days of this set that are not in the other.
    pub fn minus(&self, other: &Self) -> Self {
        self.join(other, |a, b| a && !b)
    }

    fn join(&self, other: &Self, rule: impl Fn(bool, bool) -> bool) -> Self {
        Self(std::array::from_fn(|index| rule(self.0[index], other.0[index])))
    }

    /// Whether a day is in the set.
    pub fn contains(&self, day: u16) -> bool {
        self.0[usize::from(day.clamp(1, 365)) - 1]
    }

    /// How many days it has.
    pub fn count(&self) -> usize {
        self.0.iter().filter(|day| **day).count()
    }

    /// The stretches of the set, in the order in which they begin after a day.
    pub fn intervals(&self, after: u16) -> Vec<Interval> {
        if self.count() == YEAR {
            return vec![Interval { from: after, to: day(i32::from(after) - 1) }];
        }
        let begins = (0..365)
            .map(|step| day(i32::from(after) + step))
            .filter(|from| self.contains(*from) && !self.contains(day(i32::from(*from) - 1)));
        begins.map(|from| Interval { from, to: self.end(from) }).collect()
    }

    fn end(&self, from: u16) -> u16 {
        let steps = (1..365).take_while(|step| self.contains(day(i32::from(from) + step))).count();
        day(i32::from(from) + steps as i32)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn interval() -> impl Strategy<Value = Interval> {
        (1u16..366, 1u16..366).prop_map(|(from, to)| Interval { from, to })
    }

    proptest! {
        #[test]
        fn a_stretch_has_as_many_days_as_its_set(interval in interval()) {
            prop_assert_eq!(Days::of(interval).count(), usize::from(interval.days()));
        }

        #[test]
        fn stretches_give_the_set_back(a in interval(), b in interval(), after in 1u16..366) {
            let set = Days::of(a).or(&Days::of(b));
            let back = set.intervals(after).into_iter().fold(Days::none(), |sum, part| sum.or(&Days::of(part)));
            prop_assert_eq!(back, set);
        }

        #[test]
        fn what_is_taken_away_is_gone(a in interval(), b in interval()) {
            let (a, b) = (Days::of(a), Days::of(b));
            let left = a.minus(&b);
            prop_assert_eq!(left.and(&b).count(), 0);
            prop_assert_eq!(left.count() + a.and(&b).count(), a.count());
        }
    }
}
