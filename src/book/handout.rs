//! A handout, linked to its mushrooms and woods, its pictures beside it.

use std::{collections::BTreeMap, sync::Arc};

use super::{Farm, Listed, Mushroom, Origin, Register, Wood, resolve};
use crate::{read::Picture, record};

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
#[must_use]
pub fn link(
    records: Vec<Listed<record::handout::Handout>>,
    mushrooms: &Register<Mushroom>,
    woods: &Register<Wood>,
    farm: &Farm,
    pictures: &[Arc<Picture>],
) -> Register<Handout> {
    let one = |Listed { id, origin, record }: Listed<record::handout::Handout>| {
        let own = |named: Vec<Arc<Mushroom>>| if named.is_empty() { farm.grows.clone() } else { named };
        let at_hand = |named: Vec<Arc<Wood>>| if named.is_empty() { farm.woods.clone() } else { named };
        let named = |name: &str| pictures.iter().find(|picture| picture.name == name).cloned();
        let shown = record.sections.iter().filter_map(|section| section.picture.as_ref());
        let pictures = shown.filter_map(|shown| Some((shown.file.clone(), named(&shown.file)?))).collect();
        let handout = Handout {
            mushrooms: own(resolve(&record.mushrooms, mushrooms)),
            woods: at_hand(resolve(&record.woods, woods)),
            id: id.clone(),
            origin,
            record,
            pictures,
        };
        (id, Arc::new(handout))
    };
    records.into_iter().map(one).collect()
}
