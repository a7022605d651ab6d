//! What sample logs and slices of each batch say of its moisture.

use std::{collections::BTreeMap, sync::Arc};

use crate::{
    book::{Batch, Book},
    quantity::{Amount, Date, Mass},
    reckon::{Gap, moisture},
    record::{batch::Slice, diary::What, tree::Tag},
};

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
    /// Moisture, as a part of one on a wet basis.
    pub wet: f64,
}

/// Every weighing, by batch, log and day.
#[must_use]
pub fn readings(book: &Book) -> Vec<Reading> {
    let south = book.farm.record.place.latitude < 0.0;
    let mut readings = Vec::new();
    let in_diary = in_diary(book);
    for batch in book.batches.values() {
        let ends = first_season_ends(batch.record.inoculated, south);
        for sample in &batch.record.samples {
            let written = sample.weighed.iter().map(|weighing| (weighing.date, weighing.weight.clone()));
            let noted = in_diary.get(&(batch.id.as_str(), &sample.label)).into_iter().flatten().cloned();
            for (date, now) in written.chain(noted) {
                readings.push(Reading {
                    batch: Arc::clone(batch),
                    label: sample.label.clone(),
                    date,
                    then: sample.at_inoculation.clone(),
                    too_dry: moisture::too_dry(&sample.at_inoculation, &now, date, ends),
                    now,
                });
            }
        }
    }
    readings.sort_by(|a, b| {
        let by_batch = a.batch.id.cmp(&b.batch.id);
        by_batch.then_with(|| a.label.cmp(&b.label)).then_with(|| a.date.cmp(&b.date))
    });
    readings
}

/// Weighings that stand in the day book, by batch and sample log.
fn in_diary(book: &Book) -> BTreeMap<(&str, &Tag), Vec<(Date, Mass)>> {
    let mut weighed: BTreeMap<(&str, &Tag), Vec<(Date, Mass)>> = BTreeMap::new();
    for line in book.diary.iter().filter(|line| line.record.what == What::Weighed) {
        if let (Some(batch), Some(log), Some(Amount::Mass(mass))) = (&line.batch, &line.record.log, &line.record.amount)
        {
            weighed.entry((&batch.id, log)).or_default().push((line.record.date, mass.clone()));
        }
    }
    weighed
}

/// The readings of one batch, among all.
#[must_use]
pub fn of_batch<'a, T>(all: &'a [T], id: &str, batch: impl Fn(&T) -> &Batch) -> &'a [T] {
    let from = all.partition_point(|one| batch(one).id.as_str() < id);
    let to = all.partition_point(|one| batch(one).id.as_str() <= id);
    &all[from..to]
}

/// Every slice, by batch.
#[must_use]
pub fn slices(book: &Book) -> Vec<SliceReading> {
    let of = |batch: &Arc<Batch>| -> Vec<SliceReading> {
        let reading = |slice: &Slice| SliceReading {
            batch: Arc::clone(batch),
            wet: moisture::of_slice(&slice.wet, &slice.dry),
            slice: slice.clone(),
        };
        batch.record.slices.iter().map(reading).collect()
    };
    book.batches.values().flat_map(of).collect()
}

/// The last day of the growing season that begins with or after inoculation: the end of the year in the north, of June in
/// the south (this project's reading of a first season).
fn first_season_ends(inoculated: Date, south: bool) -> Date {
    let (year, month) = (inoculated.0.year(), inoculated.0.month());
    let (last_month, last_day, turns) = if south { (6, 30, 3) } else { (12, 31, 9) };
    let year = if month > turns { year + 1 } else { year };
    Date(jiff::civil::Date::new(year, last_month, last_day).unwrap_or(inoculated.0))
}
