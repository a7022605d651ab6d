//! A farm of twenty years is checked, reckoned and published as a small one is.

use std::sync::Arc;

use hostwood::{
    book,
    read::folder,
    reckon::{Findings, findings::Choice, table::Grid},
    record::table::Table,
};

#[test]
fn a_finding_is_reckoned_when_it_is_asked_for() {
    let book = Arc::new(book::bind(folder::demo()).expect("the demo farm is without fault"));
    let findings = Findings::of(&book, Choice::of(&book));
    let kept = || format!("{findings:?}");
    let pairings = Grid::of(Table::Pairings, &book, &findings);
    assert!(pairings.rows.len() > 100);
    assert!(kept().contains("winter: OnceLock(<uninit>)"), "the table of pairings solved the allocation");
    assert!(kept().contains("agenda: OnceLock(<uninit>)"), "the table of pairings asked for the calendar");
    let allocation = Grid::of(Table::Allocation, &book, &findings);
    assert!(!allocation.rows.is_empty());
    assert!(!kept().contains("winter: OnceLock(<uninit>)"), "the table of the allocation came without its answer");
}
