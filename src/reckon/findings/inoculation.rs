//! When logs may be inoculated: the rest of each source carried forward from each felling.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::season::{Felling, Open, Untold, counting, days, parted};
use super::{Findings, Word, season, winter};
use crate::book::{Mushroom, Window, Wood};
use crate::quantity::{Date, Duration, Range};
use crate::reckon::Gap;
use crate::reckon::days::{Days, Interval};
use crate::reckon::rest::{COMMON_PRACTICE_DAYS, Carried, School, carry};
use crate::reckon::season::{Basis, End, Told, span};
use crate::record::said::Rest;
use crate::record::window::WindowKind;

/// When logs for one mushroom may be inoculated after one felling.
#[derive(Debug, Clone)]
pub struct Inoculation {
    /// The mushroom.
    pub mushroom: Arc<Mushroom>,
    /// Which felling, by its place in the findings.
    pub felling: usize,
    /// The rest that the farm keeps to, and whether it chose it.
    pub rest: Range<Duration>,
    /// Whether the farm chose the rest, or common practice stands in.
    pub chosen: bool,
    /// The inoculation windows that count.
    pub windows: Vec<(Arc<Window>, Told)>,
    /// Inoculation windows that cannot be told, and why.
    pub gaps: Vec<(Arc<Window>, Gap)>,
    /// When to inoculate by the farm's rest.
    pub carried: Vec<Carried>,
    /// When to inoculate by each source's rest, in the order of the schools.
    pub lines: Vec<RestLine>,
}

impl Inoculation {
    /// What a stretch of inoculation by the farm's rest begins and ends on: the felling carried forward by the rest, or
    /// the window of inoculation that opens later or closes sooner.
    pub fn basis(&self, felling: &Felling, carried: &Carried) -> Basis {
        let [opens, closes] = self.ends(felling, carried);
        opens.min(closes)
    }

    /// The same of its first day and of its last; the felling days that fit it rest on them too.
    pub fn ends(&self, felling: &Felling, carried: &Carried) -> [Basis; 2] {
        let Carried { felling: felled, inoculation, .. } = carried;
        let [least, most] = [&self.rest.low, &self.rest.high].map(|rest| rest.days().round() as i32);
        let opens = if inoculation.first == least {
            felling.basis_of(felled.from)
        } else {
            self.basis_of_window(inoculation.interval().from, |told| told.from)
        };
        let closes = if inoculation.last == i32::from(felled.days()) - 1 + most {
            felling.basis_of(felled.to)
        } else {
            self.basis_of_window(inoculation.interval().to, |told| told.to)
        };
        [opens, closes]
    }

    fn basis_of_window(&self, day: u16, end: impl Fn(&Told) -> End) -> Basis {
        let ends = self.windows.iter().map(|(_, told)| end(told)).filter(|end| end.day == day);
        ends.map(|end| end.basis).min().unwrap_or(Basis::Dated)
    }
}

/// One source's rest, carried forward.
#[derive(Debug, Clone)]
pub struct RestLine {
    /// What the source says.
    pub rest: Rest,
    /// Its school; `None` where it gives no figure.
    pub school: Option<School>,
    /// When to inoculate by it.
    pub carried: Vec<Carried>,
}

/// Inoculations of one felling that fall on the same days.
#[derive(Debug)]
pub struct Group<'a> {
    /// The first of them.
    pub first: &'a Inoculation,
    /// The mushrooms that share the days.
    pub mushrooms: Vec<Arc<Mushroom>>,
}

impl Findings {
    /// Inoculations with the same days together, of pairs that somebody has spoken for.
    pub fn groups(&self) -> Vec<Group<'_>> {
        let mut groups: Vec<Group<'_>> = Vec::new();
        let spoken_of = |found: &&Inoculation| {
            let word = |wood: &Wood| self.word(&found.mushroom.id, &wood.id);
            let woods = &self.fellings()[found.felling].woods;
            woods.iter().any(|wood| !matches!(word(wood), Word::Untried | Word::Fails))
        };
        for found in self.inoculations().iter().filter(|found| !found.carried.is_empty()).filter(spoken_of) {
            let same =
                |group: &&mut Group<'_>| group.first.felling == found.felling && group.first.carried == found.carried;
            match groups.iter_mut().find(same) {
                Some(group) => group.mushrooms.push(Arc::clone(&found.mushroom)),
                None => groups.push(Group { first: found, mushrooms: vec![Arc::clone(&found.mushroom)] }),
            }
        }
        groups.sort_by_key(|group| group.first.felling);
        groups
    }
}

impl Findings {
    /// The days of a stretch of a felling after which logs rest as long as the farm has chosen, over all mushrooms.
    pub fn well_rested(&self, felling: usize, stretch: Interval) -> Option<(Date, Date)> {
        let groups = self.groups();
        let carried =
            groups.iter().filter(|group| group.first.felling == felling).flat_map(|group| &group.first.carried);
        span(carried.filter(|of| of.felling == stretch).map(|of| self.season.dates(of.fits)))
    }

    /// Whether trees of a wood that come down now are known to find no day for a mushroom: the no-cut windows leave no day to
    /// fell them, or no day to inoculate them follows. What cannot be told for want of a record is not known.
    pub fn has_no_day(&self, mushroom: &Mushroom, wood: &Wood) -> bool {
        self.without_a_day().get(&mushroom.id).is_some_and(|woods| woods.contains(&wood.id))
    }

    /// The rest that the farm keeps to: its own choice, or else that of common practice.
    pub fn rest(&self) -> Range<Duration> {
        let chosen = self.book.farm.record.rest.clone();
        chosen.unwrap_or_else(|| COMMON_PRACTICE_DAYS.map(Duration::of_days).into())
    }
}

/// By mushroom of the farm and of its wishes, the woods at hand whose trees find no day for it.
pub(super) fn without_a_day(findings: &Findings) -> BTreeMap<String, BTreeSet<String>> {
    let woods = winter::at_hand(findings);
    let felling = |wood: &Arc<Wood>| {
        let listed = findings.fellings().iter().find(|felling| felling.woods.iter().any(|other| other.id == wood.id));
        listed.map_or_else(|| Cow::Owned(season::felling(findings, wood)), Cow::Borrowed)
    };
    let fellings: Vec<(&str, Cow<'_, Felling>)> = woods.iter().map(|wood| (wood.id.as_str(), felling(wood))).collect();
    let rest = findings.rest();
    let wished = findings.book.plans.values().flat_map(|plan| plan.wishes()).map(|(_, strain)| &strain.mushroom);
    let of = |mushroom: &Arc<Mushroom>| {
        let (windows, _) = open_for(findings, mushroom);
        let open = (!windows.is_empty()).then(|| days(&windows));
        let has_none = |felling: &Felling| match felling.gap {
            Some(Gap::NothingLeft) => true,
            Some(_) => false,
            None => carried(felling, rest.low.days(), Some(rest.high.days()), open.as_ref()).is_empty(),
        };
        let without = fellings.iter().filter(|(_, felling)| has_none(felling));
        (mushroom.id.clone(), without.map(|(wood, _)| (*wood).to_owned()).collect())
    };
    each_once(findings.mushrooms().iter().chain(wished)).iter().map(of).collect()
}

/// Mushrooms, each once, in the order of their ids.
pub(super) fn each_once<'a>(mushrooms: impl IntoIterator<Item = &'a Arc<Mushroom>>) -> Vec<Arc<Mushroom>> {
    let by_id: BTreeMap<&str, &Arc<Mushroom>> = mushrooms.into_iter().map(|of| (of.id.as_str(), of)).collect();
    by_id.into_values().cloned().collect()
}

/// The stretches of a felling carried forward by a rest, within the days on which is inoculated.
fn carried(felling: &Felling, least: f64, most: Option<f64>, open: Option<&Days>) -> Vec<Carried> {
    let most = most.map(|most| most.round() as i32);
    felling.intervals.iter().flat_map(|part| carry(*part, least.round() as i32, most, open)).collect()
}

/// The inoculation windows that count for a mushroom, and those that cannot be told.
pub(super) fn open_for(findings: &Findings, mushroom: &Mushroom) -> (Open, Untold) {
    let speaks = |window: &Window| window.speaks_of_mushroom(mushroom);
    parted(counting(findings.windows(), WindowKind::Inoculate, speaks))
}

/// When logs may be inoculated, by mushroom and felling.
pub fn all(findings: &Findings) -> Vec<Inoculation> {
    let fellings = || findings.fellings().iter().enumerate().filter(|(_, felling)| felling.gap.is_none());
    let of = |mushroom| fellings().map(move |(index, felling)| one(findings, felling, index, mushroom));
    findings.mushrooms().iter().flat_map(of).collect()
}

fn one(findings: &Findings, felling: &Felling, index: usize, mushroom: &Arc<Mushroom>) -> Inoculation {
    let (windows, gaps) = open_for(findings, mushroom);
    let open = (!windows.is_empty()).then(|| days(&windows));
    let carried = |least, most| carried(felling, least, most, open.as_ref());
    let line = |rest: Rest| {
        let (least, most) = ends(&rest);
        let carried = least.map(|least| carried(least, most)).unwrap_or_default();
        RestLine { school: school(&rest), carried, rest }
    };
    let mut lines: Vec<RestLine> = rests(mushroom).into_iter().map(line).collect();
    lines.sort_by_key(|line| (line.school.is_none(), line.school));
    let rest = findings.rest();
    Inoculation {
        mushroom: Arc::clone(mushroom),
        felling: index,
        carried: carried(rest.low.days(), Some(rest.high.days())),
        chosen: findings.book.farm.record.rest.is_some(),
        rest,
        windows,
        gaps,
        lines,
    }
}

/// The least and the most days of a row: its own, or those that it calls best.
pub fn ends(rest: &Rest) -> (Option<f64>, Option<f64>) {
    let best = rest.best.as_ref();
    let least = rest.least.as_ref().or(best.map(|best| &best.low)).map(Duration::days);
    let most = rest.most.as_ref().or(best.map(|best| &best.high)).map(Duration::days);
    (least.or(most.map(|_| 0.0)), most)
}

/// The school of a row: by the least rest that it gives; one that only bounds the rest belongs to none.
pub fn school(rest: &Rest) -> Option<School> {
    let least = rest.least.as_ref().or(rest.best.as_ref().map(|best| &best.low))?;
    Some(School::of(least.days()))
}

/// The rows on rest that hold for a mushroom: its own, those of its group, or those of its methods.
pub fn rests(mushroom: &Mushroom) -> Vec<Rest> {
    match mushroom.said(|record| &record.rest) {
        [] => mushroom.methods.iter().flat_map(|method| method.record.rest.clone()).collect(),
        own => own.to_vec(),
    }
}
