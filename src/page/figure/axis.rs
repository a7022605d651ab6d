//! An axis with round steps, over which rows of a drawing stand.

use super::svg::{Anchor, at, path, text};
use crate::quantity::measure::rounded;

/// Steps of an axis at most.
const STEPS: f64 = 5.0;

/// An axis: its first and its last number, its step, and from where to where it is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axis {
    from: f64,
    step: f64,
    to: f64,
    left: f64,
    right: f64,
}

impl Axis {
    /// An axis that holds some numbers, from nought where that is not far, drawn between two edges.
    ///
    /// ```
    /// use hostwood::page::figure::axis::Axis;
    /// let axis = Axis::over([3.0, 47.0], [0.0, 100.0]);
    /// assert_eq!([axis.x(0.0), axis.x(25.0), axis.x(50.0)], [0.0, 50.0, 100.0]);
    /// assert_eq!(Axis::over([6.0, 6.0], [0.0, 100.0]).x(6.0), 100.0); // two sources that say the same
    /// ```
    pub fn over(numbers: impl IntoIterator<Item = f64>, [left, right]: [f64; 2]) -> Self {
        let ends = numbers.into_iter().fold([f64::INFINITY, f64::NEG_INFINITY], |[least, most], number| {
            [f64::min(least, number), f64::max(most, number)]
        });
        // One number alone would leave no stretch to draw.
        let [least, most] = if ends[0] < ends[1] { ends } else { [ends[1].min(0.0), ends[1].max(1.0)] };
        let [least, most] = if least.is_finite() && most.is_finite() { [least, most] } else { [0.0, 1.0] };
        let from = if least > 0.0 && least < most * 0.6 { 0.0 } else { least };
        let rough = ((most - from) / STEPS).max(f64::MIN_POSITIVE);
        let power = 10f64.powf(rough.log10().floor());
        let step = [1.0, 2.0, 5.0, 10.0].map(|times| times * power).into_iter().find(|step| *step >= rough);
        let step = step.unwrap_or(power);
        Self { from: (from / step).floor() * step, step, to: (most / step).ceil() * step, left, right }
    }

    /// Where a number stands.
    pub fn x(&self, number: f64) -> f64 {
        self.left + (number - self.from) / (self.to - self.from).max(f64::MIN_POSITIVE) * (self.right - self.left)
    }

    /// The axis with its numbers, over rows that begin below it.
    pub fn drawn(&self) -> String {
        let ticks = ((self.to - self.from) / self.step).round().clamp(0.0, 2.0 * STEPS) as u32;
        let numbers = (0..=ticks).map(|tick| self.from + f64::from(tick) * self.step);
        let tick = |number: f64| {
            let x = self.x(number);
            text("tick-n", [x, 11.0], Anchor::Middle, &rounded(number, 2)) + &path("month", &format!("M{} 14v5", at(x)))
        };
        numbers.map(tick).collect()
    }
}
