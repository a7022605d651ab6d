//! A handout, linked to its mushrooms and woods, its pictures beside it.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Farm, Listed, Mushroom, Origin, Register, Wood, all, twins};
use crate::read::Picture;
use crate::record;

/// A handout, linked.
#[derive(Debug)]
pub struct Handout {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::handout::Handout,
    /// The mushrooms that it shows: its own, or the farm's.
    pub mushrooms: Vec<Arc<Mushroom>>,
    /// The woods that it shows: its own, or the farm's.
    pub woods: Vec<Arc<Wood>>,
    /// Its pictures, by the names of their files.
    pub pictures: BTreeMap<String, Arc<Picture>>,
}

/// Links handouts.
pub(super) fn link(
    records: Vec<Listed<record::handout::Handout>>,
    mushrooms: &Register<Mushroom>,
    woods: &Register<Wood>,
    farm: &Farm,
    pictures: &BTreeMap<String, Arc<Picture>>,
) -> Register<Handout> {
    twins(records, |Listed { id, origin, record }| {
        let named = |name: &str| pictures.get(&format!("handouts/{name}")).cloned();
        let files = record.sections.iter().filter_map(|section| Some(section.picture.as_ref()?.file.clone()));
        let pictures = files.filter_map(|file| Some((file.clone(), named(&file)?))).collect();
        Some(Handout {
            mushrooms: or(all(&record.mushrooms, mushrooms), &farm.grows),
            woods: or(all(&record.woods, woods), &farm.woods),
            id,
            origin,
            record,
            pictures,
        })
    })
}

/// What a handout names, or else what the farm has.
fn or<T>(named: Vec<Arc<T>>, farms: &[Arc<T>]) -> Vec<Arc<T>> {
    if named.is_empty() { farms.to_vec() } else { named }
}
