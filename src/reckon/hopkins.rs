//! By how many days do events of one place move to another?
//!
//! Hopkins' rule of 1918, a folk rule by now: four days for each degree of latitude towards the pole and for each 400 ft
//! upward, later in spring and earlier in autumn. The term for longitude is left out, since its sources disagree, and that for
//! height in autumn, where no trend was found. It holds in temperate North America, to about a week.

use crate::quantity::{Event, Length};

/// Days for a degree of latitude, and for 400 ft.
const DAYS: f64 = 4.0;
/// The height that moves an event by as much as a degree of latitude, in feet.
pub const FEET: f64 = 400.0;

/// Days by which an event falls later at one place than at another, given how many degrees it lies nearer the pole and how
/// much higher.
///
/// ```
/// use hostwood::{quantity::{Event, Length}, reckon::hopkins::later};
/// // Hopkins: four days later for each 400 ft and for each degree of latitude.
/// assert_eq!(later(Event::BudSwell, 1.0, &Length::of_feet(400.0)), 8.0);
/// assert_eq!(later(Event::LeafColour, 1.0, &Length::of_feet(400.0)), -4.0);
/// ```
pub fn later(event: Event, degrees: f64, higher: &Length) -> f64 {
    match event {
        Event::BudSwell => DAYS * degrees + DAYS * higher.feet() / FEET,
        Event::LeafColour => -DAYS * degrees,
    }
}
