//! Every stand before and after the winter, and which trees gain room.

use std::sync::Arc;

use super::{TreeFinding, Winter, grouped};
use crate::book::{Book, Listed};
use crate::quantity::{Area, BasalArea, Length};
use crate::reckon::density::Density;
use crate::reckon::formula::Place;
use crate::reckon::near::Near;
use crate::reckon::release::{Standing, competition, open_sides, reach};
use crate::reckon::{Gap, Topic, density};
use crate::record::stand::Stand;
use crate::record::tree::{Decision, Tag};

/// A stand as it was measured.
#[derive(Debug, Clone)]
pub struct Measured {
    /// The stand.
    pub stand: Arc<Listed<Stand>>,
    /// Its density.
    pub density: Result<Density, Gap>,
    /// Its area.
    pub area: Result<Area, Gap>,
}

impl Measured {
    /// Basal area to keep.
    pub fn target(&self) -> Option<&BasalArea> {
        self.stand.record.target.as_ref()
    }

    /// Basal area that may come out.
    ///
    /// # Errors
    ///
    /// A [`Gap`] where the stand or its area has not been measured.
    pub fn allowance(&self) -> Result<Area, Gap> {
        let density = self.density.as_ref().map_err(Gap::clone)?;
        Ok(density::allowance(&density.basal_area, self.target(), &self.area.clone()?))
    }

    /// Whether less stands there than is to be kept.
    pub fn is_below_target(&self) -> bool {
        let stands = self.density.as_ref().map(|density| density.basal_area.base());
        stands.is_ok_and(|stands| self.target().is_some_and(|target| stands < target.base()))
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

impl Released {
    /// The sides that open.
    pub fn gained(&self) -> Vec<usize> {
        (0..4).filter(|side| self.after[*side] && !self.before[*side]).collect()
    }
}

/// Every stand as it was measured.
pub fn measured(book: &Book) -> Vec<Measured> {
    let one = |stand: &Arc<Listed<Stand>>| Measured {
        density: density(&stand.record),
        area: stand.record.area.clone().ok_or(Gap::NotRecorded("the area of the stand (`area`)")),
        stand: Arc::clone(stand),
    };
    book.stands.values().map(one).collect()
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
    let diameters: Vec<Length> = felled.iter().map(|index| trees[*index].tree.record.dbh().clone()).collect();
    let after = measured.density.clone().and_then(|density| Ok(density.without(&diameters, &measured.area.clone()?)));
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
        .filter(|index| !trees[**index].is_down)
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
