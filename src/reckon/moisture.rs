//! How wet is a log?
//!
//! | quantity | formula | source |
//! |---|---|---|
//! | wet basis from dry | w = d / (1 + d) | standard |
//! | dry basis from wet | d = w / (1 − w) | standard |
//! | a slice | w = (wet − dry) / wet | standard |
//! | dry wood of a log | m (1 − w) | standard |
//! | weight at another moisture | m (1 − w₁) / (1 − w₂) | standard |
//! | loss since inoculation | (m₀ − m) / m₀; alarm above one tenth | UK-83 |
//! | most that wood can hold | d = (1.54 − G) / (1.54 G) | Wood Handbook eq. 4-3 |
//! | where it sinks | d = (1 − G) / G | Wood Handbook eq. 4-4 |
//!
//! Shares are parts of one. The ten per cent hold for the first season only: later the fungus has eaten wood, the log is
//! lighter for that reason, and no verdict is given. Not rounded here.

use super::Gap;
use super::formula::Formula;
use crate::quantity::{Date, Mass, Percent};
use crate::record::said::Mark;

/// The loss above which a log is too dry, as a part of its weight at inoculation (UK-83).
pub const ALARM: f64 = 0.10;

/// Wet-basis moistures at which a log is well wet and at which spawn dies (UK-82, whose basis is taken to be wet).
pub const LIMITS: [f64; 2] = [0.35, 0.23];

/// Moisture, weight and loss.
pub const MOISTURE: Formula = Formula {
    name: "Moisture, weight and loss",
    math: r#"<math display="block"><mrow><mi>w</mi><mo>=</mo><mfrac><mrow><mi>d</mi></mrow><mrow><mn>1</mn><mo>+</mo><mi>d</mi></mrow></mfrac><mspace width="2em"/><msub><mi>m</mi><mrow><mn>2</mn></mrow></msub><mo>=</mo><msub><mi>m</mi><mrow><mn>1</mn></mrow></msub><mfrac><mrow><mn>1</mn><mo>−</mo><msub><mi>w</mi><mrow><mn>1</mn></mrow></msub></mrow><mrow><mn>1</mn><mo>−</mo><msub><mi>w</mi><mrow><mn>2</mn></mrow></msub></mrow></mfrac><mspace width="2em"/><mi>loss</mi><mo>=</mo><mfrac><mrow><msub><mi>m</mi><mrow><mn>0</mn></mrow></msub><mo>−</mo><mi>m</mi></mrow><mrow><msub><mi>m</mi><mrow><mn>0</mn></mrow></msub></mrow></mfrac></mrow></math>"#,
    words: "Moisture by the wet weight from moisture by the dry weight; the weight of a log at another moisture, since its dry wood stays the same; and what it has lost since inoculation. A loss of more than a tenth calls for water in the first season. Later a log gets lighter because the fungus uses up wood, so weight alone no longer tells how wet it is.",
    symbols: &[("w, d", "water over wet weight, water over dry weight"), ("m", "weights of one log")],
    sources: &[("uk-83", Mark::Copy), ("uk-82", Mark::Read), ("wh4", Mark::Read)],
    own: "water over wet and over dry weight by their definitions; the tenth by the first source, 35 and 23 % by the second, taken as wet basis; what wood holds and when it sinks by the third",
};

/// Wet basis from dry basis.
///
/// ```
/// use hostwood::reckon::moisture::wet_of_dry;
/// assert!((wet_of_dry(0.80) - 0.4444).abs() < 5e-5); // WE-12
/// ```
pub fn wet_of_dry(dry: f64) -> f64 {
    dry / (1.0 + dry)
}

/// Dry basis from wet basis.
///
/// ```
/// use hostwood::reckon::moisture::dry_of_wet;
/// assert!((dry_of_wet(0.35) - 0.5385).abs() < 5e-5); // WE-12
/// ```
pub fn dry_of_wet(wet: f64) -> f64 {
    wet / (1.0 - wet)
}

/// Moisture of a slice on a wet basis.
///
/// ```
/// use hostwood::{quantity::Mass, reckon::moisture::of_slice};
/// let grams = |text| Mass::read(text).unwrap();
/// assert!((of_slice(&grams("1000 g"), &grams("560 g")).of_one() - 0.44).abs() < 1e-9); // WE-13
/// ```
pub fn of_slice(wet: &Mass, dry: &Mass) -> Percent {
    lost(wet, dry)
}

/// Weight that a log of one moisture (wet basis) has at another.
///
/// ```
/// use hostwood::{quantity::Mass, reckon::moisture::weight_at};
/// let then = weight_at(&Mass::read("18 kg").unwrap(), 0.44, 0.35);
/// assert!((then.base() - 15.508).abs() < 5e-4); // WE-13
/// let later = weight_at(&Mass::read("18 kg").unwrap(), 0.44, 0.3778);
/// assert!((later.base() - 16.2).abs() < 5e-3); // WE-13, the same log at 37.78 %
/// ```
pub fn weight_at(mass: &Mass, wet: f64, then: f64) -> Mass {
    Mass::of_kilograms(mass.base() * part_at(wet, then))
}

/// The part of its weight that a log of one moisture (wet basis) has at another.
///
/// ```
/// use hostwood::reckon::moisture::{part_at, wet_of_dry};
/// assert!((part_at(wet_of_dry(0.831), 0.35) - 0.840).abs() < 5e-4); // derived table of critical weights, red oak
/// ```
pub fn part_at(wet: f64, then: f64) -> f64 {
    (1.0 - wet) / (1.0 - then)
}

/// The part of its weight that a log has lost.
///
/// ```
/// use hostwood::{quantity::Mass, reckon::moisture::lost};
/// let pounds = |text| Mass::read(text).unwrap();
/// assert!((lost(&pounds("35 lb"), &pounds("29 lb")).of_one() - 0.171).abs() < 5e-4); // WE-11
/// ```
pub fn lost(then: &Mass, now: &Mass) -> Percent {
    Percent::of_part((then.base() - now.base()) / then.base())
}

/// Whether a log has lost more than a tenth since inoculation, in its first season.
///
/// # Errors
///
/// A [`Gap`] after the first season.
///
/// ```
/// use hostwood::{quantity::{Date, Mass}, reckon::moisture::too_dry};
/// let (pounds, day) = (|text| Mass::read(text).unwrap(), |text| Date::read(text).unwrap());
/// let first = day("2026-12-31");
/// assert!(!too_dry(&pounds("35 lb"), &pounds("31.5 lb"), day("2026-05-20"), first).unwrap()); // WE-11: not more than a tenth
/// assert!(too_dry(&pounds("35 lb"), &pounds("31.4 lb"), day("2026-05-20"), first).unwrap());
/// assert!(too_dry(&pounds("35 lb"), &pounds("29 lb"), day("2027-05-20"), first).is_err());
/// ```
pub fn too_dry(then: &Mass, now: &Mass, on: Date, first_season_ends: Date) -> Result<bool, Gap> {
    if on.0 > first_season_ends.0 {
        return Err(Gap::Outside(
            "after the first season the fungus has used up wood, so weight alone no longer tells how wet it is",
        ));
    }
    Ok(lost(then, now).of_one() > ALARM + 1e-9)
}

/// The most water that wood of a basic density can hold, as a part of its dry weight.
///
/// ```
/// assert!((hostwood::reckon::moisture::most(0.56) - 1.136).abs() < 5e-4); // derived from eq. 4-3, red oak
/// ```
pub fn most(density: f64) -> f64 {
    (1.54 - density) / (1.54 * density)
}

/// The water at which wood of a basic density sinks, as a part of its dry weight.
///
/// ```
/// assert!((hostwood::reckon::moisture::sinks(0.56) - 0.786).abs() < 5e-4); // derived from eq. 4-4, red oak
/// ```
pub fn sinks(density: f64) -> f64 {
    (1.0 - density) / density
}

/// The last day of the growing season that begins with or after inoculation: the end of the year in the north, of June in
/// the south (this project's reading of a first season).
pub fn first_season_ends(inoculated: Date, south: bool) -> Date {
    let (year, month) = (inoculated.0.year(), inoculated.0.month());
    let (last_month, last_day, turns) = if south { (6, 30, 3) } else { (12, 31, 9) };
    let year = if month > turns { year + 1 } else { year };
    Date(jiff::civil::Date::new(year, last_month, last_day).unwrap_or(inoculated.0))
}
