//! The day of inoculation: what each strain's logs take.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::batches::{middle_in, middle_of};
use super::logs::DRILLED;
use super::winter::WishFinding;
use super::{Felling, Findings, TreeFinding, sums};
use crate::book::{Lot, Strain, Wood};
use crate::quantity::{Date, Duration, Length, Mass, Volume};
use crate::reckon::season::span;
use crate::reckon::{Gap, beds, holes, spawn};
use crate::record::farm::Work;
use crate::record::method::{Method, Pattern, SpawnRate};
use crate::record::plan::{Bed, Stumps, Totems, Wish};
use crate::record::strain::SpawnForm;
use crate::record::tree::Tag;

/// What one wish takes on the day.
#[derive(Debug, Clone)]
pub struct Day {
    /// Its strain.
    pub strain: Arc<Strain>,
    /// The form of spawn.
    pub form: SpawnForm,
    /// Its drilled logs, wood by wood.
    pub woods: Vec<DayWood>,
    /// The pattern of holes.
    pub pattern: Option<Pattern>,
    /// Spawn by weight, where a rate is recorded for the form; plugs and thimbles are one a hole.
    pub spawn: Result<[Mass; 2], Gap>,
    /// The rate behind it.
    pub rate: Option<SpawnRate>,
    /// Wax by the farm's own figure.
    pub wax: Result<Mass, Gap>,
    /// How long one pair of hands works, by the farm's own figures.
    pub work: Result<Duration, Gap>,
    /// Totems, stumps and beds beside the logs.
    pub other: Vec<OtherWork>,
    /// The first and the last day on which all its logs may be inoculated; of woods that share no day, the first and the last
    /// of any.
    pub window: Option<(Date, Date)>,
    /// Lots among its logs whose own rest, counted from their felling, does not reach those days.
    pub apart: Vec<(Arc<Lot>, Date, Date)>,
}

/// Logs of one wood on the day.
#[derive(Debug, Clone)]
pub struct DayWood {
    /// The wood; `None` for logs of which nobody knows yet where they come from.
    pub wood: Option<Arc<Wood>>,
    /// How many logs.
    pub logs: u32,
    /// Their middle diameter, on average.
    pub diameter: Length,
    /// Holes in one of them, not rounded.
    pub holes: f64,
}

impl DayWood {
    /// The name of the wood.
    pub fn name(&self) -> &str {
        self.wood.as_ref().map_or("logs of trees that are not marked yet", |wood| wood.name())
    }

    /// Whole holes in one of them.
    pub fn whole_holes(&self) -> u32 {
        self.holes.round() as u32
    }

    /// Whole holes in all of them.
    pub fn all_holes(&self) -> u32 {
        self.whole_holes().saturating_mul(self.logs)
    }
}

impl Day {
    /// Drilled logs.
    pub fn logs(&self) -> u32 {
        self.woods.iter().map(|wood| wood.logs).sum()
    }

    /// Holes in all the logs, each log's rounded.
    pub fn holes(&self) -> u32 {
        self.woods.iter().map(DayWood::all_holes).fold(0, u32::saturating_add)
    }
}

/// Work beside drilled logs.
#[derive(Debug, Clone)]
pub struct OtherWork {
    /// What is made.
    pub made: Made,
    /// Holes to be filled.
    pub holes: u32,
    /// Spawn by the farm's own figure; `None` where the holes take it.
    pub spawn: Option<Result<Mass, Gap>>,
}

/// What is made beside drilled logs.
#[derive(Debug, Clone)]
pub enum Made {
    /// Totems, with all their wood and layers of spawn.
    Totems(Totems, Volume, u32),
    /// Stumps.
    Stumps(Stumps),
    /// A bed, with its chips.
    Bed(Bed, Volume),
}

/// What all wishes together take on the day.
#[derive(Debug, Clone)]
pub struct Total {
    /// Drilled logs.
    pub logs: u32,
    /// Holes in them.
    pub holes: u32,
    /// Wax by the farm's own figure.
    pub wax: Result<Mass, Gap>,
    /// How long one pair of hands works, by the farm's own figures.
    pub work: Result<Duration, Gap>,
    /// How long each pair of hands works, where the farm says how many there are.
    pub apiece: Option<Duration>,
}

/// What all wishes together take; `None` where no log is drilled.
pub fn total(findings: &Findings) -> Option<Total> {
    let drilled = || findings.days().iter().filter(|day| day.logs() > 0);
    let work: Result<Duration, Gap> = drilled().map(|day| day.work.clone()).sum();
    let hands = findings.book.farm.record.work.hands;
    drilled().next().map(|_| Total {
        logs: drilled().map(Day::logs).sum(),
        holes: drilled().map(Day::holes).fold(0, u32::saturating_add),
        wax: drilled().map(|day| day.wax.clone()).sum(),
        apiece: work.as_ref().ok().zip(hands).map(|(work, hands)| work * (1.0 / f64::from(hands))),
        work,
    })
}

/// What every wish takes on the day.
pub fn all(findings: &Findings) -> Vec<Day> {
    findings.winter().wishes.iter().map(|wish| findings.day(wish)).collect()
}

impl Findings {
    fn day(&self, wish: &WishFinding) -> Day {
        let form = wish.wish.spawn;
        let (pattern, rate) = self.filling_of(form);
        let length = &self.book.farm.record.log.length;
        let of = |wood: Option<&Arc<Wood>>, logs: u32, diameter: Length| DayWood {
            wood: wood.cloned(),
            logs,
            holes: self.holes_in(&diameter, pattern.as_ref()).unwrap_or(0.0),
            diameter,
        };
        let placed = wish.placed.iter().map(|of| (Some(&of.wood), of.logs, self.mean_diameter(&of.wood)));
        let unplaced = (wish.unplaced > 0).then(|| (None, wish.unplaced, self.book.farm.record.log.diameter.middle()));
        let woods: Vec<DayWood> =
            placed.chain(unplaced).map(|(wood, logs, diameter)| of(wood, logs, diameter)).collect();
        let logs = f64::from(woods.iter().map(|of| of.logs).sum::<u32>());
        let farm = &self.book.farm.record.work;
        let wax = farm.wax_a_log.as_ref().map(|wax| wax * logs);
        let window = self.days_of(wish);
        Day {
            strain: Arc::clone(&wish.strain),
            form,
            apart: window.map(|window| self.apart(wish, window)).unwrap_or_default(),
            window,
            spawn: spawn(rate.as_ref(), &woods, length),
            other: other(&wish.other, pattern.as_ref()),
            wax: wax.ok_or(Gap::NotRecorded("the wax that a log took (`wax_a_log` under `work` in farm.yaml)")),
            work: work_a_log(farm).map(|each| &each * logs),
            rate,
            woods,
            pattern,
        }
    }

    /// The pattern of holes and the rate of a form of spawn.
    pub(super) fn filling_of(&self, form: SpawnForm) -> (Option<Pattern>, Option<SpawnRate>) {
        let method = self.book.methods.get(DRILLED).map(|method| &method.record);
        let rate = method.and_then(|method| method.spawn.iter().find(|rate| rate.form == form));
        (method.and_then(|method| pattern(method, form)), rate.cloned())
    }

    /// Holes in a log of the farm's length, not rounded.
    pub(super) fn holes_in(&self, diameter: &Length, pattern: Option<&Pattern>) -> Option<f64> {
        let (pattern, length) = (pattern?, &self.book.farm.record.log.length);
        Some(holes::by_area(diameter, length, &pattern.along, pattern.between.as_ref()?))
    }

    /// The middle diameter of this winter's logs of a wood, on average.
    fn mean_diameter(&self, wood: &Wood) -> Length {
        let usual = self.book.farm.record.log.diameter.middle().inches();
        let felled = self.felled().filter(|tree| tree.tree.wood.id == wood.id);
        let mut diameters: Vec<f64> = felled.flat_map(|tree| tree.log_diameters(usual)).collect();
        for lot in self.book.lots.values().filter(|lot| lot.wood.id == wood.id) {
            let middle = middle_of(self, lot).inches();
            diameters.extend(std::iter::repeat_n(middle, self.ledger().waiting(lot) as usize));
        }
        let listed: BTreeSet<&Tag> = self.book.lots.values().flat_map(|lot| &lot.record.trees).collect();
        let lie = |tree: &&TreeFinding| tree.tree.wood.id == wood.id && self.is_of_this_winter(tree);
        let lie = self.trees().iter().filter(lie).map(|tree| tree.tree.tag()).filter(|tag| !listed.contains(tag));
        let loose = middle_in(self, lie).inches();
        diameters.extend(std::iter::repeat_n(loose, self.ledger().loose(wood) as usize));
        let sum: f64 = diameters.iter().sum();
        Length::of_inches(if diameters.is_empty() { usual } else { sum / diameters.len() as f64 })
    }

    /// The first and the last day on which the logs of a wish may be inoculated.
    fn days_of(&self, wish: &WishFinding) -> Option<(Date, Date)> {
        let spans = |suits: &dyn Fn(&Felling) -> bool| {
            let of_mushroom = self.inoculations().iter().filter(|found| found.mushroom.id == wish.strain.mushroom.id);
            let found = of_mushroom.filter(|found| suits(&self.fellings()[found.felling]));
            span(found.flat_map(|found| &found.carried).map(|carried| self.season.dates(carried.inoculation)))
        };
        if wish.placed.is_empty() {
            return spans(&|_| true);
        }
        let of_trees = |wood: &Wood| spans(&|felling| felling.woods.iter().any(|other| other.id == wood.id));
        let of_lots = |wood: &Wood| {
            let lots = self.lying().iter().filter(|lying| lying.lot.wood.id == wood.id);
            span(lots.filter_map(|lying| lying.filled_with(&wish.strain.mushroom)))
        };
        let of_wood = |wood: &Wood| of_trees(wood).or_else(|| of_lots(wood));
        let woods: Vec<(Date, Date)> = wish.placed.iter().filter_map(|placed| of_wood(&placed.wood)).collect();
        let (from, to) = (woods.iter().map(|days| days.0).max()?, woods.iter().map(|days| days.1).min()?);
        if from <= to { Some((from, to)) } else { span(woods) }
    }

    /// Lots among the logs of a wish that rest too long or too short if they wait for the days of inoculation.
    fn apart(&self, wish: &WishFinding, (opens, closes): (Date, Date)) -> Vec<(Arc<Lot>, Date, Date)> {
        let rest = self.rest();
        let used = |lot: &&Arc<Lot>| {
            wish.placed.iter().any(|placed| placed.wood.id == lot.wood.id) && self.ledger().waiting(lot) > 0
        };
        let rested = |lot: &Arc<Lot>| {
            let felled = lot.felled?;
            let [from, to] = [&rest.low, &rest.high].map(|rest| felled.from.after(rest));
            (to < opens || from > closes).then(|| (Arc::clone(lot), from, to))
        };
        self.book.lots.values().filter(used).filter_map(rested).collect()
    }
}

/// The pattern for a form of spawn: one that names it, or else the first that says how far its rows are apart.
fn pattern(method: &Method, form: SpawnForm) -> Option<Pattern> {
    let whole = || method.patterns.iter().filter(|pattern| pattern.between.is_some());
    whole().find(|pattern| pattern.spawn.contains(&form)).or_else(|| whole().next()).cloned()
}

fn spawn(rate: Option<&SpawnRate>, woods: &[DayWood], length: &Length) -> Result<[Mass; 2], Gap> {
    let rate = rate.ok_or(Gap::NotPublished("the weight of spawn a log in this form"))?;
    let all = |wood: &DayWood| {
        let need = spawn::need(rate, &wood.diameter, length, wood.logs);
        [need.least, need.most].map(|each| &each * f64::from(wood.logs))
    };
    Ok(sums(woods.iter().map(all).collect()))
}

/// How long one pair of hands takes to drill, fill and wax a log, by the farm's own figures.
fn work_a_log(work: &Work) -> Result<Duration, Gap> {
    let each = [work.drilling_minutes, work.filling_minutes, work.waxing_minutes];
    let minutes: Option<f64> = each.into_iter().sum();
    minutes.map(Duration::of_minutes).ok_or(Gap::NotRecorded(
        "how many minutes a log takes (`drilling_minutes`, `filling_minutes` and `waxing_minutes` under `work` in farm.yaml)",
    ))
}

fn other(wish: &Wish, pattern: Option<&Pattern>) -> Vec<OtherWork> {
    let totems = wish.totems.as_ref().map(|totems| {
        let rounds = totems.rounds.unwrap_or(beds::ROUNDS);
        let round = totems.round.clone().unwrap_or_else(|| Length::of_inches(beds::ROUND_INCHES));
        let wood = beds::totem_wood(&totems.diameter, &round, rounds) * f64::from(totems.number);
        let spawn = totems.spawn_each.as_ref().map(|each| each * f64::from(totems.number));
        OtherWork {
            made: Made::Totems(totems.clone(), wood, beds::layers(rounds) * totems.number),
            holes: 0,
            spawn: Some(spawn.ok_or(Gap::NotPublished("the weight of spawn per totem"))),
        }
    });
    let stumps = wish.stumps.as_ref().zip(pattern).map(|(stumps, pattern)| {
        let between = pattern.between.as_ref().unwrap_or(&pattern.along);
        let holes = beds::stump_holes(&stumps.diameter, &stumps.height, &pattern.along, between).round() as u32;
        OtherWork { made: Made::Stumps(stumps.clone()), holes: holes.saturating_mul(stumps.number), spawn: None }
    });
    let bed = wish.bed.as_ref().map(|bed| OtherWork {
        made: Made::Bed(bed.clone(), beds::chips(&bed.area, &bed.depth)),
        holes: 0,
        spawn: Some(bed.spawn.clone().ok_or(Gap::NotPublished("the weight of spawn per bed"))),
    });
    [totems, stumps, bed].into_iter().flatten().collect()
}
