//! Which logs of each strain go into the tank, week by week, and what that should give.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::batches::BatchFinding;
use super::season::{counting, parted};
use super::{Findings, grouped, sums};
use crate::book::{Batch, Diary, Strain, Window};
use crate::quantity::{Amount, Date, Duration, Mass};
use crate::reckon::rota::{A_FLUSH, OF_A_SOAK_DAYS, Rule, Turn, Waiting, loads, picked_by, plan};
use crate::reckon::season::span;
use crate::reckon::{Gap, life, planning};
use crate::record::diary::What;
use crate::record::farm::Soak;
use crate::record::mushroom::{LogYield, Over};
use crate::record::window::WindowKind;

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
    pub fn open(&self) -> Vec<bool> {
        let within = |day: Date| self.stretches.iter().any(|(from, to)| (*from..=*to).contains(&day));
        let days = (0..).map(|week| self.day(week));
        days.take_while(|day| *day <= self.dates.1).map(within).collect()
    }

    /// Weeks in which a soak may begin.
    pub fn weeks(&self) -> u32 {
        self.open().iter().filter(|open| **open).count() as u32
    }

    /// The day on which the soak of a week begins.
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
    pub fn count(&self) -> u32 {
        self.logs.iter().map(|(_, logs)| logs).sum()
    }

    /// Until when to pick.
    pub fn picked_by(&self) -> Date {
        picked_by(self.date)
    }
}

/// What all soaks should give by one source.
#[derive(Debug, Clone)]
pub struct FlushLine {
    /// What the source says of one log in one flush.
    pub of: LogYield,
    /// All soaks together.
    pub all: [Mass; 2],
    /// The same, no more than the most that the year and the lives of the logs still hold.
    pub capped: [Mass; 2],
}

impl FlushLine {
    /// Whether the year or the lives of the logs hold less than all soaks together should give.
    pub fn is_capped(&self) -> bool {
        self.capped[1].base() < self.all[1].base()
    }
}

impl RotaFinding {
    /// Soaks of logs in all.
    pub fn soaks(&self) -> u32 {
        self.turns.iter().map(RotaTurn::count).sum()
    }

    /// Logs that take part.
    pub fn logs(&self) -> u32 {
        self.batches.iter().map(|(_, logs)| logs).sum()
    }

    /// The most logs that go in on one day.
    pub fn most(&self) -> u32 {
        self.turns.iter().map(RotaTurn::count).max().unwrap_or(0)
    }
}

/// A day at the tank: the turns of all strains.
#[derive(Debug, Clone)]
pub struct TankDay<'a> {
    /// The day.
    pub date: Date,
    /// The turn of each strain.
    pub turns: Vec<(&'a RotaFinding, &'a RotaTurn)>,
}

impl TankDay<'_> {
    /// Logs of all strains.
    pub fn logs(&self) -> u32 {
        self.turns.iter().map(|(_, turn)| turn.count()).sum()
    }
}

/// Every day at the tank, the strains of one day together.
pub fn tank_days(rotas: &[RotaFinding]) -> Vec<TankDay<'_>> {
    let turns = rotas.iter().flat_map(|found| found.turns.iter().map(move |turn| (turn.date, (found, turn))));
    grouped(turns).into_iter().map(|(date, turns)| TankDay { date, turns }).collect()
}

/// The day on which most logs go into the tank.
#[derive(Debug, Clone)]
pub struct FullestDay {
    /// Logs of all strains.
    pub logs: u32,
    /// How often the tank is filled for them.
    pub loads: u32,
    /// How long that takes.
    pub time: Duration,
}

impl FullestDay {
    /// Whether the logs take the tank longer than a day.
    pub fn is_overfull(&self) -> bool {
        self.loads > 1 && self.time.days() > 1.0
    }
}

/// The fullest day of the rotas; `None` where no soak is due, or where tank or hours are not recorded.
pub fn fullest_day(findings: &Findings) -> Option<FullestDay> {
    let soak = findings.book.farm.record.soak.as_ref()?;
    let logs = tank_days(findings.rotas()).iter().map(TankDay::logs).max()?;
    let loads = loads(logs, soak.tank?);
    Some(FullestDay { logs, loads, time: soak.hours.as_ref()? * f64::from(loads) })
}

/// The rota of every strain that answers to soaking and has batches, where the farm soaks at all.
pub fn all(findings: &Findings) -> Vec<RotaFinding> {
    let book = &findings.book;
    if book.farm.record.soak.is_none() && !book.diary.iter().any(|line| line.record.what == What::Soaked) {
        return Vec::new();
    }
    let answers = |found: &&BatchFinding| found.batch.strain.answers_to_soaking() == Some(true) && found.left() > 0;
    let answering = findings.batches().iter().filter(answers);
    let strains = grouped(answering.map(|found| (found.batch.strain.id.as_str(), found)));
    strains.into_values().filter_map(|batches| rota(findings, &batches)).collect()
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

fn rota(findings: &Findings, batches: &[&BatchFinding]) -> Option<RotaFinding> {
    let strain = Arc::clone(&batches.first()?.batch.strain);
    let soak = findings.book.farm.record.soak.clone().unwrap_or_default();
    let mut found = RotaFinding {
        season: season(findings, &strain),
        strain,
        batches: Vec::new(),
        young: Vec::new(),
        every: every(&soak),
        turns: Vec::new(),
        expected: Vec::new(),
        left: None,
        this_year: None,
    };
    let Ok(season) = &found.season else { return Some(found) };
    let (old, young): (Vec<&BatchFinding>, Vec<&BatchFinding>) =
        batches.iter().partition(|batch| forced_from(&batch.batch) <= season.dates.1);
    let logs: Vec<Log<'_>> = old.iter().flat_map(|batch| in_order(batch, season)).collect();
    let every = found.every.0;
    let waiting = |log: &Log<'_>| Waiting { ready: ready(log, season, every), soaked: log.soaked };
    let waiting: Vec<Waiting> = logs.iter().map(waiting).collect();
    let rule = Rule { every, open: season.open(), from: ahead(&old, season), most: soak.soaks };
    let turn = |turn: Turn| RotaTurn {
        week: turn.week + 1,
        date: season.day(turn.week),
        group: turn.group + 1,
        logs: by_batch(turn.logs.iter().map(|log| &logs[*log])),
    };
    found.turns = plan(&waiting, &rule).into_iter().map(turn).collect();
    found.young = young.iter().map(|batch| (Arc::clone(&batch.batch), forced_from(&batch.batch))).collect();
    found.batches = by_batch(logs.iter());
    found.left = left(&old);
    found.this_year = this_year(&old, findings.season.growing_year());
    found.expected = expected(&found);
    Some(found)
}

/// The farm's own soaking seasons, or else the longest stretch whose air suits the strain, in the growing year.
fn season(findings: &Findings, strain: &Strain) -> Result<SoakSeason, Gap> {
    let speaks = |window: &Window| window.speaks_of_mushroom(&strain.mushroom);
    let (own, untold) = parted(counting(findings.windows(), WindowKind::Soak, speaks));
    let stretches = own.iter().map(|(_, told)| findings.season.summer_dates(told.interval())).collect();
    let windows = own.into_iter().map(|(window, _)| window).collect();
    if let Some(season) = SoakSeason::of(stretches, windows) {
        return Ok(season);
    }
    if let Some((_, gap)) = untold.into_iter().next() {
        return Err(gap);
    }
    let air = findings.fruiting().iter().find(|found| found.id() == strain.id);
    let best = air.map(|found| found.best.intervals(1));
    let longest = best.unwrap_or_default().into_iter().max_by_key(|stretch| stretch.days());
    let longest = longest.map(|stretch| findings.season.summer_dates(stretch)).into_iter().collect();
    let gap = Gap::NotRecorded("the season in which this farm soaks (a window of kind `soak`)");
    SoakSeason::of(longest, Vec::new()).ok_or(gap)
}

/// The first week that still lies ahead, once the day book tells of soaks of these batches in this season.
fn ahead(batches: &[&BatchFinding], season: &SoakSeason) -> u32 {
    let lines = batches.iter().flat_map(|batch| &batch.diary).map(|line| &line.record);
    let soaks = lines.filter(|line| line.what == What::Soaked).map(|line| line.date);
    let last = soaks.filter(|date| (season.dates.0..=season.dates.1).contains(date)).max();
    last.map_or(0, |last| u32::try_from(last.since(season.dates.0) / 7 + 1).unwrap_or(0))
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
    let told: Vec<&Arc<Diary>> =
        batch.diary.iter().filter(|line| matches!(line.record.what, What::Soaked | What::Fruited)).collect();
    let is_flush = |line: &&&Arc<Diary>| match &line.record.amount {
        Some(Amount::Count(mushrooms)) if line.record.what == What::Fruited => *mushrooms >= A_FLUSH,
        _ => true,
    };
    let of_line = |line: &&Arc<Diary>| Flush {
        date: line.record.date,
        logs: line.record.logs,
        soak: line.record.what == What::Soaked,
    };
    let mut flushes: Vec<Flush> = told.iter().filter(is_flush).map(of_line).collect();
    let a_flush = of_flush(&batch.batch.strain).map(|line| line.a_log.low.base()).reduce(f64::min);
    for harvest in &batch.harvests {
        let picked = harvest.record.date;
        let before = told.partition_point(|line| line.record.date <= picked);
        let last = told[..before].last().map(|line| line.record.date);
        if last.is_none_or(|last| picked.since(last) > OF_A_SOAK_DAYS) {
            let logs = a_flush.map(|a_flush| (harvest.record.weight.base() / a_flush).ceil().max(1.0) as u32);
            flushes.push(Flush { date: picked, logs, soak: false });
        }
    }
    flushes.sort_by_key(|flush| flush.date);
    flushes
}

/// What sources say of one flush of a strain's mushroom.
fn of_flush(strain: &Strain) -> impl Iterator<Item = &LogYield> {
    strain.mushroom.record.log_yields.iter().filter(|line| line.over == Over::Flush)
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

fn expected(found: &RotaFinding) -> Vec<FlushLine> {
    let limits = found.left.iter().chain(&found.this_year).map(|[_, most]| most.base());
    let limit = limits.fold(f64::INFINITY, f64::min);
    let line = |of: &LogYield| {
        let all = [&of.a_log.low, &of.a_log.high].map(|each| each * f64::from(found.soaks()));
        let capped = all.each_ref().map(|all| Mass::of_kilograms(all.base().min(limit)));
        FlushLine { of: of.clone(), all, capped }
    };
    of_flush(&found.strain).map(line).collect()
}

/// What batches should give in a growing year by the yields of a life.
fn this_year(batches: &[&BatchFinding], year: i16) -> Option<[Mass; 2]> {
    let each: Vec<[Mass; 2]> = batches.iter().filter_map(|batch| batch.year(year)?.expected.clone()).collect();
    (!each.is_empty()).then(|| sums(each))
}

/// What the lives of these logs still hold: the published yields of a life, less what was picked.
fn left(batches: &[&BatchFinding]) -> Option<[Mass; 2]> {
    let of = |batch: &&BatchFinding| {
        let left = |each: Mass| each.base() * f64::from(batch.left()) - batch.picked().base();
        Some(batch.a_log()?.map(|each| Mass::of_kilograms(left(each).max(0.0))))
    };
    batches.iter().map(of).collect::<Option<Vec<_>>>().map(sums)
}
