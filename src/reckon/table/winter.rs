//! The tables of the winter's work.

use super::{Grid, Height, Sheet};
use crate::{
    quantity::{Area, BasalArea, Length, Percent, Units, measure::HECTARES_AN_ACRE},
    reckon::{
        Findings, Gap,
        bolts::{Piece, Pieces},
        density::Density,
        findings::{
            StandFinding, TreeFinding,
            trees::Counted,
            winter::{Placed, Short, Why, WishFinding},
        },
    },
    record::plan::Floor,
};

/// How a tree was counted, or why it was not.
fn counted(tree: &TreeFinding) -> String {
    match &tree.counted {
        Ok(Counted::Height) => "reckoned from its height".to_owned(),
        Ok(Counted::StandHeight) => "estimated from the height of the stand".to_owned(),
        Ok(Counted::Eye) => "estimated by eye".to_owned(),
        Err(gap) => gap.to_string(),
    }
}

pub fn trees(findings: &Findings) -> Grid {
    let height = |tree: &TreeFinding| tree.height.as_ref().or(tree.tree.record.height.as_ref()).cloned();
    Sheet::of(findings.trees().iter().map(|of| (of, &of.tree.record)))
        .column("tag", |(_, record)| record.tag.to_string())
        .column("stand", |(of, _)| of.tree.stand.as_ref().map(|stand| &stand.id))
        .column("wood", |(of, _)| &of.tree.wood.id)
        .column("decision", |(_, record)| record.decision.id())
        .column("logs", |(of, _)| of.is_counted().then(|| of.logs()))
        .column("diameter", |(_, record)| &record.dbh)
        .column("height", |(of, _)| height(of).map(Height))
        .column("logs_if_thinner", |(of, _)| of.careful.map(|logs| logs + of.limb_logs))
        .column("limb_logs", |(of, _)| of.limb_logs)
        .column("oversize", |(of, _)| of.pieces.as_ref().map(Pieces::oversize))
        .column("counted", |(of, _)| counted(of))
        .column("this_winter", |(_, record)| findings.winter().falls(&record.tag))
        .column("why", |(_, record)| record.why.as_ref())
        .grid(findings.choice.units)
}

/// The pieces of a tree's stem, counted from the stump.
fn pieces(of: &TreeFinding) -> impl Iterator<Item = (&TreeFinding, &Piece, u32)> {
    of.pieces.iter().flat_map(|cut| &cut.pieces).zip(1..).map(move |(piece, number)| (of, piece, number))
}

pub fn bolts(findings: &Findings) -> Grid {
    Sheet::of(findings.trees().iter().flat_map(pieces))
        .column("tag", |(of, ..)| of.tree.tag().to_string())
        .column("wood", |(of, ..)| &of.tree.wood.id)
        .column("piece", |(_, _, number)| number)
        .column("is", |(_, piece, _)| if piece.oversize { "oversize" } else { "log" })
        .column("from", |(_, piece, _)| Height(piece.from.clone()))
        .to(2)
        .column("diameter_large", |(_, piece, _)| &piece.large)
        .column("diameter_middle", |(_, piece, _)| &piece.middle)
        .column("diameter_small", |(_, piece, _)| &piece.small)
        .column("volume", |(_, piece, _)| piece.volume)
        .column("mass", |(of, piece, _)| of.weight(piece).ok())
        .grid(findings.choice.units)
}

/// Logs that a wish gets of one wood, or what it lacks.
struct Share<'a> {
    of: &'a WishFinding,
    placed: Option<&'a Placed>,
    logs: Option<u32>,
    why: Option<String>,
}

impl<'a> Share<'a> {
    fn all(of: &'a WishFinding) -> Vec<Self> {
        let share = |placed, logs, why| Share { of, placed, logs, why };
        let mut shares: Vec<Self> =
            of.placed.iter().map(|placed| share(Some(placed), Some(placed.logs), None)).collect();
        match (&of.short, &of.wanted) {
            (Some(short), _) => shares.push(share(None, Some(short.logs), Some(why(short)))),
            (None, Err(gap)) => shares.push(share(None, None, Some(gap.to_string()))),
            (None, Ok(_)) => {}
        }
        shares
    }
}

pub fn allocation(findings: &Findings) -> Grid {
    let winter = findings.winter();
    let rows: Vec<Share> = winter.wishes.iter().flat_map(Share::all).collect();
    Sheet::of(&rows)
        .column("strain", |share| &share.of.strain.id)
        .column("wood", |share| share.placed.map(|placed| &placed.wood.id))
        .column("logs", |share| share.logs)
        .column("rating", |share| share.placed.and_then(|placed| placed.word.rating()).map(u32::from))
        .column("word", |share| share.placed.map(|placed| placed.word.words()))
        .column("spawn", |share| share.of.wish.spawn.id())
        .number("gap", 4, |_| Some(winter.gap).filter(|gap| gap.is_finite()))
        .column("why", |share| share.why.as_ref())
        .grid(findings.choice.units)
}

/// What a floor asks of a wood, in words.
const fn good_enough(floor: Floor) -> &'static str {
    match floor {
        Floor::Thrives => "thrive with it",
        Floor::DoesWell => "do well with it",
        Floor::GetsBy => "get by with it",
        Floor::Mentioned => "are mentioned with it",
        Floor::Untried => "do not fail with it",
    }
}

/// Why a wish lacks logs, in words.
#[must_use]
pub fn why(short: &Short) -> String {
    match &short.why {
        Why::NoWood(floor) => format!("no woods at hand {}", good_enough(*floor)),
        Why::Limits(stands) => format!(
            "more trees of woods that suit it are marked, but the limit of {} holds them back",
            stands.join(" and ")
        ),
        Why::UsedUp(floor, lower) => {
            let placed = format!("every log of the woods that {} is placed", good_enough(*floor));
            let names: Vec<&str> = lower.iter().map(|wood| wood.name()).collect();
            match names.as_slice() {
                [] => placed,
                names => format!("{placed}; a lower floor in the plan would let in {}", names.join(", ")),
            }
        }
    }
}

/// A stand before the winter or after it, with its trees and logs that come down between the two.
#[derive(Clone, Copy)]
struct State<'a> {
    of: &'a StandFinding,
    is: &'static str,
    density: &'a Result<Density, Gap>,
    felled: usize,
    logs: u32,
}

impl<'a> State<'a> {
    fn both(of: &'a StandFinding) -> [Self; 2] {
        [
            State { of, is: "before", density: &of.measured.density, felled: 0, logs: 0 },
            State { of, is: "after", density: &of.after, felled: of.felled.len(), logs: of.logs },
        ]
    }

    fn acres(self) -> Option<f64> {
        self.of.measured.area.as_ref().ok().map(Area::acres)
    }

    fn basal(self) -> Option<&'a BasalArea> {
        self.density.as_ref().ok().map(|density| &density.basal_area)
    }

    fn trees_an_acre(self) -> Option<f64> {
        Some(self.density.as_ref().ok()?.stems?.an_acre)
    }

    fn quadratic_mean(self) -> Option<Length> {
        self.density.as_ref().ok()?.quadratic_mean()
    }

    fn stocking(self) -> Option<f64> {
        self.density.as_ref().ok()?.stocking().as_ref().map(Percent::base)
    }
}

pub fn thinning(findings: &Findings) -> Grid {
    Sheet::of(findings.stands().iter().flat_map(State::both))
        .column("stand", |state| &state.of.measured.stand.id)
        .column("state", |state| state.is)
        .number("area_acres", 2, State::acres)
        .number("area_ha", 2, |state| state.acres().map(|acres| acres * HECTARES_AN_ACRE))
        .number("basal_area_ft2_per_acre", 2, |state| state.basal().map(BasalArea::square_feet_an_acre))
        .number("basal_area_m2_per_ha", 2, |state| state.basal().map(BasalArea::square_metres_a_hectare))
        .number("target_ft2_per_acre", 1, |state| state.of.measured.target().map(BasalArea::square_feet_an_acre))
        .number("trees_per_acre", 1, State::trees_an_acre)
        .number("trees_per_ha", 1, |state| state.trees_an_acre().map(|trees| trees / HECTARES_AN_ACRE))
        .number("quadratic_mean_in", 2, |state| state.quadratic_mean().map(|mean| mean.inches()))
        .number("quadratic_mean_cm", 2, |state| state.quadratic_mean().map(|mean| mean.number(Units::Metric)))
        .number("stocking_percent", 1, State::stocking)
        .column("felled", |state| state.felled)
        .column("logs", |state| state.logs)
        .column("remark", |state| state.density.as_ref().err().map(Gap::to_string))
        .grid(findings.choice.units)
}
