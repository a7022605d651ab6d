//! Whom one calls, and how help finds the place.

use serde::Serialize;

use super::{Anchor, place};
use crate::page::Context;
use crate::quantity::Units;
use crate::record::region;
use crate::record::stand::Stand;

/// Help that can be called, as pages show it; without numbers where none is known.
#[derive(Debug, Default, Serialize)]
pub struct Help {
    /// The numbers, the first one first, each ready to be called.
    pub numbers: Vec<Anchor>,
    /// What one should know before calling, or whom one asks instead.
    pub says: Option<String>,
}

impl Help {
    fn of(help: Option<&region::Help>, context: &Context<'_>) -> Self {
        let Some(help) = help else { return Self::default() };
        let call = |number: &String| {
            let dialled: String = number.chars().filter(|c| c.is_ascii_digit() || *c == '+').collect();
            Anchor::to(format!("tel:{dialled}"), number.clone(), context)
        };
        Self { numbers: help.numbers.iter().map(call).collect(), says: help.says.clone() }
    }

    /// Whom one calls in an emergency here.
    pub fn emergency(context: &Context<'_>) -> Self {
        Self::of(context.book.here.emergency(), context)
    }

    /// Whom one calls here when somebody has eaten a doubtful mushroom.
    pub fn poison(context: &Context<'_>) -> Self {
        Self::of(context.book.here.poison(), context)
    }
}

/// How help finds whoever is hurt: a card of blanks where the farm has not said it.
#[derive(Debug, Serialize)]
pub struct Rescue {
    /// Whom one calls.
    pub emergency: Help,
    /// The farm and the corner post of each stand that has told it, the exact ones first.
    pub spots: Vec<Spot>,
    /// The road and the gate, in words.
    pub way_in: Option<String>,
    /// Where a telephone works.
    pub phone: Option<String>,
    /// The hospital that takes people in.
    pub hospital: Option<String>,
}

/// A spot that help can be told.
#[derive(Debug, Serialize)]
pub struct Spot {
    /// What it is.
    pub name: String,
    /// Its degrees, as a rescuer types them.
    pub degrees: String,
    /// How far off they may lead, where they are written roughly.
    pub rough: Option<&'static str>,
}

impl Spot {
    fn of(name: String, latitude: f64, longitude: f64, units: Units) -> Self {
        Self { name, degrees: place::spot(latitude, longitude), rough: place::rough(latitude, longitude, units) }
    }

    /// The corner post of a stand, where it is told.
    pub fn corner(stand: &Stand, units: Units) -> Option<Self> {
        let corner = stand.corner.as_ref()?;
        Some(Self::of(stand.name.clone(), corner.latitude, corner.longitude, units))
    }
}

/// The rescue card of the farm, with all its stands.
pub fn rescue(context: &Context<'_>) -> Rescue {
    with(context.book.stands.values().map(|stand| &stand.record), context)
}

/// The rescue card for where trees come down this winter.
pub fn rescue_at_saw(context: &Context<'_>) -> Rescue {
    let felled = context.findings.stands().iter().filter(|found| !found.felled.is_empty());
    with(felled.map(|found| &found.measured.stand.record), context)
}

fn with<'a>(stands: impl Iterator<Item = &'a Stand>, context: &Context<'_>) -> Rescue {
    let farm = &context.book.farm.record;
    let rescue = farm.rescue.clone().unwrap_or_default();
    let units = context.units();
    let own = Spot::of(farm.name.clone(), farm.place.latitude, farm.place.longitude, units);
    let corners = stands.filter_map(|stand| Spot::corner(stand, units));
    let mut spots: Vec<Spot> = [own].into_iter().chain(corners).collect();
    spots.sort_by_key(|spot| spot.rough.is_some());
    Rescue {
        emergency: Help::emergency(context),
        spots,
        way_in: rescue.way_in,
        phone: rescue.phone,
        hospital: rescue.hospital,
    }
}
