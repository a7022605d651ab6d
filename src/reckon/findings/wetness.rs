//! What sample logs and slices of each batch say of its moisture, and when a log of each wood is too light.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::grouped;
use super::logs::WoodWeight;
use crate::book::{Batch, Book, Wood};
use crate::quantity::{Amount, Date, Mass, Percent, Value};
use crate::reckon::formula::{Figure, Place};
use crate::reckon::moisture::{LIMITS, MOISTURE};
use crate::reckon::{Gap, Topic, moisture};
use crate::record::batch::Slice;
use crate::record::diary::What;
use crate::record::tree::Tag;

/// One weighing of a sample log.
#[derive(Debug, Clone)]
pub struct Reading {
    /// The batch.
    pub batch: Arc<Batch>,
    /// What is written on the log.
    pub label: Tag,
    /// The day.
    pub date: Date,
    /// Its weight at inoculation.
    pub then: Mass,
    /// Its weight on the day.
    pub now: Mass,
    /// What it has lost since.
    pub lost: Figure<Percent>,
    /// Whether it has lost more than a tenth.
    pub too_dry: Result<bool, Gap>,
}

/// One slice.
#[derive(Debug, Clone)]
pub struct SliceReading {
    /// The batch.
    pub batch: Arc<Batch>,
    /// What was weighed.
    pub slice: Slice,
    /// Its moisture on a wet basis, and on a dry basis.
    pub water: [Figure<Percent>; 2],
    /// What a whole log weighs at each of the [`LIMITS`], where one was weighed beside it.
    pub limits: Option<[Figure<Mass>; 2]>,
}

/// What a log of a wood weighs when it is too dry.
#[derive(Debug, Clone)]
pub struct Lightness {
    /// The wood.
    pub wood: Arc<Wood>,
    /// The water in the green wood, on a wet basis.
    pub wet: Figure<Percent>,
    /// The part of its green weight that a log has at each of the [`LIMITS`].
    pub parts: [Figure<Percent>; 2],
    /// The most water that the wood holds, and the water at which it sinks, on a dry basis, where its density is known.
    pub bounds: Vec<Figure<Percent>>,
}

/// Every weighing, by batch, log and day.
pub fn readings(book: &Book) -> Vec<Reading> {
    let south = book.farm.record.place.is_south();
    let mut readings = Vec::new();
    let in_diary = in_diary(book);
    for batch in book.batches.values() {
        let ends = moisture::first_season_ends(batch.record.inoculated, south);
        let mut weighed = Vec::new();
        for sample in &batch.record.samples {
            let written = sample.weighed.iter().map(|weighing| (weighing.date, weighing.weight.clone()));
            let noted = in_diary.get(&(batch.id.as_str(), &sample.label)).into_iter().flatten().cloned();
            weighed.extend(written.chain(noted).map(|(date, now)| (sample, date, now)));
        }
        weighed.sort_by(|(a, on, _), (b, other, _)| (&a.label, on).cmp(&(&b.label, other)));
        readings.extend((1..).zip(weighed).map(|(number, (sample, date, now))| {
            let then = &sample.at_inoculation;
            let place = Place::of_batch(&batch.id, Topic::Moisture, format!("weighed-{number}"));
            let put = vec![("m₀", then.into()), ("m", (&now).into())];
            Reading {
                batch: Arc::clone(batch),
                label: sample.label.clone(),
                date,
                lost: MOISTURE.figure(&place, put, "(m₀ − m) / m₀", Ok(moisture::lost(then, &now))),
                too_dry: moisture::too_dry(then, &now, date, ends),
                then: then.clone(),
                now,
            }
        }));
    }
    readings
}

/// Weighings that stand in the day book, by batch and sample log.
fn in_diary(book: &Book) -> BTreeMap<(&str, &Tag), Vec<(Date, Mass)>> {
    let weighed = book.diary.iter().filter(|line| line.record.what == What::Weighed);
    grouped(weighed.filter_map(|line| {
        let Some(Amount::Mass(mass)) = &line.record.amount else { return None };
        let log = (line.batches.first()?.id.as_str(), line.record.log.as_ref()?);
        Some((log, (line.record.date, mass.clone())))
    }))
}

/// The last weighing of each sample log.
pub fn latest(readings: &[Reading]) -> impl Iterator<Item = &Reading> {
    let logs = readings.chunk_by(|one, next| one.batch.id == next.batch.id && one.label == next.label);
    logs.filter_map(<[Reading]>::last)
}

/// The readings of one batch, among all.
pub fn of_batch<'a, T>(all: &'a [T], id: &str, batch: impl Fn(&T) -> &Batch) -> &'a [T] {
    let from = all.partition_point(|one| batch(one).id.as_str() < id);
    let to = all.partition_point(|one| batch(one).id.as_str() <= id);
    &all[from..to]
}

/// Every slice, by batch.
pub fn slices(book: &Book) -> Vec<SliceReading> {
    let numbered = |batch: &'_ Arc<Batch>| (1..).zip(batch.record.slices.clone());
    let batches = book.batches.values();
    batches.flat_map(|batch| numbered(batch).map(|(number, slice)| of_slice(batch, number, slice))).collect()
}

fn of_slice(batch: &Arc<Batch>, number: usize, slice: Slice) -> SliceReading {
    let place = Place::of_batch(&batch.id, Topic::Moisture, format!("slice-{number}"));
    let wet = moisture::of_slice(&slice.wet, &slice.dry);
    let part = wet.of_one();
    let put = vec![("m₁", Value::Fine(slice.wet.clone())), ("m₂", Value::Fine(slice.dry.clone()))];
    let dry = Ok(Percent::of_part(moisture::dry_of_wet(part)));
    let at = |log: &Mass, limit: f64| {
        let put = vec![("m₁", log.into()), ("w₁", (&wet).into()), ("w₂", Percent::of_part(limit).into())];
        MOISTURE.figure(&place, put, "m₂", Ok(moisture::weight_at(log, part, limit)))
    };
    SliceReading {
        batch: Arc::clone(batch),
        limits: slice.log.as_ref().map(|log| LIMITS.map(|limit| at(log, limit))),
        water: [
            MOISTURE.figure(&place, put, "w", Ok(wet.clone())),
            MOISTURE.figure(&place, vec![("w", (&wet).into())], "d", dry),
        ],
        slice,
    }
}

/// When a log of each wood is too light, for woods whose green moisture is recorded.
pub fn lightness<'a>(woods: impl IntoIterator<Item = &'a WoodWeight>) -> Vec<Lightness> {
    woods.into_iter().filter_map(light).collect()
}

fn light(weight: &WoodWeight) -> Option<Lightness> {
    let dry = weight.green.moisture?;
    let wet = moisture::wet_of_dry(dry);
    let place = Place::new(Topic::Moisture, weight.wood.id.clone());
    let percent = |part: f64| Value::part(part, 1);
    let figure = |put, symbol, part| MOISTURE.figure(&place, put, symbol, Ok(Percent::of_part(part)));
    let part = |limit: f64| {
        figure(vec![("w₁", percent(wet)), ("w₂", percent(limit))], "m₂ / m₁", moisture::part_at(wet, limit))
    };
    let bounds = |density: f64| {
        let put = || vec![("G", Value::Number(density, 3))];
        vec![
            figure(put(), "d at most", moisture::most(density)),
            figure(put(), "d where it sinks", moisture::sinks(density)),
        ]
    };
    Some(Lightness {
        wood: Arc::clone(&weight.wood),
        wet: figure(vec![("d", percent(dry))], "w", wet),
        parts: LIMITS.map(part),
        bounds: weight.green.density.map(bounds).unwrap_or_default(),
    })
}
