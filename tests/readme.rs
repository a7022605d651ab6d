//! The README: its commands run, its example record is read, and what it names exists.

use std::fs;

use crate::harness::{Farm, code, root, run, said, table};

fn readme() -> String {
    fs::read_to_string(root().join("README.md")).unwrap()
}

/// The fenced blocks of a language.
fn blocks(language: &str) -> Vec<String> {
    let text = readme();
    let fences = text.split("```").skip(1).step_by(2);
    fences.filter_map(|block| block.strip_prefix(&format!("{language}\n")).map(str::to_owned)).collect()
}

/// The farm whose records the README shows, word for word.
fn farm() -> Farm {
    let records = [blocks("yaml"), blocks("csv")].concat();
    assert!(records.len() >= 7);
    let farm = Farm::with(&[]);
    for record in records {
        let (head, body) = record.split_once('\n').unwrap();
        let path = head.strip_prefix("# ").expect("an example begins with its file's name");
        farm.write(path, body);
    }
    farm
}

#[test]
fn the_first_paragraph_states_the_job() {
    let text = readme();
    let first = text.split("\n\n").find(|part| !part.starts_with('#')).unwrap();
    for word in ["logs", "records", "guide", "offline"] {
        assert!(first.contains(word), "the first paragraph does not say {word}: {first}");
    }
}

#[test]
fn every_command_of_the_readme_runs() {
    let farm = Farm::with(&[]);
    let mut commands = 0;
    for line in blocks("sh").iter().flat_map(|block| block.lines()) {
        let line = line.split(" #").next().unwrap().trim();
        let arguments = match line.strip_prefix("cargo run --release --").or_else(|| line.strip_prefix("hostwood")) {
            Some(arguments) => arguments,
            None if line == "tests/run" => {
                assert!(root().join("tests/run").is_file());
                continue;
            }
            None => panic!("a command that no test knows: {line}"),
        };
        commands += 1;
        let arguments: Vec<&str> = arguments.split_whitespace().collect();
        let output = run(farm.path(), &arguments);
        assert_eq!(code(&output), 0, "{line}: {}", said(&output));
    }
    assert!(commands >= 3, "only {commands} commands");
}

#[test]
fn the_example_records_are_read_without_fault_and_question() {
    let farm = farm();
    let output = run(farm.path(), &["proof", "--as", "json"]);
    assert_eq!((code(&output), String::from_utf8_lossy(&output.stdout).as_ref()), (0, "[]\n"));
}

#[test]
fn its_farm_fells_no_tree_without_a_day_to_fell_it_and_to_inoculate_it() {
    let farm = farm();
    let falls = || {
        let dates = table("seasons", farm.path(), &[]);
        let dated = |name: &str| dates.iter().any(|row| row["window"] == name);
        let marked = table("trees", farm.path(), &[]).into_iter().filter(|row| row["decision"] == "fell");
        let days = marked.map(|tree| {
            let wood = tree["wood"].as_str().unwrap();
            let has_day = dated(&format!("fell {wood}")) && dated(&format!("inoculate shiitake on {wood}"));
            (has_day, tree["this_winter"].as_bool().unwrap())
        });
        days.collect::<Vec<_>>()
    };
    assert_eq!(falls(), [(true, true); 2]);
    // A rest too short to reach from the last day of felling to the first of inoculation leaves no day, and no tree falls.
    let text = fs::read_to_string(farm.path().join("farm.yaml")).unwrap();
    farm.write("farm.yaml", &text.replace("rest: [2 weeks, 8 weeks]", "rest: [2 weeks, 4 weeks]"));
    assert_eq!(falls(), [(false, false); 2]);
    assert!(farm.drawn("winter/planning.html").contains("has no day to inoculate shiitake"));
}

#[test]
fn the_picture_and_the_files_it_names_exist() {
    let text = readme();
    let mut targets = 0;
    for part in text.split("](").skip(1) {
        let target = part.split(')').next().unwrap();
        if !target.contains(':') {
            targets += 1;
            assert!(root().join(target).exists(), "{target}");
        }
    }
    assert!(targets >= 2);
    let picture = text.split("![").nth(1).expect("a picture stands near the top");
    assert!(text.find("![").unwrap() < text.find("```sh").unwrap());
    let target = picture.split("](").nth(1).unwrap().split(')').next().unwrap();
    assert!(fs::metadata(root().join(target)).unwrap().len() < 150_000);
}
