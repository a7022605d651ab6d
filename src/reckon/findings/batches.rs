//! Where each batch stands in its life, what it gave, and what it should have given.

use std::collections::BTreeMap;
use std::sync::Arc;

use strum::IntoStaticStr;

use super::ledger::yard_on;
use super::stock::spawn_lots;
use super::{Findings, grouped, sales};
use crate::book::{Batch, Book, Diary, Harvest, Lot, Sale};
use crate::quantity::{Area, Date, Length, Mass, Range};
use crate::reckon::formula::Place;
use crate::reckon::ledger;
use crate::reckon::life::LifeYield;
use crate::reckon::season::{Season, span};
use crate::reckon::{Gap, Topic, life, planning, weight};
use crate::record::Id;
use crate::record::farm::Yard;
use crate::record::mushroom::{LogYield, Over};
use crate::record::said::{Mark, Span};
use crate::record::source::Source;
use crate::record::tree::Tag;

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
    /// Nothing of it is left.
    Gone,
    /// No source gives its spawn run, and it has not fruited.
    Unknown,
}

impl Stage {
    /// The stage as tables write it.
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
    /// What one log gives; the years are borrowed from the other sources where this one gives none.
    pub life: LifeYield,
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
    /// Where its logs went, up to the end of this season's growing year.
    pub balance: ledger::Yard,
    /// The yard in which it lies, where the farm names any.
    pub yard: Option<Yard>,
    /// The yards in which its logs lie, with how many: the one of the whole batch first, then those to which a part was moved.
    pub yards: Vec<(String, u32)>,
    /// The lot numbers of its spawn.
    pub spawn_lots: Vec<String>,
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
    /// What was sold of it up to the end of this season's growing year, in the order of the dates.
    pub sales: Vec<Arc<Sale>>,
}

impl BatchYear {
    /// What was picked from one log, on average; `None` where nothing was written.
    pub fn a_log(&self) -> Option<Mass> {
        let picked = self.picked.as_ref().filter(|_| self.logs > 0)?;
        Some(Mass::of_kilograms(picked.base() / f64::from(self.logs)))
    }
}

impl BatchFinding {
    /// Where the working of its first mushrooms stands.
    pub fn first_place(&self) -> Place {
        Place::of_batch(&self.batch.id, Topic::Yard, "first")
    }

    /// Where the working of its yields stands.
    pub fn life_place(&self) -> Place {
        Place::of_batch(&self.batch.id, Topic::Yard, "life")
    }

    /// Whether it lies under a roof and walls, where neither season nor frost reaches it.
    pub fn is_indoors(&self) -> bool {
        self.yard.as_ref().is_some_and(|yard| yard.indoors)
    }

    /// Logs that are left.
    pub fn left(&self) -> u32 {
        self.balance.yard
    }

    /// Whether nothing of it is left; a bed has no logs, and is gone once it is said to have ended.
    fn is_gone(&self, season: Season) -> bool {
        let until = season.growing_year_ends(season.growing_year());
        let ended = self.batch.record.ended.as_ref().is_some_and(|ended| ended.date <= until);
        if self.batch.logs == 0 { ended } else { self.left() == 0 }
    }

    /// Everything picked so far.
    pub fn picked(&self) -> Mass {
        Mass::of_kilograms(self.years.iter().filter_map(|year| year.picked.as_ref()).map(Mass::base).sum())
    }

    /// Its growing year of a name.
    pub fn year(&self, year: i16) -> Option<&BatchYear> {
        self.years.iter().find(|other| other.year == year)
    }

    /// The least and the most that a log gives in its life, over all sources.
    pub fn a_log(&self) -> Option<[Mass; 2]> {
        let least = self.yields.iter().map(|line| line.life.a_log[0].base()).reduce(f64::min)?;
        let most = self.yields.iter().map(|line| line.life.a_log[1].base()).reduce(f64::max)?;
        Some([least, most].map(Mass::of_kilograms))
    }

    /// The first and the last day on which it may first fruit, over all sources.
    pub fn first_span(&self) -> Option<[Date; 2]> {
        span(self.first.iter().map(|(_, [from, to])| (*from, *to))).map(Into::into)
    }

    /// The longest life in years that a source gives.
    pub fn longest(&self) -> Option<u32> {
        self.yields.iter().map(|line| line.life.years[1]).max()
    }
}

/// Ground on which the logs that are left lie side by side.
pub fn ground(batches: &[BatchFinding]) -> Area {
    batches.iter().map(|found| planning::ground(found.left(), &found.diameter, &found.length)).sum()
}

/// What was picked in each growing year, from all batches together.
pub fn totals(book: &Book, south: bool) -> BTreeMap<i16, Mass> {
    let picked = picked(&book.harvests, |_| 1.0, south);
    picked.into_iter().map(|(year, picked)| (year, Mass::of_kilograms(picked.kilograms))).collect()
}

/// What was picked in a growing year.
struct Picked {
    kilograms: f64,
    last: Date,
}

/// What was picked in each growing year, of each harvest a part; harvests stand in the order of their dates.
fn picked(harvests: &[Arc<Harvest>], part: impl Fn(&Harvest) -> f64, south: bool) -> BTreeMap<i16, Picked> {
    let mut years = BTreeMap::new();
    for harvest in harvests {
        let date = harvest.record.date;
        let year = years.entry(life::growing_year(date, south)).or_insert(Picked { kilograms: 0.0, last: date });
        year.kilograms += harvest.record.weight.base() * part(harvest);
        year.last = date;
    }
    years
}

/// Every batch, by its id.
pub fn all(findings: &Findings) -> Vec<BatchFinding> {
    let book = &findings.book;
    let lines = book.diary.iter();
    let lines = lines.flat_map(|line| line.batches.iter().map(move |batch| (batch.id.as_str(), Arc::clone(line))));
    let picked = book.harvests.iter().flat_map(|harvest| harvest.batches.iter().map(move |batch| (batch, harvest)));
    let mut diary = grouped(lines);
    let mut harvests = grouped(picked.map(|(batch, harvest)| (batch.id.as_str(), Arc::clone(harvest))));
    let sold = sales::of_season(findings).filter_map(|sale| Some((sale.batch.as_ref()?.id.as_str(), Arc::clone(sale))));
    let mut sales = grouped(sold);
    let mut of = |batch: &Arc<Batch>| {
        let id = batch.id.as_str();
        let found = one(findings, batch, diary.remove(id).unwrap_or_default(), harvests.remove(id).unwrap_or_default());
        BatchFinding { sales: sales.remove(id).unwrap_or_default(), ..found }
    };
    book.batches.values().map(&mut of).collect()
}

fn one(findings: &Findings, batch: &Arc<Batch>, diary: Vec<Arc<Diary>>, harvests: Vec<Arc<Harvest>>) -> BatchFinding {
    let season = findings.season;
    let until = season.growing_year_ends(season.growing_year());
    let (diameter, length) = (diameter(findings, batch), length(&findings.book, batch));
    let weight = batch.wood.as_ref().and_then(|wood| findings.weight(wood));
    let density = weight.and_then(|weight| weight.density.result.clone().ok());
    let green = density.map(|density| Mass::from(density * weight::volume(&diameter, &length)));
    // A shared total is parted by the logs of its batches.
    let part = |harvest: &Harvest| match harvest.batches.iter().map(|other| other.logs).sum::<u32>() {
        0 => 1.0 / harvest.batches.len().max(1) as f64,
        all => f64::from(batch.logs) / f64::from(all),
    };
    let mut picked = picked(&harvests, part, season.south);
    picked.retain(|year, _| *year <= season.growing_year());
    let first = |span: &Span| (span.clone(), life::first(batch.record.inoculated, &span.range));
    let (farm, balance) = (&findings.book.farm, yard_on(batch, &diary, until));
    let yards = farm.yards_of(batch, &diary, until, balance.yard);
    let mut found = BatchFinding {
        yard: farm.yard_of(batch, &diary, until).cloned(),
        yards: yards.into_iter().map(|(yard, logs)| (yard.name.clone(), logs)).collect(),
        balance,
        spawn_lots: spawn_lots(&findings.book, batch).into_iter().map(str::to_owned).collect(),
        batch: Arc::clone(batch),
        first: batch.strain.spawn_runs().iter().map(first).collect(),
        begins: begins(batch, &picked, season.south),
        yields: yields(batch, green.as_ref()),
        diameter,
        length,
        years: Vec::new(),
        stage: Stage::Unknown,
        diary,
        harvests,
        sales: Vec::new(),
    };
    found.years = years(&found, &picked, season);
    found.stage = stage(&found, season);
    found
}

/// The length of a batch's logs.
pub fn length(book: &Book, batch: &Batch) -> Length {
    batch.length().unwrap_or(&book.farm.record.log.length).clone()
}

/// The middle diameter of a batch's logs: its own, that of its first lot, or that of its trees.
fn diameter(findings: &Findings, batch: &Batch) -> Length {
    let own = batch.record.diameter.as_ref().map(Range::middle);
    let of_lot = || batch.lots.first().map(|(lot, _)| middle_of(findings, lot));
    own.or_else(of_lot).unwrap_or_else(|| middle_in(findings, batch.trees.iter().map(|tree| tree.tag())))
}

/// The middle diameter of a lot's logs: its own, or that of its trees.
pub fn middle_of(findings: &Findings, lot: &Lot) -> Length {
    let own = lot.record.diameter.as_ref().map(Range::middle);
    own.unwrap_or_else(|| middle_in(findings, &lot.record.trees))
}

/// The middle diameter of the logs that were reckoned in some trees, on average; the farm's log where none was.
pub fn middle_in<'a>(findings: &Findings, tags: impl IntoIterator<Item = &'a Tag>) -> Length {
    let usual = findings.book.farm.record.log.diameter.middle();
    let trees = findings.trees();
    let tree = |tag| trees.binary_search_by(|tree| tree.tree.tag().cmp(tag)).ok().map(|place| &trees[place]);
    let logs: Vec<f64> =
        tags.into_iter().filter_map(tree).flat_map(|tree| tree.log_diameters(usual.inches())).collect();
    if logs.is_empty() { usual } else { Length::of_inches(logs.iter().sum::<f64>() / logs.len() as f64) }
}

/// The growing year in which crops begin: that of the first harvest, or else that of the usual spawn run.
fn begins(batch: &Batch, picked: &BTreeMap<i16, Picked>, south: bool) -> Result<(i16, bool), Gap> {
    if let Some(year) = picked.keys().next() {
        return Ok((*year, true));
    }
    let run = life::usual_run(batch.strain.spawn_runs());
    let run = run.ok_or(Gap::NotPublished("the time from inoculation to the first mushrooms"))?;
    Ok((life::growing_year(batch.record.inoculated.after(&run), south), false))
}

/// What one log should give in its life by each source, by itself or by what it weighs green.
fn yields(batch: &Batch, green: Option<&Mass>) -> Vec<YieldLine> {
    let record = &batch.strain.mushroom.record;
    let fits = |wood: Option<&Id<crate::record::wood::Wood>>| {
        wood.is_none_or(|wood| batch.wood.as_ref().is_some_and(|own| own.line().any(|id| id == wood.as_str())))
    };
    let whole = |years: f64| years.ceil().max(1.0) as u32;
    let of_life = record.log_yields.iter().filter(|line| line.over == Over::Life && fits(line.wood.as_ref()));
    let by_log = |line: &LogYield| {
        let years = line.years.as_ref()?;
        Some(YieldLine {
            source: line.source.clone(),
            mark: line.mark,
            note: line.note.clone(),
            life: LifeYield { a_log: line.a_log.clone().into(), years: [whole(years.low), whole(years.high)] },
            by_weight: false,
        })
    };
    let mut lines: Vec<YieldLine> = of_life.filter_map(by_log).collect();
    let shortest = lines.iter().map(|line| line.life.years[0]).min();
    let longest = lines.iter().map(|line| line.life.years[1]).max();
    if let (Some(shortest), Some(longest), Some(green)) = (shortest, longest, green) {
        lines.extend(record.weight_yields.iter().filter(|line| fits(line.wood.as_ref())).map(|line| YieldLine {
            source: line.source.clone(),
            mark: line.mark,
            note: line.note.clone(),
            life: LifeYield {
                a_log: [&line.of_green_log.low, &line.of_green_log.high].map(|part| green * part.of_one()),
                years: [shortest, longest],
            },
            by_weight: true,
        }));
    }
    lines
}

/// Growing years from that of inoculation to the end of the longest life, and on to the last harvest, but none after the
/// batch itself has ended.
fn years(found: &BatchFinding, picked: &BTreeMap<i16, Picked>, season: Season) -> Vec<BatchYear> {
    let batch = &found.batch;
    let planted = life::growing_year(batch.record.inoculated, season.south);
    let begins = found.begins.as_ref().ok().map(|(year, _)| *year);
    let profile = batch.strain.mushroom.record.yield_shares.as_ref().map(|profile| profile.shares.as_slice());
    let lives = || found.yields.iter().map(|line| &line.life);
    let a_log = life::year_by_year(lives(), profile);
    let each: Vec<Vec<[Mass; 2]>> = lives().map(|line| life::year_by_year([line], profile)).collect();
    let end = begins.map(|begins| begins + i16::try_from(a_log.len()).unwrap_or(0) - 1);
    let now = (season.growing_year() - planted <= life::FOLLOWED_YEARS).then(|| season.growing_year());
    let last = [Some(planted), end, begins, picked.keys().next_back().copied(), now].into_iter().flatten().max();
    let of_year = |year: i16| {
        let picked = picked.get(&year);
        let seen = picked.map_or_else(|| season.growing_year_ends(year), |picked| picked.last);
        let logs = yard_on(batch, &found.diary, seen).yard;
        let crop = begins.and_then(|begins| u32::try_from(year - begins + 1).ok()).unwrap_or(0);
        let index = crop.checked_sub(1).map(|index| index as usize);
        let expected = index.and_then(|index| a_log.get(index));
        let picked = picked.map(|picked| picked.kilograms);
        BatchYear {
            year,
            crop,
            logs,
            expected: expected.map(|each| each.each_ref().map(|mass| mass * f64::from(logs))),
            beside: picked.zip(index).and_then(|(all, index)| beside(&each, index, all / f64::from(logs.max(1)))),
            picked: picked.map(Mass::of_kilograms),
        }
    };
    let years = planted..=last.unwrap_or(planted);
    years.filter(|year| picked.contains_key(year) || !is_over(found, *year, season)).map(of_year).collect()
}

/// Whether nothing was left of a batch when a growing year began, nor came to it in that year.
fn is_over(found: &BatchFinding, year: i16, season: Season) -> bool {
    let ends = [year - 1, year].map(|year| season.growing_year_ends(year));
    let ended = found.batch.record.ended.as_ref().is_some_and(|ended| ended.date <= ends[0]);
    ended || found.batch.logs > 0 && ends.iter().all(|day| yard_on(&found.batch, &found.diary, *day).yard == 0)
}

/// Of the sources that give a yield for a year of crops, how many give more kilograms than a log gave, about as many, and
/// fewer.
fn beside(sources: &[Vec<[Mass; 2]>], crop: usize, a_log: f64) -> Option<[usize; 3]> {
    let years: Vec<&[Mass; 2]> = sources.iter().filter_map(|years| years.get(crop)).collect();
    let more = years.iter().filter(|[least, _]| least.base() > a_log).count();
    let less = years.iter().filter(|[_, most]| most.base() < a_log).count();
    (!years.is_empty()).then(|| [more, years.len() - more - less, less])
}

fn stage(finding: &BatchFinding, season: Season) -> Stage {
    let year = season.growing_year();
    let longest = finding.longest();
    match &finding.begins {
        _ if finding.batch.record.inoculated > season.growing_year_ends(year) => Stage::NotYet,
        _ if finding.is_gone(season) => Stage::Gone,
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
