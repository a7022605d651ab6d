//! An answer to a question that is not asked.

use std::collections::BTreeSet;

use super::{Odd, answer};
use crate::book::lay::Pile;
use crate::record::schema::CHECKED;
use crate::record::{Kind, Link};

/// The name of the question.
pub(super) const NAME: &str = "nothing-asked";

/// Asks about each answer to nothing that was asked: it would keep silent what may be asked one day.
pub(super) fn ask(asked: &[(&str, Odd)], pile: &Pile) -> Vec<Odd> {
    let names: BTreeSet<&str> = asked.iter().map(|(name, _)| *name).collect();
    let asked: BTreeSet<(&str, &Link)> = asked.iter().map(|(name, odd)| (*name, &odd.about)).collect();
    let mut needless = Vec::new();
    for kind in Kind::ALL {
        for (id, laid) in pile.of(kind) {
            for item in laid.node.items(CHECKED) {
                let about = Link::to(kind, id);
                let (name, _) = answer(item.text().unwrap_or_default());
                let is_asked = asked.contains(&(name, &about)) || (kind == Kind::Farm && names.contains(name));
                if name != NAME && !is_asked {
                    let what = format!("`{name}` is answered here, but not asked about this record");
                    let instead = "take the answer away, since it would keep the question silent later".to_owned();
                    needless.push(Odd { about, place: item.place.clone(), what, instead });
                }
            }
        }
    }
    needless
}
