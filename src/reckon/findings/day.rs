//! The day of inoculation: what each strain's logs take.

use std::{collections::BTreeMap, sync::Arc};

use super::{Felling, Inoculation, TreeFinding, Winter, logs::DRILLED, winter::WishFinding};
use crate::{
    book::{Book, Lot, Strain, Wood},
    quantity::{Date, Length, Mass},
    reckon::{
        Gap, beds, holes,
        season::{Season, span},
        spawn::{self, Need, Rate},
    },
    record::{
        farm::Work,
        method::{Method, Pattern, SpawnRate},
        plan::{Bed, Stumps, Totems, Wish},
        strain::SpawnForm,
    },
};

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
    /// Minutes of one pair of hands to drill, fill and wax, by the farm's own figures.
    pub minutes: Result<[f64; 3], Gap>,
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
    /// The wood.
    pub wood: Arc<Wood>,
    /// How many logs.
    pub logs: u32,
    /// Their middle diameter, on average.
    pub diameter: Length,
    /// Holes in one of them, not rounded.
    pub holes: f64,
}

impl DayWood {
    /// Whole holes in one of them.
    #[must_use]
    pub fn whole_holes(&self) -> u32 {
        self.holes.round() as u32
    }

    /// Whole holes in all of them.
    #[must_use]
    pub fn all_holes(&self) -> u32 {
        self.whole_holes().saturating_mul(self.logs)
    }
}

impl Day {
    /// Drilled logs.
    #[must_use]
    pub fn logs(&self) -> u32 {
        self.woods.iter().map(|wood| wood.logs).sum()
    }

    /// Holes in all the logs, each log's rounded.
    #[must_use]
    pub fn holes(&self) -> u32 {
        self.woods.iter().map(DayWood::all_holes).fold(0, u32::saturating_add)
    }

    /// Hours of one pair of hands, by the farm's own figures.
    ///
    /// # Errors
    ///
    /// A [`Gap`] where the farm has not said how fast it works.
    pub fn hours(&self) -> Result<f64, Gap> {
        self.minutes.clone().map(|minutes| minutes.iter().sum::<f64>() / 60.0)
    }
}

/// Work beside drilled logs.
#[derive(Debug, Clone)]
pub enum OtherWork {
    /// Totems: their wood in cubic metres, layers of spawn, and the farm's own weight of spawn.
    Totems(Totems, f64, u32, Result<Mass, Gap>),
    /// Stumps: holes in all of them.
    Stumps(Stumps, u32),
    /// A bed: chips in cubic metres, and the farm's own weight of spawn.
    Bed(Bed, f64, Result<Mass, Gap>),
}

impl OtherWork {
    /// Spawn by the farm's own figure.
    #[must_use]
    pub fn spawn(&self) -> Option<&Result<Mass, Gap>> {
        match self {
            Self::Totems(.., spawn) | Self::Bed(.., spawn) => Some(spawn),
            Self::Stumps(..) => None,
        }
    }

    /// Holes to be filled.
    #[must_use]
    pub const fn holes(&self) -> u32 {
        match self {
            Self::Stumps(_, holes) => *holes,
            Self::Totems(..) | Self::Bed(..) => 0,
        }
    }
}

/// What a day is reckoned from.
pub struct Facts<'a> {
    /// The book.
    pub book: &'a Book,
    /// Every tagged tree.
    pub trees: &'a [TreeFinding],
    /// The winter's answer.
    pub winter: &'a Winter,
    /// When trees may come down.
    pub fellings: &'a [Felling],
    /// When logs may be inoculated.
    pub inoculations: &'a [Inoculation],
    /// The season.
    pub season: Season,
    /// Logs of each lot that no batch has taken.
    pub left: &'a BTreeMap<String, u32>,
}

/// What every wish takes on the day.
#[must_use]
pub fn all(facts: &Facts<'_>) -> Vec<Day> {
    facts.winter.wishes.iter().map(|wish| facts.day(wish)).collect()
}

impl Facts<'_> {
    fn day(&self, wish: &WishFinding) -> Day {
        let method = self.book.methods.get(DRILLED).map(|method| &method.record);
        let form = wish.wish.spawn;
        let pattern = method.and_then(|method| pattern(method, form));
        let rate = method.and_then(|method| method.spawn.iter().find(|rate| rate.form == form)).cloned();
        let length = &self.book.farm.record.log.length;
        let woods: Vec<DayWood> = wish
            .placed
            .iter()
            .map(|placed| {
                let diameter = Length::of_inches(self.mean_diameter(&placed.wood.id));
                let between = pattern.as_ref().and_then(|pattern| pattern.between.clone());
                let holes = pattern
                    .as_ref()
                    .zip(between)
                    .map_or(0.0, |(pattern, between)| holes::by_area(&diameter, length, &pattern.along, &between));
                DayWood { wood: Arc::clone(&placed.wood), logs: placed.logs, diameter, holes }
            })
            .collect();
        let logs: u32 = woods.iter().map(|wood| wood.logs).sum();
        let work = &self.book.farm.record.work;
        let wax = work.wax_a_log.as_ref().map(|wax| Mass::of_kilograms(wax.base() * f64::from(logs)));
        let window = self.window(wish);
        Day {
            strain: Arc::clone(&wish.strain),
            form,
            apart: self.apart(wish, window),
            window,
            spawn: spawn(rate.as_ref(), &woods, length),
            other: other(&wish.wish, pattern.as_ref()),
            wax: wax.ok_or(Gap::NotRecorded("the wax that a log took (`wax_a_log` under `work` in farm.yaml)")),
            minutes: minutes(work, logs),
            rate,
            woods,
            pattern,
        }
    }

    fn left(&self, lot: &Lot) -> u32 {
        self.left.get(&lot.id).copied().unwrap_or(0)
    }

    /// The middle diameter of this winter's logs of a wood, on average, in inches.
    fn mean_diameter(&self, wood: &str) -> f64 {
        let size = &self.book.farm.record.log.diameter;
        let usual = f64::midpoint(size.low.inches(), size.high.inches());
        let falls = |tree: &&TreeFinding| tree.tree.wood.id == wood && self.winter.falls(tree.tree.tag());
        let mut diameters: Vec<f64> =
            self.trees.iter().filter(falls).flat_map(|tree| tree.log_diameters(usual)).collect();
        for lot in self.book.lots.values().filter(|lot| lot.wood.id == wood) {
            let range = lot.record.diameter.as_ref().unwrap_or(size);
            let middle = f64::midpoint(range.low.inches(), range.high.inches());
            diameters.extend(std::iter::repeat_n(middle, self.left(lot) as usize));
        }
        if diameters.is_empty() { usual } else { diameters.iter().sum::<f64>() / diameters.len() as f64 }
    }

    /// The first and the last day on which the logs of a wish may be inoculated.
    fn window(&self, wish: &WishFinding) -> Option<(Date, Date)> {
        let of_mushroom = || self.inoculations.iter().filter(|found| found.mushroom.id == wish.strain.mushroom.id);
        let spans = |suits: &dyn Fn(&Felling) -> bool| {
            let found = of_mushroom().filter(|found| suits(&self.fellings[found.felling]));
            span(found.flat_map(|found| &found.carried).map(|carried| self.season.dates(carried.inoculation)))
        };
        if wish.placed.is_empty() {
            return spans(&|_| true);
        }
        let of_wood = |wood: &Wood| spans(&|felling| felling.woods.iter().any(|other| other.id == wood.id));
        let woods: Vec<(Date, Date)> = wish.placed.iter().filter_map(|placed| of_wood(&placed.wood)).collect();
        let (from, to) = (woods.iter().map(|days| days.0).max()?, woods.iter().map(|days| days.1).min()?);
        if from <= to { Some((from, to)) } else { span(woods) }
    }

    /// Lots among the logs of a wish that rest too long or too short if they wait for the days of inoculation.
    fn apart(&self, wish: &WishFinding, window: Option<(Date, Date)>) -> Vec<(Arc<Lot>, Date, Date)> {
        let Some((opens, closes)) = window else { return Vec::new() };
        let rest = self
            .inoculations
            .iter()
            .find(|found| found.mushroom.id == wish.strain.mushroom.id)
            .map(|found| &found.rest);
        let Some(rest) = rest else { return Vec::new() };
        let used =
            |lot: &&Arc<Lot>| wish.placed.iter().any(|placed| placed.wood.id == lot.wood.id) && self.left(lot) > 0;
        let rested = |lot: &Arc<Lot>| {
            let felled = lot.record.felled?;
            let after = |days: f64| Date(felled.0.saturating_add(jiff::Span::new().days(days.round() as i64)));
            let (from, to) = (after(rest.low.days()), after(rest.high.days()));
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
    let rate = Rate {
        package: rate.package.clone(),
        logs: rate.logs.clone(),
        diameter: rate.diameter.clone(),
        length: rate.length.clone(),
    };
    let total = |each: fn(&Need) -> f64| {
        let sum: f64 = woods
            .iter()
            .map(|wood| each(&spawn::need(&rate, &wood.diameter, length, wood.logs)) * f64::from(wood.logs))
            .sum();
        Mass::of_kilograms(sum)
    };
    Ok([total(|need| need.least.base()), total(|need| need.most.base())])
}

fn minutes(work: &Work, logs: u32) -> Result<[f64; 3], Gap> {
    let each = [work.drilling_minutes, work.filling_minutes, work.waxing_minutes];
    let [Some(drilling), Some(filling), Some(waxing)] = each else {
        return Err(Gap::NotRecorded(
            "how many minutes a log takes (`drilling_minutes`, `filling_minutes` and `waxing_minutes` under `work` in farm.yaml)",
        ));
    };
    Ok([drilling, filling, waxing].map(|minutes| minutes * f64::from(logs)))
}

fn other(wish: &Wish, pattern: Option<&Pattern>) -> Vec<OtherWork> {
    let mut other = Vec::new();
    if let Some(totems) = &wish.totems {
        let rounds = totems.rounds.unwrap_or(beds::ROUNDS);
        let round = totems.round.clone().unwrap_or_else(|| Length::of_inches(beds::ROUND_INCHES));
        let wood = beds::totem_wood(&totems.diameter, &round, rounds) * f64::from(totems.number);
        let spawn = totems.spawn_each.as_ref().map(|each| Mass::of_kilograms(each.base() * f64::from(totems.number)));
        let spawn = spawn.ok_or(Gap::NotPublished("the weight of spawn a totem"));
        other.push(OtherWork::Totems(totems.clone(), wood, beds::layers(rounds) * totems.number, spawn));
    }
    if let Some((stumps, pattern)) = wish.stumps.as_ref().zip(pattern) {
        let between = pattern.between.as_ref().unwrap_or(&pattern.along);
        let holes = beds::stump_holes(&stumps.diameter, &stumps.height, &pattern.along, between).round() as u32;
        other.push(OtherWork::Stumps(stumps.clone(), holes.saturating_mul(stumps.number)));
    }
    if let Some(bed) = &wish.bed {
        let spawn = bed.spawn.clone().ok_or(Gap::NotPublished("the weight of spawn a bed"));
        other.push(OtherWork::Bed(bed.clone(), beds::chips(&bed.area, &bed.depth), spawn));
    }
    other
}
