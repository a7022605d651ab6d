//! Every stand before and after the winter, and which trees gain room.

use std::sync::Arc;

use super::{Findings, TreeFinding, Winter, grouped};
use crate::book::Listed;
use crate::quantity::{Area, BasalArea, Date, Length};
use crate::reckon::density::{Density, Removal};
use crate::reckon::formula::Place;
use crate::reckon::near::Near;
use crate::reckon::release::{Standing, competition, open_sides, reach};
use crate::reckon::season::Season;
use crate::reckon::{Gap, Topic, density};
use crate::record::stand::{Entry, Stand};
use crate::record::tree::{Decision, Tag};

/// A stand as it was measured, and what came out of it since.
#[derive(Debug, Clone)]
pub struct Measured {
    /// The stand.
    pub stand: Arc<Listed<Stand>>,
    /// Its density when it was counted.
    pub counted: Result<Density, Gap>,
    /// Its density at the winter's beginning: the count, less what came out between.
    pub density: Result<Density, Gap>,
    /// Its density now, when what came down this winter is out.
    pub now: Result<Density, Gap>,
    /// Its area.
    pub area: Result<Area, Gap>,
    /// The summers since it was counted, where the day is recorded.
    pub summers: Option<i16>,
    /// What came out between the count and the winter's beginning.
    pub earlier: Removal,
    /// What came out this winter already.
    pub this_winter: Removal,
    /// The earliest winter of which stumps have sprouted for ten years that no count has seen.
    pub hollow: Option<i16>,
    // What came down this winter before it was counted, and so is not in the count.
    uncounted: Removal,
}

impl Measured {
    /// The summers after which a count is to be made again.
    pub const STALE: i16 = 10;

    /// Basal area to keep.
    pub fn target(&self) -> Option<&BasalArea> {
        self.stand.record.target.as_ref()
    }

    /// Basal area that might come out in the whole of the winter.
    ///
    /// # Errors
    ///
    /// A [`Gap`] where the stand or its area has not been measured.
    pub fn whole_allowance(&self) -> Result<Area, Gap> {
        let (density, area) = (self.density.clone()?, self.area.clone()?);
        let stood = density.basal_area.square_feet_an_acre() + self.uncounted.square_feet / area.acres();
        Ok(density::allowance(&BasalArea::of_square_feet_an_acre(stood), self.target(), &area))
    }

    /// Basal area that may still come out this winter.
    ///
    /// # Errors
    ///
    /// As for [`whole_allowance`](Self::whole_allowance).
    pub fn allowance(&self) -> Result<Area, Gap> {
        let left = self.whole_allowance()?.square_feet() - self.this_winter.square_feet;
        Ok(Area::of_square_feet(left.max(0.0)))
    }

    /// Whether less stands there than is to be kept.
    pub fn is_below_target(&self) -> bool {
        let stands = self.now.as_ref().map(|density| density.basal_area.base());
        stands.is_ok_and(|stands| self.target().is_some_and(|target| stands < target.base()))
    }

    /// Whether something came out this winter already.
    pub fn is_begun(&self) -> bool {
        self.this_winter != Removal::default()
    }

    /// Whether so many summers are not in the count that it is to be made again.
    pub fn is_stale(&self) -> bool {
        self.summers.is_some_and(|summers| summers >= Self::STALE)
    }
}

/// A stand before and after the winter.
#[derive(Debug, Clone)]
pub struct StandFinding {
    /// The stand as it was measured.
    pub measured: Measured,
    /// Its tagged trees, by their places in the findings.
    pub trees: Vec<usize>,
    /// Those that come down this winter.
    pub felled: Vec<usize>,
    /// What their stems take up at breast height.
    pub out: Area,
    /// The logs that they give.
    pub logs: u32,
    /// Its density afterwards.
    pub after: Result<Density, Gap>,
    /// Trees that stay and have a place on the map.
    pub released: Vec<Released>,
    /// Where the working of all this stands.
    pub place: Place,
}

/// A tree that stays, and the room that it has.
#[derive(Debug, Clone)]
pub struct Released {
    /// Its tag.
    pub tag: Tag,
    /// Which of the four sides are open now.
    pub before: [bool; 4],
    /// Which are open when this winter's trees are down.
    pub after: [bool; 4],
    /// Hegyi's index now and then.
    pub competition: [f64; 2],
}

impl StandFinding {
    /// What still stands over the basal area to keep, once this winter's trees are down.
    pub fn over_target(&self) -> Option<BasalArea> {
        let (after, target) = (self.after.as_ref().ok()?, self.measured.target()?);
        let over = after.basal_area.square_feet_an_acre() - target.square_feet_an_acre();
        (over > 0.0).then(|| BasalArea::of_square_feet_an_acre(over))
    }

    /// The last winter before a season in which a stem of a clump came down.
    pub fn last_cut(&self, clump: &Tag, trees: &[TreeFinding], season: Season) -> Option<i16> {
        let of =
            self.trees.iter().map(|index| &trees[*index]).filter(|tree| tree.tree.record.clump.as_ref() == Some(clump));
        let winters = of.filter_map(|tree| Some(Season::holding(tree.down?.day?, season.south).year));
        winters.filter(|winter| *winter < season.year).max()
    }
}

impl Measured {
    /// The year by which it is to be counted again, where the day of its count is recorded.
    pub fn again(&self) -> Option<i16> {
        Some(self.stand.record.measured?.0.year() + Self::STALE)
    }

    /// The last winter before a season in which something came out of the stand.
    pub fn last_entry(&self, season: Season) -> Option<i16> {
        self.stand.record.entries.iter().map(|entry| entry.winter).filter(|winter| *winter < season.year).max()
    }
}

impl Released {
    /// The sides that open.
    pub fn gained(&self) -> Vec<usize> {
        (0..4).filter(|side| self.after[*side] && !self.before[*side]).collect()
    }
}

/// Every stand as it was measured, and what came out of it since.
pub fn measured(findings: &Findings) -> Vec<Measured> {
    let tagged = findings.trees().iter().filter_map(|tree| Some((tree.tree.stand.as_ref()?.id.as_str(), tree)));
    let tagged = grouped(tagged);
    let of = |stand: &Arc<Listed<Stand>>| {
        let trees = tagged.get(stand.id.as_str()).map(Vec::as_slice).unwrap_or_default();
        since(stand, trees, findings.season)
    };
    findings.book.stands.values().map(of).collect()
}

/// A stand and what came out of it since its count, in a season.
fn since(stand: &Arc<Listed<Stand>>, trees: &[&TreeFinding], season: Season) -> Measured {
    let record = &stand.record;
    let counted = density(record);
    let area = record.area.clone().ok_or(Gap::NotRecorded("the area of the stand (`area`)"));
    let seen = record.measured;
    let winter = |day: Date| Season::holding(day, season.south).year;
    let mean = mean(counted.as_ref().ok(), trees);
    let felled = |when: &dyn Fn(Option<Date>) -> bool| -> Vec<Length> {
        let down = trees.iter().filter(|tree| tree.down.is_some_and(|down| when(down.day)));
        down.map(|tree| tree.tree.record.dbh()).collect()
    };
    let out = |of: i16, trees: &[Length]| {
        let entry = record.entries.iter().find(|entry| entry.winter == of);
        entry.map_or_else(|| Removal::of(trees), |entry| came_out(entry, trees, area.as_ref().ok(), mean))
    };
    let uncounted = |day: Date| seen.is_some_and(|seen| day <= seen);
    let mut earlier = Removal::of(&felled(&|day| day.is_none()));
    // A count without its day is taken for one before all that came out, so that no season brings a tree back.
    let first = seen.map_or_else(|| first_winter(record, trees, season), winter);
    for of in first..season.year {
        let trees = felled(&|day| day.is_some_and(|day| winter(day) == of && !uncounted(day)));
        // An entry of the winter of the count is taken to be in it.
        earlier = earlier.and(if seen.is_some() && of == first { Removal::of(&trees) } else { out(of, &trees) });
    }
    let now = felled(&|day| day.is_some_and(|day| winter(day) >= season.year));
    let before_count = felled(&|day| day.is_some_and(|day| winter(day) >= season.year && uncounted(day)));
    let (this_winter, uncounted) = (out(season.year, &now), Removal::of(&before_count));
    let less = |density: &Result<Density, Gap>, out: Removal| {
        let density = density.clone()?;
        if out == Removal::default() { Ok(density) } else { Ok(density.less(out, &area.clone()?)) }
    };
    let density = less(&counted, earlier);
    let off = if before_count.is_empty() { this_winter } else { out_of_count(this_winter, uncounted) };
    Measured {
        now: less(&density, off),
        density,
        summers: seen.map(|day| (season.year - winter(day)).max(0)),
        counted,
        hollow: hollow(record, seen.map(winter), season.year),
        stand: Arc::clone(stand),
        area,
        earlier,
        this_winter,
        uncounted,
    }
}

/// The first winter of which the records of a stand know that something came out.
fn first_winter(stand: &Stand, trees: &[&TreeFinding], season: Season) -> i16 {
    let days = trees.iter().filter_map(|tree| tree.down?.day);
    let winters = days.map(|day| Season::holding(day, season.south).year);
    winters.chain(stand.entries.iter().map(|entry| entry.winter)).fold(season.year, i16::min)
}

/// What came out this winter, less what was out before the count.
fn out_of_count(all: Removal, before: Removal) -> Removal {
    Removal {
        trees: (all.trees - before.trees).max(0.0),
        inches: (all.inches - before.inches).max(0.0),
        square_feet: (all.square_feet - before.square_feet).max(0.0),
    }
}

/// What the tree of mean basal area of a stand takes up, in square feet: by its count, or else by its tagged trees.
fn mean(counted: Option<&Density>, trees: &[&TreeFinding]) -> Option<f64> {
    let by_count = counted.and_then(Density::quadratic_mean).map(|mean| density::tree(&mean).square_feet());
    by_count.or_else(|| {
        let all: Vec<Length> = trees.iter().map(|tree| tree.tree.record.dbh()).collect();
        (!all.is_empty()).then(|| Removal::of(&all).square_feet / all.len() as f64)
    })
}

/// What came out in a winter: its tagged trees, and what its entry has beyond them.
fn came_out(entry: &Entry, tagged: &[Length], area: Option<&Area>, mean: Option<f64>) -> Removal {
    let tagged = Removal::of(tagged);
    let told = entry.basal_area.as_ref().zip(area).map(|(out, area)| out.square_feet_an_acre() * area.acres());
    let trees = entry.trees.map(|trees| (f64::from(trees) - tagged.trees).max(0.0));
    let more = match (told, trees, mean) {
        (Some(told), Some(trees), _) => Removal::alike(trees, (told - tagged.square_feet).max(0.0)),
        (Some(told), None, Some(mean)) => {
            let more = (told - tagged.square_feet).max(0.0);
            Removal::alike(more / mean, more)
        }
        (None, Some(trees), Some(mean)) => Removal::alike(trees, trees * mean),
        _ => Removal::default(),
    };
    tagged.and(more)
}

/// The earliest winter whose stumps have sprouted for ten years and more that no count has seen.
fn hollow(stand: &Stand, counted: Option<i16>, season: i16) -> Option<i16> {
    let cut = stand.entries.iter().filter(|entry| entry.trees != Some(0)).map(|entry| entry.winter);
    let unseen = |winter: &i16| {
        let grown = winter + Measured::STALE;
        grown <= season && counted.is_none_or(|counted| counted < grown)
    };
    cut.filter(unseen).min()
}

fn density(stand: &Stand) -> Result<Density, Gap> {
    let prism = stand.prism.as_ref();
    let prism = prism.and_then(|prism| Density::of_prism(&prism.factor, &prism.counts, &prism.diameters));
    let plots = || {
        let plots = stand.plots.as_ref()?;
        Density::of_plots(&plots.size, plots.number, &plots.diameters)
    };
    prism.or_else(plots).ok_or(Gap::NotRecorded("a count with a prism or on plots (`prism` or `plots`)"))
}

/// Every stand before and after the winter.
pub fn all(measured: &[Measured], trees: &[TreeFinding], winter: &Winter) -> Vec<StandFinding> {
    let placed = trees.iter().enumerate();
    let mut by_stand = grouped(placed.filter_map(|(index, tree)| Some((tree.tree.stand.as_ref()?.id.as_str(), index))));
    let mut of = |measured: &Measured| by_stand.remove(measured.stand.id.as_str()).unwrap_or_default();
    measured.iter().map(|measured| one(measured.clone(), of(measured), trees, winter)).collect()
}

fn one(measured: Measured, of: Vec<usize>, trees: &[TreeFinding], winter: &Winter) -> StandFinding {
    let felled: Vec<usize> = of.iter().copied().filter(|index| winter.falls(trees[*index].tree.tag())).collect();
    let diameters: Vec<Length> = felled.iter().map(|index| trees[*index].tree.record.dbh()).collect();
    let after = measured.now.clone().and_then(|density| Ok(density.without(&diameters, &measured.area.clone()?)));
    StandFinding {
        place: Place::new(Topic::Stands, measured.stand.id.clone()),
        out: Area::of_square_feet(diameters.iter().map(|diameter| density::tree(diameter).square_feet()).sum()),
        logs: felled.iter().map(|index| trees[*index].logs()).sum(),
        released: released(&of, trees, winter),
        measured,
        trees: of,
        felled,
        after,
    }
}

/// Where a tree stands on the map of its stand, in feet.
pub fn standing(tree: &TreeFinding) -> Option<Standing> {
    let record = &tree.tree.record;
    let (east, north) = (record.east.as_ref()?.feet(), record.north.as_ref()?.feet());
    Some(Standing { east, north, inches: record.dbh().inches() })
}

fn released(of: &[usize], trees: &[TreeFinding], winter: &Winter) -> Vec<Released> {
    let placed: Vec<(usize, Standing)> = of
        .iter()
        .filter(|index| !trees[**index].is_down() && !trees[**index].is_snag())
        .filter_map(|index| Some((*index, standing(&trees[*index])?)))
        .collect();
    let stays = |index: usize| trees[index].tree.record.decision == Decision::Keep;
    let falls: Vec<bool> = placed.iter().map(|(index, _)| winter.falls(trees[*index].tree.tag())).collect();
    let spots: Vec<[f64; 2]> = placed.iter().map(|(_, tree)| [tree.east, tree.north]).collect();
    let thickest = placed.iter().map(|(_, tree)| tree.inches).fold(0.0, f64::max);
    let near = Near::of(&spots);
    (0..placed.len())
        .filter(|place| stays(placed[*place].0))
        .map(|place| {
            let (index, tree) = &placed[place];
            let mut others = near.within(spots[place], reach(tree, thickest));
            others.retain(|other| *other != place);
            let standing = |other: &usize| placed[*other].1;
            let now: Vec<Standing> = others.iter().map(standing).collect();
            let then: Vec<Standing> = others.iter().filter(|other| !falls[**other]).map(standing).collect();
            Released {
                tag: trees[*index].tree.tag().clone(),
                before: open_sides(tree, &now),
                after: open_sides(tree, &then),
                competition: [competition(tree, &now), competition(tree, &then)],
            }
        })
        .collect()
}
