//! A tagged tree, linked to its wood and its stand.

use std::sync::Arc;

use super::{Listed, Origin, Register, Wood, one};
use crate::record;
use crate::record::Id;
use crate::record::stand::Stand;
use crate::record::tree::Tag;

/// A tagged tree, linked.
#[derive(Debug)]
pub struct Tree {
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::tree::Tree,
    /// Its wood.
    pub wood: Arc<Wood>,
    /// The stand in which it grows.
    pub stand: Option<Arc<Listed<Stand>>>,
}

impl Tree {
    /// What its tag says.
    pub const fn tag(&self) -> &Tag {
        &self.record.tag
    }
}

/// Links trees, in the order of their tags; a tree that names no stand grows in that of its file's name.
pub(super) fn link(
    records: Vec<Listed<record::tree::Tree>>,
    woods: &Register<Wood>,
    stands: &Register<Listed<Stand>>,
) -> Vec<Arc<Tree>> {
    let mut trees: Vec<Arc<Tree>> = records
        .into_iter()
        .filter_map(|Listed { origin, record, .. }| {
            let wood = one(&record.wood, woods)?;
            let stand = record.stand.as_ref().map(Id::as_str).or_else(|| file_stem(&origin));
            let stand = stand.and_then(|stand| stands.get(stand)).cloned();
            Some(Arc::new(Tree { origin, record, wood, stand }))
        })
        .collect();
    trees.sort_by(|a, b| a.tag().cmp(b.tag()));
    trees
}

fn file_stem(origin: &Origin) -> Option<&str> {
    let name = origin.files().last()?.name.rsplit('/').next()?;
    Some(name.rsplit_once('.')?.0)
}
