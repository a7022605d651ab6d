//! What is assumed of the air.

use crate::page::Context;
use crate::quantity::TemperatureStep;
use crate::reckon::climate::ASSUMED_DEVIATION;

/// The deviation that is assumed, as pages print it.
pub fn deviation(context: &Context<'_>) -> String {
    TemperatureStep::of_celsius(ASSUMED_DEVIATION).show(context.units())
}
