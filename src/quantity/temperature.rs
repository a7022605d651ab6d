//! Temperatures and their differences: made from degrees, and printed in either unit system.

use uom::si::{
    f64 as si,
    temperature_interval::{degree_celsius as celsius_step, degree_fahrenheit as fahrenheit_step},
    thermodynamic_temperature::{degree_celsius, degree_fahrenheit},
};

use super::{Temperature, TemperatureStep, Units, measure::rounded};

impl Temperature {
    /// A temperature of so many degrees Celsius.
    #[must_use]
    pub fn of_celsius(degrees: f64) -> Self {
        si::ThermodynamicTemperature::new::<degree_celsius>(degrees).into()
    }

    /// The temperature in degrees Celsius.
    #[must_use]
    pub fn celsius(&self) -> f64 {
        self.si().get::<degree_celsius>()
    }

    /// The temperature in degrees Fahrenheit.
    #[must_use]
    pub fn fahrenheit(&self) -> f64 {
        self.si().get::<degree_fahrenheit>()
    }

    /// The temperature as it is printed, to the whole degree.
    #[must_use]
    pub fn show(&self, units: Units) -> String {
        match units {
            Units::Us => format!("{} °F", rounded(self.fahrenheit(), 0)),
            Units::Metric => format!("{} °C", rounded(self.celsius(), 0)),
        }
    }
}

impl TemperatureStep {
    /// A difference of so many degrees C.
    #[must_use]
    pub fn of_celsius(degrees: f64) -> Self {
        si::TemperatureInterval::new::<celsius_step>(degrees).into()
    }

    /// The difference in degrees C.
    #[must_use]
    pub fn celsius(&self) -> f64 {
        self.si().get::<celsius_step>()
    }

    /// The difference in degrees F.
    #[must_use]
    pub fn fahrenheit(&self) -> f64 {
        self.si().get::<fahrenheit_step>()
    }

    /// A sum of degree-days as it is printed, in whole numbers.
    #[must_use]
    pub fn whole(&self, units: Units) -> String {
        match units {
            Units::Us => rounded(self.fahrenheit(), 0),
            Units::Metric => rounded(self.celsius(), 0),
        }
    }

    /// The difference as it is printed.
    #[must_use]
    pub fn show(&self, units: Units) -> String {
        match units {
            Units::Us => format!("{} °F", rounded(self.fahrenheit(), 1)),
            Units::Metric => format!("{} °C", rounded(self.celsius(), 1)),
        }
    }
}
