//! A lot that cannot be: of no wood or of two, of logs that nobody counted, of days that contradict its trees, of a tree that
//! lies in another lot, or that gave more than it holds.

use std::collections::BTreeMap;

use super::unbelievable;
use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::quantity::{Date, Days, Tally};
use crate::read::Node;
use crate::record::Kind;

/// Checks every lot.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut of_tree: BTreeMap<String, &str> = BTreeMap::new();
    for (id, laid) in pile.of(Kind::Lot) {
        let lot = &laid.node;
        faults.extend(lot.items("trees").iter().filter_map(|tag| no_tree(pile, tag)));
        faults.extend(wood(pile, lot));
        faults.extend(two_woods(pile, lot, "lot"));
        faults.extend(count(pile, lot));
        faults.extend(days(pile, lot));
        for tag in lot.items("trees") {
            if let Some(other) = of_tree.insert(tag.plain(), id).filter(|other| *other != id) {
                let wrong = format!("the tree `{}` lies in the lot `{other}` already", tag.plain());
                let fault = Fault::new("named-twice", wrong);
                faults.push(fault.instead("name it in the lot that its logs lie in").at(tag.place.clone()));
            }
        }
    }
    faults.extend(overdrawn(pile));
    faults
}

/// A tag that no tree has.
pub(super) fn no_tree(pile: &Pile, tag: &Node) -> Option<Fault> {
    let text = tag.plain();
    let known = pile.node(Kind::Tree, &text).is_some() || pile.nodes(Kind::Tree).next().is_none();
    (!known).then(|| {
        Fault::new("unknown-id", format!("no tree has the tag `{text}`"))
            .instead("write a tag that stands in the woodlot, or take it away")
            .at(tag.place.clone())
    })
}

/// The trees that a lot or a batch names, with the tags.
fn trees<'a>(pile: &'a Pile, of: &'a Node) -> impl Iterator<Item = (&'a Node, &'a Node)> {
    of.items("trees").iter().filter_map(|tag| Some((tag, pile.node(Kind::Tree, &tag.plain())?)))
}

fn wood(pile: &Pile, lot: &Node) -> Option<Fault> {
    let has_wood = lot.get("wood").is_some() || trees(pile, lot).next().is_some();
    (!has_wood && lot.items("trees").is_empty()).then(|| {
        Fault::new("missing-key", "of which wood this lot is, is not said")
            .instead("write its `wood`, such as `wood: red-oak`, or under `trees` the tags of its trees")
            .at(lot.place.clone())
    })
}

/// A tree of another wood than the record's own, or than the first tree.
pub(super) fn two_woods(pile: &Pile, of: &Node, kind: &str) -> Option<Fault> {
    let first = of.word("wood").or_else(|| trees(pile, of).next()?.1.word("wood"))?;
    let other = trees(pile, of).find_map(|(tag, tree)| Some((tag, tree.word("wood").filter(|wood| *wood != first)?)));
    other.map(|(tag, wood)| {
        let wrong = format!("the tree `{}` is `{wood}`, and this {kind} is of `{first}`", tag.plain());
        unbelievable(wrong, format!("write two {kind}{}, a wood each", plural(kind)), tag.place.clone())
    })
}

fn plural(kind: &str) -> &'static str {
    if kind.ends_with("ch") { "es" } else { "s" }
}

/// How many logs trees gave, where all of them say so.
pub(super) fn given(pile: &Pile, of: &Node) -> Option<u64> {
    let all: Option<u64> =
        of.items("trees").iter().map(|tag| pile.node(Kind::Tree, &tag.plain())?.number("logs_cut")).sum();
    all.filter(|_| !of.items("trees").is_empty())
}

/// How many logs a lot says that it has, and whether that is a guess.
fn tally(lot: &Node) -> Option<Tally> {
    Tally::read(&lot.get("logs")?.plain()).ok()
}

/// How many logs a lot began with: its own number, or what its trees gave.
pub(super) fn logs(pile: &Pile, lot: &Node) -> Option<u64> {
    tally(lot).map(|tally| u64::from(tally.number)).or_else(|| given(pile, lot))
}

fn count(pile: &Pile, lot: &Node) -> Option<Fault> {
    let given = given(pile, lot);
    if lot.get("logs").is_none() && given.is_none() {
        let fault = Fault::new("missing-key", "how many logs this lot has is not said, nor how many its trees gave");
        return Some(fault.instead("write `logs: 24`, or `logs_cut` at each of its trees").at(lot.place.clone()));
    }
    let (own, given) = (tally(lot)?, given?);
    (!own.about && u64::from(own.number) != given).then(|| {
        let wrong = format!("this lot has {} logs, and its trees gave {given}", own.number);
        unbelievable(wrong, "look at `logs` here and at `logs_cut` of the trees", lot.place_of("logs"))
    })
}

/// A tree that came down on another day than its lot says.
fn days(pile: &Pile, lot: &Node) -> Option<Fault> {
    let own = lot.read("felled", Days::read)?;
    let felled = |tree: &Node| tree.read("felled", Date::read);
    let other = trees(pile, lot)
        .find_map(|(tag, tree)| Some((tag, felled(tree).filter(|day| *day < own.from || *day > own.to)?)));
    other.map(|(tag, day)| {
        let wrong = format!("the tree `{}` was felled on {}, not on {}", tag.plain(), day.written(), own.written());
        unbelievable(wrong, "look at both days; two days are written with `to` between them", lot.place_of("felled"))
    })
}

/// What leaves a lot, with where it is written.
fn drawn(pile: &Pile) -> BTreeMap<String, Vec<(u64, &Node, &'static str)>> {
    let mut drawn: BTreeMap<String, Vec<(u64, &Node, &'static str)>> = BTreeMap::new();
    for batch in pile.nodes(Kind::Batch) {
        for take in batch.items("lots") {
            if let (Some(lot), Some(logs)) = (take.word("lot"), take.number("logs")) {
                drawn.entry(lot.to_owned()).or_default().push((logs, take, "logs"));
            }
        }
        let Some(lot) = batch.word("lot") else { continue };
        let all = || pile.node(Kind::Lot, lot).and_then(|lot| logs(pile, lot));
        if let Some(logs) = batch.number("logs").or_else(all) {
            drawn.entry(lot.to_owned()).or_default().push((logs, batch, "logs"));
        }
    }
    for (id, laid) in pile.of(Kind::Lot) {
        for gone in laid.node.items("gone") {
            drawn.entry(id.to_owned()).or_default().extend(gone.number("logs").map(|logs| (logs, gone, "logs")));
        }
    }
    drawn
}

/// Lots that gave more than they hold, each told at the line that is too much.
fn overdrawn(pile: &Pile) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (lot, lines) in drawn(pile) {
        let Some(there) = pile.node(Kind::Lot, &lot).and_then(|lot| logs(pile, lot)) else { continue };
        let mut used = 0;
        for (logs, node, key) in lines {
            used += logs;
            if used > there {
                let wrong = format!("{used} logs are taken out of the lot `{lot}`, which has {there}");
                faults.push(unbelievable(wrong, "look at the numbers of logs in both records", node.place_of(key)));
            }
        }
    }
    faults
}
