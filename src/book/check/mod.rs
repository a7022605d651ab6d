//! Checks records, one file a check.
//!
//! | file | what it looks for |
//! |---|---|
//! | [`structure`] | unknown, missing and mistyped keys, words outside a list, numbers out of bounds |
//! | [`quantity`] | a quantity without a unit or with a unit of another kind, a date that does not exist, a window's end that cannot be told |
//! | [`between`] | a value outside a believable range |
//! | [`ordered`] | a range whose ends are swapped |
//! | [`names`] | an id that names no record, a source that is cited but not listed |
//! | [`links`] | a link in Markdown that leads to nothing |
//! | [`chain`] | a group that is part of itself |
//! | [`batch`] | a batch that cannot be: more logs than its lot, no such tree, a weight that no log can have |
//! | [`called`] | a number that two batches bear at a time |
//! | [`diary`] | a line of the day book that cannot be |
//! | [`harvest`] | a harvest that cannot be |
//! | [`sale`] | a sale that cannot be |
//! | [`columns`] | a column of the farm's own that has no name, or that of another |
//! | [`handout`] | a part of a handout that lacks what it shows, a picture that lies nowhere |
//! | [`signpost`] | words of the finder that lead nowhere |
//! | [`soak`] | more soaks than the season has weeks |
//! | [`lot`] | a lot that cannot be: of no wood or of two, more logs out than in, a tree of another lot |
//! | [`tree`] | a tree without a thickness, or with two |
//! | [`stock`] | spawn in stock that is of no day, or was opened before it came |
//! | [`wish`] | a wish that asks for nothing, or for a form of spawn that no log takes |
//! | [`clump`] | stems of one stump of which some are to stay and some to come down |
//! | [`fallen`] | a tree whose end contradicts itself, or that gave more logs than a stem holds |
//! | [`observed`] | two dates observed in one season, one in the wrong half of the year, buds that swell with hardly a winter since leaf colour |
//! | [`no_cut`] | a window that the farm keeps as a no-cut window and that is none |
//! | [`leads`] | a fourth caution that would stand above the work of a task |
//! | [`unseen`] | a name that holds a character which nobody can see |
//! | [`checked`] | an answer without a reason, or to a question that nobody asks |
//! | [`photo`] | a photograph that lies nowhere, or without words |
//! | [`short`] | two sources that a reader cannot tell apart |
//!
//! [`walk`] visits every value of a record together with its schema.

pub mod batch;
pub mod between;
pub mod called;
pub mod chain;
pub mod checked;
pub mod clump;
pub mod columns;
pub mod diary;
pub mod fallen;
pub mod handout;
pub mod harvest;
pub mod leads;
pub mod links;
pub mod lot;
pub mod names;
pub mod no_cut;
pub mod observed;
pub mod ordered;
pub mod photo;
pub mod quantity;
pub mod sale;
pub mod short;
pub mod signpost;
pub mod soak;
pub mod stock;
pub mod structure;
pub mod tree;
pub mod unseen;
pub mod walk;
pub mod wish;

use std::cell::RefCell;
use std::collections::btree_map::Entry;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::lay::{Laid, Pile, Writer};
use crate::fault::{Fault, Place, suggest};
use crate::quantity::Code;
use crate::read::picture::PHOTOS;
use crate::read::{Lost, Node, Picture};
use crate::record::{Kind, schema};

/// The ids of all records, for checks that look one up.
#[derive(Debug)]
struct Ids<'a> {
    pile: &'a Pile,
    called: BTreeMap<(Kind, String), BTreeSet<&'a str>>,
    lost: BTreeSet<Lost>,
    numbers: BTreeSet<String>,
    /// The first and the last number by which a batch is called.
    tagged: Option<[u32; 2]>,
    meant: RefCell<BTreeMap<(Kind, String), Option<&'a str>>>,
}

/// Misspelt ids of a farm for which the closest is looked for; where there are more, something else is wrong.
const MISSPELT: usize = 200;

impl<'a> Ids<'a> {
    /// The ids of a pile, and of records that exist but could not be read.
    pub(super) fn of_pile(pile: &'a Pile, lost: Vec<Lost>) -> Self {
        let mut called: BTreeMap<(Kind, String), BTreeSet<&str>> = BTreeMap::new();
        for kind in Kind::ALL {
            for (id, laid) in pile.of(kind) {
                for name in names_of(&laid.node) {
                    called.entry((kind, plain(name))).or_default().insert(id);
                }
            }
        }
        let numbers: BTreeSet<String> =
            pile.nodes(Kind::Batch).filter_map(|batch| Some(batch.get("number")?.plain())).collect();
        let read = || numbers.iter().filter_map(|number| number.parse().ok());
        let tagged = read().min().zip(read().max()).map(|(first, last)| [first, last]);
        Self { pile, called, lost: lost.into_iter().collect(), numbers, tagged, meant: RefCell::default() }
    }

    /// The ids that may be meant: those of the records with such a common name, or else the closest.
    pub(super) fn meant(&self, kind: Kind, text: &str) -> Vec<&'a str> {
        let called = self.called.get(&(kind, plain(text)));
        called.map_or_else(|| self.closest(kind, text).into_iter().collect(), |ids| ids.iter().copied().collect())
    }

    /// The ids of a kind whose record shares a word with a text, in its id or in its common name.
    pub(super) fn sharing_a_word(&self, kind: Kind, text: &str) -> Vec<&'a str> {
        let words: Vec<String> = text.split([' ', '-']).filter(|word| word.len() > 3).map(str::to_lowercase).collect();
        let shares = |id: &str, node: &Node| {
            let mut names = std::iter::once(id).chain(names_of(node)).map(str::to_lowercase);
            names.any(|name| words.iter().any(|word| name.contains(word.as_str())))
        };
        self.pile.of(kind).filter(|(id, laid)| shares(id, &laid.node)).map(|(id, _)| id).collect()
    }

    /// The numbers by which batches are called, from the first to the last.
    pub(super) fn numbers_in_words(&self) -> String {
        let words = |[first, last]: [u32; 2]| format!("a number from {first} to {last} as it stands on the tags, or ");
        self.tagged.map_or_else(String::new, words)
    }

    /// Whether a text names a record, by its id or by a common name.
    fn means(&self, kind: Kind, text: &str) -> bool {
        self.has(kind, text) || self.called.contains_key(&(kind, plain(text)))
    }

    fn closest(&self, kind: Kind, text: &str) -> Option<&'a str> {
        let mut meant = self.meant.borrow_mut();
        let misspelt = meant.len();
        match meant.entry((kind, text.to_owned())) {
            Entry::Occupied(known) => *known.get(),
            Entry::Vacant(_) if misspelt >= MISSPELT => None,
            Entry::Vacant(new) => *new.insert(suggest::closest(text, self.of(kind))),
        }
    }

    /// Whether a record exists, even one that could not be read, or a batch of that number.
    pub(super) fn has(&self, kind: Kind, id: &str) -> bool {
        let lost = || [Lost::All(kind), Lost::One(kind, id.to_owned())].iter().any(|lost| self.lost.contains(lost));
        let code = || kind == Kind::Region && Code::read(id).is_ok();
        let number = || kind == Kind::Batch && self.numbers.contains(id);
        self.pile.get(kind, id).is_some() || lost() || code() || number()
    }

    /// The ids of a kind.
    pub(super) fn of(&self, kind: Kind) -> impl Iterator<Item = &'a str> {
        self.pile.of(kind).map(|(id, _)| id)
    }
}

/// A fault of a value that can be written, but hardly be so, and where to look.
fn unbelievable(wrong: String, look: impl Into<String>, place: Place) -> Fault {
    Fault::new("not-believable", wrong).instead(look).at(place)
}

/// The checks that look at the records of a farm together.
const TOGETHER: [fn(&Pile) -> Vec<Fault>; 18] = [
    tree::check,
    lot::check,
    batch::check,
    called::check,
    diary::check,
    harvest::check,
    sale::check,
    soak::check,
    stock::check,
    wish::check,
    clump::check,
    fallen::check,
    observed::check,
    columns::check,
    no_cut::check,
    leads::check,
    short::check,
    signpost::check,
];

/// Checks every record of a pile and gives all faults found.
pub(super) fn all(pile: &Pile, lost: Vec<Lost>, pictures: &[Arc<Picture>]) -> Vec<Fault> {
    let ids = Ids::of_pile(pile, lost);
    let photos: BTreeSet<&str> = pictures.iter().filter_map(|picture| picture.path.strip_prefix(PHOTOS)).collect();
    let mut faults = Vec::new();
    for kind in Kind::ALL {
        let schema = schema::of(kind);
        let structure = structure::Checker::new(&schema);
        let handbook = pile.of(kind).filter(|(_, laid)| laid.origin.writer != Writer::Farm);
        let handbook: Vec<&str> = handbook.map(|(id, _)| id).collect();
        for (id, laid) in pile.of(kind) {
            let found = structure.check(kind, &laid.node);
            let found = names::nearly(found, kind, id, laid, &handbook);
            let found = found.into_iter().chain(values(&schema, laid, &ids));
            let found = found.map(|fault| names::two_woods(fault, kind, &laid.node, &ids));
            faults.extend(found.map(|fault| names::seen(fault, kind, &laid.node)));
            faults.extend(links::check(laid, &ids, &photos));
            faults.extend(unseen::check(&laid.node));
            faults.extend(checked::check(&laid.node));
            faults.extend(chain::check(kind, id, pile));
        }
    }
    faults.extend(TOGETHER.iter().flat_map(|check| check(pile)));
    faults.extend(handout::check(pile, pictures));
    faults.extend(photo::check(pile, &photos));
    faults
}

/// The names by which people call a record.
pub(super) fn names_of(node: &Node) -> impl Iterator<Item = &str> {
    let single = ["name", "short", "term", "title"].into_iter().filter_map(|key| node.word(key));
    single.chain(node.items("names").iter().filter_map(Node::text))
}

/// A name without what a spelling may change.
fn plain(name: &str) -> String {
    name.to_lowercase().replace([' ', '_'], "-").replace('\'', "")
}

fn values(schema: &serde_json::Value, laid: &Laid, ids: &Ids<'_>) -> Vec<Fault> {
    let mut faults = Vec::new();
    walk::walk(schema, &laid.node, &mut |schema, node| {
        let before = faults.len();
        faults.extend(structure::emptied(schema, node));
        faults.extend(names::twice(schema, node));
        faults.extend(quantity::check(schema, node));
        faults.extend(names::check(schema, node, ids));
        if faults.len() == before {
            faults.extend(between::check(schema, node));
            faults.extend(ordered::check(schema, node));
        }
    });
    faults
}
