//! What logs of this farm's size weigh, and the holes and spawn they take.

use std::cmp::Ordering;
use std::sync::Arc;

use uom::si::f64::MassDensity;

use super::weighed;
use super::weighed::{Weighed, WeighedLog};
use crate::book::{Book, Wood};
use crate::quantity::{Length, Mass, Percent, Range, Units, Value};
use crate::reckon::bark::BARK;
use crate::reckon::formula::{Figure, Place};
use crate::reckon::spawn::Need;
use crate::reckon::weight::{Green, GreenBark, WEIGHED, WEIGHT};
use crate::reckon::{Gap, Topic, bark, holes, spawn, weight};
use crate::record::method::{Pattern, SpawnRate};
use crate::record::strain::SpawnForm;
use crate::record::wood;

/// The method whose hole patterns and spawn rates are reckoned.
pub const DRILLED: &str = "rack-log";

/// The numbers of logs for which holes and spawn are reckoned beforehand: one by one as far as a day's work goes, then in steps.
pub const COUNTS: [u32; 40] = [
    1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24, 25, 26, 27, 28, 29, 30, 35,
    40, 45, 50, 60, 70, 80, 100, 150, 200,
];

/// Those of them that a table shows before one is asked for, and on paper.
pub const FEW: [u32; 6] = [1, 10, 12, 24, 50, 100];

/// Diameters shown at most.
const DIAMETERS: usize = 8;

/// What green logs of a wood weigh.
#[derive(Debug, Clone)]
pub struct WoodWeight {
    /// The wood.
    pub wood: Arc<Wood>,
    /// What the weight rests on in the handbook.
    pub green: Green,
    /// Green density over bark by the wood's record.
    pub reckoned: Figure<MassDensity>,
    /// Logs of it that the farm weighed and measured.
    pub weighed: Vec<WeighedLog>,
    /// What the fresh ones among them come to.
    pub own: Option<Weighed>,
    /// Green density over bark: the farm's own where it weighed enough, else that of the wood's record.
    pub density: Figure<MassDensity>,
    /// The least and the most of it, and whose they are.
    pub ends: Result<[End; 2], Gap>,
    /// A log of each thickness.
    pub logs: Vec<LogWeight>,
    /// The bark by each line that was fitted for the wood.
    pub bark: Vec<Figure<Length>>,
}

/// The least or the most that a wood weighs by its volume.
#[derive(Debug, Clone)]
pub struct End {
    /// Whose figure it is.
    pub of: Water,
    /// Green density over bark.
    pub density: Figure<MassDensity>,
}

/// Of what a weight holds the water.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Water {
    /// The whole stem, as its source gives it.
    Stem,
    /// The driest or the wettest of whole stems, as their source gives them.
    StemRange,
    /// The heartwood.
    Heartwood,
    /// The sapwood.
    Sapwood,
    /// A log that this farm weighed.
    OwnLog,
}

impl Water {
    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Stem => "the whole stem",
            Self::StemRange => "whole stems, as their source has them at the most",
            Self::Heartwood => "heartwood",
            Self::Sapwood => "sapwood",
            Self::OwnLog => "a log weighed here",
        }
    }
}

/// What a green log weighs.
#[derive(Debug, Clone)]
pub struct LogWeight {
    /// Diameter at the middle, over bark.
    pub diameter: Length,
    /// The weight.
    pub green: Figure<Mass>,
    /// The least and the most that it can weigh.
    pub range: Result<[Figure<Mass>; 2], Gap>,
}

impl LogWeight {
    /// The least and the most that it weighs, green or soaked.
    ///
    /// # Errors
    ///
    /// A [`Gap`] where density or moisture is not recorded.
    pub fn span(&self, soaked: bool) -> Result<[Mass; 2], Gap> {
        let [least, most] = self.range.as_ref().map_err(Clone::clone)?;
        let [least, most] = [least.result.clone()?, most.result.clone()?];
        Ok(if soaked { [weight::soaked(&least), weight::soaked(&most)] } else { [least, most] })
    }

    /// The most that it weighs, green or soaked: what a lift goes by.
    ///
    /// # Errors
    ///
    /// A [`Gap`] where density or moisture is not recorded.
    pub fn heaviest(&self, soaked: bool) -> Result<Mass, Gap> {
        self.span(soaked).map(|[_, most]| most)
    }
}

impl WoodWeight {
    /// Whether the farm's own logs stand in place of the handbook's figures.
    pub fn is_own(&self) -> bool {
        self.own.is_some_and(|own| own.is_enough())
    }

    /// Green density over bark at the most: what a lift goes by.
    ///
    /// # Errors
    ///
    /// A [`Gap`] where density or moisture is not recorded.
    pub fn heaviest(&self) -> Result<MassDensity, Gap> {
        let [_, most] = self.ends.as_ref().map_err(Clone::clone)?;
        most.density.result.clone()
    }

    /// Green density over bark: the least, the usual and the most.
    ///
    /// # Errors
    ///
    /// A [`Gap`] where density or moisture is not recorded.
    pub fn densities(&self) -> Result<[MassDensity; 3], Gap> {
        let [least, most] = self.ends.as_ref().map_err(Clone::clone)?;
        let [least, usual, most] = [&least.density, &self.density, &most.density].map(|density| density.result.clone());
        Ok([least?, usual?, most?])
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

/// What of a wood's record its green weight rests on; a source that gives a range alone is taken at its middle.
pub fn green(record: &wood::Wood) -> Green {
    let bark = record.bark.as_ref();
    let middle = |span: &Range<Percent>| f64::midpoint(span.low.of_one(), span.high.of_one());
    let stem = |moisture: &wood::Moisture| {
        moisture.green.as_ref().map(Percent::of_one).or_else(|| moisture.span.as_ref().map(middle))
    };
    Green {
        density: record.density.as_ref().map(|density| density.basic),
        moisture: record.moisture.as_ref().and_then(stem),
        bark: bark.map(|bark| GreenBark {
            density: bark.density,
            moisture: bark.moisture.of_one(),
            share: bark.share.of_one(),
        }),
    }
}

/// Every moisture that is recorded of a wood, as a part of its dry weight, with what it is that of.
pub fn waters(record: &wood::Wood) -> Vec<(Water, f64)> {
    let Some(moisture) = &record.moisture else { return Vec::new() };
    let span = moisture.span.as_ref();
    let recorded = [
        (Water::Stem, moisture.green.as_ref()),
        (Water::StemRange, span.map(|span| &span.low)),
        (Water::StemRange, span.map(|span| &span.high)),
        (Water::Heartwood, moisture.heartwood.as_ref()),
        (Water::Sapwood, moisture.sapwood.as_ref()),
    ];
    recorded.into_iter().filter_map(|(of, part)| Some((of, part?.of_one()))).collect()
}

/// How a source's whole stem stands to heartwood and sapwood where it lies outside both.
pub fn stem_beside_its_parts(record: &wood::Wood) -> Option<Ordering> {
    let moisture = record.moisture.as_ref()?;
    let [stem, heart, sap] =
        [&moisture.green, &moisture.heartwood, &moisture.sapwood].map(|part| part.as_ref().map(Percent::of_one));
    let (stem, parts) = (stem?, [heart?, sap?]);
    let all = |order: Ordering| parts.iter().all(|part| stem.total_cmp(part) == order);
    [Ordering::Greater, Ordering::Less].into_iter().find(|order| all(*order))
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
    let mut weighed = weighed::by_wood(book);
    let of = |wood: &Arc<Wood>| {
        let weighed = weighed.remove(wood.id.as_str()).unwrap_or_default();
        weight_of(wood, &book.farm.record.log.length, &diameters, weighed)
    };
    book.woods.values().map(of).collect()
}

fn weight_of(wood: &Arc<Wood>, length: &Length, diameters: &[Length], weighed: Vec<WeighedLog>) -> WoodWeight {
    let green = green(&wood.record);
    let place = Place::new(Topic::Weights, wood.id.clone());
    let reckoned = WEIGHT.figure(&place, put(&green), "ρ", weight::density(&green));
    let own = weighed::together(&weighed);
    let enough = own.filter(Weighed::is_enough);
    let density = enough.map_or_else(|| reckoned.clone(), |own| own_density(&own, own.densities[1], &place));
    let ends = enough.map_or_else(|| ends(wood, &green, &place), |own| Ok(own_ends(&own, &place)));
    let log = |diameter: &Length| {
        let volume = weight::volume(diameter, length);
        let log = |density: &Figure<MassDensity>| {
            let mut put = vec![("D", diameter.into()), ("V", volume.into())];
            put.extend(density.result.clone().map(|density| ("ρ", density.into())));
            WEIGHT.figure(&place, put, "W", density.result.clone().map(|density| (density * volume).into()))
        };
        let range = ends.as_ref().map(|ends| ends.each_ref().map(|end| log(&end.density)));
        LogWeight { green: log(&density), range: range.map_err(Clone::clone), diameter: diameter.clone() }
    };
    let fits = wood.record.bark.iter().flat_map(|bark| &bark.fits);
    let bark = fits.map(|fit| bark(fit, &place)).collect();
    let logs = diameters.iter().map(log).collect();
    WoodWeight { wood: Arc::clone(wood), green, reckoned, weighed, own, density, ends, logs, bark }
}

/// The least and the most by the driest and the wettest moisture that is recorded.
fn ends(wood: &Wood, green: &Green, place: &Place) -> Result<[End; 2], Gap> {
    let end = |of, moisture| {
        let green = Green { moisture: Some(moisture), ..*green };
        End { of, density: WEIGHT.figure(place, put(&green), "ρ", weight::density(&green)) }
    };
    let waters = waters(&wood.record);
    let drier = |one: &&(Water, f64), other: &&(Water, f64)| one.1.total_cmp(&other.1);
    // Of equal ones the first stands, which is that of the whole stem.
    let ends = waters.iter().min_by(drier).zip(waters.iter().rev().max_by(drier));
    match ends.filter(|_| green.density.is_some()) {
        Some((driest, wettest)) => Ok([driest, wettest].map(|(of, part)| end(*of, *part))),
        None => Err(weight::density(green).err().unwrap_or(Gap::NotRecorded("the moisture of the green wood"))),
    }
}

fn own_ends(own: &Weighed, place: &Place) -> [End; 2] {
    let [lightest, _, heaviest] = own.densities;
    [lightest, heaviest].map(|density| End { of: Water::OwnLog, density: own_density(own, density, place) })
}

/// A green density by the farm's own logs.
fn own_density(own: &Weighed, density: MassDensity, place: &Place) -> Figure<MassDensity> {
    WEIGHED.figure(place, vec![("logs", own.logs.into())], "ρ", Ok(density))
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
