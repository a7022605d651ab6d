//! The tables of the winter's work.

use either::Either;

use super::{Grid, Height, Sheet};
use crate::quantity::measure::HECTARES_AN_ACRE;
use crate::quantity::{Area, BasalArea, Units};
use crate::reckon::bolts::{Piece, Pieces};
use crate::reckon::density::Density;
use crate::reckon::findings::ledger::{WoodRow, YardRow};
use crate::reckon::findings::shortage::{Shortage, Why};
use crate::reckon::findings::trees::Counted;
use crate::reckon::findings::{StandFinding, TreeFinding};
use crate::reckon::{Findings, Gap};
use crate::record::evidence::Way;
use crate::record::plan::Floor;
use crate::record::tree::{Gone, Tag};

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
        .column("diameter", |(_, record)| record.dbh())
        .column("height", |(of, _)| height(of).map(Height))
        .column("logs_if_thinner", |(of, _)| of.careful.map(|logs| logs + of.limb_logs))
        .column("limb_logs", |(of, _)| of.limb_logs)
        .column("oversize", |(of, _)| of.pieces.as_ref().map(Pieces::oversize))
        .column("counted", |(of, _)| counted(of))
        .column("this_winter", |(_, record)| findings.winter().falls(&record.tag))
        .column("why", |(_, record)| record.why.as_ref())
        .column("became", |(of, record)| of.down.map(|down| down.how).or(record.gone).map(Gone::id))
        .column("felled", |(of, _)| of.down.and_then(|down| down.day).map(|day| day.written()))
        .column("logs_cut", |(_, record)| record.logs_cut)
        .column("doubtful", |(of, _)| of.is_doubtful())
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
        .column("mass", |(of, piece, _)| of.weights(piece).map(|[_, usual, _]| usual))
        .column("mass_most", |(of, piece, _)| of.weights(piece).map(|[.., most]| most))
        .grid(findings.choice.units)
}

/// A wish has a row for each wood of which it gets logs, and one for what it lacks.
pub fn allocation(findings: &Findings) -> Grid {
    let winter = findings.winter();
    let rows = winter.wishes.iter().flat_map(|of| {
        let lacks = (of.short.is_some() || of.wanted.is_err()).then_some((of, None));
        of.placed.iter().map(move |placed| (of, Some(placed))).chain(lacks)
    });
    Sheet::of(rows)
        .column("strain", |(of, _)| &of.strain.id)
        .column("wood", |(_, placed)| placed.map(|placed| &placed.wood.id))
        .column("logs", |(of, placed)| placed.map(|placed| placed.logs).or(of.short.as_ref().map(|short| short.logs)))
        .column("rating", |(_, placed)| placed.and_then(|placed| placed.word.rating()).map(u32::from))
        .column("word", |(_, placed)| placed.map(|placed| placed.word.words()))
        .column("stands_in", |(_, placed)| placed.and_then(|placed| placed.stands_in).map(Way::id))
        .column("spawn", |(of, _)| of.wish.spawn.id())
        .number("gap", 4, |_| Some(winter.gap).filter(|gap| gap.is_finite()))
        .column("why", |(of, placed)| match (&of.short, &of.wanted) {
            _ if placed.is_some() => None,
            (Some(short), _) => Some(why(short)),
            (None, wanted) => wanted.as_ref().err().map(Gap::to_string),
        })
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
pub fn why(short: &Shortage) -> String {
    match &short.why {
        Why::NoTrees => "no tree is marked for it and no log lies ready; mark trees to fell, or write a lot".to_owned(),
        Why::NoWood(floor) => format!("no woods at hand {}", good_enough(*floor)),
        Why::Limits(stands) => format!(
            "more trees of woods that suit it are marked, but the limit of {} holds them back",
            stands.join(" and ")
        ),
        Why::NoDay(woods) => format!(
            "trees of {} are marked, but felled this winter they have no day to be inoculated",
            woods.iter().map(|wood| wood.name()).collect::<Vec<_>>().join(" and ")
        ),
        Why::Doubt(tags) => in_doubt(tags),
        Why::UsedUp(floor, lower) => {
            let placed = format!("every log of the woods that {} is placed", good_enough(*floor));
            let names: Vec<&str> = lower.iter().map(|wood| wood.name()).collect();
            match names.as_slice() {
                [] => placed,
                names => format!("{placed}; with a lower floor in the plan {} could be used", names.join(", ")),
            }
        }
    }
}

/// The most trees that a line names one by one.
pub const NAMED: usize = 12;

/// Why marked trees in doubt give nothing to a wish, in words.
pub fn in_doubt(tags: &[Tag]) -> String {
    let (which, are, they) = match tags {
        [one] => (one.to_string(), "is", "it is"),
        few if few.len() <= NAMED => (few.iter().map(Tag::to_string).collect::<Vec<_>>().join(", "), "are", "they are"),
        many => (format!("{} trees", many.len()), "are", "they are"),
    };
    format!("{which} {are} marked, but in doubt and left until it is known what {they}")
}

/// Both balances of the farm, a row a line.
pub fn ledger(findings: &Findings) -> Grid {
    let ledger = findings.ledger();
    let wood =
        ledger.wood.iter().flat_map(|row| row.lines(false).into_iter().map(move |line| (Either::Left(row), line)));
    let yard = ledger.yard.iter().flat_map(|row| row.lines().into_iter().map(move |line| (Either::Right(row), line)));
    let batch = |of: Either<&WoodRow, &YardRow>| of.right().map(|row| row.batch.id.clone());
    let wood_of = |of: Either<&WoodRow, &YardRow>| match of {
        Either::Left(row) => Some(row.wood.id.clone()),
        Either::Right(row) => row.batch.wood.as_ref().map(|wood| wood.id.clone()),
    };
    Sheet::of(wood.chain(yard))
        .column("balance", |(of, _)| if of.is_left() { "wood" } else { "yard" })
        .number("winter", 0, |(of, _)| Some(f64::from(of.either(|row| row.winter, |row| row.winter))))
        .column("wood", |(of, _)| wood_of(of))
        .column("pieces", |(of, _)| of.either(|row| row.pieces.id(), |row| row.pieces()))
        .column("batch", |(of, _)| batch(of))
        .column("line", |(_, line)| line.name)
        .number("logs", 0, |(_, line)| Some(line.logs as f64))
        .grid(findings.choice.units)
}

/// A stand before the winter, or after it.
type State<'a> = (&'a StandFinding, bool);

fn density((of, after): State<'_>) -> Option<&Density> {
    if after { of.after.as_ref().ok() } else { of.measured.density.as_ref().ok() }
}

pub fn thinning(findings: &Findings) -> Grid {
    let acres = |(of, _): State<'_>| of.measured.area.as_ref().ok().map(Area::acres);
    let basal = |state| density(state).map(|density| &density.basal_area);
    let trees = |state| Some(density(state)?.stems?.an_acre);
    let mean = |state| density(state)?.quadratic_mean();
    let target = |of: &StandFinding| of.measured.target().map(BasalArea::square_feet_an_acre);
    Sheet::of(findings.stands().iter().flat_map(|of| [(of, false), (of, true)]))
        .column("stand", |(of, _)| &of.measured.stand.id)
        .column("state", |(_, after)| if after { "after" } else { "before" })
        .number("area_acres", 2, acres)
        .number("area_ha", 2, |state| acres(state).map(|acres| acres * HECTARES_AN_ACRE))
        .number("basal_area_ft2_per_acre", 2, |state| basal(state).map(BasalArea::square_feet_an_acre))
        .number("basal_area_m2_per_ha", 2, |state| basal(state).map(BasalArea::square_metres_a_hectare))
        .number("target_ft2_per_acre", 1, |(of, _)| target(of))
        .number("trees_per_acre", 1, trees)
        .number("trees_per_ha", 1, |state| trees(state).map(|trees| trees / HECTARES_AN_ACRE))
        .number("quadratic_mean_in", 2, |state| mean(state).map(|mean| mean.inches()))
        .number("quadratic_mean_cm", 2, |state| mean(state).map(|mean| mean.number(Units::Metric)))
        .column("stocking", |state| density(state)?.stocking())
        .column("felled", |(of, after)| if after { of.felled.len() } else { 0 })
        .column("logs", |(of, after)| if after { of.logs } else { 0 })
        .number("down_already", 0, |(of, after)| after.then_some(of.measured.this_winter.trees))
        .number("may_come_out_ft2", 2, |(of, _)| of.measured.allowance().ok().map(|area| area.square_feet()))
        .number("may_come_out_m2", 3, |(of, _)| of.measured.allowance().ok().map(|area| area.base()))
        .number("summers_not_in_the_count", 0, |(of, _)| of.measured.summers.map(f64::from))
        .column("remark", |(of, after)| {
            let density = if after { &of.after } else { &of.measured.density };
            density.as_ref().err().map(Gap::to_string)
        })
        .grid(findings.choice.units)
}
