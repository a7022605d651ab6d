//! How long is the day?
//!
//! | function | model | source |
//! |---|---|---|
//! | [`day_length`] | declination and equation of time by Meeus's series, re-evaluated at sunrise and sunset | NOAA solar calculator |
//! | [`by_day`] | one declination a day of the year, whatever the year | CBM, Forsythe and others 1995 |
//!
//! The sun rises and sets when its centre stands 0.833° below the horizon: refraction and its radius. Latitudes in degrees,
//! south negative; hours. The first is within two minutes of an independent library up to 60°, the second within six
//! minutes up to 50°.

use jiff::civil;

/// How far below the horizon the sun's centre stands at sunrise and sunset, in degrees.
const DEPRESSION: f64 = 0.833;
/// Passes after which sunrise and sunset no longer move.
const PASSES: usize = 3;

/// The day between sunrise and sunset.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DayLength {
    /// So many hours.
    Hours(f64),
    /// The sun does not set.
    PolarDay,
    /// The sun does not rise.
    PolarNight,
}

impl DayLength {
    /// Hours of daylight: 24 where the sun does not set, 0 where it does not rise.
    pub const fn hours(self) -> f64 {
        match self {
            Self::Hours(hours) => hours,
            Self::PolarDay => 24.0,
            Self::PolarNight => 0.0,
        }
    }
}

/// The length of a calendar day at a latitude.
///
/// ```
/// use hostwood::reckon::daylight::{DayLength, day_length};
/// let longest = day_length(42.54, jiff::civil::date(2025, 6, 21)).hours();
/// assert!((longest - 15.3077).abs() < 5e-4); // the same form, worked out at 72.18° W
/// assert_eq!(day_length(69.65, jiff::civil::date(2025, 6, 21)), DayLength::PolarDay);
/// ```
pub fn day_length(latitude: f64, date: civil::Date) -> DayLength {
    hours(latitude, date).map_or_else(|never| never, DayLength::Hours)
}

fn hours(latitude: f64, date: civil::Date) -> Result<f64, DayLength> {
    let half = half_day(latitude, declination(centuries(date, 0.5)))?;
    let (mut rise, mut set) = (720.0 - half, 720.0 + half);
    for _ in 0..PASSES {
        let at = |minutes: f64| {
            let time = centuries(date, minutes / 1440.0);
            Ok((half_day(latitude, declination(time))?, equation_of_time(time)))
        };
        let ((before, early), (after, late)) = (at(rise)?, at(set)?);
        (rise, set) = (720.0 - before - early, 720.0 + after - late);
    }
    Ok((set - rise) / 60.0)
}

/// Half the day, in minutes, or why there is none.
fn half_day(latitude: f64, declination: f64) -> Result<f64, DayLength> {
    let latitude = latitude.clamp(-89.9, 89.9).to_radians();
    let depression = (90.0 + DEPRESSION).to_radians().cos();
    let cosine = (depression - latitude.sin() * declination.sin()) / (latitude.cos() * declination.cos());
    match cosine {
        cosine if cosine <= -1.0 => Err(DayLength::PolarDay),
        cosine if cosine >= 1.0 => Err(DayLength::PolarNight),
        cosine => Ok(cosine.acos().to_degrees() * 4.0),
    }
}

/// Julian centuries from 2000 to a moment of a day, given as a part of it.
fn centuries(date: civil::Date, part: f64) -> f64 {
    let days = (date - civil::date(2000, 1, 1)).get_days();
    (f64::from(days) - 0.5 + part) / 36525.0
}

/// The sun's mean longitude and mean anomaly, in degrees.
fn mean_sun(t: f64) -> (f64, f64) {
    let longitude = 280.46646 + t * (36000.76983 + 0.000_303_2 * t);
    (longitude.rem_euclid(360.0), 357.52911 + t * (35999.05029 - 0.000_153_7 * t))
}

/// The obliquity of the ecliptic, in radians.
fn obliquity(t: f64) -> f64 {
    let seconds = 21.448 - t * (46.815 + t * (0.00059 - 0.001_813 * t));
    let node = (125.04 - 1934.136 * t).to_radians();
    (23.0 + (26.0 + seconds / 60.0) / 60.0 + 0.00256 * node.cos()).to_radians()
}

/// The sun's declination, in radians.
fn declination(t: f64) -> f64 {
    let (longitude, anomaly) = mean_sun(t);
    let m = anomaly.to_radians();
    let centre = m.sin() * (1.914_602 - t * (0.004_817 + 0.000_014 * t))
        + (2.0 * m).sin() * (0.019_993 - 0.000_101 * t)
        + (3.0 * m).sin() * 0.000_289;
    let node = (125.04 - 1934.136 * t).to_radians();
    let apparent = (longitude + centre - 0.00569 - 0.00478 * node.sin()).to_radians();
    (obliquity(t).sin() * apparent.sin()).asin()
}

/// Sundial time less clock time, in minutes.
fn equation_of_time(t: f64) -> f64 {
    let (longitude, anomaly) = mean_sun(t);
    let (longitude, anomaly) = (longitude.to_radians(), anomaly.to_radians());
    let eccentricity = 0.016_708_634 - t * (0.000_042_037 + 0.000_000_126_7 * t);
    let tilt = (obliquity(t) / 2.0).tan().powi(2);
    let sum = tilt * (2.0 * longitude).sin() - 2.0 * eccentricity * anomaly.sin()
        + 4.0 * eccentricity * tilt * anomaly.sin() * (2.0 * longitude).cos()
        - 0.5 * tilt * tilt * (4.0 * longitude).sin()
        - 1.25 * eccentricity * eccentricity * (2.0 * anomaly).sin();
    4.0 * sum.to_degrees()
}

/// Hours of daylight on a day of the year, 1 to 365, whatever the year.
///
/// ```
/// use hostwood::reckon::daylight::by_day;
/// assert!((by_day(42.54, 172) - 15.3070).abs() < 5e-5); // geosphere 1.5-18
/// assert_eq!(by_day(69.65, 355), 0.0);
/// ```
pub fn by_day(latitude: f64, day: u16) -> f64 {
    let turn = 0.216_310_8 + 2.0 * (0.967_139_6 * (0.00860 * (f64::from(day) - 186.0)).tan()).atan();
    let declination = (0.39795 * turn.cos()).asin();
    let latitude = latitude.clamp(-89.9, 89.9).to_radians();
    let below = 0.8333_f64.to_radians().sin();
    let cosine = (below + latitude.sin() * declination.sin()) / (latitude.cos() * declination.cos());
    24.0 - 24.0 / std::f64::consts::PI * cosine.clamp(-1.0, 1.0).acos()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sun_of_2025_stands_where_the_series_says() {
        // Declination and equation of time at 12:00 UTC, by the same series in another program.
        let rows = [(3, 20, 0.05188, -7.36191), (6, 21, 23.43799, -1.87459), (12, 21, -23.43830, 1.80052)];
        for (month, day, degrees, minutes) in rows {
            let t = centuries(civil::date(2025, month, day), 0.5);
            assert!((declination(t).to_degrees() - degrees).abs() < 1e-5);
            assert!((equation_of_time(t) - minutes).abs() < 1e-5);
        }
    }

    #[test]
    fn a_pole_has_one_day_and_one_night_a_year() {
        assert_eq!(day_length(90.0, civil::date(2026, 6, 21)), DayLength::PolarDay);
        assert_eq!(day_length(-90.0, civil::date(2026, 6, 21)), DayLength::PolarNight);
    }
}
