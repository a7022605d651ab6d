//! Reckons a year at a place from its latitude and twelve monthly means: warmth and light day by day, the dates of leaf
//! colour and bud swell, and how many days a year lie in a band of temperature.
//!
//! It reads an array of places from standard input and writes an array of years, both as JSON, in degrees Celsius:
//!
//! ```text
//! cargo run --example year_at_a_place <<'PLACES'
//! [{
//!   "latitude": 42.54, "year": 2026,
//!   "means": [-5.17, -4.18, 0.51, 6.93, 12.77, 17.59, 20.31, 19.58, 15.52, 8.97, 3.55, -1.97],
//!   "deviations": null,
//!   "bands": [[10, 21]]
//! }]
//! PLACES
//! ```
//!
//! The deviations are those of daily means about the curve of the year, month by month; with `null` the library's own
//! assumption stands in. An event is a day of the year, or the words for why no model holds at the place.

use std::error::Error;
use std::io;

use hostwood::quantity::{Event, Temperature};
use hostwood::reckon::climate::Air;
use hostwood::reckon::daylight::day_length;
use hostwood::reckon::dormancy::modelled;
use jiff::{ToSpan, civil};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Place {
    latitude: f64,
    year: i16,
    means: [f64; 12],
    deviations: Option<[f64; 12]>,
    bands: Vec<[f64; 2]>,
}

#[derive(Serialize)]
struct Year {
    daily_means: Vec<f64>,
    month_means: [f64; 12],
    daylight_hours: Vec<f64>,
    leaf_colour: Value,
    bud_swell: Value,
    suitable_days: Vec<f64>,
}

impl Year {
    fn at(place: &Place) -> Result<Self, jiff::Error> {
        let air = Air::of(&place.means, place.deviations.as_ref());
        let event = |event| match modelled(event, &air, place.latitude) {
            Ok(day) => json!(day),
            Err(gap) => json!(gap.to_string()),
        };
        let first = civil::Date::new(place.year, 1, 1)?;
        let dates = first.series(1.day()).take_while(|date| date.year() == place.year);
        let days = 1..=365;
        Ok(Self {
            daily_means: days.clone().map(|day| air.mean(day).celsius()).collect(),
            month_means: air.curve.months(),
            daylight_hours: dates.map(|date| day_length(place.latitude, date).hours()).collect(),
            leaf_colour: event(Event::LeafColour),
            bud_swell: event(Event::BudSwell),
            suitable_days: place
                .bands
                .iter()
                .map(|band| air.expected(days.clone(), &band.map(Temperature::of_celsius).into()))
                .collect(),
        })
    }
}

fn main() -> Result<(), Box<dyn Error>> {
    let places: Vec<Place> = serde_json::from_reader(io::stdin().lock())?;
    let years = places.iter().map(Year::at).collect::<Result<Vec<_>, _>>()?;
    println!("{}", serde_json::to_string(&years)?);
    Ok(())
}
