//! Fresh logs of a wood that the farm weighed itself.

use std::collections::BTreeMap;
use std::sync::Arc;

use uom::si::f64::MassDensity;
use uom::si::mass_density::kilogram_per_cubic_meter;

use super::{batches, grouped};
use crate::book::{Batch, Book};
use crate::quantity::{Date, Length, Mass};
use crate::reckon::weight;
use crate::reckon::weight::{ENOUGH, FRESH};
use crate::record::batch::Sample;
use crate::record::tree::Tag;

/// A log that was weighed at its inoculation, and whose thickness was measured.
#[derive(Debug, Clone)]
pub struct WeighedLog {
    /// Its batch.
    pub batch: Arc<Batch>,
    /// What is written on it.
    pub label: Tag,
    /// Diameter over bark at the middle.
    pub diameter: Length,
    /// Length.
    pub length: Length,
    /// Weight.
    pub weight: Mass,
    /// Its green density, or why it does not count.
    pub density: Result<MassDensity, Stale>,
}

/// Why a log that was weighed tells nothing of fresh ones.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stale {
    /// Nobody wrote when it was felled.
    NoFelling,
    /// It was weighed so many days after it was felled.
    Late(i32),
}

/// The fresh ones among the logs of one wood.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weighed {
    /// How many there are.
    pub logs: usize,
    /// The lightest, the mean and the heaviest for their size.
    pub densities: [MassDensity; 3],
}

impl Weighed {
    /// Whether they are enough to stand in place of the handbook's figures.
    pub const fn is_enough(&self) -> bool {
        self.logs >= ENOUGH
    }
}

/// The logs that were weighed and measured, wood by wood, in the order of their batches.
pub fn by_wood(book: &Book) -> BTreeMap<&str, Vec<WeighedLog>> {
    let batches = book.batches.values().filter_map(|batch| Some((batch.wood.as_ref()?.id.as_str(), batch)));
    let samples = batches.flat_map(|(wood, batch)| batch.record.samples.iter().map(move |of| (wood, batch, of)));
    grouped(samples.filter_map(|(wood, batch, sample)| Some((wood, log(book, batch, sample)?))))
}

fn log(book: &Book, batch: &Arc<Batch>, sample: &Sample) -> Option<WeighedLog> {
    let diameter = sample.diameter.clone()?;
    let length = batches::length(book, batch);
    let felled = batch.felled().map(|days| days.from);
    let density = || weight::of_weighed(&sample.at_inoculation, weight::volume(&diameter, &length));
    Some(WeighedLog {
        density: fresh(felled, batch.record.inoculated).map(|()| density()),
        batch: Arc::clone(batch),
        label: sample.label.clone(),
        weight: sample.at_inoculation.clone(),
        diameter,
        length,
    })
}

fn fresh(felled: Option<Date>, weighed: Date) -> Result<(), Stale> {
    let days = weighed.since(felled.ok_or(Stale::NoFelling)?);
    if days <= FRESH { Ok(()) } else { Err(Stale::Late(days)) }
}

/// What the fresh ones among logs come to, where there is one.
pub fn together(logs: &[WeighedLog]) -> Option<Weighed> {
    let densities: Vec<MassDensity> = logs.iter().filter_map(|log| log.density.ok()).collect();
    let lightest = densities.iter().copied().reduce(MassDensity::min)?;
    let heaviest = densities.iter().copied().reduce(MassDensity::max)?;
    let none = MassDensity::new::<kilogram_per_cubic_meter>(0.0);
    let mean = densities.iter().fold(none, |sum, density| sum + *density) / densities.len() as f64;
    Some(Weighed { logs: densities.len(), densities: [lightest, mean, heaviest] })
}
