//! What a tired person types from a card: it is read where it can only mean one thing, and else told once with what to write.

use serde_json::Value;

use crate::harness::{Farm, code, run, said, table};

const STRAIN: &str = "name: Line\nmushroom: shiitake\nclass: cold\nspawn: [sawdust]\n";

/// A farm with two batches, called 1 and 10.
fn farm(files: &[(&str, &str)]) -> Farm {
    let farm = Farm::with(&[("strains/line.yaml", STRAIN)]);
    for (id, number) in [("oak", 1), ("maple", 10)] {
        let wood = if id == "oak" { "red-oak" } else { "sugar-maple" };
        let batch = format!(
            "strain: line\nwood: {wood}\nlogs: 20\nnumber: {number}\ninoculated: '2025-04-20'\nspawn: sawdust\n"
        );
        farm.write(&format!("batches/{id}.yaml"), &batch);
    }
    for (path, text) in files {
        farm.write(path, text);
    }
    farm
}

/// What is told of a farm that has faults.
fn told(files: &[(&str, &str)]) -> String {
    let output = run(farm(files).path(), &["proof", "."]);
    assert_eq!(code(&output), 1, "{}", said(&output));
    said(&output)
}

#[test]
fn pounds_and_ounces_and_several_batches_are_read_as_they_stand_on_a_scale_and_in_a_crate() {
    for cell in ["1 + 10", "1 and 10", "1;10", "\"1, 10\"", "no 1 + no 10", "oak + maple"] {
        let rows = format!("Date,Batch,Weight\n2027-06-18,{cell},2 lb 3 oz\n2027-06-19,no 10,20 oz\n");
        let rows: Vec<Value> = table("harvests", farm(&[("harvests/2027.csv", &rows)]).path(), &[]);
        let together = rows.iter().find(|row| row["date"] == "2027-06-18").unwrap();
        assert!(["oak", "maple"].iter().all(|batch| together["batch"].as_str().unwrap().contains(batch)), "{together}");
        let picked: f64 = rows.iter().filter_map(|row| row["picked_lb"].as_f64()).sum();
        assert!((picked - 3.4375).abs() < 0.02, "{cell}: 2 lb 3 oz and 20 oz are {picked} lb");
    }
}

#[test]
fn a_word_for_what_was_seen_leads_to_the_name_of_its_trouble() {
    let book = |what: &str| format!("Date,Batch,What,Logs,Amount,Note\n2027-05-18,1,{what},,,\n");
    let text = told(&[("yard/2027.csv", &book("green mould"))]);
    assert!(text.contains("`weeds-seen: green-dust`"), "{text}");
    let text = told(&[("yard/2027.csv", &book("weeds-seen: green mould"))]);
    assert!(text.contains("`green-dust`") && !text.contains("`ants`"), "only what shares a word is named: {text}");
    assert_eq!(code(&run(farm(&[("yard/2027.csv", &book("weeds-seen: green-dust"))]).path(), &["proof", "."])), 0);
}

#[test]
fn a_line_of_weights_without_end_is_one_fault_and_a_reason_in_a_sheet_stays_whole() {
    let rows = format!("Date,Batch,Weight\n2027-06-18,1,{}\n", "1 lb ".repeat(100_000));
    let text = told(&[("harvests/2027.csv", &rows)]);
    assert!(text.contains("is not a unit of weight"), "{}", &text[text.len() - 400..]);
    let rows = "Date,Batch,What,Logs,Checked\n2027-05-18,1,soaked,6,\n2027-05-19,1,soaked,6,\
                \"soaked-again: they dried out, and it was hot\"\n";
    let output = run(farm(&[("yard/2027.csv", rows)]).path(), &["proof", "."]);
    assert_eq!(code(&output), 0, "a reason is not parted at its comma: {}", said(&output));
}

#[test]
fn a_batch_that_is_not_there_is_answered_with_the_numbers_on_the_tags() {
    let text = told(&[("yard/2027.csv", "Date,Batch,What,Logs\n2027-05-18,14,soaked,6\n")]);
    assert!(text.contains("a number from 1 to 10") && text.contains("`maple` or `oak`"), "{text}");
}

#[test]
fn none_can_be_counted_and_nothing_else_is_done_with_no_log() {
    let book = |what: &str| format!("Date,Batch,What,Logs\n2027-05-18,1,{what},0\n");
    let counted = farm(&[("yard/2027.csv", &book("counted"))]);
    let rows = table("batches", counted.path(), &[]);
    let oak = rows.iter().find(|row| row["batch"] == "oak").unwrap();
    assert_eq!(oak["stage"], "gone", "{oak}");
    let text = told(&[("yard/2027.csv", &book("log-lost"))]);
    assert!(text.contains("0 logs for `log-lost`"), "{text}");
}

#[test]
fn a_head_without_a_unit_is_told_once() {
    let row = |tree: i32| format!("K-{tree},red-oak,{}.5,fell", 4 + tree % 9);
    let sheet = format!("Tag,Wood,Girth,Decision\n{}\n", (0..40).map(row).collect::<Vec<_>>().join("\n"));
    let text = told(&[("woodlot/knoll.yaml", "name: Knoll\narea: 2 acres\n"), ("woodlot/knoll.csv", &sheet)]);
    assert_eq!(text.matches("has no unit").count(), 1, "{text}");
    assert!(text.contains("so too in lines 3, 4, 5 and 36 more") && text.contains("`Girth (in)`"), "{text}");
}

#[test]
fn a_date_that_can_only_be_one_day_is_not_said_to_be_two() {
    let text = told(&[("harvests/2027.csv", "Date,Batch,Weight (lb)\n5/18/27,1,2\n")]);
    assert!(text.contains("`2027-05-18`") && !text.contains("which number is the month"), "{text}");
}
