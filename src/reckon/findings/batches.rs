//! Where each batch stands in its life, what it gave, and what it should have given.

use std::{collections::BTreeMap, sync::Arc};

use strum::IntoStaticStr;

use super::logs;
use crate::{
    book::{Batch, Book, Diary, Harvest, Wood},
    quantity::{Area, Date, Length, Mass},
    reckon::{
        Gap, Topic,
        formula::Place,
        life::{self, LifeYield},
        planning,
        season::{Season, span},
        weight,
    },
    record::{
        Id,
        diary::What,
        mushroom::{LogYield, Over},
        said::{Mark, Span},
        source::Source,
    },
};

/// Where a batch stands in its life.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Stage {
    /// It is inoculated only after this season.
    NotYet,
    /// The spawn grows; no source has it fruit yet.
    SpawnRun,
    /// It may fruit for the first time.
    MayFruit,
    /// In a year of crops, counted from one.
    Cropping(u32),
    /// Past the longest life that a source gives.
    Old,
    /// All its logs are lost.
    Gone,
    /// No source gives its spawn run, and it has not fruited.
    Unknown,
}

impl Stage {
    /// The stage as tables write it.
    #[must_use]
    pub fn word(self) -> &'static str {
        self.into()
    }
}

/// One source's yield of a log over its life.
#[derive(Debug, Clone)]
pub struct YieldLine {
    /// The source.
    pub source: Id<Source>,
    /// How the figure came here.
    pub mark: Mark,
    /// What a reader should know.
    pub note: Option<String>,
    /// What one log gives in its life, least and most.
    pub a_log: [Mass; 2],
    /// Years, least and most; borrowed from the other sources where this one gives none.
    pub years: [u32; 2],
    /// Whether it was reckoned from the green weight of the log.
    pub by_weight: bool,
}

/// One growing year of a batch.
#[derive(Debug, Clone)]
pub struct BatchYear {
    /// The growing year.
    pub year: i16,
    /// Which year of crops it is, counted from one; nought before.
    pub crop: u32,
    /// Logs left at its last picking, or at its end where nothing was picked.
    pub logs: u32,
    /// What it should give by the sources, least and most.
    pub expected: Option<[Mass; 2]>,
    /// What was picked, the batch's part of shared totals included; `None` where nothing was written.
    pub picked: Option<Mass>,
    /// Of the sources that give a yield, how many give more than was picked, about as much, and less.
    pub beside: Option<[usize; 3]>,
}

/// Everything that is known of a batch.
#[derive(Debug, Clone)]
pub struct BatchFinding {
    /// The batch.
    pub batch: Arc<Batch>,
    /// Logs lost since.
    pub lost: u32,
    /// Its middle diameter: its own, that of its lot, or the farm's log.
    pub diameter: Length,
    /// Its length, likewise.
    pub length: Length,
    /// When it first fruits, by each source.
    pub first: Vec<(Span, [Date; 2])>,
    /// The growing year in which crops begin, and whether the first harvest says so.
    pub begins: Result<(i16, bool), Gap>,
    /// What a log should give by each source.
    pub yields: Vec<YieldLine>,
    /// Its growing years, from that of inoculation to the end of its life.
    pub years: Vec<BatchYear>,
    /// Where it stands in this season's growing year.
    pub stage: Stage,
    /// Lines of the day book about it, in the order of their dates.
    pub diary: Vec<Arc<Diary>>,
    /// Harvests that it had a part in, in the order of their dates.
    pub harvests: Vec<Arc<Harvest>>,
}

impl BatchYear {
    /// What was picked from one log, on average; `None` where nothing was written.
    #[must_use]
    pub fn a_log(&self) -> Option<Mass> {
        let picked = self.picked.as_ref().filter(|_| self.logs > 0)?;
        Some(Mass::of_kilograms(picked.base() / f64::from(self.logs)))
    }
}

impl BatchFinding {
    /// Where the working of its first mushrooms stands.
    #[must_use]
    pub fn first_place(&self) -> Place {
        Place::new(Topic::Yard, format!("first-{}", self.batch.id))
    }

    /// Where the working of its yields stands.
    #[must_use]
    pub fn life_place(&self) -> Place {
        Place::new(Topic::Yard, format!("life-{}", self.batch.id))
    }

    /// What one of its logs should give in its life, the least and the most over all sources.
    #[must_use]
    pub fn a_log(&self) -> Option<[Mass; 2]> {
        let end = |end: usize| self.yields.iter().map(move |line| line.a_log[end].clone());
        let order = |a: &Mass, b: &Mass| a.base().total_cmp(&b.base());
        Some([end(0).min_by(order)?, end(1).max_by(order)?])
    }

    /// Logs that are left.
    #[must_use]
    pub fn left(&self) -> u32 {
        self.batch.record.logs.saturating_sub(self.lost)
    }

    /// Everything picked so far.
    #[must_use]
    pub fn picked(&self) -> Mass {
        Mass::of_kilograms(self.years.iter().filter_map(|year| year.picked.as_ref()).map(Mass::base).sum())
    }

    /// The first and the last day on which it may first fruit, over all sources.
    #[must_use]
    pub fn first_span(&self) -> Option<[Date; 2]> {
        span(self.first.iter().map(|(_, [from, to])| (*from, *to))).map(Into::into)
    }

    /// The longest life in years that a source gives.
    #[must_use]
    pub fn longest(&self) -> Option<u32> {
        self.yields.iter().map(|line| line.years[1]).max()
    }
}

/// Ground on which the logs that are left lie side by side.
#[must_use]
pub fn ground(batches: &[BatchFinding]) -> Area {
    let each = batches.iter().map(|found| planning::ground(found.left(), &found.diameter, &found.length));
    Area::of_square_metres(each.sum())
}

/// What was picked in each growing year, from all batches together.
#[must_use]
pub fn totals(book: &Book, south: bool) -> BTreeMap<i16, Mass> {
    let mut kilograms: BTreeMap<i16, f64> = BTreeMap::new();
    for harvest in &book.harvests {
        let year = life::growing_year(harvest.record.date, south);
        *kilograms.entry(year).or_default() += harvest.record.weight.base();
    }
    kilograms.into_iter().map(|(year, kilograms)| (year, Mass::of_kilograms(kilograms))).collect()
}

/// Every batch, by its id.
#[must_use]
pub fn all(book: &Book, season: Season) -> Vec<BatchFinding> {
    let mut diary: BTreeMap<&str, Vec<Arc<Diary>>> = BTreeMap::new();
    for line in &book.diary {
        if let Some(batch) = &line.batch {
            diary.entry(&batch.id).or_default().push(Arc::clone(line));
        }
    }
    let mut harvests: BTreeMap<&str, Vec<Arc<Harvest>>> = BTreeMap::new();
    for harvest in &book.harvests {
        for batch in &harvest.batches {
            harvests.entry(&batch.id).or_default().push(Arc::clone(harvest));
        }
    }
    let mut of = |batch: &Arc<Batch>| {
        let id = batch.id.as_str();
        one(book, batch, diary.remove(id).unwrap_or_default(), harvests.remove(id).unwrap_or_default(), season)
    };
    book.batches.values().map(&mut of).collect()
}

fn one(
    book: &Book,
    batch: &Arc<Batch>,
    diary: Vec<Arc<Diary>>,
    harvests: Vec<Arc<Harvest>>,
    season: Season,
) -> BatchFinding {
    let (diameter, length) = size(book, batch);
    let ends = season.growing_year_ends(season.growing_year());
    let mut picked = picked(&harvests, batch, season.south);
    picked.retain(|year, _| *year <= season.growing_year());
    let first = first(batch);
    let begins = begins(batch, &picked, season.south);
    let yields = yields(batch, &diameter, &length);
    let mut finding = BatchFinding {
        lost: lost(batch, &diary, ends),
        batch: Arc::clone(batch),
        diameter,
        length,
        first,
        begins,
        yields,
        years: Vec::new(),
        stage: Stage::Unknown,
        diary,
        harvests,
    };
    finding.years = years(&finding, &picked, &last_picked(&finding.harvests, season.south), season);
    finding.stage = stage(&finding, season);
    finding
}

/// The middle diameter and the length of a batch's logs.
fn size(book: &Book, batch: &Batch) -> (Length, Length) {
    let (record, lot) = (&batch.record, batch.lot.as_ref().map(|lot| &lot.record));
    let own = &book.farm.record.log;
    let range = record.diameter.as_ref().or_else(|| lot?.diameter.as_ref()).unwrap_or(&own.diameter);
    let length = record.length.as_ref().or_else(|| lot?.length.as_ref()).unwrap_or(&own.length);
    (Length::of_inches(f64::midpoint(range.low.inches(), range.high.inches())), length.clone())
}

/// Logs lost until a day.
fn lost(batch: &Batch, diary: &[Arc<Diary>], until: Date) -> u32 {
    let counts = |line: &&Arc<Diary>| line.record.what == What::LogLost && line.record.date <= until;
    let lost = |line: &Arc<Diary>| line.record.logs.unwrap_or(1);
    diary.iter().filter(counts).map(lost).sum::<u32>().min(batch.record.logs)
}

/// What was picked from a batch in each growing year; of a shared total, its part by logs.
fn picked(harvests: &[Arc<Harvest>], batch: &Batch, south: bool) -> BTreeMap<i16, f64> {
    let mut years = BTreeMap::new();
    for harvest in harvests {
        let all: u32 = harvest.batches.iter().map(|other| other.record.logs).sum();
        let part = f64::from(batch.record.logs) / f64::from(all.max(1));
        let year = life::growing_year(harvest.record.date, south);
        *years.entry(year).or_insert(0.0) += harvest.record.weight.base() * part;
    }
    years
}

/// The day of the last picking from a batch in each growing year.
fn last_picked(harvests: &[Arc<Harvest>], south: bool) -> BTreeMap<i16, Date> {
    let days = harvests.iter().map(|harvest| harvest.record.date);
    days.map(|day| (life::growing_year(day, south), day)).collect()
}

fn first(batch: &Batch) -> Vec<(Span, [Date; 2])> {
    let dates = |span: &Span| life::first(batch.record.inoculated, span.range.low.days(), span.range.high.days());
    batch.strain.spawn_runs().iter().map(|span| (span.clone(), dates(span))).collect()
}

/// The middle of the spawn runs of all sources, in days.
#[must_use]
pub fn usual_run(batch: &Batch) -> Option<f64> {
    let days = |span: &Span| [span.range.low.days(), span.range.high.days()];
    life::usual_run(&batch.strain.spawn_runs().iter().map(days).collect::<Vec<_>>())
}

/// The growing year in which crops begin: that of the first harvest, or else that of the usual spawn run.
fn begins(batch: &Batch, picked: &BTreeMap<i16, f64>, south: bool) -> Result<(i16, bool), Gap> {
    if let Some(year) = picked.keys().next() {
        return Ok((*year, true));
    }
    let run = usual_run(batch).ok_or(Gap::NotPublished("the time from inoculation to the first mushrooms"))?;
    Ok((life::growing_year(life::first(batch.record.inoculated, run, run)[0], south), false))
}

/// What one log should give in its life by each source.
fn yields(batch: &Batch, diameter: &Length, length: &Length) -> Vec<YieldLine> {
    let record = &batch.strain.mushroom.record;
    let fits = |wood: Option<&Id<crate::record::wood::Wood>>| {
        wood.is_none_or(|wood| batch.wood.as_ref().is_some_and(|own| own.line().any(|id| id == wood.as_str())))
    };
    let of_life = |line: &&LogYield| line.over == Over::Life && line.years.is_some() && fits(line.wood.as_ref());
    let whole = |years: f64| years.ceil().max(1.0) as u32;
    let mut lines: Vec<YieldLine> = record
        .log_yields
        .iter()
        .filter(of_life)
        .filter_map(|line| {
            let years = line.years.as_ref()?;
            Some(YieldLine {
                source: line.source.clone(),
                mark: line.mark,
                note: line.note.clone(),
                a_log: [line.a_log.low.clone(), line.a_log.high.clone()],
                years: [whole(years.low), whole(years.high)],
                by_weight: false,
            })
        })
        .collect();
    let shortest = lines.iter().map(|line| line.years[0]).min();
    let longest = lines.iter().map(|line| line.years[1]).max();
    let volume = weight::volume(diameter, length);
    let green = |wood: &Arc<Wood>| weight::of_volume(&logs::green(&wood.record), volume).ok();
    let green = batch.wood.as_ref().and_then(green);
    if let (Some(shortest), Some(longest), Some(green)) = (shortest, longest, green) {
        let part = |share: f64| Mass::of_kilograms(green.base() * share);
        lines.extend(record.weight_yields.iter().filter(|line| fits(line.wood.as_ref())).map(|line| YieldLine {
            source: line.source.clone(),
            mark: line.mark,
            note: line.note.clone(),
            a_log: [part(line.of_green_log.low.of_one()), part(line.of_green_log.high.of_one())],
            years: [shortest, longest],
            by_weight: true,
        }));
    }
    lines
}

/// Growing years from that of inoculation to the end of the longest life, and on to the last harvest.
fn years(
    finding: &BatchFinding,
    picked: &BTreeMap<i16, f64>,
    last_picked: &BTreeMap<i16, Date>,
    season: Season,
) -> Vec<BatchYear> {
    let batch = &finding.batch;
    let planted = life::growing_year(batch.record.inoculated, season.south);
    let begins = finding.begins.as_ref().ok().map(|(year, _)| *year);
    let profile = batch.strain.mushroom.record.yield_shares.as_ref().map(|profile| profile.shares.as_slice());
    let lines: Vec<LifeYield> = finding
        .yields
        .iter()
        .map(|line| LifeYield { kilograms: [line.a_log[0].base(), line.a_log[1].base()], years: line.years })
        .collect();
    let a_log = life::year_by_year(&lines, profile);
    let each: Vec<Vec<[f64; 2]>> = lines.iter().map(|line| life::year_by_year(&[*line], profile)).collect();
    let end = begins.map(|begins| begins + i16::try_from(a_log.len()).unwrap_or(0) - 1);
    let now = (season.growing_year() - planted <= life::FOLLOWED_YEARS).then(|| season.growing_year());
    let last = [Some(planted), end, begins, picked.keys().next_back().copied(), now].into_iter().flatten().max();
    let until = |year: i16| season.growing_year_ends(year);
    (planted..=last.unwrap_or(planted))
        .map(|year| {
            let seen = last_picked.get(&year).copied().unwrap_or_else(|| until(year));
            let logs = batch.record.logs - lost(batch, &finding.diary, seen);
            let crop = begins.and_then(|begins| u32::try_from(year - begins + 1).ok()).unwrap_or(0);
            let of_log = crop.checked_sub(1).and_then(|crop| a_log.get(crop as usize));
            BatchYear {
                year,
                crop,
                logs,
                expected: of_log.map(|each| each.map(|kilograms| Mass::of_kilograms(kilograms * f64::from(logs)))),
                picked: picked.get(&year).map(|kilograms| Mass::of_kilograms(*kilograms)),
                beside: picked
                    .get(&year)
                    .zip(crop.checked_sub(1))
                    .and_then(|(kilograms, crop)| beside(&each, crop as usize, kilograms / f64::from(logs.max(1)))),
            }
        })
        .collect()
}

/// Of the sources that give a yield for a year of crops, how many give more than a log gave, about as much, and less.
fn beside(sources: &[Vec<[f64; 2]>], crop: usize, a_log: f64) -> Option<[usize; 3]> {
    let years: Vec<[f64; 2]> = sources.iter().filter_map(|years| years.get(crop)).copied().collect();
    let more = years.iter().filter(|[least, _]| *least > a_log).count();
    let less = years.iter().filter(|[_, most]| *most < a_log).count();
    (!years.is_empty()).then(|| [more, years.len() - more - less, less])
}

fn stage(finding: &BatchFinding, season: Season) -> Stage {
    let year = season.growing_year();
    let longest = finding.longest();
    match &finding.begins {
        _ if finding.batch.record.inoculated > season.growing_year_ends(year) => Stage::NotYet,
        _ if finding.left() == 0 => Stage::Gone,
        Ok((begins, _)) if *begins <= year => {
            let crop = u32::try_from(year - begins + 1).unwrap_or(1);
            if longest.is_some_and(|longest| crop > longest) { Stage::Old } else { Stage::Cropping(crop) }
        }
        Ok(_) => {
            let may = finding.first_span().is_some_and(|[from, _]| from <= season.growing_year_ends(year));
            if may { Stage::MayFruit } else { Stage::SpawnRun }
        }
        Err(_) => Stage::Unknown,
    }
}
