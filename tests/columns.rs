//! Columns that a farm adds to its sheets for itself.

use crate::harness::{Farm, code, files, run, said};

const COLUMNS: &str = "columns:\n  harvests: [Grade, Crate]\n  sales: [Stall]\n  yard: [Sky]\n  woodlot: [Slope %]\n";

/// A farm whose sheets have columns of its own, and what it says of them.
fn farm(columns: &str) -> Farm {
    let record = format!("name: Own Heads\nplace: {{latitude: 44, longitude: -72}}\nseason: 2026\n{columns}");
    Farm::with(&[
        ("farm.yaml", &record),
        ("batches/oak.yaml", "strain: shiitake-cold\nwood: red-oak\nlogs: 10\ninoculated: '2024-04-20'\n"),
        (
            "harvests/2026.csv",
            "date,batch,weight,GRADE,crate (lb)\n2026-06-01,oak,4 lb,second,12\n2026-06-02,oak,3 lb,,\n",
        ),
        ("sales/2026.csv", "date,batch,weight,taken,stall\n2026-06-06,oak,4 lb,40,by the well\n"),
        ("yard/2026.csv", "date,batch,what,amount,sky\n2026-05-20,oak,soaked,12 hours,overcast\n"),
        ("woodlot/knoll.yaml", "name: Knoll\narea: 1 acre\n"),
        ("woodlot/knoll.csv", "tag,wood,dbh,logs,decision,slope %\nK-1,red-oak,7 in,3,keep,22 to the north\n"),
    ])
}

#[test]
fn columns_that_the_farm_names_stand_with_their_lines() {
    let farm = farm(COLUMNS);
    let batch = farm.drawn("yard/batches/oak.html");
    for said in ["4 lb, Grade: second, Crate: 12 lb", "sold for 40, Stall: by the well", "12 hours, Sky: overcast"] {
        assert!(batch.contains(said), "{said}");
    }
    assert_eq!(batch.matches("Grade: ").count(), 1, "an empty cell is not told");
    let output = farm.publish();
    assert_eq!(code(&output), 0, "{}", said(&output));
    let guide = files(&farm.path().join("guide"));
    let told = guide.values().any(|page| String::from_utf8_lossy(page).contains("Slope %: 22 to the north"));
    assert!(told, "the tree's line");
}

#[test]
fn a_column_that_nobody_names_is_a_fault_that_says_how() {
    let output = run(farm("").path(), &["proof", "."]);
    let told = said(&output);
    assert_eq!(code(&output), 1);
    for how in [
        "`columns: {harvests: [grade]}`",
        "`columns: {harvests: [crate]}`",
        "`columns: {sales: [stall]}`",
        "`columns: {yard: [sky]}`",
        "`columns: {woodlot: [slope_%]}`",
    ] {
        assert_eq!(told.matches(how).count(), 1, "{how}\n{told}");
    }
}
