//! Areas of land, of beds and of stems, and basal areas: made and printed in either unit system.

use uom::si::area::hectare;
use uom::si::f64 as si;
use uom::si::ratio::ratio;

use super::measure::{SQUARE_FEET_AN_ACRE, SQUARE_METRES_A_SQUARE_FOOT, rounded, worth};
use super::{Area, BasalArea, Units};

impl Area {
    /// The area in acres.
    pub fn acres(&self) -> f64 {
        self.base() / (SQUARE_FEET_AN_ACRE * SQUARE_METRES_A_SQUARE_FOOT)
    }

    /// The area as it is printed: square feet or acres, square metres or hectares.
    pub fn show(&self, units: Units) -> String {
        match units {
            Units::Us if self.acres() < 0.02 => format!("{} ft²", worth(self.square_feet(), 10.0)),
            Units::Us => format!("{} ac", rounded(self.acres(), 2)),
            Units::Metric if self.base() < 100.0 => format!("{} m²", worth(self.base(), 10.0)),
            Units::Metric => format!("{} ha", rounded(self.si().get::<hectare>(), 2)),
        }
    }

    /// The basal area of stems that take up so much, on an area of land.
    pub fn over(&self, land: &Self) -> BasalArea {
        (self.si() / land.si()).into()
    }

    /// What the stems of trees take up at breast height: square feet or square metres.
    ///
    /// ```
    /// use hostwood::quantity::{Area, Units};
    /// let stems = Area::of_square_feet(25.834);
    /// assert_eq!([stems.stems(Units::Us), stems.stems(Units::Metric)], ["25.83 ft²", "2.4 m²"]);
    /// ```
    pub fn stems(&self, units: Units) -> String {
        units.pick(rounded(self.square_feet(), 2) + " ft²", rounded(self.base(), 3) + " m²")
    }
}

impl BasalArea {
    /// A basal area of so many square feet an acre.
    pub fn of_square_feet_an_acre(feet: f64) -> Self {
        si::Ratio::new::<ratio>(feet / SQUARE_FEET_AN_ACRE).into()
    }

    /// Square feet of stem on an acre.
    pub fn square_feet_an_acre(&self) -> f64 {
        self.base() * SQUARE_FEET_AN_ACRE
    }

    /// Square metres of stem on a hectare.
    pub fn square_metres_a_hectare(&self) -> f64 {
        self.base() * 10_000.0
    }

    /// The basal area as it is printed.
    pub fn show(&self, units: Units) -> String {
        // A square foot an acre is a quarter of a square metre a hectare.
        let number = units.pick(rounded(self.square_feet_an_acre(), 0), rounded(self.square_metres_a_hectare(), 1));
        format!("{number} {}", units.pick("ft²/ac", "m²/ha"))
    }
}
