//! A name that holds a character which nobody can see.

use crate::fault::Fault;
use crate::fault::unseen::is_unseen;
use crate::read::Node;

/// The keys under which people call a record, a tag or a label by its name.
const NAMES: [&str; 9] = ["name", "names", "short", "term", "title", "tag", "clump", "label", "scientific"];

/// Checks every name in a record.
pub(super) fn check(node: &Node) -> Vec<Fault> {
    let mut faults = Vec::new();
    node.texts("", &mut |key, text, node| {
        if NAMES.contains(&key) && text.trim_end_matches('\n').contains(is_unseen) {
            let fault =
                Fault::new("unseen-character", format!("the name `{text}` holds a character that nobody can see"));
            faults.push(fault.instead("write the name anew, on one line").at(node.place.clone()));
        }
    });
    faults
}
