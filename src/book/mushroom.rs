//! A mushroom, linked to its group and its methods.

use std::sync::Arc;

use super::{Listed, Origin, Register, link_groups, resolve};
use crate::record::{self, Id, method::Method, said::Span, wood::Rank};

/// A mushroom, linked.
#[derive(Debug)]
pub struct Mushroom {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::mushroom::Mushroom,
    /// The wider group whose evidence it inherits.
    pub part_of: Option<Arc<Mushroom>>,
    /// The methods by which it is grown.
    pub methods: Vec<Arc<Listed<Method>>>,
}

impl Mushroom {
    /// The name that pages use.
    #[must_use]
    pub fn name(&self) -> &str {
        self.record.names.first().map_or(&self.id, |name| name)
    }

    /// The ids of the mushroom and of every group above it, the narrowest first.
    pub fn line(&self) -> impl Iterator<Item = &str> {
        let mut next = Some(self);
        std::iter::from_fn(move || {
            let mushroom = next?;
            next = mushroom.part_of.as_deref();
            Some(mushroom.id.as_str())
        })
    }

    /// What sources say of the time from inoculation to the first mushrooms: of the mushroom itself, or else of the
    /// narrowest group above it of which any speaks.
    #[must_use]
    pub fn spawn_runs(&self) -> &[Span] {
        match &self.part_of {
            Some(above) if self.record.spawn_run.is_empty() => above.spawn_runs(),
            _ => &self.record.spawn_run,
        }
    }

    /// Whether it is a species rather than a group.
    #[must_use]
    pub fn is_species(&self) -> bool {
        self.record.rank == Rank::Species
    }
}

/// Links mushrooms.
#[must_use]
pub fn link(
    records: Vec<Listed<record::mushroom::Mushroom>>,
    methods: &Register<Listed<Method>>,
) -> Register<Mushroom> {
    link_groups(
        records,
        |record| record.part_of.as_ref().map(Id::as_str),
        |Listed { id, origin, record }, part_of| {
            let methods = resolve(&record.methods, methods);
            Mushroom { id, origin, record, part_of, methods }
        },
    )
}
