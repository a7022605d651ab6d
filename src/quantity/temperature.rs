//! Temperatures and their differences, printed in either unit system.

use super::measure::rounded;
use super::{Temperature, TemperatureStep, Units};

impl Temperature {
    /// The temperature as it is printed, to the whole degree.
    pub fn show(&self, units: Units) -> String {
        format!("{} {}", rounded(units.pick(self.fahrenheit(), self.celsius()), 0), units.pick("°F", "°C"))
    }
}

impl TemperatureStep {
    /// A difference or a sum of degree-days in whole numbers, as it is printed without its unit.
    pub fn whole(&self, units: Units) -> String {
        rounded(units.pick(self.fahrenheit(), self.celsius()), 0)
    }

    /// The difference as it is printed.
    pub fn show(&self, units: Units) -> String {
        format!("{} {}", rounded(units.pick(self.fahrenheit(), self.celsius()), 1), units.pick("°F", "°C"))
    }
}
