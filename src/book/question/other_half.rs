//! Monthly means that read like the other half of the globe.

use super::{Odd, other_side};
use crate::book::Book;
use crate::book::lay::Pile;
use crate::quantity::Temperature;
use crate::record::region::Half;

/// Asks where a farm outside the tropics has its warmest month in the midst of its winter; a latitude that is asked about
/// already explains it.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let (Some(farm), Some(climate)) = (pile.farm().and_then(|farm| farm.get("climate")), &book.farm.record.climate)
    else {
        return Vec::new();
    };
    let means: Vec<f64> = climate.monthly_means.iter().map(Temperature::celsius).collect();
    if !is_warmest_in_winter(&means, book.here.half) || other_side::is_latitude_odd(book) {
        return Vec::new();
    }
    let (season, half) = match book.here.half {
        Half::South => ("June to August", "southern"),
        _ => ("December to February", "northern"),
    };
    vec![Odd::of_farm(
        farm.place_of("monthly_means"),
        format!("the warmest month falls in {season}, which is winter in the {half} half of the globe"),
        "begin the list with January, or look at the latitude, which is negative in the south",
    )]
}

/// Whether one of the three months of midwinter is warmer than every other month; January comes first.
fn is_warmest_in_winter(means: &[f64], half: Half) -> bool {
    let winter: &[usize] = match half {
        Half::North => &[11, 0, 1],
        Half::Tropics => return false,
        Half::South => &[5, 6, 7],
    };
    let warmest = |in_winter: bool| {
        let of = means.iter().enumerate().filter(|(month, _)| winter.contains(month) == in_winter);
        of.map(|(_, mean)| *mean).fold(f64::NEG_INFINITY, f64::max)
    };
    warmest(true) > warmest(false)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn half_a_year_and_half_a_globe_undo_each_other(means in prop::collection::vec(-40.0..40.0, 12)) {
            let moved = [&means[6..], &means[..6]].concat();
            let asked = is_warmest_in_winter(&means, Half::North);
            prop_assert_eq!(asked, is_warmest_in_winter(&moved, Half::South));
            prop_assert!(!(asked && is_warmest_in_winter(&moved, Half::North)));
            prop_assert!(!is_warmest_in_winter(&means, Half::Tropics));
        }
    }

    #[test]
    fn a_year_without_seasons_is_not_asked_about() {
        assert!(!is_warmest_in_winter(&[12.0; 12], Half::North));
    }
}
