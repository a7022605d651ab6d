//! A fourth caution that would stand above the work of a task.

use std::collections::BTreeMap;

use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::read::Node;
use crate::record::Kind;
use crate::record::caution::{LEADING, Task};

/// What makes a caution one that does not always stand: it comes with a wood, a mushroom or a tool, or holds somewhere.
const PARTICULAR: [&str; 5] = ["woods", "mushrooms", "with", "holds_in", "not_in"];

/// Checks that no more cautions lead a task, whatever is at hand, than stand above its work.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let mut leading: BTreeMap<&str, Vec<(&str, &Node)>> = BTreeMap::new();
    let general = |node: &Node| PARTICULAR.iter().all(|key| node.get(key).is_none());
    for (id, laid) in pile.of(Kind::Caution).filter(|(_, laid)| general(&laid.node)) {
        for item in laid.node.items("leads") {
            leading.entry(item.text().unwrap_or_default()).or_default().push((id, item));
        }
    }
    let too_many = leading.into_iter().filter(|(_, cautions)| cautions.len() > LEADING);
    too_many.flat_map(|(task, cautions)| faults(task, &cautions)).collect()
}

/// A fault at each record of the farm, or at the last of the handbook where the farm has written none.
fn faults(task: &str, cautions: &[(&str, &Node)]) -> Vec<Fault> {
    let mut own: Vec<_> = cautions.iter().filter(|(_, item)| !item.place.file.handbook).collect();
    if own.is_empty() {
        own.extend(cautions.last());
    }
    let words = Task::ALL.into_iter().find(|known| known.id() == task).map_or(task, |known| known.words());
    let fault = |(id, item): &&(&str, &Node)| {
        let others: Vec<String> =
            cautions.iter().filter(|(other, _)| other != id).map(|(other, _)| format!("`{other}`")).collect();
        let wrong =
            format!("above {words} stand three cautions at most, and {} stand there already", others.join(", "));
        Fault::new("too-many-leads", wrong)
            .instead(format!(
                "take `{task}` from `leads`: the caution then stands after the work; or let it stand before another by \
                 writing that one with `leads: ~`"
            ))
            .at(item.place.clone())
    };
    own.iter().map(fault).collect()
}
