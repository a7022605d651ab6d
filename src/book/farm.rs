//! The farm, linked to what it grows and has.

use std::sync::Arc;

use super::{Listed, Mushroom, Origin, Register, Window, Wood, all};
use crate::fault::Place;
use crate::record;

/// The farm, linked.
#[derive(Debug)]
pub struct Farm {
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::farm::Farm,
    /// The mushrooms it grows or would grow.
    pub grows: Vec<Arc<Mushroom>>,
    /// The woods it has.
    pub woods: Vec<Arc<Wood>>,
    /// The regional no-cut windows that hold here.
    pub no_cut: Vec<Arc<Window>>,
    /// Where the record names its own theme.
    pub look: Option<Place>,
}

impl Farm {
    /// The yard of a name.
    pub fn yard(&self, name: &str) -> Option<&record::farm::Yard> {
        self.record.yards.iter().find(|yard| yard.name == name)
    }
}

/// Links the farm; `None` where there is none.
pub(super) fn link(
    records: Vec<Listed<record::farm::Farm>>,
    mushrooms: &Register<Mushroom>,
    woods: &Register<Wood>,
    windows: &Register<Window>,
    look: Option<Place>,
) -> Option<Farm> {
    let Listed { origin, record, .. } = records.into_iter().next()?;
    let (grows, woods) = (all(&record.grows, mushrooms), all(&record.woods, woods));
    let no_cut = all(&record.no_cut, windows);
    Some(Farm { origin, record, grows, woods, no_cut, look })
}
