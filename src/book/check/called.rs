//! Batches as records name them: by id, or by the number on their tags.

use std::collections::BTreeMap;

use super::unbelievable;
use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::quantity::Date;
use crate::read::Node;
use crate::record::Kind;

/// The batches of a pile, by the names that records give them.
pub(super) struct Batches<'a> {
    pile: &'a Pile,
    numbered: BTreeMap<String, Vec<(&'a str, &'a Node)>>,
}

impl<'a> Batches<'a> {
    /// The batches of a pile.
    pub(super) fn of(pile: &'a Pile) -> Self {
        let mut numbered: BTreeMap<String, Vec<(&'a str, &'a Node)>> = BTreeMap::new();
        for (id, laid) in pile.of(Kind::Batch) {
            if let Some(number) = laid.node.get("number") {
                numbered.entry(number.plain()).or_default().push((id, &laid.node));
            }
        }
        Self { pile, numbered }
    }

    /// The batch that a name means on a day: that of the id, or else of those with the number the one that was alive.
    pub(super) fn called(&self, name: &str, day: Option<Date>) -> Option<(&'a str, &'a Node)> {
        if let Some((id, laid)) = self.pile.entry(Kind::Batch, name) {
            return Some((id, &laid.node));
        }
        let alive = |(_, node): &(&str, &Node)| {
            let (inoculated, ended) = life(node);
            let lives =
                day.is_none_or(|day| inoculated.is_none_or(|from| from <= day) && ended.is_none_or(|to| day <= to));
            (lives, inoculated)
        };
        self.numbered.get(name)?.iter().copied().max_by_key(alive)
    }

    /// The batches that a line of the day book or a harvest names.
    pub(super) fn named(&self, line: &Node) -> Vec<(&'a str, &'a Node)> {
        let day = line.read("date", Date::read);
        let names = line.get("batch").into_iter().chain(line.items("batches"));
        names.filter_map(|name| self.called(&name.plain(), day)).collect()
    }
}

/// The day on which a batch was inoculated, and that on which it ended.
fn life(batch: &Node) -> (Option<Date>, Option<Date>) {
    let ended = batch.get("ended").and_then(|ended| ended.read("date", Date::read));
    (batch.read("inoculated", Date::read), ended)
}

/// Checks that no two batches bear one number at a time.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (number, mut alike) in Batches::of(pile).numbered {
        alike.sort_by_key(|(id, node)| (life(node).0, *id));
        for pair in alike.windows(2) {
            let [(id, earlier), (_, later)] = pair else { continue };
            let (Some(from), ended) = (life(later).0, life(earlier).1) else { continue };
            if ended.is_none_or(|ended| ended >= from) {
                let wrong =
                    format!("the batch `{id}` has the number {number} already, and was not gone by {}", from.written());
                let look = "give this batch another number, or say under `ended` when the other ended";
                faults.push(unbelievable(wrong, look, later.place_of("number")));
            }
        }
    }
    faults
}
