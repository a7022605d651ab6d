//! The two balances of the farm, where its logs are now, and what each wish has got of them.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::Findings;
use super::winter::drilled;
use crate::book::{Batch, Book, Diary, Lot, Plan, Wood};
use crate::quantity::Date;
use crate::reckon::ledger::{self, Change, Exit, Heap, Yard, shares};
use crate::reckon::season::Season;
use crate::record::batch::End;
use crate::record::diary::What;
use crate::record::evidence::Way;
use crate::record::lot::{How, Pieces};
use crate::record::plan::Wish;
use crate::record::tree::{Gone, Tag};

/// Both balances, up to the end of the season.
#[derive(Debug, Clone)]
pub struct Ledger {
    /// The balance of wood, by winter, wood and kind of pieces.
    pub wood: Vec<WoodRow>,
    /// The balance of the yard, batch by batch.
    pub yard: Vec<YardRow>,
    /// Felled trees whose logs nobody has counted, and that no lot and no batch names.
    pub uncounted: Vec<Tag>,
    lots: BTreeMap<String, u32>,
    loose: BTreeMap<String, u32>,
}

/// The balance of one kind of logs in one winter.
#[derive(Debug, Clone)]
pub struct WoodRow {
    /// The year in which the winter begins.
    pub winter: i16,
    /// The wood.
    pub wood: Arc<Wood>,
    /// The kind of pieces.
    pub pieces: Pieces,
    /// The balance.
    pub balance: ledger::Wood,
}

/// The balance of one batch.
#[derive(Debug, Clone)]
pub struct YardRow {
    /// The winter of its inoculation.
    pub winter: i16,
    /// The batch.
    pub batch: Arc<Batch>,
    /// The balance.
    pub balance: Yard,
}

impl Ledger {
    /// Logs of a lot that wait to be filled.
    pub fn waiting(&self, lot: &Lot) -> u32 {
        self.lots.get(&lot.id).copied().unwrap_or(0)
    }

    /// Logs of felled trees that no lot names and that wait to be filled, by wood.
    pub fn loose(&self, wood: &Wood) -> u32 {
        self.loose.get(&wood.id).copied().unwrap_or(0)
    }

    /// The woods of which logs of felled trees wait in no lot.
    pub fn loose_woods(&self) -> impl Iterator<Item = &str> {
        self.loose.iter().filter(|(_, logs)| **logs > 0).map(|(wood, _)| wood.as_str())
    }
}

/// Logs that left a pile: in which winter, how (`None` where they were filled), and how many.
type Left = Vec<(i16, Option<How>, u32)>;

/// Piles of logs that no lot names, by wood and winter.
type Piles<'a> = BTreeMap<(&'a str, i16), Heap<(String, Pieces)>>;

/// Both balances of a book.
pub fn of(findings: &Findings) -> Ledger {
    let (book, season) = (&findings.book, findings.season);
    let last = season.year;
    let winter = |day: Date| Season::holding(day, season.south).year;
    let made: Vec<&Arc<Batch>> =
        book.batches.values().filter(|batch| winter(batch.record.inoculated) <= last && batch.is_counted()).collect();
    let mut heaps: Vec<Heap<(String, Pieces)>> = Vec::new();
    let mut lots = BTreeMap::new();
    let mut drawn: BTreeMap<&str, Left> = BTreeMap::new();
    for batch in &made {
        for (lot, logs) in &batch.lots {
            drawn.entry(&lot.id).or_default().push((winter(batch.record.inoculated), None, *logs));
        }
    }
    let mut added: Vec<Heap<(String, Pieces)>> = Vec::new();
    for found in findings.batches().iter().filter(|found| found.batch.is_counted()) {
        for line in found.diary.iter().map(|line| &line.record).filter(|line| line.what == What::Added) {
            let (when, logs) = (winter(line.date), line.logs.unwrap_or(0));
            let over = top_up(&found.batch, (when, logs), &mut drawn);
            added.extend((when <= last).then(|| cut_and_filled(&found.batch, when, when, over)).flatten());
        }
    }
    for lot in book.lots.values() {
        let mut left = drawn.remove(lot.id.as_str()).unwrap_or_default();
        left.extend(lot.record.gone.iter().map(|gone| (winter(gone.date), Some(gone.how), gone.logs)));
        let first = left.iter().map(|(when, ..)| *when).min();
        let heap = Heap {
            of: (lot.wood.id.clone(), lot.record.pieces),
            winter: lot.felled.map_or_else(|| first.unwrap_or(last).min(last), |days| winter(days.from)),
            is_cut_here: lot.is_cut_here(),
            logs: lot.logs,
            left,
        };
        if heap.winter <= last {
            lots.insert(lot.id.clone(), heap.waiting(last));
            heaps.push(heap);
        }
    }
    let (piles, uncounted) = loose(book, &made, winter);
    let mut waiting: BTreeMap<String, u32> = BTreeMap::new();
    for heap in piles.into_iter().filter(|heap| heap.winter <= last) {
        *waiting.entry(heap.of.0.clone()).or_default() += heap.waiting(last);
        heaps.push(heap);
    }
    heaps.extend(made.iter().filter_map(|batch| unlisted(batch, winter)));
    heaps.extend(added);
    let row = |((winter, (wood, pieces)), balance)| {
        Some(WoodRow { winter, wood: book.woods.get(&wood).cloned()?, pieces, balance })
    };
    Ledger {
        wood: ledger::wood(&heaps, last).into_iter().filter_map(row).collect(),
        yard: yards(findings),
        uncounted,
        lots,
        loose: waiting,
    }
}

fn yards(findings: &Findings) -> Vec<YardRow> {
    let season = findings.season;
    let counted = findings.batches().iter().filter(|found| found.batch.is_counted());
    let row = |batch: &Arc<Batch>, balance| YardRow {
        winter: Season::holding(batch.record.inoculated, season.south).year,
        batch: Arc::clone(batch),
        balance,
    };
    let mut rows: Vec<YardRow> = counted.map(|found| row(&found.batch, found.balance)).collect();
    rows.retain(|row| row.winter <= season.year);
    rows.sort_by(|a, b| (a.winter, &a.batch.id).cmp(&(b.winter, &b.batch.id)));
    rows
}

/// Felled trees that no lot names, as one pile a wood and winter, less what batches took of them; and those of which nobody
/// has said how many logs they gave.
fn loose(book: &Book, made: &[&Arc<Batch>], winter: impl Fn(Date) -> i16) -> (Vec<Heap<(String, Pieces)>>, Vec<Tag>) {
    let listed: BTreeSet<&Tag> = book.lots.values().flat_map(|lot| &lot.record.trees).collect();
    let direct = || made.iter().filter(|batch| batch.lots.is_empty() && !batch.trees.is_empty());
    let mut used: BTreeMap<&Tag, Date> = BTreeMap::new();
    for batch in direct() {
        let day = batch.felled().map_or(batch.record.inoculated, |days| days.from);
        for tree in &batch.trees {
            let first = used.entry(tree.tag()).or_insert(day);
            *first = day.min(*first);
        }
    }
    let mut piles: Piles<'_> = BTreeMap::new();
    let mut uncounted = Vec::new();
    for tree in book.trees.iter().filter(|tree| !listed.contains(tree.tag())) {
        let used = used.get(tree.tag());
        let day = tree.record.felled.or(used.copied());
        match (day, tree.record.logs_cut) {
            (Some(day), Some(logs)) => pile(&mut piles, &tree.wood, winter(day)).logs += logs,
            (Some(_), None) if used.is_none() && tree.record.gone.is_none_or(Gone::gives_logs) => {
                uncounted.push(tree.tag().clone());
            }
            _ => {}
        }
    }
    for batch in direct() {
        let Some(wood) = &batch.wood else { continue };
        let filled = winter(batch.record.inoculated);
        let day = batch.trees.iter().filter_map(|tree| tree.record.felled).min();
        let day = day.or_else(|| batch.felled().map(|days| days.from)).unwrap_or(batch.record.inoculated);
        let pile = pile(&mut piles, wood, winter(day));
        let known: u32 = batch.trees.iter().filter_map(|tree| tree.record.logs_cut).sum();
        if batch.trees.iter().any(|tree| tree.record.logs_cut.is_none()) {
            pile.logs += batch.logs.saturating_sub(known);
        }
        pile.left.push((filled, None, batch.logs));
    }
    for pile in piles.values_mut() {
        let out: u32 = pile.left.iter().map(|(.., logs)| logs).sum();
        pile.logs = pile.logs.max(out);
    }
    (piles.into_values().filter(|pile| pile.logs > 0).collect(), uncounted)
}

/// The pile of a wood and winter, begun where there is none.
fn pile<'a, 'b>(piles: &'b mut Piles<'a>, wood: &'a Wood, winter: i16) -> &'b mut Heap<(String, Pieces)> {
    let of = (wood.id.clone(), Pieces::Log);
    let empty = Heap { of, winter, is_cut_here: true, logs: 0, left: Vec::new() };
    piles.entry((wood.id.as_str(), winter)).or_insert(empty)
}

/// Takes logs that were added to a batch out of its lots, as far as these hold any; how many logs are over.
fn top_up<'a>(batch: &'a Batch, (when, logs): (i16, u32), drawn: &mut BTreeMap<&'a str, Left>) -> u32 {
    let lots = if batch.record.way == Way::Totem { &[][..] } else { &batch.lots };
    lots.iter().fold(logs, |over, (lot, _)| {
        let left = drawn.entry(&lot.id).or_default();
        let out = left.iter().map(|(.., logs)| logs).sum::<u32>() + lot.gone();
        let part = lot.logs.saturating_sub(out).min(over);
        left.extend((part > 0).then_some((when, None, part)));
        over - part
    })
}

/// The logs of a batch that names neither lot nor trees: cut here, and all filled.
fn unlisted(batch: &Batch, winter: impl Fn(Date) -> i16) -> Option<Heap<(String, Pieces)>> {
    let is_unlisted = batch.lots.is_empty() && batch.trees.is_empty();
    let filled = winter(batch.record.inoculated);
    let felled = batch.felled().map_or(filled, |days| winter(days.from)).min(filled);
    cut_and_filled(batch, felled, filled, batch.logs).filter(|_| is_unlisted)
}

/// Logs of a batch of which no pile is known: cut here in one winter, and all filled in one.
fn cut_and_filled(batch: &Batch, winter: i16, filled: i16, logs: u32) -> Option<Heap<(String, Pieces)>> {
    let wood = batch.wood.as_ref().filter(|_| logs > 0)?;
    let pieces = if batch.record.way == Way::Totem { Pieces::TotemRound } else { Pieces::Log };
    let left = vec![(filled, None, logs)];
    Some(Heap { of: (wood.id.clone(), pieces), winter, is_cut_here: true, logs, left })
}

/// The balance of a batch on a day.
pub fn yard_on(batch: &Batch, diary: &[Arc<Diary>], day: Date) -> Yard {
    let lines = diary.iter().map(|line| &line.record).filter(|line| line.date <= day);
    let change = |line: &crate::record::diary::Diary| {
        let left = |exit| line.logs.map_or(Change::Rest(exit), |logs| Change::Left(exit, logs));
        let change = match line.what {
            What::Added => Change::Added(line.logs?),
            What::Counted => Change::Counted(line.logs?),
            What::LogLost => Change::Left(Exit::Lost, line.logs.unwrap_or(1)),
            What::Retired => left(Exit::Retired),
            What::Sold => left(Exit::Sold),
            What::Given => left(Exit::Given),
            _ => return None,
        };
        Some((line.date, change))
    };
    let ended = batch.record.ended.as_ref().filter(|ended| ended.date <= day);
    let end = ended.map(|ended| (ended.date, Change::Rest(exit(ended.how))));
    ledger::yard(batch.logs, lines.filter_map(change).chain(end))
}

const fn exit(end: End) -> Exit {
    match end {
        End::Retired => Exit::Retired,
        End::Sold => Exit::Sold,
        End::Given => Exit::Given,
        End::Lost | End::SpawnFailed => Exit::Lost,
    }
}

/// What a wish has got.
#[derive(Debug, Clone, Default)]
pub struct Done {
    /// Drilled logs.
    pub logs: u32,
    /// Totems.
    pub totems: u32,
    /// Stumps.
    pub stumps: u32,
    /// Whether its bed was made.
    pub bed: bool,
    /// The batches that it has got logs, totems or stumps of, or its bed, with how many.
    pub batches: Vec<(Arc<Batch>, u32)>,
    /// Batches of it whose spawn never took; they count for nothing.
    pub failed: Vec<Arc<Batch>>,
}

/// A part of a wish that batches of one way fulfil.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    Logs,
    Totems,
    Stumps,
    Bed,
}

impl Part {
    const fn of(way: Way) -> Self {
        match way {
            Way::Log | Way::BuriedLog => Self::Logs,
            Way::Totem => Self::Totems,
            Way::Stump => Self::Stumps,
            Way::ChipBed => Self::Bed,
        }
    }

    /// How many of it a wish asks for; a weight a week is open without end.
    fn wanted(self, wish: &Wish) -> Option<u32> {
        match self {
            Self::Logs => drilled(wish).or_else(|| wish.a_week.as_ref().map(|_| u32::MAX)),
            Self::Totems => wish.totems.as_ref().map(|totems| totems.number),
            Self::Stumps => wish.stumps.as_ref().map(|stumps| stumps.number),
            Self::Bed => wish.bed.as_ref().map(|_| 1),
        }
    }
}

/// What each wish of some plans has got, in the order of the plans and their wishes.
pub fn done(findings: &Findings, plans: &[Arc<Plan>]) -> Vec<Done> {
    let season = findings.season;
    let wishes: Vec<(&Plan, &Wish)> =
        plans.iter().flat_map(|plan| plan.record.wishes.iter().map(move |wish| (plan.as_ref(), wish))).collect();
    let parts = wishes.iter().enumerate().flat_map(|(at, (_, wish))| {
        let part = move |part: Part| Some((at, part, part.wanted(wish)?));
        [Part::Logs, Part::Totems, Part::Stumps, Part::Bed].into_iter().filter_map(part)
    });
    let parts: Vec<(usize, Part, u32)> = parts.collect();
    let mut batches: Vec<&super::BatchFinding> = findings.batches().iter().collect();
    batches.sort_by_key(|found| (found.batch.record.inoculated, &found.batch.id));
    let fits = |batch: &Batch| -> Vec<usize> {
        let record = &batch.record;
        let same_winter = Season::holding(record.inoculated, season.south) == season;
        let suits = |(at, part, _): &(usize, Part, u32)| {
            let (plan, wish) = wishes[*at];
            let named = record.wish.as_ref().map(|name| wish.is_called(&plan.id, name));
            *part == Part::of(record.way)
                && named.unwrap_or_else(|| {
                    same_winter
                        && wish.strain == record.strain
                        && record.spawn.is_none_or(|spawn| spawn == wish.spawn)
                        && (*part != Part::Logs || wish.way.is_none_or(|way| way == record.way))
                })
        };
        (0..parts.len()).filter(|place| suits(&parts[*place])).collect()
    };
    let mut done = vec![Done::default(); wishes.len()];
    let mut fitting: Vec<(&super::BatchFinding, (u32, Vec<usize>))> = Vec::new();
    for found in batches {
        let fits = fits(&found.batch);
        match (fits.first(), found.batch.has_failed()) {
            (Some(first), true) => done[parts[*first].0].failed.push(Arc::clone(&found.batch)),
            (Some(_), false) => {
                let bed = Part::of(found.batch.record.way) == Part::Bed;
                fitting.push((found, (if bed { 1 } else { found.balance.all() }, fits)));
            }
            (None, _) => {}
        }
    }
    let wanted: Vec<u32> = parts.iter().map(|(.., wanted)| *wanted).collect();
    let (found, asked): (Vec<&super::BatchFinding>, Vec<(u32, Vec<usize>)>) = fitting.into_iter().unzip();
    for (found, shares) in found.into_iter().zip(shares(&wanted, &asked)) {
        for (place, share) in shares {
            let (at, part, _) = parts[place];
            let done = &mut done[at];
            match part {
                Part::Logs => done.logs += share,
                Part::Totems => done.totems += share,
                Part::Stumps => done.stumps += share,
                Part::Bed => done.bed = true,
            }
            done.batches.push((Arc::clone(&found.batch), share));
        }
    }
    done
}

impl Done {
    /// The wish without what it has got; what is wholly done is not asked for any more.
    pub fn left_of(&self, wish: &Wish) -> Wish {
        let mut left = wish.clone();
        left.bed = left.bed.filter(|_| !self.bed);
        if let Some(totems) = &mut left.totems {
            totems.number = totems.number.saturating_sub(self.totems);
        }
        if let Some(stumps) = &mut left.stumps {
            stumps.number = stumps.number.saturating_sub(self.stumps);
        }
        left.totems = left.totems.filter(|totems| totems.number > 0);
        left.stumps = left.stumps.filter(|stumps| stumps.number > 0);
        left
    }
}

/// A line of a balance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Line {
    /// What it counts, as tables write it.
    pub name: &'static str,
    /// What it counts, in words.
    pub words: &'static str,
    /// Whether the logs came in.
    pub is_in: bool,
    /// How many; less than nought where more were counted than written.
    pub logs: i64,
}

impl WoodRow {
    /// The lines of its balance that count any log, those that came in first; of a winter that is over they say where its
    /// logs were at its end.
    pub fn lines(&self, is_over: bool) -> Vec<Line> {
        let balance = &self.balance;
        let came = [
            ("carried-over", "carried over", balance.carried),
            ("cut-here", "cut here", balance.cut),
            ("brought-in", "brought in", balance.brought),
        ];
        let waiting = if is_over { "waiting at its end" } else { "waiting" };
        let is = [("filled", "filled", balance.filled), ("waiting", waiting, balance.waiting)];
        let unfilled = balance.unfilled.iter().map(|(how, logs)| (how.id(), how.words(), *logs));
        told(came.map(counted), is.map(counted).into_iter().chain(unfilled.map(counted)))
    }
}

impl YardRow {
    /// What kind of pieces it counts, as tables write it.
    pub fn pieces(&self) -> &'static str {
        if self.is_of_logs() { Pieces::Log.id() } else { Way::Totem.id() }
    }

    /// Whether it counts logs, and not totems.
    pub fn is_of_logs(&self) -> bool {
        self.batch.record.way != Way::Totem
    }

    /// The lines of its balance that count any log, those that came in first.
    pub fn lines(&self) -> Vec<Line> {
        sums(&[self])
    }
}

/// The lines of the balances of several batches together.
pub fn sums(rows: &[&YardRow]) -> Vec<Line> {
    let sum = |of: fn(&Yard) -> u32| rows.iter().map(|row| of(&row.balance)).sum::<u32>();
    let came = [("filled", "filled", sum(|of| of.filled)), ("added", "added", sum(|of| of.added))];
    let is = [
        ("in-the-yard", "in the yard", sum(|of| of.yard)),
        ("retired", "retired", sum(|of| of.retired)),
        ("sold", "sold", sum(|of| of.sold)),
        ("given", "given away", sum(|of| of.given)),
        ("lost", "lost", sum(|of| of.lost)),
    ];
    let unaccounted = rows.iter().map(|row| row.balance.unaccounted).sum();
    let unaccounted = ("not-accounted-for", "not accounted for", unaccounted);
    told(came.map(counted), is.map(counted).into_iter().chain([unaccounted]))
}

fn counted((name, words, logs): (&'static str, &'static str, u32)) -> (&'static str, &'static str, i64) {
    (name, words, i64::from(logs))
}

/// Lines of what came in and of where it is, without those that count nothing.
fn told(
    came: impl IntoIterator<Item = (&'static str, &'static str, i64)>,
    is: impl IntoIterator<Item = (&'static str, &'static str, i64)>,
) -> Vec<Line> {
    let line = |is_in| move |(name, words, logs)| Line { name, words, is_in, logs };
    came.into_iter().map(line(true)).chain(is.into_iter().map(line(false))).filter(|line| line.logs != 0).collect()
}
