//! Each question has three farms under `tests/questions`: one that gets it, one that does not, and one that answers it. The
//! list beside a farm holds every question that it gets.

use std::collections::BTreeSet;

use hostwood::record::{Kind, schema};
use serde_json::Value;

use crate::harness::told::{cases, differs};
use crate::harness::{Farm, SMALL_FARM, code, files, root, run, said};

/// A farm that gets one question, and one fault.
const FAULTY_FARM: &str =
    "name: Test Wood\nplace: {latitude: 44, longitude: -72}\nseason: 2026\nwoods: [no-such-wood]\n";

#[test]
fn every_farm_gets_exactly_its_questions() {
    let wrong: Vec<String> = cases("questions").iter().filter_map(|case| differs(case, "question", |_| 0)).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn every_question_is_got_and_not_got_and_answered() {
    let cases: BTreeSet<String> =
        cases("questions").iter().map(|case| case.file_name().unwrap().to_string_lossy().into_owned()).collect();
    let output = run(&root(), &["proof", "tests/faults/answers"]);
    let text = said(&output);
    let (_, known) = text.split_once("write the name of the question first: ").expect("all names are told");
    let known: Vec<&str> = known.lines().next().unwrap().split('`').skip(1).step_by(2).collect();
    assert!(known.len() >= 7, "{known:?}");
    for name in known {
        let told = |case: &str| {
            let case = format!("{name}-{case}");
            assert!(cases.contains(&case), "there is no farm {case}");
            std::fs::read_to_string(root().join("tests/questions").join(case + ".txt")).unwrap()
        };
        assert!(told("asked").contains(&format!(" {name}\t")), "{name}");
        assert!(!told("quiet").contains(&format!(" {name}\t")), "{name}");
        assert!(!told("answered").contains(&format!(" {name}\t")), "{name}");
        let answered = files(&root().join(format!("tests/questions/{name}-answered")));
        let answer = format!("{name}: ");
        assert!(answered.values().any(|bytes| String::from_utf8_lossy(bytes).contains(&answer)), "{name}");
    }
}

#[test]
fn a_question_stands_after_the_remark_with_its_line_and_its_answer() {
    let farm = Farm::with(&[]);
    for arguments in [&["proof"][..], &["publish", ".", "--to", "guide"]] {
        let output = run(farm.path(), arguments);
        assert_eq!(code(&output), 0);
        assert!(output.stdout.is_empty());
        let text = said(&output);
        let question = text.find("farm.yaml:2:1  no-where\n    | place: {").expect("the question is asked");
        let remark = text.find(if arguments[0] == "proof" { "No fault" } else { "in a browser" });
        assert!(remark.expect("the remark stands too") < question, "{text}");
        assert!(text.contains("`checked: ['no-where: …']`"), "{text}");
        assert!(text.trim_end().lines().last().unwrap().starts_with("1 question in 1 file."), "{text}");
    }
    assert!(farm.path().join("guide/index.html").is_file());
    for quiet in [&["--quiet", "proof"][..], &["--quiet", "publish"], &["--quiet", "reckon", "woods"]] {
        assert!(run(farm.path(), quiet).stderr.is_empty(), "{quiet:?}");
    }
    assert!(run(farm.path(), &["reckon", "woods"]).stderr.is_empty());
}

#[test]
fn questions_stand_after_faults_and_are_told_apart() {
    let farm = Farm::with(&[]);
    farm.write("farm.yaml", FAULTY_FARM);
    let output = run(farm.path(), &["proof"]);
    let text = said(&output);
    assert_eq!(code(&output), 1);
    let [fault, written, question] = ["unknown-id", "Nothing was written.", "no-where\n"].map(|word| text.find(word));
    assert!(fault.is_some() && fault < written && written < question, "{text}");
    let quiet = said(&run(farm.path(), &["--quiet", "proof"]));
    assert!(quiet.contains("unknown-id") && !quiet.contains("no-where"), "{quiet}");
    let reckoned = said(&run(farm.path(), &["reckon", "woods"]));
    assert!(reckoned.contains("unknown-id") && !reckoned.contains("no-where"), "{reckoned}");
    let output = run(farm.path(), &["proof", "--as", "json"]);
    let told: Vec<Value> = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(told.iter().map(|told| told["is"].as_str().unwrap()).collect::<Vec<_>>(), ["fault", "question"]);
    assert_eq!((&told[0]["answer"], &told[1]["answer"]), (&Value::Null, &"checked: ['no-where: …']".into()));
}

#[test]
fn a_fault_of_the_look_hides_no_question() {
    let farm = Farm::with(&[("our-look/index.html", "{{ nothing_of_this_name }}")]);
    farm.write("farm.yaml", &format!("{SMALL_FARM}look: our-look\n"));
    for arguments in [&["proof"][..], &["publish", ".", "--to", "guide"]] {
        let output = run(farm.path(), arguments);
        assert_eq!(code(&output), 1, "{}", said(&output));
        assert!(said(&output).contains("no-where"), "{}", said(&output));
    }
}

#[test]
fn nothing_to_say_is_an_empty_list() {
    for farm in ["tests/questions/no-where-quiet", "examples/sorrel-hollow", "examples/larkbeck"] {
        let output = run(&root(), &["proof", farm, "--as", "json"]);
        assert_eq!((code(&output), String::from_utf8_lossy(&output.stdout).as_ref()), (0, "[]\n"), "{farm}");
    }
}

#[test]
fn every_kind_of_record_can_answer() {
    for kind in Kind::ALL {
        let schema = schema::of(kind);
        assert_eq!(schema["properties"]["checked"]["type"], "array", "{kind:?}");
    }
}
