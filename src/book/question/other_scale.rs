//! Monthly means that read like the other scale of temperature.

use super::Odd;
use crate::book::Book;
use crate::book::lay::Pile;
use crate::quantity::Temperature;

/// No tree grows where the warmest month is below 10 °C, which is 50 °F (Köppen's limit of the polar climates), so a
/// warmest month of 10 to 40 F is meant in C. The coldest summers with trees stay above, and no month on earth is warmer
/// than 40 C, so one above is meant in F.
const LIMITS: (f64, f64) = (10.0, 40.0);

/// Asks where the means are all in one scale, and only the other makes a year in which trees grow.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let (Some(farm), Some(climate)) = (pile.farm().and_then(|farm| farm.get("climate")), &book.farm.record.climate)
    else {
        return Vec::new();
    };
    let means = &climate.monthly_means;
    let Some(to) = meant(means) else { return Vec::new() };
    let means: Vec<String> = means.iter().map(|mean| mean.written().replace(['C', 'F'], to)).collect();
    vec![Odd::of_farm(
        farm.place_of("monthly_means"),
        match to {
            "C" => "no tree grows in so cold a year, and the means read as if they were in C",
            _ => "no month on earth is so warm, and the means read as if they were in F",
        },
        format!("write `monthly_means: [{}]`", means.join(", ")),
    )]
}

/// The scale in which the means are meant, where it is not the one in which they are written.
fn meant(means: &[Temperature]) -> Option<&'static str> {
    let all_in = |scale: char| means.iter().all(|mean| mean.written().ends_with(scale));
    let warmest = |number: fn(&Temperature) -> f64| means.iter().map(number).fold(f64::NEG_INFINITY, f64::max);
    let (tree, earth) = LIMITS;
    if all_in('F') && (tree..=earth).contains(&warmest(Temperature::fahrenheit)) {
        return Some("C");
    }
    (all_in('C') && warmest(Temperature::celsius) > earth).then_some("F")
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn written(numbers: &[f64], scale: char) -> Vec<Temperature> {
        numbers.iter().map(|number| Temperature::read(&format!("{number:.1} {scale}")).unwrap()).collect()
    }

    proptest! {
        #[test]
        fn only_the_wrong_letter_is_asked_about(warmest in 10.1f64..39.9, colder in prop::collection::vec(0.0f64..50.0, 11)) {
            let celsius: Vec<f64> = std::iter::once(warmest).chain(colder.iter().map(|by| warmest - by)).collect();
            let fahrenheit: Vec<f64> = celsius.iter().map(|degrees| degrees * 1.8 + 32.0).collect();
            prop_assert_eq!(meant(&written(&celsius, 'C')), None);
            prop_assert_eq!(meant(&written(&fahrenheit, 'F')), None);
            prop_assert_eq!(meant(&written(&celsius, 'F')), Some("C"));
            prop_assert_eq!(meant(&written(&fahrenheit, 'C')), Some("F"));
        }
    }

    #[test]
    fn cold_and_hot_places_are_not_asked_about() {
        assert_eq!(meant(&written(&[-20.0, 0.0, 41.0], 'F')), None);
        assert_eq!(meant(&written(&[12.0, 25.0, 39.5], 'C')), None);
        let mixed = [written(&[5.0], 'C'), written(&[30.0], 'F')].concat();
        assert_eq!(meant(&mixed), None);
    }
}
