//! Which logs of each strain go into the tank, week by week, and what that should give.

use std::{collections::BTreeMap, sync::Arc};

use super::{
    batches::BatchFinding,
    fruiting::{BandKind, FruitingFinding},
    season::{WindowFinding, counting},
};
use crate::{
    book::{Batch, Book, Diary, Strain, Window},
    quantity::{Amount, Date, Mass},
    reckon::{
        Gap,
        days::Interval,
        life, planning,
        rota::{A_FLUSH, OF_A_SOAK_DAYS, Rule, SOAK_TO_PICKING_DAYS, Waiting, loads, plan},
        season::{Season, span},
    },
    record::{
        Id,
        diary::What,
        farm::Soak,
        mushroom::{LogYield, Over},
        said::Mark,
        source::Source,
        window::WindowKind,
    },
};

/// The rota of one strain.
#[derive(Debug, Clone)]
pub struct RotaFinding {
    /// The strain.
    pub strain: Arc<Strain>,
    /// Logs that take part, batch by batch.
    pub batches: Vec<(Arc<Batch>, u32)>,
    /// Batches of the strain that are too young this season, and the day from which they may be soaked.
    pub young: Vec<(Arc<Batch>, Date)>,
    /// Weeks from one soak of a log to its next, and whether the farm chose them.
    pub every: (u32, bool),
    /// The season of soaking.
    pub season: Result<SoakSeason, Gap>,
    /// The turns, in the order of their dates.
    pub turns: Vec<RotaTurn>,
    /// What the soaks should give, by each source of a flush.
    pub expected: Vec<FlushLine>,
    /// What is left of the lives of these logs, by the published yields, least and most.
    pub left: Option<[Mass; 2]>,
    /// What these batches should give in this growing year by the yields of a life, least and most.
    pub this_year: Option<[Mass; 2]>,
}

/// The season in which a soak may begin.
#[derive(Debug, Clone)]
pub struct SoakSeason {
    /// Its stretches, in the order of their dates.
    pub stretches: Vec<(Date, Date)>,
    /// The farm's windows; none where the air that suits the strain stands in.
    pub windows: Vec<Arc<Window>>,
    /// Its first and last day.
    pub dates: (Date, Date),
}

impl SoakSeason {
    fn of(mut stretches: Vec<(Date, Date)>, windows: Vec<Arc<Window>>) -> Option<Self> {
        stretches.sort_unstable();
        let dates = span(stretches.iter().copied())?;
        Some(Self { stretches, windows, dates })
    }

    /// For each week from the first day on whether a soak may begin in it.
    #[must_use]
    pub fn open(&self) -> Vec<bool> {
        let within = |day: Date| self.stretches.iter().any(|(from, to)| (*from..=*to).contains(&day));
        let days = (0..).map(|week| self.day(week));
        days.take_while(|day| *day <= self.dates.1).map(within).collect()
    }

    /// Weeks in which a soak may begin.
    #[must_use]
    pub fn weeks(&self) -> u32 {
        self.open().iter().filter(|open| **open).count() as u32
    }

    /// The day on which the soak of a week begins.
    #[must_use]
    pub fn day(&self, week: u32) -> Date {
        self.dates.0.plus(i32::try_from(week).unwrap_or(0) * 7)
    }
}

/// The logs that go in on one day.
#[derive(Debug, Clone)]
pub struct RotaTurn {
    /// The week of the season, counted from one.
    pub week: u32,
    /// The day.
    pub date: Date,
    /// The group whose turn it is, counted from one.
    pub group: u32,
    /// How many logs of each batch.
    pub logs: Vec<(Arc<Batch>, u32)>,
}

impl RotaTurn {
    /// How many logs.
    #[must_use]
    pub fn count(&self) -> u32 {
        self.logs.iter().map(|(_, logs)| logs).sum()
    }

    /// Until when to pick.
    #[must_use]
    pub fn picked_by(&self) -> Date {
        self.date.plus(SOAK_TO_PICKING_DAYS)
    }
}

/// What all soaks should give by one source.
#[derive(Debug, Clone)]
pub struct FlushLine {
    /// The source.
    pub source: Id<Source>,
    /// How the figure came here.
    pub mark: Mark,
    /// What a reader should know.
    pub note: Option<String>,
    /// One log in one flush.
    pub a_flush: [Mass; 2],
    /// All soaks together.
    pub all: [Mass; 2],
    /// The same, no more than the most that the year and the lives of the logs still hold.
    pub capped: [Mass; 2],
}

impl RotaFinding {
    /// Soaks of logs in all.
    #[must_use]
    pub fn soaks(&self) -> u32 {
        self.turns.iter().map(RotaTurn::count).sum()
    }

    /// Logs that take part.
    #[must_use]
    pub fn logs(&self) -> u32 {
        self.batches.iter().map(|(_, logs)| logs).sum()
    }

    /// The most logs that go in on one day.
    #[must_use]
    pub fn most(&self) -> u32 {
        self.turns.iter().map(RotaTurn::count).max().unwrap_or(0)
    }
}

/// The rota of every strain that answers to soaking and has batches, where the farm soaks at all.
#[must_use]
pub fn all(
    book: &Book,
    batches: &[BatchFinding],
    fruiting: &[FruitingFinding],
    windows: &[WindowFinding],
    season: Season,
) -> Vec<RotaFinding> {
    let soaked = |line: &Arc<Diary>| line.record.what == What::Soaked;
    if book.farm.record.soak.is_none() && !book.diary.iter().any(soaked) {
        return Vec::new();
    }
    let mut strains: BTreeMap<&str, Vec<&BatchFinding>> = BTreeMap::new();
    for batch in batches {
        if batch.batch.strain.answers_to_soaking() == Some(true) && batch.left() > 0 {
            strains.entry(&batch.batch.strain.id).or_default().push(batch);
        }
    }
    let facts = Facts { book, fruiting, windows, season };
    strains.into_values().filter_map(|batches| facts.rota(&batches)).collect()
}

/// The day on which most logs go into the tank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FullestDay {
    /// Logs of all strains.
    pub logs: u32,
    /// How often the tank is filled for them.
    pub loads: u32,
    /// How long that takes, in hours.
    pub hours: f64,
}

/// The fullest day of some rotas; `None` where no soak is due, or where tank or hours are not recorded.
#[must_use]
pub fn fullest_day(book: &Book, rotas: &[RotaFinding]) -> Option<FullestDay> {
    let soak = book.farm.record.soak.as_ref()?;
    let (tank, soaking) = (soak.tank?, soak.hours.as_ref()?);
    let mut days: BTreeMap<Date, u32> = BTreeMap::new();
    for turn in rotas.iter().flat_map(|rota| &rota.turns) {
        *days.entry(turn.date).or_default() += turn.count();
    }
    let logs = days.into_values().max()?;
    let loads = loads(logs, tank);
    Some(FullestDay { logs, loads, hours: f64::from(loads) * soaking.days() * 24.0 })
}

struct Facts<'a> {
    book: &'a Book,
    fruiting: &'a [FruitingFinding],
    windows: &'a [WindowFinding],
    season: Season,
}

/// A log in the pool: its batch and the day of its last flush.
#[derive(Clone)]
struct Log<'a> {
    batch: &'a BatchFinding,
    flushed: Option<Date>,
    soaked: u32,
}

/// A flush of some logs of a batch, or of all.
struct Flush {
    date: Date,
    logs: Option<u32>,
    soak: bool,
}

impl Facts<'_> {
    fn rota(&self, batches: &[&BatchFinding]) -> Option<RotaFinding> {
        let strain = Arc::clone(&batches.first()?.batch.strain);
        let soak = self.book.farm.record.soak.clone().unwrap_or_default();
        let season = self.season(&strain);
        let every = every(&soak);
        let mut finding = RotaFinding {
            strain,
            batches: Vec::new(),
            young: Vec::new(),
            every,
            season,
            turns: Vec::new(),
            expected: Vec::new(),
            left: None,
            this_year: None,
        };
        let Ok(season) = finding.season.clone() else { return Some(finding) };
        let (old, young): (Vec<&BatchFinding>, Vec<&BatchFinding>) =
            batches.iter().partition(|batch| forced_from(&batch.batch) <= season.dates.1);
        finding.young = young.iter().map(|batch| (Arc::clone(&batch.batch), forced_from(&batch.batch))).collect();
        let logs: Vec<Log<'_>> = old.iter().flat_map(|batch| in_order(batch, &season)).collect();
        let waiting: Vec<Waiting> =
            logs.iter().map(|log| Waiting { ready: ready(log, &season, every.0), soaked: log.soaked }).collect();
        let from = ahead(&logs, &season);
        let rule = Rule { every: every.0, open: season.open(), from, most: soak.soaks };
        finding.turns = plan(&waiting, &rule)
            .into_iter()
            .map(|turn| RotaTurn {
                week: turn.week + 1,
                date: season.day(turn.week),
                group: turn.group + 1,
                logs: by_batch(turn.logs.iter().map(|log| &logs[*log])),
            })
            .collect();
        finding.batches = by_batch(logs.iter());
        finding.left = left(&old);
        finding.this_year = this_year(&old, self.season.growing_year());
        finding.expected = expected(&finding);
        Some(finding)
    }

    /// The farm's own soaking seasons, or else the longest stretch whose air suits the strain, in the growing year.
    fn season(&self, strain: &Strain) -> Result<SoakSeason, Gap> {
        let speaks = |window: &Window| window.speaks_of_mushroom(&strain.mushroom);
        let windows = counting(self.windows, WindowKind::Soak, speaks);
        let told = windows.iter().filter_map(|found| {
            Some((self.season.summer_dates(found.told.as_ref().ok()?.interval()), Arc::clone(&found.window)))
        });
        let (stretches, own): (Vec<(Date, Date)>, Vec<Arc<Window>>) = told.unzip();
        if let Some(season) = SoakSeason::of(stretches, own) {
            return Ok(season);
        }
        if let Some(gap) = windows.into_iter().find_map(|found| found.told.err()) {
            return Err(gap);
        }
        let air = self.fruiting.iter().find(|found| found.id() == strain.id);
        let best = air.filter(|found| found.kind != BandKind::Indoors).map(|found| found.best.intervals(1));
        let longest = best.unwrap_or_default().into_iter().max_by_key(|stretch: &Interval| stretch.days());
        let longest =
            longest.ok_or(Gap::NotRecorded("the season in which this farm soaks (a window of kind `soak`)"))?;
        let dates = self.season.summer_dates(longest);
        Ok(SoakSeason { stretches: vec![dates], windows: Vec::new(), dates })
    }
}

/// The first week that still lies ahead, once the day book tells of soaks of these logs in this season.
fn ahead(logs: &[Log<'_>], season: &SoakSeason) -> u32 {
    let batches: BTreeMap<&str, &BatchFinding> =
        logs.iter().map(|log| (log.batch.batch.id.as_str(), log.batch)).collect();
    let last = batches
        .values()
        .flat_map(|batch| &batch.diary)
        .filter(|line| line.record.what == What::Soaked)
        .map(|line| line.record.date)
        .filter(|date| (season.dates.0..=season.dates.1).contains(date));
    last.max().map_or(0, |last| u32::try_from(last.since(season.dates.0) / 7 + 1).unwrap_or(0))
}

/// The logs of a batch that are left, each with its last flush before the season ends and its soaks in it.
fn in_order<'a>(batch: &'a BatchFinding, season: &SoakSeason) -> Vec<Log<'a>> {
    let mut alike = vec![(Log { batch, flushed: None, soaked: 0 }, batch.left())];
    for flush in flushes(batch).into_iter().filter(|flush| flush.date <= season.dates.1) {
        let soaks = u32::from(flush.soak && flush.date >= season.dates.0);
        let (waiting, flushed) = part(alike, flush.logs.unwrap_or(u32::MAX));
        let flushed = flushed
            .into_iter()
            .map(|(log, logs)| (Log { flushed: Some(flush.date), soaked: log.soaked + soaks, ..log }, logs));
        let (same_day, earlier): (Vec<_>, Vec<_>) =
            waiting.into_iter().partition(|(log, _)| log.flushed == Some(flush.date));
        alike = together(earlier.into_iter().chain(flushed).chain(same_day));
    }
    alike.into_iter().flat_map(|(log, logs)| std::iter::repeat_n(log, logs as usize)).collect()
}

/// Soaks and natural flushes of a batch in the order of their dates.
///
/// A harvest that follows no line of the day book counts as the flush of as many logs as it can have come from, by the
/// least flush that a source gives.
fn flushes(batch: &BatchFinding) -> Vec<Flush> {
    let told = |line: &Arc<Diary>| matches!(line.record.what, What::Soaked | What::Fruited);
    let told: Vec<&Arc<Diary>> = batch.diary.iter().filter(|line| told(line)).collect();
    let is_flush = |line: &Arc<Diary>| match &line.record.amount {
        Some(Amount::Count(mushrooms)) if line.record.what == What::Fruited => *mushrooms >= A_FLUSH,
        _ => true,
    };
    let mut flushes: Vec<Flush> = told
        .iter()
        .filter(|line| is_flush(line))
        .map(|line| Flush { date: line.record.date, logs: line.record.logs, soak: line.record.what == What::Soaked })
        .collect();
    let yields = batch.batch.strain.mushroom.record.log_yields.iter();
    let of_flush = yields.filter(|line| line.over == Over::Flush).map(|line| line.a_log.low.base());
    let a_flush = of_flush.reduce(f64::min);
    for harvest in &batch.harvests {
        let picked = harvest.record.date;
        let before = told.partition_point(|line| line.record.date <= picked);
        let last = before.checked_sub(1).map(|last| told[last].record.date);
        if last.is_none_or(|last| picked.since(last) > OF_A_SOAK_DAYS) {
            let logs = a_flush.map(|a_flush| (harvest.record.weight.base() / a_flush).ceil().max(1.0) as u32);
            flushes.push(Flush { date: picked, logs, soak: false });
        }
    }
    flushes.sort_by_key(|flush| flush.date);
    flushes
}

/// Logs that are alike, and how many there are of them.
type Alike<'a> = Vec<(Log<'a>, u32)>;

/// The first so many logs apart from the others: the others, then these.
fn part(logs: Alike<'_>, mut count: u32) -> (Alike<'_>, Alike<'_>) {
    let (mut others, mut first) = (Vec::new(), Vec::new());
    for (log, there) in logs {
        let taken = there.min(count);
        count -= taken;
        first.extend((taken > 0).then(|| (log.clone(), taken)));
        others.extend((there > taken).then_some((log, there - taken)));
    }
    (others, first)
}

/// Neighbours that are alike, counted together.
fn together<'a>(logs: impl Iterator<Item = (Log<'a>, u32)>) -> Alike<'a> {
    let mut alike: Alike<'a> = Vec::new();
    for (log, more) in logs {
        match alike.last_mut() {
            Some((last, count)) if (last.flushed, last.soaked) == (log.flushed, log.soaked) => *count += more,
            _ => alike.push((log, more)),
        }
    }
    alike
}

/// Weeks from one soak of a log to its next: the farm's choice, or the nine of UK-85.
fn every(soak: &Soak) -> (u32, bool) {
    let weeks = soak.every.as_ref().map(|every| (every.days() / 7.0).round().max(1.0) as u32);
    (weeks.unwrap_or(planning::CYCLE_WEEKS), weeks.is_some())
}

/// The day from which the logs of a batch may be soaked.
fn forced_from(batch: &Batch) -> Date {
    let months = jiff::Span::new().months(life::FORCED_AFTER_MONTHS);
    Date(batch.record.inoculated.0.saturating_add(months))
}

/// The first week of the season in which a log may be soaked.
fn ready(log: &Log<'_>, season: &SoakSeason, every: u32) -> u32 {
    let rested = log.flushed.map(|flushed| flushed.plus(i32::try_from(every).unwrap_or(0) * 7));
    let from = rested.into_iter().chain([forced_from(&log.batch.batch), season.dates.0]).max();
    let days = from.map_or(0, |from| from.since(season.dates.0));
    u32::try_from(days).unwrap_or(0).div_ceil(7)
}

fn by_batch<'a>(logs: impl Iterator<Item = &'a Log<'a>>) -> Vec<(Arc<Batch>, u32)> {
    let mut counted: BTreeMap<&str, (&Arc<Batch>, u32)> = BTreeMap::new();
    for log in logs {
        counted.entry(&log.batch.batch.id).or_insert((&log.batch.batch, 0)).1 += 1;
    }
    counted.into_values().map(|(batch, count)| (Arc::clone(batch), count)).collect()
}

fn expected(finding: &RotaFinding) -> Vec<FlushLine> {
    let soaks = f64::from(finding.soaks());
    let limits = finding.left.iter().chain(&finding.this_year).map(|[_, most]| most.base());
    let limit = limits.fold(f64::INFINITY, f64::min);
    let lines = finding.strain.mushroom.record.log_yields.iter().filter(|line| line.over == Over::Flush);
    let ends = |line: &LogYield| [line.a_log.low.base(), line.a_log.high.base()];
    lines
        .map(|line| FlushLine {
            source: line.source.clone(),
            mark: line.mark,
            note: line.note.clone(),
            a_flush: ends(line).map(Mass::of_kilograms),
            all: ends(line).map(|each| Mass::of_kilograms(each * soaks)),
            capped: ends(line).map(|each| Mass::of_kilograms((each * soaks).min(limit))),
        })
        .collect()
}

/// What batches should give in a growing year by the yields of a life.
fn this_year(batches: &[&BatchFinding], year: i16) -> Option<[Mass; 2]> {
    let of_year = |batch: &&BatchFinding| batch.years.iter().find(|other| other.year == year)?.expected.clone();
    let each: Vec<[Mass; 2]> = batches.iter().filter_map(of_year).collect();
    let sum = |end: usize| Mass::of_kilograms(each.iter().map(|both| both[end].base()).sum());
    (!each.is_empty()).then(|| [sum(0), sum(1)])
}

/// What the lives of these logs still hold: the published yields of a life, less what was picked.
fn left(batches: &[&BatchFinding]) -> Option<[Mass; 2]> {
    let mut sums = [0.0; 2];
    for batch in batches {
        let least = batch.yields.iter().map(|line| line.a_log[0].base()).reduce(f64::min)?;
        let most = batch.yields.iter().map(|line| line.a_log[1].base()).reduce(f64::max)?;
        for (sum, each) in sums.iter_mut().zip([least, most]) {
            *sum += (each * f64::from(batch.left()) - batch.picked().base()).max(0.0);
        }
    }
    Some(sums.map(Mass::of_kilograms))
}
