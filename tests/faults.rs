//! Each folder under `tests/faults` is a small farm, and the list beside it holds every fault it must get.

use crate::harness::told::{cases, differs};
use crate::harness::{code, root, run, said};

#[test]
fn every_case_gets_exactly_its_faults() {
    let cases = cases("faults");
    let ends = |lines: &[&str]| i32::from(!lines.is_empty());
    let wrong: Vec<String> = cases.iter().filter_map(|case| differs(case, "fault", ends)).collect();
    assert!(cases.len() >= 30, "only {} cases were found", cases.len());
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn a_fault_shows_the_line_itself_and_points_at_the_place() {
    let output = run(&root(), &["proof", "tests/faults/believable-density"]);
    let text = said(&output);
    assert_eq!(code(&output), 1);
    let lines: Vec<&str> = text.lines().collect();
    let shown = lines.iter().position(|line| line.contains("basic: 6")).expect("the line is shown");
    let caret = lines[shown + 1].find('^').expect("a pointer stands under it");
    assert_eq!(&lines[shown][caret..=caret], "6");
    assert!(text.contains("Nothing was written."));
}
