//! How warm is it usually, on every day of the year?
//!
//! From twelve monthly means M, a periodic curve of one parabola a month, joined in value and slope, such that the mean
//! of every month's days is the given one. With v the value at the start of a month and h its days, for each month k
//! with p before and n after it:
//!
//! (2/hₚ) vₚ + (4/hₚ + 4/hₖ) vₖ + (2/hₖ) vₙ = 6 Mₚ/hₚ + 6 Mₖ/hₖ
//!
//! and a day is the curve's mean over it. The same as the slope of the periodic cubic spline through the running sum, and
//! the fixed point of Rymes & Myers 2001. The day-to-day deviation runs in straight lines between mid-months. Degrees C;
//! months of a year of 365 days.

use super::days::{Days, YEAR, day};
use super::formula::Formula;
use super::{degree_days, normal};
use crate::quantity::{Range, Temperature, TemperatureStep};
use crate::record::said::Mark;

/// Days of each month.
const MONTHS: [f64; 12] = [31.0, 28.0, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0];

/// The day-to-day deviation that stands in where a place has none, in degrees C: between what continental places show in
/// summer, 3, and in winter, 5 (this project's choice).
pub const ASSUMED_DEVIATION: f64 = 4.0;

/// The curve of the year.
pub const CURVE: Formula = Formula {
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
};

/// The usual mean of every day, in degrees C.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve([f64; YEAR]);

impl Curve {
    /// The curve whose months have these means.
    ///
    /// ```
    /// use hostwood::reckon::climate::Curve;
    /// // Harvard Forest 1964–2001, from the archive's daily values.
    /// let means = [-6.33, -5.23, -0.08, 6.13, 12.56, 17.27, 20.01, 19.18, 14.79, 8.60, 3.13, -3.26];
    /// let curve = Curve::of(&means);
    /// assert!((curve.on(1) - -5.5811).abs() < 5e-5);
    /// assert!((curve.on(182) - 19.1161).abs() < 5e-5);
    /// ```
    pub fn of(means: &[f64; 12]) -> Self {
        let starts = starts(means);
        let mut days = [0.0; YEAR];
        let mut at = 0;
        for (month, &length) in MONTHS.iter().enumerate() {
            let (start, end) = (starts[month], starts[(month + 1) % 12]);
            let bend = (3.0 * (start + end) - 6.0 * means[month]) / (length * length);
            let slope = (6.0 * means[month] - 4.0 * start - 2.0 * end) / length;
            let sum = |t: f64| start * t + slope * t * t / 2.0 + bend * t * t * t / 3.0;
            for step in 0..length as usize {
                days[at] = sum(step as f64 + 1.0) - sum(step as f64);
                at += 1;
            }
        }
        Self(days)
    }

    /// The usual mean of a day, 1 to 365.
    pub fn on(&self, day: u16) -> f64 {
        self.0[usize::from(day.clamp(1, 365)) - 1]
    }

    /// The mean of each month, as the days give it back.
    pub fn months(&self) -> [f64; 12] {
        let mut at = 0;
        MONTHS.map(|length| {
            let days = &self.0[at..at + length as usize];
            at += length as usize;
            days.iter().sum::<f64>() / length
        })
    }

    /// The coldest and the warmest day.
    pub fn turns(&self) -> [u16; 2] {
        let number = |found: Option<(usize, &f64)>| found.map_or(1, |(index, _)| index as u16 + 1);
        let days = || self.0.iter().enumerate();
        [number(days().min_by(|a, b| a.1.total_cmp(b.1))), number(days().max_by(|a, b| a.1.total_cmp(b.1)))]
    }

    /// The first day, counted from the coldest, on which the mean is above a temperature; `None` where it never is, or
    /// never is not.
    pub fn rises_above(&self, temperature: f64) -> Option<u16> {
        let [coldest, _] = self.turns();
        self.first(coldest, |mean| mean > temperature)
    }

    /// The first day, counted from the warmest, on which the mean is below a temperature; `None` where it never is, or
    /// never is not.
    pub fn falls_below(&self, temperature: f64) -> Option<u16> {
        let [_, warmest] = self.turns();
        self.first(warmest, |mean| mean < temperature)
    }

    fn first(&self, from: u16, holds: impl Fn(f64) -> bool) -> Option<u16> {
        if holds(self.on(from)) {
            return None;
        }
        (1..365).map(|step| day(i32::from(from) + step)).find(|day| holds(self.on(*day)))
    }
}

/// The value of the curve at the start of each month.
fn starts(means: &[f64; 12]) -> [f64; 12] {
    let mut rows = [[0.0; 13]; 12];
    for (k, row) in rows.iter_mut().enumerate() {
        let (p, n) = ((k + 11) % 12, (k + 1) % 12);
        row[p] += 2.0 / MONTHS[p];
        row[k] += 4.0 / MONTHS[p] + 4.0 / MONTHS[k];
        row[n] += 2.0 / MONTHS[k];
        row[12] = 6.0 * means[p] / MONTHS[p] + 6.0 * means[k] / MONTHS[k];
    }
    // Each diagonal outweighs the rest of its row, so no row needs to be exchanged.
    for k in 0..12 {
        let pivot = rows[k];
        for (_, row) in rows.iter_mut().enumerate().filter(|(other, _)| *other != k) {
            let factor = row[k] / pivot[k];
            for (value, above) in row.iter_mut().zip(pivot) {
                *value -= factor * above;
            }
        }
    }
    std::array::from_fn(|k| rows[k][12] / rows[k][k])
}

/// The air of a place: the usual mean of every day and how days scatter about it, in degrees C.
#[derive(Debug, Clone, PartialEq)]
pub struct Air {
    /// Usual means.
    pub curve: Curve,
    /// Day-to-day deviation of each day.
    deviation: [f64; YEAR],
    /// Whether the deviation was assumed.
    pub assumed: bool,
}

impl Air {
    /// The air of a place with such monthly means and deviations; without deviations, [`ASSUMED_DEVIATION`] stands in.
    pub fn of(means: &[f64; 12], deviations: Option<&[f64; 12]>) -> Self {
        let months = deviations.copied().unwrap_or([ASSUMED_DEVIATION; 12]);
        Self { curve: Curve::of(means), deviation: between(&months), assumed: deviations.is_none() }
    }

    /// The usual mean of a day, 1 to 365.
    pub fn mean(&self, day: u16) -> Temperature {
        Temperature::of_celsius(self.curve.on(day))
    }

    /// The usual mean of a month, 1 to 12.
    pub fn month(&self, month: i8) -> Temperature {
        Temperature::of_celsius(self.curve.months()[(month.clamp(1, 12) - 1) as usize])
    }

    /// The deviation of a day, 1 to 365.
    pub fn deviation(&self, day: u16) -> TemperatureStep {
        TemperatureStep::of_celsius(self.scatter(day))
    }

    /// The deviation of a day in degrees C.
    pub(super) fn scatter(&self, day: u16) -> f64 {
        self.deviation[usize::from(day.clamp(1, 365)) - 1]
    }

    /// The chance that the mean of a day lies in a band.
    fn chance(&self, day: u16, band: &Range<Temperature>) -> f64 {
        normal::within(self.curve.on(day), self.scatter(day), band.low.celsius(), band.high.celsius())
    }

    /// Days whose mean is expected to lie in a band.
    ///
    /// ```
    /// use hostwood::{quantity::Temperature, reckon::climate::Air};
    /// let steady = Air::of(&[15.0; 12], Some(&[0.0; 12]));
    /// assert_eq!(steady.expected(1..=365, &[10.0, 20.0].map(Temperature::of_celsius).into()), 365.0);
    /// ```
    pub fn expected(&self, days: impl IntoIterator<Item = u16>, band: &Range<Temperature>) -> f64 {
        days.into_iter().map(|day| self.chance(day, band)).sum()
    }

    /// Degree-days over some days, as the mean over years that scatter.
    pub fn warmth(&self, days: impl IntoIterator<Item = u16>) -> TemperatureStep {
        let of_day = |day| normal::above(self.curve.on(day), self.scatter(day), degree_days::BASE);
        TemperatureStep::of_celsius(days.into_iter().map(of_day).sum())
    }

    /// The days on which the chance of a mean in a band is at least so great.
    pub fn likely(&self, band: &Range<Temperature>, chance: f64) -> Days {
        Days::where_holds(|day| self.chance(day, band) >= chance)
    }
}

/// Values of months as values of days, in straight lines between mid-months round the year.
fn between(months: &[f64; 12]) -> [f64; YEAR] {
    let mut middle = [0.0; 12];
    let mut start = 0.0;
    for (at, length) in middle.iter_mut().zip(MONTHS) {
        *at = start + length / 2.0;
        start += length;
    }
    std::array::from_fn(|index| {
        let at = index as f64 + 0.5;
        let after = middle.iter().position(|middle| *middle > at).unwrap_or(0);
        let before = (after + 11) % 12;
        let span = (middle[after] - middle[before]).rem_euclid(YEAR as f64);
        let part = (at - middle[before]).rem_euclid(YEAR as f64) / span;
        months[before] + part * (months[after] - months[before])
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn every_month_keeps_its_mean(means in proptest::array::uniform12(-40.0f64..40.0)) {
            for (given, back) in means.iter().zip(Curve::of(&means).months()) {
                prop_assert!((given - back).abs() < 1e-9, "{given} came back as {back}");
            }
        }

        #[test]
        fn a_scaled_year_is_the_scaled_curve(means in proptest::array::uniform12(-20.0f64..30.0), a in -3.0f64..3.0, b in -9.0f64..9.0) {
            let (one, other) = (Curve::of(&means), Curve::of(&means.map(|mean| a * mean + b)));
            for day in 1..=365 {
                prop_assert!((a * one.on(day) + b - other.on(day)).abs() < 1e-9);
            }
        }

        #[test]
        fn a_crossing_is_where_the_mean_crosses(means in proptest::array::uniform12(-20.0f64..30.0), temperature in -10.0f64..20.0) {
            let curve = Curve::of(&means);
            if let Some(at) = curve.rises_above(temperature) {
                prop_assert!(curve.on(at) > temperature && curve.on(day(i32::from(at) - 1)) <= temperature);
            }
            if let Some(at) = curve.falls_below(temperature) {
                prop_assert!(curve.on(at) < temperature && curve.on(day(i32::from(at) - 1)) >= temperature);
            }
        }
    }

    #[test]
    fn one_warm_month_overshoots_as_worked_out() {
        let mut means = [0.0; 12];
        means[6] = 12.0;
        let curve = Curve::of(&means);
        let days: Vec<f64> = (1..=365).map(|day| curve.on(day)).collect();
        let highest = days.iter().copied().fold(f64::MIN, f64::max);
        let lowest = days.iter().copied().fold(f64::MAX, f64::min);
        assert!((highest - 14.2167).abs() < 5e-5 && (lowest + 2.7829).abs() < 5e-5, "{lowest} to {highest}");
    }
}
