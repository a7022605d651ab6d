//! An answer without a reason, or to a question that nobody asks.

use crate::book::question;
use crate::fault::{Fault, suggest};
use crate::read::Node;
use crate::record::schema::CHECKED;

/// Checks the answers of a record.
pub(super) fn check(node: &Node) -> Vec<Fault> {
    let fault = |item: &Node| Some(wrong(item.text()?)?.at(item.place.clone()));
    node.items(CHECKED).iter().filter_map(fault).collect()
}

fn wrong(text: &str) -> Option<Fault> {
    let (name, reason) = question::answer(text);
    if !question::names().any(|known| known == name) {
        let fault = Fault::new("unknown-question", format!("no question is called `{name}`"));
        return Some(fault.instead(suggest::instead_of(name, question::names(), || {
            format!("write the name of the question first: {}", suggest::either(question::names()))
        })));
    }
    reason.is_empty().then(|| {
        Fault::new("no-reason", format!("`{name}` is answered without a reason"))
            .instead(format!("write why the record is right, in quotes, as in `'{name}: we asked in the village'`"))
    })
}
