//! What a tagged tree says of its end and that cannot be: logs of a tree that still stands or that others took, more logs than a
//! stem holds, a day far beyond the season.

use super::{diary, unbelievable};
use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::quantity::Length;
use crate::read::Node;
use crate::record::Kind;
use crate::record::farm::LogSize;
use crate::record::tree::Gone;

/// A tree is at most so many times as tall as its stem is thick: our own limit of what is believed.
const SLENDEREST: f64 = 150.0;

/// Stem and limbs together give at most the length of so many stems: our own limit as well.
const STEMS: f64 = 3.0;

/// Checks every tree that came down, and every one of which something became.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let length = log_length(pile);
    let of =
        |tree: &Node| [stands(tree), of_others(tree), too_many(tree, &length), diary::too_late(pile, tree, "felled")];
    pile.nodes(Kind::Tree).flat_map(of).flatten().collect()
}

fn is(tree: &Node, gone: Gone) -> bool {
    tree.word("gone") == Some(gone.id())
}

/// A dead tree that still stands, and a day on which it came down or logs that were cut from it.
fn stands(tree: &Node) -> Option<Fault> {
    let cut = tree.number("logs_cut").is_some_and(|logs| logs > 0);
    let key = if tree.get("felled").is_some() { "felled" } else { "logs_cut" };
    (is(tree, Gone::Died) && (key == "felled" || cut)).then(|| {
        let wrong = "`gone` says that the tree is dead and still stands, but it has come down";
        contradicts(wrong, "write `firewood`, `timber` or `felled` under `gone`, or leave the day and the logs away")
            .at(tree.place_of(key))
    })
}

/// Logs of a tree that somebody else took.
fn of_others(tree: &Node) -> Option<Fault> {
    let logs = tree.number("logs_cut").filter(|logs| *logs > 0)?;
    is(tree, Gone::ByOthers).then(|| {
        let wrong = format!("`gone` says that others took the tree, but {logs} logs were cut from it");
        contradicts(wrong, "write `felled` under `gone`, or 0 logs").at(tree.place_of("logs_cut"))
    })
}

fn contradicts(wrong: impl Into<String>, instead: &str) -> Fault {
    Fault::new("not-believable", wrong).instead(instead)
}

/// More logs than stem and limbs can hold.
fn too_many(tree: &Node, length: &Length) -> Option<Fault> {
    let logs = tree.number("logs_cut")?;
    let thick = tree.read("dbh", Length::read).map(|dbh| dbh.feet());
    let thick = thick.or_else(|| Some(tree.read("girth", Length::read)?.feet() / std::f64::consts::PI));
    let tall = tree.read("height", Length::read).map(|height| height.feet()).or_else(|| Some(thick? * SLENDEREST))?;
    let most = (STEMS * tall / length.feet()).ceil();
    (logs as f64 > most).then(|| {
        let wrong = format!("{logs} logs were cut from a tree that can hardly hold {most}");
        unbelievable(wrong, "look at the number of logs, and at the height or the diameter", tree.place_of("logs_cut"))
    })
}

/// The length of the logs that the farm cuts.
fn log_length(pile: &Pile) -> Length {
    let own = pile.farm().and_then(|farm| farm.get("log")?.read("length", Length::read));
    own.unwrap_or_else(|| LogSize::default().length)
}
