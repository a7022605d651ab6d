//! When do leaves colour and buds swell, where nobody has written it down?
//!
//! | event | model | source |
//! |---|---|---|
//! | half of the leaves coloured | from the day on which daylight falls below 14.5 h, R = max(0, 28.5 − T)² (P / 14.5)² adds up to 8268; P is daylight | Delpierre and others 2009, oak and beech together |
//! | 30 % of the leaves coloured | 4 days before | inference: half coloured to half fallen takes 7 to 14 days (Harvard Forest, HF003) |
//! | buds swell | the usual mean rises above 5 °C | this project's choice; Harvard Forest's buds swell from 9 to 17 April, the mean crosses on 7 April |
//!
//! R is taken as its mean over days that scatter about the usual temperature. From normals the two are within 5 days of what
//! two well-observed forests saw, and no closer than two weeks elsewhere. Neither holds where the mean never falls below
//! 5 °C, in the tropics, or where no month is warm enough for broadleaved woods.

use super::climate::Air;
use super::days::day;
use super::formula::Formula;
use super::{Gap, daylight, normal};
use crate::quantity::Event;
use crate::record::said::Mark;

/// Daylight below which autumn begins to count, in hours.
const SHORT_DAY: f64 = 14.5;
/// Temperature below which a day counts, in degrees C.
const COLD: f64 = 28.5;
/// The sum at which half of the leaves have coloured.
const HALF_COLOURED: f64 = 8268.0;
/// Days from 30 % to half coloured.
const BEFORE_HALF: i32 = 4;
/// The mean at which buds begin to swell, in degrees C.
const SWELL: f64 = 5.0;
/// Latitude inside which there is no winter by which to count.
const TROPIC: f64 = 23.44;
/// The warmest month that broadleaved woods need, in degrees C (from memory: the tree line follows it).
const TREES: f64 = 10.0;
/// Days from the summer solstice to the end of the half-year in which leaves colour.
const AUTUMN: i32 = 193;
/// Days by which a modelled date may be wrong: at best, and at a place where nobody has checked it.
pub const ERROR: [u16; 2] = [7, 14];

/// The sum by which leaves colour.
pub const COLOUR: Formula = Formula {
    name: "When leaves turn, where nobody wrote it down",
    math: r#"<math display="block"><mrow><munder><mo>∑</mo><mrow><mi>P</mi><mo>&lt;</mo><mn>14.5</mn></mrow></munder><mi>max</mi><msup><mrow><mo>(</mo><mn>0</mn><mo>,</mo><mn>28.5</mn><mo>−</mo><mi>T</mi><mo>)</mo></mrow><mn>2</mn></msup><msup><mrow><mo>(</mo><mfrac><mi>P</mi><mn>14.5</mn></mfrac><mo>)</mo></mrow><mn>2</mn></msup><mo>&gt;</mo><mn>8268</mn></mrow></math>"#,
    words: "From the day on which daylight falls below 14.5 hours, cold and light add up; at the sum half of the leaves have turned. Thirty per cent is taken 4 days before. Buds swell where the usual mean rises above 5 °C.",
    symbols: &[("P", "daylight, hours"), ("T", "mean of the day, °C, scattered about its usual value")],
    sources: &[("delpierre-2009", Mark::SecondHand), ("forsythe-1995", Mark::SecondHand), ("hf003", Mark::Derived)],
    own: "fitted to oak and beech in France; daylight by the second source, the 4 days from the third; the 5 °C are this project's choice",
};

/// Where an event falls by the models.
///
/// # Errors
///
/// A [`Gap`] where the model does not hold.
///
/// ```
/// use hostwood::{quantity::Event, reckon::{climate::Air, dormancy::modelled}};
/// // Harvard Forest 1990–2014: 9 October by the model for half coloured, 281.0 observed on ten trees.
/// let means = [-5.17, -4.18, 0.51, 6.93, 12.77, 17.59, 20.31, 19.58, 15.52, 8.97, 3.55, -1.97];
/// let deviations = [6.07, 5.17, 5.28, 5.08, 4.40, 3.85, 2.89, 2.89, 4.02, 4.48, 4.90, 5.22];
/// let air = Air::of(&means, Some(&deviations));
/// assert_eq!(modelled(Event::LeafColour, &air, 42.5429), Ok(278));
/// assert_eq!(modelled(Event::BudSwell, &air, 42.5429), Ok(97));
/// ```
pub fn modelled(event: Event, air: &Air, latitude: f64) -> Result<u16, Gap> {
    holds(air, latitude)?;
    match event {
        Event::LeafColour => half_coloured(air, latitude).map(|half| day(i32::from(half) - BEFORE_HALF)),
        Event::BudSwell => air.curve.rises_above(SWELL).ok_or(Gap::Unmodelled(NO_WINTER)),
    }
}

const NO_WINTER: &str = "the usual mean of the air never falls below 5 °C, so there is no winter by which to count";

/// That a place has a winter by its latitude.
///
/// # Errors
///
/// A [`Gap`] in the tropics.
pub fn outside_the_tropics(latitude: f64) -> Result<(), Gap> {
    if latitude.abs() < TROPIC {
        return Err(Gap::Unmodelled("the place lies in the tropics, where trees do not keep to a winter"));
    }
    Ok(())
}

fn holds(air: &Air, latitude: f64) -> Result<(), Gap> {
    outside_the_tropics(latitude)?;
    let warmest = air.curve.months().into_iter().fold(f64::MIN, f64::max);
    let [coldest, _] = air.curve.turns();
    if warmest < TREES {
        return Err(Gap::Unmodelled("no month is as warm as 10 °C, so no broadleaved woods grow by which to count"));
    }
    if air.curve.on(coldest) >= SWELL {
        return Err(Gap::Unmodelled(NO_WINTER));
    }
    Ok(())
}

/// The day on which half of the leaves have coloured.
fn half_coloured(air: &Air, latitude: f64) -> Result<u16, Gap> {
    let solstice = if latitude < 0.0 { 355 } else { 172 };
    let autumn = (0..=AUTUMN).map(|step| day(solstice + step));
    let mut sum = 0.0;
    for day in autumn.skip_while(|day| light(latitude, *day) >= SHORT_DAY) {
        let light = light(latitude, day) / SHORT_DAY;
        sum += normal::squared_below(air.curve.on(day), air.scatter(day), COLD) * light * light;
        if sum > HALF_COLOURED {
            return Ok(day);
        }
    }
    Err(Gap::Unmodelled("by the model the leaves do not turn before the year ends"))
}

/// Daylight as the model knows it; south of the equator the year is turned by half.
fn light(latitude: f64, at: u16) -> f64 {
    let turned = if latitude < 0.0 { day(i32::from(at) + 182) } else { at };
    daylight::by_day(latitude.abs(), turned)
}

#[cfg(test)]
mod tests {
    use super::*;

    const HARVARD: [f64; 12] = [-5.17, -4.18, 0.51, 6.93, 12.77, 17.59, 20.31, 19.58, 15.52, 8.97, 3.55, -1.97];
    const HARVARD_SCATTER: [f64; 12] = [6.07, 5.17, 5.28, 5.08, 4.40, 3.85, 2.89, 2.89, 4.02, 4.48, 4.90, 5.22];
    const HUBBARD: [f64; 12] = [-7.15, -6.11, -1.91, 5.60, 12.25, 17.04, 19.37, 18.67, 14.21, 7.91, 2.08, -3.73];
    const HUBBARD_SCATTER: [f64; 12] = [5.88, 5.44, 5.25, 4.35, 4.16, 3.78, 2.98, 3.03, 4.23, 4.22, 4.61, 5.20];

    #[test]
    fn two_forests_colour_and_swell_when_they_were_seen_to() {
        let harvard = Air::of(&HARVARD, Some(&HARVARD_SCATTER));
        let hubbard = Air::of(&HUBBARD, Some(&HUBBARD_SCATTER));
        assert_eq!(half_coloured(&harvard, 42.5429), Ok(282)); // seen: 281.0, ten trees, HF003
        assert_eq!(half_coloured(&hubbard, 43.9457), Ok(276)); // seen: 277.2, three trees, Hubbard Brook
        assert_eq!(modelled(Event::BudSwell, &harvard, 42.5429), Ok(97)); // seen: slight swell on 97 to 109
        assert_eq!(modelled(Event::BudSwell, &hubbard, 43.9457), Ok(103));
    }

    #[test]
    fn a_warmer_place_colours_later_and_swells_sooner() {
        // Harvard Forest's months moved by -2 to +2 °C, as worked out in another program.
        let rows = [(-2.0, 271, 106), (-1.0, 276, 101), (1.0, 288, 92), (2.0, 294, 88)];
        for (warmer, colour, swell) in rows {
            let air = Air::of(&HARVARD.map(|mean| mean + warmer), Some(&HARVARD_SCATTER));
            assert_eq!(half_coloured(&air, 42.5429), Ok(colour));
            assert_eq!(modelled(Event::BudSwell, &air, 42.5429), Ok(swell));
        }
    }

    #[test]
    fn the_same_place_in_the_south_is_half_a_year_later() {
        let turned: [f64; 12] = std::array::from_fn(|month| HARVARD[(month + 6) % 12]);
        let scatter: [f64; 12] = std::array::from_fn(|month| HARVARD_SCATTER[(month + 6) % 12]);
        let south = Air::of(&turned, Some(&scatter));
        let colour = i32::from(half_coloured(&south, -42.5429).unwrap());
        let swell = i32::from(modelled(Event::BudSwell, &south, -42.5429).unwrap());
        assert!((colour - (282 - 182)).abs() <= 2, "{colour}");
        assert!((swell - (97 + 182)).abs() <= 2, "{swell}");
    }

    #[test]
    fn where_the_models_do_not_hold_words_say_so() {
        let warm = Air::of(&[17.0; 12], None);
        assert!(matches!(modelled(Event::LeafColour, &warm, 43.6), Err(Gap::Unmodelled(_))));
        assert!(matches!(modelled(Event::BudSwell, &Air::of(&HARVARD, None), 3.0), Err(Gap::Unmodelled(_))));
        let cold = Air::of(&HARVARD.map(|mean| mean - 15.31), None);
        assert!(modelled(Event::LeafColour, &cold, 43.6).unwrap_err().to_string().contains("no broadleaved woods"));
    }
}
