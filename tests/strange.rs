//! Strange input never panics and never hangs.

use hostwood::{
    book,
    quantity::{Date, DayOfYear, Duration, Length, Mass, Percent, SeasonEnd, Temperature},
    read::Found,
};
use proptest::prelude::*;

fn found(path: &str, bytes: Vec<u8>) -> Found {
    Found { path: path.to_owned(), bytes: Some(bytes), handbook: false }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn any_bytes_in_any_file_become_faults_or_a_book(bytes in prop::collection::vec(any::<u8>(), 0..300), file in 0usize..6) {
        let path = ["farm.yaml", "woods/red-oak.yaml", "evidence/own.yaml", "notes/a.md", "sources.yaml", "odd/thing.txt"][file];
        let farm = found("farm.yaml", crate::harness::SMALL_FARM.into());
        let files = if path == "farm.yaml" { vec![found(path, bytes)] } else { vec![farm, found(path, bytes)] };
        if let Err(faults) = book::bind(files) {
            prop_assert!(!faults.is_empty());
        }
    }

    #[test]
    fn yaml_like_text_becomes_faults_or_a_book(text in "[a-z: \\[\\]{}&*'\"\\n\\-0-9#~.é]{0,200}") {
        let _ = book::bind(vec![found("farm.yaml", format!("{}{text}", crate::harness::SMALL_FARM).into_bytes())]);
    }
}

proptest! {
    #[test]
    fn quantities_read_any_text(text in "\\PC{0,24}") {
        let _ = (Length::read(&text), Mass::read(&text), Temperature::read(&text), Duration::read(&text), Percent::read(&text));
        let _ = (Date::read(&text), DayOfYear::read(&text), SeasonEnd::read(&text));
    }

    #[test]
    fn a_length_is_the_same_in_either_system(number in 0.1f64..1000.0) {
        let length = Length::read(&format!("{number} in")).unwrap();
        prop_assert!((length.millimetres() - number * 25.4).abs() < 1e-6);
    }

    #[test]
    fn a_day_of_the_year_comes_back_from_its_number(number in 1i32..366) {
        prop_assert_eq!(i32::from(DayOfYear::of_number(number).number()), number);
    }
}
