//! What logs of this farm's size weigh, and the holes and spawn they take.

use std::sync::Arc;

use crate::{
    book::{Book, Wood},
    quantity::{Length, Mass, Units},
    reckon::{
        Gap, holes,
        spawn::{self, Need, Rate},
        weight::{self, Green, GreenBark},
    },
    record::{
        method::{Pattern, SpawnRate},
        strain::SpawnForm,
        wood,
    },
};

/// The method whose hole patterns and spawn rates are reckoned.
pub const DRILLED: &str = "rack-log";

/// The numbers of logs for which holes and spawn are reckoned beforehand.
pub const COUNTS: [u32; 6] = [1, 10, 12, 24, 50, 100];

/// Diameters shown at most.
const DIAMETERS: usize = 8;

/// What a green log weighs.
#[derive(Debug, Clone)]
pub struct Weight {
    /// The wood.
    pub wood: Arc<Wood>,
    /// Diameter at the middle, over bark.
    pub diameter: Length,
    /// Length.
    pub length: Length,
    /// What the weight rests on.
    pub green: Green,
    /// The weight, or why there is none.
    pub mass: Result<Mass, Gap>,
    /// The weight of the driest and the wettest part of the tree, where several are recorded.
    pub range: Option<[Mass; 2]>,
}

/// Holes and spawn for a number of logs by one pattern.
#[derive(Debug, Clone)]
pub struct Filling {
    /// The pattern.
    pub pattern: Pattern,
    /// The distance between rows.
    pub between: Length,
    /// The form of spawn.
    pub form: SpawnForm,
    /// Diameter.
    pub diameter: Length,
    /// Length.
    pub length: Length,
    /// How many logs.
    pub logs: u32,
    /// Holes in one log, not rounded.
    pub holes: f64,
    /// Spawn, where a rate is recorded for the form; plugs and thimbles are counted by holes.
    pub need: Result<Need, Gap>,
    /// The rate behind the need.
    pub rate: Option<SpawnRate>,
}

impl Filling {
    /// Whole holes in all the logs.
    #[must_use]
    pub fn all_holes(&self) -> u32 {
        self.whole_holes() * self.logs
    }

    /// The least and the most spawn for all the logs, where a rate is recorded.
    #[must_use]
    pub fn all_spawn(&self) -> Option<[Mass; 2]> {
        let need = self.need.as_ref().ok()?;
        let total = |each: &Mass| Mass::of_kilograms(each.base() * f64::from(self.logs));
        Some([total(&need.least), total(&need.most)])
    }

    /// Whole holes in one log.
    #[must_use]
    pub fn whole_holes(&self) -> u32 {
        self.holes.round() as u32
    }
}

/// What of a wood's record its green weight rests on.
#[must_use]
pub fn green(record: &wood::Wood) -> Green {
    let bark = record.bark.as_ref();
    Green {
        density: record.density.as_ref().map(|density| density.basic),
        moisture: record
            .moisture
            .as_ref()
            .and_then(|moisture| moisture.green.as_ref())
            .map(crate::quantity::measure::Percent::of_one),
        bark: bark.map(|bark| GreenBark {
            density: bark.density,
            moisture: bark.moisture.of_one(),
            share: bark.share.of_one(),
        }),
    }
}

/// The least and the most moisture that is recorded of a wood: of the stem, its heartwood and its sapwood.
#[must_use]
pub fn moistures(record: &wood::Wood) -> Option<[f64; 2]> {
    let moisture = record.moisture.as_ref()?;
    let recorded = [&moisture.green, &moisture.heartwood, &moisture.sapwood];
    let values: Vec<f64> = recorded.into_iter().flatten().map(crate::quantity::measure::Percent::of_one).collect();
    let low = values.iter().copied().reduce(f64::min)?;
    let high = values.iter().copied().reduce(f64::max)?;
    (high > low).then_some([low, high])
}

/// The diameters of the farm's logs: from the thinnest up by whole inches or centimetres, and the thickest.
#[must_use]
pub fn diameters(book: &Book, units: Units) -> Vec<Length> {
    let size = &book.farm.record.log.diameter;
    let step = match units {
        Units::Us => Length::of_inches(1.0),
        Units::Metric => Length::of_metres(0.01),
    };
    let steps = ((size.high.base() - size.low.base()) / step.base() + 1e-6).floor() as usize;
    let stride = steps / DIAMETERS + 1;
    let at = |index: usize| Length::of_metres(size.low.base() + step.base() * index as f64);
    let mut diameters: Vec<Length> = (0..=steps).step_by(stride).map(at).collect();
    let several = diameters.len() > 1;
    match diameters.last_mut() {
        Some(last) if size.high.base() - last.base() > step.base() / 2.0 => diameters.push(size.high.clone()),
        Some(last) if several => *last = size.high.clone(),
        _ => {}
    }
    diameters
}

/// Weights of logs of this farm's size, for every species whose density is recorded.
#[must_use]
pub fn weights(book: &Book, units: Units) -> Vec<Weight> {
    let length = &book.farm.record.log.length;
    let species = book.woods.values().filter(|wood| wood.is_species() && wood.record.density.is_some());
    species
        .flat_map(|wood| {
            let green = green(&wood.record);
            diameters(book, units).into_iter().map(move |diameter| Weight {
                wood: Arc::clone(wood),
                mass: weight::log(&green, &diameter, length),
                range: moistures(&wood.record)
                    .map(|ends| {
                        ends.map(|moisture| {
                            weight::log(&Green { moisture: Some(moisture), ..green }, &diameter, length)
                        })
                    })
                    .and_then(|[low, high]| Some([low.ok()?, high.ok()?])),
                diameter,
                length: length.clone(),
                green,
            })
        })
        .collect()
}

/// Holes and spawn for some numbers of logs, by every pattern that says how far its rows are apart.
#[must_use]
pub fn fillings(book: &Book, units: Units, counts: &[u32]) -> Vec<Filling> {
    let Some(method) = book.methods.get(DRILLED) else { return Vec::new() };
    let mut fillings = Vec::new();
    for pattern in &method.record.patterns {
        let Some(between) = &pattern.between else { continue };
        let forms = if pattern.spawn.is_empty() { vec![SpawnForm::Sawdust] } else { pattern.spawn.clone() };
        for form in forms {
            let rate = method.record.spawn.iter().find(|rate| rate.form == form);
            for diameter in diameters(book, units) {
                for logs in counts {
                    fillings.push(filling(book, pattern, between, form, &diameter, *logs, rate));
                }
            }
        }
    }
    fillings
}

fn filling(
    book: &Book,
    pattern: &Pattern,
    between: &Length,
    form: SpawnForm,
    diameter: &Length,
    logs: u32,
    rate: Option<&SpawnRate>,
) -> Filling {
    let length = &book.farm.record.log.length;
    let need = rate.map(|rate| {
        let rate = Rate {
            package: rate.package.clone(),
            logs: rate.logs.clone(),
            diameter: rate.diameter.clone(),
            length: rate.length.clone(),
        };
        spawn::need(&rate, diameter, length, logs)
    });
    Filling {
        pattern: pattern.clone(),
        between: between.clone(),
        form,
        diameter: diameter.clone(),
        length: length.clone(),
        logs,
        holes: holes::by_area(diameter, length, &pattern.along, between),
        need: need.ok_or(Gap::NotPublished("the weight of spawn a log in this form")),
        rate: rate.cloned(),
    }
}
