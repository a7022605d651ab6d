//! How many logs each stand gives for good, and when the last tree of a size falls at this winter's pace.

use super::{Findings, Measured, StandFinding, TreeFinding, grouped};
use crate::book::Wood;
use crate::quantity::Length;
use crate::reckon::Gap;
use crate::reckon::formula::Place;
use crate::reckon::growth::{SITES, Stems, a_year, between, into, last, thicker};
use crate::reckon::taper::SQUARE_FEET;
use crate::reckon::{Topic, growth};
use crate::record::stand::Stand;
use crate::record::wood;

/// How fast a stand grows, and what that gives in logs.
#[derive(Debug, Clone)]
pub struct GrowthFinding {
    /// By what its growth was told.
    pub by: Result<By, Gap>,
    /// The least and the most that its basal area gains in a year, in square feet an acre.
    pub gains: Result<[f64; 2], Gap>,
    /// The diameter at which a stem is thick enough for a log.
    pub limit: Length,
    /// The least and the most stems that reach it each year, on the whole area.
    pub into: Result<[f64; 2], Gap>,
    /// The least and the most logs that it gives each year for good.
    pub logs: Result<[f64; 2], Gap>,
    /// For each wood of which trees come down this winter, when the last of that size falls.
    pub lasts: Vec<Last>,
    /// The block of its working.
    pub place: Place,
}

/// By what the growth of a stand was told.
#[derive(Debug, Clone)]
pub enum By {
    /// By two counts, with so many summers between.
    Counts(i16),
    /// By a published rate: its row, and the woods that have none.
    Rate(wood::Growth, Vec<String>),
}

/// When the last tree of a wood and a size falls, where each winter takes as many as this one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Last {
    /// The wood.
    pub wood: String,
    /// The whole inches between which its trees of this winter lie.
    pub inches: [u32; 2],
    /// The earliest and the latest winter; `None` where none is in sight.
    pub winters: [Option<i16>; 2],
}

/// The growth of every stand, in the order of stands.
pub fn all(findings: &Findings) -> Vec<GrowthFinding> {
    findings.stands().iter().map(|stand| one(stand, findings)).collect()
}

fn one(found: &StandFinding, findings: &Findings) -> GrowthFinding {
    let measured = &found.measured;
    let trees: Vec<&TreeFinding> = found.trees.iter().map(|index| &findings.trees()[*index]).collect();
    let stems = stems(&measured.stand.record);
    let limit = limit(&trees, findings);
    let rated = stems.as_ref().map_err(Gap::clone).and_then(|stems| by_rate(stems, &trees, findings));
    let counted = by_counts(measured, findings);
    let (by, gains) = match (counted, &rated) {
        (Some((summers, gains)), _) => (Ok(By::Counts(summers)), Ok(gains)),
        (None, Ok(rated)) => (Ok(rated.by.clone()), Ok(rated.gains)),
        (None, Err(gap)) => (Err(gap.clone()), Err(gap.clone())),
    };
    let acres = measured.area.as_ref().map(crate::quantity::Area::acres).map_err(Gap::clone);
    // Two counts tell the growth of the stand; the stems share it as their diameters do where no rate is published.
    let widens = |inches: f64| -> Result<[f64; 2], Gap> {
        match (&rated, &gains, &stems) {
            (Ok(rated), ..) => Ok(rated.at(inches)),
            (_, Ok(gains), Ok(stems)) => Ok(gains.map(|gains| shared(stems, gains.max(0.0)))),
            (_, Err(gap), _) | (_, _, Err(gap)) => Err(gap.clone()),
        }
    };
    let reach = |inches: f64| -> Result<[f64; 2], Gap> {
        let (stems, acres) = (stems.as_ref().map_err(Gap::clone)?, acres.clone()?);
        Ok(widens(inches)?.map(|gains| into(stems, inches, gains) * acres))
    };
    let into = reach(limit.inches());
    let error = error(&measured.stand.record);
    let logs = into.clone().and_then(|[least, most]| {
        let each = logs_each(&trees).ok_or(Gap::NotRecorded("a marked tree that gives logs"))?;
        Ok([least * each * (1.0 - error), most * each * (1.0 + error)])
    });
    let lasts = match (&stems, &acres) {
        (Ok(stems), Ok(acres)) => lasts(found, &trees, findings, &|wood, sizes, falls| {
            let share = share(&trees, wood);
            let gains = widens(f64::midpoint(sizes[0], sizes[1])).ok()?;
            let of =
                |part: f64| stems.iter().map(|(inches, number)| (*inches, number * acres * share * part)).collect();
            let year = |part: f64, gains: f64| {
                let stems: Vec<Stems> = of(part);
                let year = last(&stems, sizes, falls, growth::into(&stems, sizes[0], gains), gains);
                year.map(|year| findings.season.year + year)
            };
            Some(bracket([1.0 - error, 1.0 + error].into_iter().flat_map(|part| gains.map(|gains| year(part, gains)))))
        }),
        _ => Vec::new(),
    };
    let place = Place::new(Topic::Stands, format!("growth-{}", measured.stand.id));
    GrowthFinding { by, gains, limit, into, logs, lasts, place }
}

/// The stems of an acre by their diameters.
fn stems(stand: &Stand) -> Result<Vec<Stems>, Gap> {
    let all = |diameters: &[Length], each: &dyn Fn(f64) -> f64| -> Vec<Stems> {
        diameters.iter().map(Length::inches).map(|inches| (inches, each(inches))).collect()
    };
    let prism = stand.prism.as_ref().filter(|prism| !prism.diameters.is_empty() && !prism.counts.is_empty());
    let by_prism = prism.map(|prism| {
        let factor = prism.factor.square_feet_an_acre() / prism.counts.len() as f64;
        all(&prism.diameters, &|inches| factor / (SQUARE_FEET * inches.powi(2)))
    });
    let plots = stand.plots.as_ref().filter(|plots| !plots.diameters.is_empty());
    let by_plots = || {
        plots.map(|plots| {
            let acres = plots.size.acres() * f64::from(plots.number);
            all(&plots.diameters, &|_| 1.0 / acres)
        })
    };
    by_prism.or_else(by_plots).ok_or(Gap::NotRecorded("the thickness of the counted trees"))
}

/// The part of itself by which a count may be out: the standard error of the points of a prism.
fn error(stand: &Stand) -> f64 {
    let Some(counts) = stand.prism.as_ref().map(|prism| prism.counts.as_slice()).filter(|counts| counts.len() > 1)
    else {
        return 0.0;
    };
    let number = counts.len() as f64;
    let mean = counts.iter().map(|count| f64::from(*count)).sum::<f64>() / number;
    let spread = counts.iter().map(|count| (f64::from(*count) - mean).powi(2)).sum::<f64>() / (number - 1.0);
    if mean > 0.0 { ((spread / number).sqrt() / mean).min(0.9) } else { 0.0 }
}

/// The growth by the earliest count that is recorded and the latest, with the summers between.
fn by_counts(measured: &Measured, findings: &Findings) -> Option<(i16, [f64; 2])> {
    let record = &measured.stand.record;
    let winter = |day| crate::reckon::season::Season::holding(day, findings.season.south).year;
    let counted = winter(record.measured?);
    let first = record.entries.iter().filter(|entry| entry.before.is_some() && entry.winter < counted);
    let first = first.min_by_key(|entry| entry.winter)?;
    let earlier = first.before.as_ref()?.square_feet_an_acre();
    let between_them = record.entries.iter().filter(|entry| (first.winter..=counted).contains(&entry.winter));
    let out: Option<Vec<f64>> =
        between_them.map(|entry| Some(entry.basal_area.as_ref()?.square_feet_an_acre())).collect();
    let later = measured.counted.as_ref().ok()?.basal_area.square_feet_an_acre();
    let summers = counted - first.winter;
    let gains = between(earlier, out?.iter().sum(), later, summers)?;
    // Each count may be out by its own error; the earlier is taken to be as good as the later.
    let out_by = later * error(record) * std::f64::consts::SQRT_2 / f64::from(summers);
    Some((summers, [gains - out_by, gains + out_by]))
}

/// The growth of a stand by published rates.
struct Rated {
    by: By,
    gains: [f64; 2],
    rates: Vec<growth::Rate>,
    stems: Vec<Stems>,
}

impl Rated {
    /// What a stem of a thickness gains in a year on poor and on good ground, in inches.
    fn at(&self, inches: f64) -> [f64; 2] {
        let over = thicker(&self.stems, inches);
        let mean = |site: f64| {
            self.rates.iter().map(|rate| a_year(rate, inches, site, over)).sum::<f64>() / self.rates.len() as f64
        };
        SITES.map(mean)
    }
}

fn by_rate(stems: &[Stems], trees: &[&TreeFinding], findings: &Findings) -> Result<Rated, Gap> {
    let standing = || trees.iter().filter(|tree| !tree.is_down() && !tree.is_snag());
    let published = |wood: &Wood| wood.record.growth.clone().filter(|growth| findings.book.here.holds(&growth.holds));
    let found: Vec<wood::Growth> = standing().filter_map(|tree| published(&tree.tree.wood)).collect();
    let Some(row) = found.first().cloned() else {
        return Err(Gap::NotPublished(
            "how fast these woods grow here; count again in a few years, and write `before` and `measured`",
        ));
    };
    let mut without: Vec<String> = standing()
        .filter(|tree| published(&tree.tree.wood).is_none())
        .map(|tree| tree.tree.wood.name().to_owned())
        .collect();
    without.sort_unstable();
    without.dedup();
    let rates = found.iter().map(|of| growth::Rate { site: of.site, thickness: of.thickness, crowding: of.crowding });
    let mut rated =
        Rated { by: By::Rate(row, without), gains: [0.0; 2], rates: rates.collect(), stems: stems.to_vec() };
    for (inches, number) in stems {
        let widened = rated.at(*inches).map(|gains| (inches + gains).powi(2) - inches.powi(2));
        for (sum, squares) in rated.gains.iter_mut().zip(widened) {
            *sum += SQUARE_FEET * squares * number;
        }
    }
    Ok(rated)
}

/// What each stem gains in diameter where the growth of an acre is shared out by thickness.
fn shared(stems: &[Stems], gains: f64) -> f64 {
    let round: f64 = stems.iter().map(|(inches, number)| 2.0 * SQUARE_FEET * inches * number).sum();
    if round > 0.0 { gains / round } else { 0.0 }
}

/// The thinnest tagged tree that gives a log, or else the thinnest log of the farm.
fn limit(trees: &[&TreeFinding], findings: &Findings) -> Length {
    let giving = trees.iter().filter(|tree| tree.stem_logs > 0).map(|tree| tree.tree.record.dbh());
    let thinnest = giving.min_by(|one, other| one.base().total_cmp(&other.base()));
    thinnest.unwrap_or_else(|| findings.book.farm.record.log.diameter.low.clone())
}

/// Logs of a marked tree of the stand, on average.
fn logs_each(trees: &[&TreeFinding]) -> Option<f64> {
    let marked = || {
        trees.iter().filter(|tree| tree.logs() > 0 && tree.tree.record.decision == crate::record::tree::Decision::Fell)
    };
    let number = marked().count();
    (number > 0).then(|| f64::from(marked().map(|tree| tree.logs()).sum::<u32>()) / number as f64)
}

/// The part of the standing tagged trees that are of a wood.
fn share(trees: &[&TreeFinding], wood: &str) -> f64 {
    let standing = || trees.iter().filter(|tree| !tree.is_down() && !tree.is_snag());
    let of_wood = standing().filter(|tree| tree.tree.wood.id == wood).count();
    of_wood as f64 / standing().count().max(1) as f64
}

/// The earliest and the latest of some winters, none in sight being later than all. Stems that gain more reach a size
/// sooner and leave it sooner, so that more growth may bring the end nearer as well as put it off.
fn bracket(winters: impl Iterator<Item = Option<i16>>) -> [Option<i16>; 2] {
    let mut winters: Vec<Option<i16>> = winters.collect();
    winters.sort_unstable_by_key(|winter| (winter.is_none(), *winter));
    [winters.first().copied().flatten(), winters.last().copied().flatten()]
}

/// When the last tree of a wood falls, by its wood, its sizes and how many fall.
type Ends<'a> = &'a dyn Fn(&str, [f64; 2], f64) -> Option<[Option<i16>; 2]>;

fn lasts(found: &StandFinding, trees: &[&TreeFinding], findings: &Findings, ends: Ends<'_>) -> Vec<Last> {
    let falls = found.felled.iter().map(|index| &findings.trees()[*index]);
    let down = trees.iter().copied().filter(|tree| findings.is_of_this_winter(tree));
    let by_wood = grouped(falls.chain(down).map(|tree| (tree.tree.wood.id.as_str(), tree)));
    let of = |(wood, of): (&str, Vec<&TreeFinding>)| {
        let inches = || of.iter().map(|tree| tree.tree.record.dbh().inches());
        let sizes = [inches().fold(f64::INFINITY, f64::min).floor(), inches().fold(0.0, f64::max).ceil()];
        let winters = ends(wood, sizes, of.len() as f64)?;
        let name = of.first()?.tree.wood.name().to_owned();
        Some(Last { wood: name, inches: sizes.map(|inches| inches as u32), winters })
    };
    by_wood.into_iter().filter_map(of).collect()
}
