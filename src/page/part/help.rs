//! Whom one calls, and how help finds the place.

use serde::Serialize;

use super::{Anchor, place};
use crate::page::Context;
use crate::record::region;

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
    /// The degrees of the farm, and its name.
    pub place: String,
    /// The road and the gate, in words.
    pub way_in: Option<String>,
    /// Where a telephone works.
    pub phone: Option<String>,
    /// The hospital that takes people in.
    pub hospital: Option<String>,
}

/// The rescue card of the farm.
pub fn rescue(context: &Context<'_>) -> Rescue {
    let rescue = context.book.farm.record.rescue.clone().unwrap_or_default();
    Rescue {
        emergency: Help::emergency(context),
        place: place::exact(context),
        way_in: rescue.way_in,
        phone: rescue.phone,
        hospital: rescue.hospital,
    }
}
