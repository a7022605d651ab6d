//! The working behind the density of stands and the room of trees.

use crate::page::Context;
use crate::page::part::Anchor;
use crate::page::part::worked::{Block, Part};
use crate::quantity::measure::rounded;
use crate::quantity::{Area, BasalArea, Length, Units, count};
use crate::reckon::density::{BASAL_AREA, Density, QUADRATIC_MEAN, REMOVAL};
use crate::reckon::findings::stands::Released;
use crate::reckon::findings::{GrowthFinding, StandFinding};
use crate::reckon::formula::Formula;
use crate::reckon::growth::GROWTH;
use crate::reckon::release::RELEASE;
use crate::record::Kind;

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&BASAL_AREA, &QUADRATIC_MEAN, &REMOVAL, &RELEASE, &GROWTH];

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let stands = context.findings.stands();
    vec![
        Part::new("formulas", "Formulas").by(&FORMULAS[..3], context),
        Part::new("stands", "Each stand").blocks(stands.iter().map(|found| stand(found, context))),
        Part::new("growth", "What each stand gives for good")
            .by(&[&GROWTH], context)
            .blocks(stands.iter().zip(context.findings.growth()).map(|(stand, found)| growth(stand, found, context))),
        Part::new("release", "Room for the trees that stay")
            .by(&[&RELEASE], context)
            .blocks(stands.iter().filter(|found| !found.released.is_empty()).map(|found| room(found, context))),
    ]
}

fn head(found: &StandFinding, context: &Context<'_>) -> Block {
    let stand = &found.measured.stand;
    Block::of(Anchor::record(Kind::Stand, &stand.id, context))
}

fn stand(found: &StandFinding, context: &Context<'_>) -> Block {
    let measured = &found.measured;
    let record = &measured.stand.record;
    let units = context.units();
    let mut block = head(found, context).named(&*found.place.block);
    if let Some(prism) = &record.prism {
        let counted: u32 = prism.counts.iter().sum();
        block = block.line(format!("f = {}, n = {counted}, k = {}", prism.factor.show(units), prism.counts.len()));
    } else if let Some(plots) = &record.plots {
        let of = format!("{} of {}", count(plots.number, "plot", "plots"), plots.size.show(units));
        block = block.line(format!("{of}, {}", count(plots.diameters.len(), "tree", "trees")));
    }
    if let Ok(density) = &measured.density {
        block = block.line(format!("before: {}", figures(density, units)));
    }
    if let (Some(area), Ok(whole), Ok(left)) = (&record.area, measured.whole_allowance(), measured.allowance()) {
        let target = record.target.as_ref().map_or_else(|| "none".to_owned(), |target| target.show(units));
        let stems = |square_feet| Area::of_square_feet(square_feet).stems(units);
        let gone = measured.is_begun().then(|| {
            format!(
                "; {} came out this winter, so {} is left",
                stems(measured.this_winter.square_feet),
                left.stems(units)
            )
        });
        let gone = gone.unwrap_or_default();
        block = block.line(format!("T = {target}, a = {}, so R = {}{gone}", area.show(units), whole.stems(units)));
    }
    let out = found.out.stems(units);
    let falls = match found.felled.len() {
        1 => format!("this winter 1 tree comes down, {out}"),
        trees => format!("this winter {trees} trees come down, {out} in all"),
    };
    block = block.comes_to(falls.clone()).line(falls);
    if let Ok(after) = &found.after {
        block = block.line(format!("after: {}", figures(after, units)));
    }
    block.gap(measured.allowance().err()).made_by(&FORMULAS[..3])
}

/// The growth of a stand, and the stems that reach log size.
fn growth(stand: &StandFinding, found: &GrowthFinding, context: &Context<'_>) -> Block {
    let units = context.units();
    let mut block = head(stand, context).named(&*found.place.block);
    let ends = |ends: [f64; 2]| ends.map(|end| rounded(end, 1)).join(" to ");
    if let Ok(gains) = found.gains {
        let [least, most] = gains.map(|gains| BasalArea::of_square_feet_an_acre(gains.max(0.0)).show(units));
        block = block.line(format!("BA gains {least} to {most} a year"));
    }
    if let Ok(into) = found.into {
        block = block.line(format!("I = {} stems a year reach {}", ends(into), found.limit.show(units)));
    }
    let logs = found.logs.clone().map(|logs| format!("{} logs a year", ends(logs)));
    if let Ok(logs) = &logs {
        block = block.line(format!("with the logs of a marked tree and the error of the count: {logs}"));
    }
    block = block.comes_to(logs.unwrap_or_else(|gap| gap.to_string()));
    block.gap(found.logs.clone().err()).made_by(&[&GROWTH])
}

/// The press of their neighbours on the trees that stay, before and after.
fn room(found: &StandFinding, context: &Context<'_>) -> Block {
    let press = |released: &Released| {
        let [now, then] = released.competition.map(|index| rounded(index, 2));
        format!("{} {now} to {then}", released.tag)
    };
    let pressed: Vec<String> = found.released.iter().map(press).collect();
    let says = format!("competition C of the trees that stay, before and after: {}", pressed.join("; "));
    let stay = count(found.released.len(), "tree stays", "trees stay");
    head(found, context).comes_to(stay).line(says).made_by(&[&RELEASE])
}

fn figures(density: &Density, units: Units) -> String {
    let mut words = vec![format!("BA = {}", density.basal_area.show(units))];
    if let Some(stems) = density.stems {
        let [trees, across] =
            [stems.an_acre, Length::of_inches(stems.inches).number(units)].map(|sum| units.on_land(sum));
        let (unit, land) = (units.length(), units.land());
        words.push(format!("N = {} {land}, ∑D = {} {unit} {land}", rounded(trees, 1), rounded(across, 0)));
    }
    words.extend(density.quadratic_mean().map(|mean| format!("Q = {}", mean.show(units))));
    words.extend(density.stocking().map(|stocking| format!("S = {}", stocking.show(units))));
    words.join(", ")
}
