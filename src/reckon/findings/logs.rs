//! What logs of this farm's size weigh, and the holes and spawn they take.

use std::sync::Arc;

use uom::si::f64::MassDensity;

use crate::book::{Book, Wood};
use crate::quantity::{Length, Mass, Percent, Units, Value};
use crate::reckon::bark::BARK;
use crate::reckon::formula::{Figure, Place};
use crate::reckon::spawn::Need;
use crate::reckon::weight::{Green, GreenBark, WEIGHT};
use crate::reckon::{Gap, Topic, bark, holes, spawn, weight};
use crate::record::method::{Pattern, SpawnRate};
use crate::record::strain::SpawnForm;
use crate::record::wood;

/// The method whose hole patterns and spawn rates are reckoned.
pub const DRILLED: &str = "rack-log";

/// The numbers of logs for which holes and spawn are reckoned beforehand.
pub const COUNTS: [u32; 6] = [1, 10, 12, 24, 50, 100];

/// Diameters shown at most.
const DIAMETERS: usize = 8;

/// What green logs of a wood weigh.
#[derive(Debug, Clone)]
pub struct WoodWeight {
    /// The wood.
    pub wood: Arc<Wood>,
    /// What the weight rests on.
    pub green: Green,
    /// Green density over bark.
    pub density: Figure<MassDensity>,
    /// A log of each thickness.
    pub logs: Vec<LogWeight>,
    /// The bark by each line that was fitted for the wood.
    pub bark: Vec<Figure<Length>>,
}

/// What a green log weighs.
#[derive(Debug, Clone)]
pub struct LogWeight {
    /// Diameter at the middle, over bark.
    pub diameter: Length,
    /// The weight.
    pub green: Figure<Mass>,
    /// The weight of the driest and the wettest part of the tree, where several are recorded.
    pub range: Option<[Mass; 2]>,
}

impl LogWeight {
    /// Weight green, or soaked.
    ///
    /// # Errors
    ///
    /// A [`Gap`] where density or moisture is not recorded.
    pub fn mass(&self, soaked: bool) -> Result<Mass, Gap> {
        self.green.result.clone().map(|mass| if soaked { weight::soaked(&mass) } else { mass })
    }
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
    pub fn all_holes(&self) -> u32 {
        self.whole_holes() * self.logs
    }

    /// The least and the most spawn for all the logs, where a rate is recorded.
    pub fn all_spawn(&self) -> Option<[Mass; 2]> {
        let need = self.need.as_ref().ok()?;
        let total = |each: &Mass| Mass::of_kilograms(each.base() * f64::from(self.logs));
        Some([total(&need.least), total(&need.most)])
    }

    /// Whole holes in one log.
    pub fn whole_holes(&self) -> u32 {
        self.holes.round() as u32
    }
}

/// What of a wood's record its green weight rests on.
pub fn green(record: &wood::Wood) -> Green {
    let bark = record.bark.as_ref();
    Green {
        density: record.density.as_ref().map(|density| density.basic),
        moisture: record.moisture.as_ref().and_then(|moisture| moisture.green.as_ref()).map(Percent::of_one),
        bark: bark.map(|bark| GreenBark {
            density: bark.density,
            moisture: bark.moisture.of_one(),
            share: bark.share.of_one(),
        }),
    }
}

/// The least and the most moisture that is recorded of a wood: of the stem, its heartwood and its sapwood.
pub fn moistures(record: &wood::Wood) -> Option<[f64; 2]> {
    let moisture = record.moisture.as_ref()?;
    let recorded = [&moisture.green, &moisture.heartwood, &moisture.sapwood];
    let values: Vec<f64> = recorded.into_iter().flatten().map(Percent::of_one).collect();
    let low = values.iter().copied().reduce(f64::min)?;
    let high = values.iter().copied().reduce(f64::max)?;
    (high > low).then_some([low, high])
}

/// The diameters of the farm's logs: from the thinnest up by whole inches or centimetres, and the thickest.
pub fn diameters(book: &Book, units: Units) -> Vec<Length> {
    let size = &book.farm.record.log.diameter;
    let step = units.pick(Length::of_inches(1.0), Length::of_metres(0.01));
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

/// Weights of logs of this farm's size, for every wood, in the order of ids.
pub fn weights(book: &Book, units: Units) -> Vec<WoodWeight> {
    let diameters = diameters(book, units);
    book.woods.values().map(|wood| weight_of(wood, &book.farm.record.log.length, &diameters)).collect()
}

fn weight_of(wood: &Arc<Wood>, length: &Length, diameters: &[Length]) -> WoodWeight {
    let green = green(&wood.record);
    let place = Place::new(Topic::Weights, wood.id.clone());
    let density = WEIGHT.figure(&place, put(&green), "ρ", weight::density(&green));
    let ends = moistures(&wood.record);
    let log = |diameter: &Length| {
        let volume = weight::volume(diameter, length);
        let of = |green: &Green| weight::of_volume(green, volume);
        let range = ends.map(|ends| ends.map(|end| of(&Green { moisture: Some(end), ..green }).ok()));
        let mut put = vec![("D", diameter.into()), ("V", volume.into())];
        put.extend(density.result.clone().map(|density| ("ρ", density.into())));
        LogWeight {
            green: WEIGHT.figure(&place, put, "W", of(&green)),
            range: range.and_then(|[low, high]| Some([low?, high?])),
            diameter: diameter.clone(),
        }
    };
    let fits = wood.record.bark.iter().flat_map(|bark| &bark.fits);
    let logs = diameters.iter().map(log).collect();
    WoodWeight { bark: fits.map(|fit| bark(fit, &place)).collect(), wood: Arc::clone(wood), green, density, logs }
}

/// What of a wood's record its density is made of.
fn put(green: &Green) -> Vec<(&'static str, Value)> {
    let number = |number: f64| Value::Number(number, 3);
    let wood = [("G", green.density), ("M", green.moisture)];
    let bark = green.bark.map(|bark| [("B", bark.share), ("G_b", bark.density), ("M_b", bark.moisture)]);
    let wood = wood.into_iter().filter_map(|(symbol, part)| Some((symbol, number(part?))));
    wood.chain(bark.into_iter().flatten().map(|(symbol, part)| (symbol, number(part)))).collect()
}

fn bark(fit: &wood::BarkFit, place: &Place) -> Figure<Length> {
    let across = Length::of_inches(bark::ACROSS);
    let put = vec![("a", Value::Number(fit.a, 3)), ("b", Value::Number(fit.b, 3)), ("D", (&across).into())];
    BARK.figure(place, put, "t", Ok(bark::thickness(&across, fit.a, fit.b)))
}

/// Holes and spawn for some numbers of logs, by every pattern that says how far its rows are apart.
pub fn fillings(book: &Book, units: Units, counts: &[u32]) -> Vec<Filling> {
    let Some(method) = book.methods.get(DRILLED) else { return Vec::new() };
    let length = &book.farm.record.log.length;
    let mut fillings = Vec::new();
    for pattern in &method.record.patterns {
        let Some(between) = &pattern.between else { continue };
        let forms = if pattern.spawn.is_empty() { vec![SpawnForm::Sawdust] } else { pattern.spawn.clone() };
        for form in forms {
            let rate = method.record.spawn.iter().find(|rate| rate.form == form);
            for diameter in diameters(book, units) {
                let need = |logs| rate.map(|rate| spawn::need(rate, &diameter, length, logs));
                fillings.extend(counts.iter().map(|logs| Filling {
                    pattern: pattern.clone(),
                    between: between.clone(),
                    form,
                    diameter: diameter.clone(),
                    length: length.clone(),
                    logs: *logs,
                    holes: holes::by_area(&diameter, length, &pattern.along, between),
                    need: need(*logs).ok_or(Gap::NotPublished("the weight of spawn a log in this form")),
                    rate: rate.cloned(),
                }));
            }
        }
    }
    fillings
}
