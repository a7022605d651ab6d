//! What is refused, so that nobody loses a file, nothing of a reader's machine is published, and no page runs what a record says.

use std::fs;
use std::path::Path;

use crate::harness::{Farm, SMALL_FARM, code, run, said, table};

fn publish(farm: &Farm, to: &str) -> std::process::Output {
    run(farm.path(), &["publish", ".", "--to", to])
}

#[cfg(unix)]
fn link(farm: &Farm, to: &Path, path: &str) {
    let path = farm.path().join(path);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    std::os::unix::fs::symlink(to, path).unwrap();
}

/// A folder beside no farm, with a file of somebody's.
fn elsewhere(name: &str, text: &str) -> (tempfile::TempDir, std::path::PathBuf) {
    let folder = tempfile::TempDir::new().unwrap();
    let file = folder.path().join(name);
    fs::write(&file, text).unwrap();
    (folder, file)
}

#[cfg(unix)]
#[test]
fn a_lock_that_is_a_link_costs_nobody_a_file() {
    let farm = Farm::with(&[]);
    let (_folder, precious) = elsewhere("precious.txt", "years of work");
    link(&farm, &precious, ".guide.hostwood-lock");
    let output = publish(&farm, "guide");
    assert_eq!(fs::read_to_string(&precious).unwrap(), "years of work");
    assert_eq!(code(&output), 2, "{}", said(&output));
    assert!(said(&output).contains(".guide.hostwood-lock"), "{}", said(&output));
    assert!(!farm.path().join("guide").exists());
}

#[test]
fn a_lock_that_holds_something_is_left_as_it_is() {
    let farm = Farm::with(&[]);
    farm.write(".guide.hostwood-lock", "mine");
    assert_eq!(code(&publish(&farm, "guide")), 2);
    assert_eq!(fs::read_to_string(farm.path().join(".guide.hostwood-lock")).unwrap(), "mine");
}

#[test]
fn an_empty_lock_that_an_earlier_run_left_is_no_hindrance() {
    let farm = Farm::with(&[]);
    farm.write(".guide.hostwood-lock", "");
    assert_eq!(code(&publish(&farm, "guide")), 0);
    assert!(!farm.path().join(".guide.hostwood-lock").exists());
}

#[test]
fn a_folder_that_only_bears_the_name_of_ours_is_not_removed() {
    for name in [".guide.hostwood-new", ".guide.hostwood-old"] {
        let farm = Farm::with(&[]);
        farm.write(&format!("{name}/letters.txt"), "mine");
        let output = publish(&farm, "guide");
        assert_eq!(code(&output), 2, "{}", said(&output));
        assert_eq!(fs::read_to_string(farm.path().join(name).join("letters.txt")).unwrap(), "mine");
    }
}

#[test]
fn what_a_run_cut_short_left_is_cleared_away() {
    let farm = Farm::with(&[]);
    farm.write(".guide.hostwood-new/.hostwood-guide", "");
    farm.write(".guide.hostwood-new/index.html", "half");
    assert_eq!(code(&publish(&farm, "guide")), 0);
    assert!(!farm.path().join(".guide.hostwood-new").exists());
}

#[test]
fn a_page_runs_no_script_that_a_record_smuggles_in() {
    let caution = "hazard: testing\ntasks: [harvest, eating]\nseverity: grave\nprotects: [all]\ndefer: true\nsources: [common-practice]\n";
    for says in [
        r#""a|b\n-|-\n[x|r]|c\n\n[x|r]: javascript:alert(1)""#,
        r#""[x][r]\n\n[r]: javascript:alert(1)""#,
        r#""[x](java&#115;cript:alert(1))""#,
        r#""<javascript:alert(1)>""#,
        r#""![x](data:text/html,hello)""#,
    ] {
        let farm = Farm::with(&[("cautions/test.yaml", &format!("{caution}says: {says}\n"))]);
        let output = publish(&farm, "guide");
        if code(&output) == 0 {
            for (path, bytes) in crate::harness::files(&farm.path().join("guide")) {
                let page = String::from_utf8_lossy(&bytes);
                let runs = ["href=\"javascript:", "href=\"data:", "href=\"java"].iter().any(|href| page.contains(href));
                assert!(!path.ends_with(".html") || !runs, "{path} runs {says}");
            }
        } else {
            assert!(said(&output).contains("cautions/test.yaml"), "{}", said(&output));
        }
    }
}

#[cfg(unix)]
#[test]
fn a_file_that_is_linked_from_outside_the_farm_is_not_published() {
    let (_folder, secret) = elsewhere("secret", "name: hidden words\ntitle: hidden words\n");
    for path in
        ["woods/red-oak.yaml", "notes/a.md", "handouts/a.yaml", "handouts/a.png", "harvests/a.csv", "sources.yaml"]
    {
        let farm = Farm::with(&[]);
        link(&farm, &secret, path);
        let output = publish(&farm, "guide");
        assert_eq!(code(&output), 1, "{path}");
        assert!(
            said(&output).contains(&format!("{path}:1:1")) && said(&output).contains("out of the farm"),
            "{}",
            said(&output)
        );
        assert!(!said(&output).contains("hidden words"), "{}", said(&output));
    }
}

#[cfg(unix)]
#[test]
fn the_farms_record_and_its_look_are_not_read_from_outside_either() {
    let (folder, secret) = elsewhere("terms.html", "hidden words");
    let farm = Farm::with(&[("our-look/screen.css", "body{}")]);
    farm.write("farm.yaml", &format!("{SMALL_FARM}look: our-look\n"));
    link(&farm, &secret, "our-look/terms.html");
    let output = publish(&farm, "guide");
    assert_eq!(code(&output), 1);
    assert!(said(&output).contains("our-look/terms.html:1:1"), "{}", said(&output));
    let farm = Farm::with(&[]);
    farm.write("farm.yaml", &format!("{SMALL_FARM}look: our-look\n"));
    link(&farm, folder.path(), "our-look");
    let output = publish(&farm, "guide");
    assert_eq!(code(&output), 1);
    assert!(said(&output).contains("farm.yaml:4:7"), "{}", said(&output));
    let (_folder, own) = elsewhere("farm.yaml", SMALL_FARM);
    let farm = Farm::with(&[]);
    fs::remove_file(farm.path().join("farm.yaml")).unwrap();
    link(&farm, &own, "farm.yaml");
    let output = publish(&farm, "guide");
    assert_eq!(code(&output), 1);
    assert!(said(&output).contains("farm.yaml:1:1"), "{}", said(&output));
}

#[cfg(unix)]
#[test]
fn a_link_that_stays_inside_the_farm_is_followed() {
    let farm = Farm::with(&[("written/oak.yaml.txt", "about: Ours.\n")]);
    fs::rename(farm.path().join("written"), farm.path().join(".written")).unwrap();
    link(&farm, &farm.path().join(".written/oak.yaml.txt"), "woods/red-oak.yaml");
    assert_eq!(code(&publish(&farm, "guide")), 0);
    assert!(farm.page("woods/red-oak.html").contains("Ours."));
}

/// A file that is long but takes no room on disk.
fn long(farm: &Farm, path: &str, bytes: u64) {
    farm.write(path, "");
    fs::File::options().write(true).open(farm.path().join(path)).unwrap().set_len(bytes).unwrap();
}

#[test]
fn a_file_is_read_only_when_its_kind_and_its_size_are_known() {
    // Longer than the memory of any machine, so that reading any of these whole would fail.
    let bytes = 1 << 42;
    for (path, said_of_it) in [
        ("film.mp4", "no record is read from"),
        ("notes/film.mp4", "no record is read from"),
        ("notes/long.md", "2 MB"),
        ("woods/red-oak.yaml", "2 MB"),
        ("evidence/own.yaml", "8 MB"),
        ("harvests/all.csv", "64 MB"),
        ("handouts/big.png", "100 MB"),
    ] {
        let farm = Farm::with(&[]);
        long(&farm, path, bytes);
        let output = run(farm.path(), &["proof", "."]);
        assert_eq!(code(&output), 1, "{path}: {}", said(&output));
        assert!(said(&output).contains(path) && said(&output).contains(said_of_it), "{}", said(&output));
    }
    let farm = Farm::with(&[]);
    long(&farm, "our-look/screen.css", bytes);
    farm.write("farm.yaml", &format!("{SMALL_FARM}look: our-look\n"));
    let output = run(farm.path(), &["proof", "."]);
    assert_eq!(code(&output), 1, "{}", said(&output));
    assert!(said(&output).contains("our-look/screen.css:1:1"), "{}", said(&output));
}

/// Whether a terminal would obey any of it.
fn acts(text: &str) -> bool {
    text.chars().any(|c| (c.is_control() && c != '\n') || ('\u{202a}'..='\u{202e}').contains(&c))
}

#[test]
fn what_nobody_sees_never_reaches_the_terminal() {
    let odd = "\u{1b}[31m\u{7}\u{202e}";
    let farm = Farm::with(&[
        ("woods/red-oak.yaml", "\"a\\e[31m\\u202eb\": \"\\e]0;x\\a\"\ndensity: \"\\u009b31m\"\n"),
        (&format!("woods/o{odd}k.yaml"), "about: x\n"),
        (&format!("odd{odd}/x.txt"), "x"),
        ("yard/a.csv", "Date,Batch,What\n2026-06-08,a\u{1b}b,soaked\n"),
    ]);
    for form in ["text", "json"] {
        let output = run(farm.path(), &["proof", ".", "--as", form]);
        assert_eq!(code(&output), 1);
        let text = said(&output) + &String::from_utf8(output.stdout).unwrap();
        assert!(!acts(&text), "{text:?}");
        assert!(text.contains(if form == "text" { r"\u{1b}[31m" } else { r"\u001b[31m" }), "{text:?}");
    }
    let farm =
        Farm::with(&[("woodlot/a.csv", "Tag,Wood,DBH (in),Decision,Why\n1,red-oak,6,keep,\"a\u{1b}[31mb\u{202e}\"\n")]);
    for form in ["text", "json"] {
        let output = run(farm.path(), &["reckon", "trees", ".", "--as", form]);
        assert_eq!(code(&output), 0, "{}", said(&output));
        let text = String::from_utf8(output.stdout).unwrap();
        assert!(!acts(&text) && text.contains("[31m"), "{text:?}");
    }
}

#[test]
fn names_and_ids_hold_nothing_that_nobody_sees() {
    for (path, text, at) in [
        ("woods/sumac.yaml", "names: [\"suma\\u202ec\"]\nleaf: broad\n", "woods/sumac.yaml:1:9"),
        ("woodlot/a.csv", "Tag,Wood,DBH (in),Decision\nK\u{1b}1,red-oak,6,keep\n", "woodlot/a.csv:2:1"),
        ("sources.yaml", "a: {short: \"x\\ny\", authors: A, title: T, kind: bulletin}\n", "sources.yaml:1:12"),
    ] {
        let output = run(Farm::with(&[(path, text)]).path(), &["proof", "."]);
        assert_eq!(code(&output), 1, "{path}");
        assert!(said(&output).contains(at) && said(&output).contains("nobody can see"), "{}", said(&output));
    }
    let farm = Farm::with(&[("harvests/a\nb.csv", "Date,Batch\n")]);
    let output = run(farm.path(), &["proof", "."]);
    assert!(code(&output) == 1 && said(&output).contains(r"harvests/a\nb.csv:1:1"), "{}", said(&output));
}

#[test]
fn a_look_without_a_name_is_not_the_whole_farm() {
    for name in ["", "./", ".", "/", "..", "guide/.."] {
        let farm = Farm::with(&[]);
        farm.write("farm.yaml", &format!("{SMALL_FARM}look: '{name}'\n"));
        let output = publish(&farm, "guide");
        assert_eq!(code(&output), 1, "{name}");
        assert!(said(&output).contains("farm.yaml:4:7"), "{name}: {}", said(&output));
    }
}

#[test]
fn the_folder_in_which_one_stands_is_not_exchanged() {
    let farm = Farm::with(&[]);
    assert_eq!(code(&publish(&farm, "guide")), 0);
    fs::create_dir(farm.path().join(".empty")).unwrap();
    for (here, to) in [("guide", "."), ("guide/woods", ".."), ("guide/woods", "../../guide"), (".empty", ".")] {
        let farm_folder = farm.path().to_str().unwrap();
        let output = run(&farm.path().join(here), &["publish", farm_folder, "--to", to]);
        assert_eq!(code(&output), 2, "{here}: {}", said(&output));
        assert!(said(&output).contains("you stand in"), "{}", said(&output));
    }
}

/// Runs as somebody who may not remove the guide that stands there; only whoever may be anybody can try that.
#[cfg(unix)]
#[test]
fn an_earlier_guide_of_somebody_else_is_left_aside() {
    use std::os::unix::{
        fs::{MetadataExt, PermissionsExt, chown},
        process::CommandExt,
    };
    let farm = Farm::with(&[]);
    assert_eq!(code(&publish(&farm, "guide")), 0);
    if fs::metadata(farm.path()).unwrap().uid() != 0 {
        println!("tried as root alone");
        return;
    }
    let nobody = 65_534;
    let open = |path: &Path| fs::set_permissions(path, fs::Permissions::from_mode(0o755)).unwrap();
    let folder = tempfile::TempDir::new().unwrap();
    let program = folder.path().join("hostwood");
    fs::copy(crate::harness::hostwood().get_program(), &program).unwrap();
    [folder.path(), &program, farm.path()].into_iter().for_each(open);
    chown(farm.path(), Some(nobody), Some(nobody)).unwrap();
    let aside = farm.path().join(".guide.hostwood-left-1");
    for run in 0..3 {
        let output = std::process::Command::new(&program)
            .current_dir(farm.path())
            .args(["publish", ".", "--to", "guide"])
            .uid(nobody)
            .gid(nobody)
            .output()
            .unwrap();
        assert_eq!(code(&output), 0, "run {run}: {}", said(&output));
        assert_eq!(said(&output).contains(".guide.hostwood-left-1"), run == 0, "run {run}: {}", said(&output));
        assert_eq!(fs::metadata(farm.path().join("guide/index.html")).unwrap().uid(), nobody);
    }
    assert!(aside.join("index.html").is_file());
}

#[test]
fn an_open_quote_is_told_where_it_opens() {
    for (sheet, at) in [
        (
            "Tag,Wood,DBH (in),Decision,Why\n1,red-oak,6,keep,\"a\n2,red-oak,6,keep,\"b\"\n3,red-oak,6,keep,\"c\"\n",
            "2:18",
        ),
        ("Tag,Wood,DBH (in),Decision,Why\n1,red-oak,6,keep,\"a \"\"b\n2,red-oak,6,keep,c\n", "2:18"),
        ("Tag,Wood,DBH (in),Decision,Why\n1,red-oak,6,keep,\"two\nlines\"\n2,red-oak,6,keep,\"c\n", "4:18"),
    ] {
        let output = run(Farm::with(&[("woodlot/a.csv", sheet)]).path(), &["proof", "."]);
        assert_eq!(code(&output), 1);
        assert!(said(&output).contains(&format!("woodlot/a.csv:{at}")), "{}", said(&output));
    }
    let whole = "Tag,Wood,DBH (in),Decision,Why\n1,red-oak,6,keep,\"two\nlines\"\n2,red-oak,6,keep,5\" thick\n";
    let rows = table("trees", Farm::with(&[("woodlot/a.csv", whole)]).path(), &[]);
    assert_eq!((&rows[0]["why"], &rows[1]["why"]), (&"two\nlines".into(), &"5\" thick".into()));
}

#[test]
fn no_cell_of_a_table_is_a_formula_in_a_spreadsheet() {
    let sheet = "Tag,Wood,DBH (in),Height (ft),Decision,Why\n=1+1,red-oak,6,50,fell,@x\n+2,red-oak,6,50,fell,-x\n";
    let farm = Farm::with(&[("woodlot/a.csv", sheet)]);
    assert_eq!(code(&publish(&farm, "guide")), 0);
    for (path, bytes) in crate::harness::files(&farm.path().join("guide/tables")) {
        if path.ends_with(".csv") {
            let mut reader = csv::ReaderBuilder::new().flexible(true).from_reader(bytes.as_slice());
            for cell in reader.records().flat_map(|row| row.unwrap().iter().map(str::to_owned).collect::<Vec<_>>()) {
                let begins = cell.trim_start().starts_with(['=', '+', '-', '@']);
                assert!(!begins || cell.parse::<f64>().is_ok(), "{path}: {cell}");
            }
        }
    }
    assert!(farm.page("tables/trees.csv").contains("'=1+1"));
}

#[test]
fn another_name_of_the_farm_changes_no_name_in_the_calendar() {
    let season = "name: Our soaking season\nkind: soak\nfrom: '05-24'\nto: '09-26'\nsays: Until nights turn cold.\nsource: common-practice\n";
    let farm = Farm::with(&[("seasons/ours.yaml", season)]);
    let names = || {
        assert_eq!(code(&publish(&farm, "guide")), 0);
        let calendar = farm.page("calendar.ics");
        calendar.lines().filter(|line| line.starts_with("UID:")).map(str::to_owned).collect::<Vec<_>>()
    };
    let before = names();
    farm.write("farm.yaml", &SMALL_FARM.replace("Test Wood", "Other Wood"));
    assert_eq!(names(), before);
    farm.write("farm.yaml", &SMALL_FARM.replace("latitude: 44", "latitude: 45"));
    assert_ne!(names(), before);
    assert!(!before.is_empty());
}
