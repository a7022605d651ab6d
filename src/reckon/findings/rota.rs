//! Which logs of each strain go into the tank, week by week, and what that should give.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::batches::{BatchFinding, Stage};
use super::season::{counting, parted};
use super::{Findings, grouped, sums};
use crate::book::{Batch, Diary, Strain, Window};
use crate::quantity::{Amount, Date, Duration, Mass};
use crate::reckon::rota::{A_FLUSH, OF_A_SOAK_DAYS, Pool, Tank, Waiting, picked_by, plan};
use crate::reckon::season::span;
use crate::reckon::{Gap, life, planning};
use crate::record::diary::What;
use crate::record::evidence::Way;
use crate::record::farm::Soak;
use crate::record::mushroom::{LogYield, Over};
use crate::record::window::WindowKind;

/// Hours that a load lies in the tank where the farm does not say: a day.
const USUAL_HOURS: f64 = 24.0;

/// The rota of one strain, of its logs that share a tank.
#[derive(Debug, Clone)]
pub struct RotaFinding {
    /// The strain.
    pub strain: Arc<Strain>,
    /// The yard whose own tank they share; `None` where it is the farm's.
    pub yard: Option<String>,
    /// The tank, where the farm says how many logs it holds.
    pub tank: Option<Tank>,
    /// Logs that take part, batch by batch.
    pub batches: Vec<(Arc<Batch>, u32)>,
    /// Batches of the strain that are too young this season, and the day from which they may be soaked.
    pub young: Vec<(Arc<Batch>, Date)>,
    /// Batches of the strain that are past every published life, and are soaked no more.
    pub spent: Vec<Arc<Batch>>,
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

    fn is_open(&self, day: Date) -> bool {
        self.stretches.iter().any(|(from, to)| (*from..=*to).contains(&day))
    }

    /// For each day from another on whether a soak may begin on it.
    fn open(&self, from: Date) -> Vec<bool> {
        (0..=self.dates.1.since(from)).map(|day| self.is_open(from.plus(day))).collect()
    }

    /// Weeks in which a soak may begin.
    pub fn weeks(&self) -> u32 {
        self.open(self.dates.0).chunks(7).filter(|week| week.contains(&true)).count() as u32
    }
}

/// The logs that go in on one day.
#[derive(Debug, Clone)]
pub struct RotaTurn {
    /// The week of the season, counted from one.
    pub week: u32,
    /// Its day, counted from one.
    pub day: u32,
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

    /// The most logs that go in within one week.
    pub fn most(&self) -> u32 {
        weeks(self.turns.iter()).into_values().max().unwrap_or(0)
    }

    /// A name that no other rota has: its strain, and the yard of its tank where that is not the farm's.
    pub fn id(&self) -> String {
        let yard = self.yard.iter().flat_map(|yard| ["-", yard]);
        let name: String = [self.strain.id.as_str()].into_iter().chain(yard).collect();
        name.to_lowercase().replace(|c: char| !c.is_ascii_alphanumeric(), "-")
    }
}

/// How many logs go in within each week.
pub fn weeks<'a>(turns: impl Iterator<Item = &'a RotaTurn>) -> BTreeMap<u32, u32> {
    let mut weeks = BTreeMap::new();
    for turn in turns {
        *weeks.entry(turn.week).or_default() += turn.count();
    }
    weeks
}

/// The rota of every strain that answers to soaking and has batches, where the farm soaks at all.
pub fn all(findings: &Findings) -> Vec<RotaFinding> {
    let book = &findings.book;
    if book.farm.record.soak.is_none() && !book.diary.iter().any(|line| line.record.what == What::Soaked) {
        return Vec::new();
    }
    let answering = findings.batches().iter().filter(|found| is_soaked(found));
    let tanks = grouped(answering.map(|found| (own_tank(findings, found), found)));
    let mut rotas: Vec<RotaFinding> =
        tanks.into_iter().flat_map(|(yard, batches)| at_tank(findings, yard, &batches)).collect();
    rotas.sort_by(|a, b| (&a.strain.id, &a.yard).cmp(&(&b.strain.id, &b.yard)));
    rotas
}

/// Whether a batch is of logs that are left and of a strain that answers to soaking.
fn is_soaked(found: &BatchFinding) -> bool {
    let batch = &found.batch;
    batch.strain.answers_to_soaking() == Some(true) && batch.record.way == Way::Log && found.left() > 0
}

/// The yard in which a batch lies, where that has a tank of its own.
fn own_tank<'a>(findings: &'a Findings, found: &BatchFinding) -> Option<&'a str> {
    let yard = findings.book.farm.yard(&found.yard.as_ref()?.name)?;
    yard.tank.map(|_| yard.name.as_str())
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

/// A rota whose turns are not known yet, and the logs that wait for them.
struct Draft<'a> {
    found: RotaFinding,
    old: Vec<&'a BatchFinding>,
    logs: Vec<Log<'a>>,
}

/// The rotas of all strains that share a tank.
fn at_tank(findings: &Findings, yard: Option<&str>, batches: &[&BatchFinding]) -> Vec<RotaFinding> {
    let soak = findings.book.farm.record.soak.clone().unwrap_or_default();
    let holds = yard.map_or(soak.tank, |yard| findings.book.farm.yard(yard)?.tank);
    let hours = soak.hours.as_ref().map_or(USUAL_HOURS, Duration::hours);
    let tank = holds.map(|holds| Tank { holds, hours });
    let strains = grouped(batches.iter().map(|found| (found.batch.strain.id.as_str(), *found)));
    let drafts = strains.values().filter_map(|batches| draft(findings, batches, every(&soak), yard, tank));
    let mut drafts: Vec<Draft<'_>> = drafts.collect();
    let starts = drafts.iter().filter_map(|draft| Some(draft.found.season.as_ref().ok()?.dates.0));
    let begins = starts.min().unwrap_or(findings.axis());
    let pools: Vec<Pool> = drafts.iter().map(|draft| pool(draft, begins, &soak)).collect();
    for turn in plan(&pools, tank) {
        let draft = &mut drafts[turn.pool];
        draft.found.turns.push(RotaTurn {
            week: turn.day / 7 + 1,
            day: turn.day % 7 + 1,
            date: begins.plus(i32::try_from(turn.day).unwrap_or(0)),
            group: turn.group + 1,
            logs: by_batch(turn.logs.iter().map(|log| &draft.logs[*log])),
        });
    }
    drafts.into_iter().map(|draft| RotaFinding { expected: expected(&draft.found), ..draft.found }).collect()
}

fn draft<'a>(
    findings: &Findings,
    batches: &[&'a BatchFinding],
    every: (u32, bool),
    yard: Option<&str>,
    tank: Option<Tank>,
) -> Option<Draft<'a>> {
    let strain = Arc::clone(&batches.first()?.batch.strain);
    let season = season(findings, &strain);
    let (spent, living): (Vec<&BatchFinding>, Vec<&BatchFinding>) =
        batches.iter().partition(|found| found.stage == Stage::Old);
    let (old, young): (Vec<&BatchFinding>, Vec<&BatchFinding>) = living
        .into_iter()
        .partition(|found| season.as_ref().is_ok_and(|season| forced_from(&found.batch) <= season.dates.1));
    let young = if season.is_ok() { young } else { Vec::new() };
    let logs: Vec<Log<'_>> =
        season.iter().flat_map(|season| old.iter().flat_map(|batch| in_order(batch, season))).collect();
    let found = RotaFinding {
        strain,
        yard: yard.map(str::to_owned),
        tank,
        batches: by_batch(logs.iter()),
        young: young.iter().map(|found| (Arc::clone(&found.batch), forced_from(&found.batch))).collect(),
        spent: spent.iter().map(|found| Arc::clone(&found.batch)).collect(),
        every,
        turns: Vec::new(),
        expected: Vec::new(),
        left: season.is_ok().then(|| left(&old)).flatten(),
        this_year: this_year(&old, findings.season.growing_year()),
        season,
    };
    Some(Draft { found, old, logs })
}

/// The logs of a rota as they wait for their turns, in days from the first of all that share the tank.
fn pool(draft: &Draft<'_>, begins: Date, soak: &Soak) -> Pool {
    let every = draft.found.every.0;
    let Ok(season) = &draft.found.season else {
        return Pool { logs: Vec::new(), every, open: Vec::new(), from: 0, taken: 0, most: None };
    };
    let from = ahead(&draft.old, season).map_or(0, |day| days_since(day, begins));
    let logs = draft.logs.iter().map(|log| Waiting { ready: ready(log, begins, every), soaked: log.soaked });
    Pool {
        logs: logs.collect(),
        every,
        open: season.open(begins),
        from,
        taken: soaked_since(&draft.old, begins.plus(i32::try_from(from / 7 * 7).unwrap_or(0))),
        most: soak.soaks,
    }
}

fn days_since(day: Date, begins: Date) -> u32 {
    u32::try_from(day.since(begins)).unwrap_or(0)
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

/// The day after the last soak of these batches in this season, once the day book tells of one.
fn ahead(batches: &[&BatchFinding], season: &SoakSeason) -> Option<Date> {
    let days = soaks(batches).map(|(day, _)| day).filter(|day| (season.dates.0..=season.dates.1).contains(day));
    days.max().map(|last| last.plus(1))
}

/// Soaks of logs of these batches from a day on.
fn soaked_since(batches: &[&BatchFinding], day: Date) -> u32 {
    soaks(batches).filter(|(date, _)| *date >= day).map(|(_, logs)| logs).sum()
}

/// The soaks of these batches: their days, and how many logs of a batch went in.
fn soaks(batches: &[&BatchFinding]) -> impl Iterator<Item = (Date, u32)> {
    batches.iter().flat_map(|batch| {
        let lines = batch.diary.iter().map(|line| &line.record).filter(|line| line.what == What::Soaked);
        lines.map(|line| (line.date, line.logs.unwrap_or(batch.left())))
    })
}

/// The logs of a batch that are left, each with its last flush before the season ends and its soaks in it.
fn in_order<'a>(batch: &'a BatchFinding, season: &SoakSeason) -> Vec<Log<'a>> {
    let mut alike = vec![(Log { batch, flushed: None, soaked: 0 }, batch.left())];
    for flush in flushes(batch).into_iter().filter(|flush| flush.date <= season.dates.1) {
        // Soaks since the last season's end count as this one's, also those before it opens.
        let soaks = u32::from(flush.soak && flush.date.a_year_later() > season.dates.1);
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

/// The first day on which a log may be soaked, from the first of a week on.
fn ready(log: &Log<'_>, begins: Date, every: u32) -> u32 {
    let rested = log.flushed.map(|flushed| flushed.plus(i32::try_from(every).unwrap_or(0) * 7));
    let from = rested.into_iter().chain([forced_from(&log.batch.batch)]).max();
    from.map_or(0, |from| days_since(from, begins)).div_ceil(7) * 7
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
