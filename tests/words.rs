//! The words of records are spelt alike by whatever reads and writes them.

use std::fmt::Debug;
use std::str::FromStr;

use hostwood::quantity::Units;
use hostwood::reckon::table::text;
use hostwood::record::table::Table;
use hostwood::record::{
    batch, caution, character, diary, evidence, farm, handout, holds, look_alike, lot, mushroom, plan, region, rule,
    said, signpost, source, strain, tree, trouble, window, wood,
};
use serde::Serialize;

use crate::harness::{demo, files, root};

/// Holds each word of a list to the one that records hold and to the variant that it names.
fn alike<T: Copy + Debug + PartialEq + Serialize + FromStr>(all: &[T], id: impl Fn(T) -> &'static str) {
    assert!(!all.is_empty());
    for word in all {
        assert_eq!(serde_json::to_value(word).unwrap(), id(*word));
        assert_eq!(T::from_str(id(*word)).ok(), Some(*word));
    }
}

/// Holds each list to it, and tells how many there are.
macro_rules! alike {
    ($($words:ty),+ $(,)?) => {
        [$(alike(&<$words>::ALL, <$words>::id)),+].len()
    };
}

#[test]
fn every_list_of_words_is_spelt_in_one_way() {
    let lists = alike!(
        batch::End,
        caution::Severity,
        caution::Task,
        caution::Tool,
        character::Reach,
        character::When,
        diary::What,
        evidence::EvidenceKind,
        evidence::Grown,
        evidence::Way,
        evidence::Word,
        farm::Grip,
        farm::Move,
        farm::Outside,
        handout::Paper,
        handout::Shows,
        holds::Ask,
        holds::Bond,
        look_alike::Part,
        lot::How,
        lot::Pieces,
        mushroom::Over,
        plan::Floor,
        plan::Item,
        plan::State,
        region::Half,
        rule::Subject,
        said::Mark,
        said::Stage,
        signpost::Destination,
        source::SourceKind,
        strain::Class,
        strain::SpawnForm,
        tree::Condition,
        tree::Decision,
        tree::Gone,
        trouble::Part,
        trouble::Stage,
        window::WindowKind,
        wood::DensityBasis,
        wood::Leaf,
        wood::Rank,
        wood::SapwoodClass,
        wood::Use,
        wood::Whom,
    );
    let records = files(&root().join("src/record")).into_values().map(|bytes| String::from_utf8(bytes).unwrap());
    let declared: usize = records.map(|text| text.matches("\nwords! {").count()).sum();
    assert_eq!(lists, declared, "a list is not held to it");
    let units = [Units::Us, Units::Metric].map(|units| serde_json::to_value(units).unwrap());
    assert_eq!(units, ["us", "metric"]);
}

#[test]
fn notes_pick_rows_by_columns_that_are_there_and_by_the_words_in_them() {
    let farms = [demo("sorrel-hollow"), demo("larkbeck")];
    for (farm, table) in farms.iter().flat_map(|farm| Table::ALL.iter().map(move |table| (farm, *table))) {
        let grid = farm.grid(table);
        for column in table.filters() {
            let named = |name: &String| name == column || name.trim_end_matches('s') == column;
            let index =
                grid.columns.iter().position(named).unwrap_or_else(|| panic!("no {column} in {}", table.word()));
            let words = Table::values(column);
            for cell in grid.rows.iter().map(|row| text(row[index].as_ref())).filter(|_| !words.is_empty()) {
                let known = |word: &str| words.contains(&word);
                let fits = known(&cell.replace(' ', "-")) || cell.split_whitespace().all(known);
                assert!(fits, "{column} of {} holds {cell}", table.word());
            }
        }
    }
}
