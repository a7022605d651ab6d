//! Strange input never panics and never hangs.

use std::sync::Arc;

use hostwood::book;
use hostwood::page::Page;
use hostwood::quantity::{Date, DayOfYear, Duration, Length, Mass, Percent, SeasonEnd, Temperature};
use hostwood::read::Found;
use hostwood::reckon::findings::Choice;
use hostwood::reckon::{Findings, Topic};
use proptest::prelude::*;

fn found(path: &str, bytes: Vec<u8>) -> Found {
    Found { path: path.to_owned(), bytes: Ok(bytes), at: None, handbook: false }
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
    fn a_farm_of_odd_sizes_and_dates_is_reckoned_and_drawn(
        low in 1u8..12, more in 0u8..12, length in 6u8..80, days in 0u16..365, longer in 0u16..200, month in 1u8..13, latitude in -90i8..90,
    ) {
        let high = low + more;
        let text = format!(
            "name: T\nplace: {{latitude: {latitude}, longitude: 0}}\nseason: 2026\nlog: {{diameter: [{low} in, {high} in], length: {length} in}}\n\
             rest: [{days} days, {} days]\ngrows: [shiitake, nameko]\nwoods: [red-oak, european-beech]\n",
            u32::from(days) + u32::from(longer),
        );
        let window = format!("name: W\nkind: cut\nfrom: {month:02}-28\nto: 03-01\nsays: x\nsource: common-practice\n");
        let files = vec![found("farm.yaml", text.into_bytes()), found("seasons/w.yaml", window.into_bytes())];
        if let Ok(book) = book::bind(files) {
            let book = Arc::new(book);
            let findings = Arc::new(Findings::of(&book, Choice::of(&book)));
            for page in [Page::Index, Page::Seasons, Page::Inoculation, Page::Bucking, Page::Working(Topic::Seasons)] {
                prop_assert!(page.view(&book, &findings).is_object());
            }
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
